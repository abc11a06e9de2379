"""From an empty job to the files in a folder, with the keyboard and a few clicks, as someone new would go."""

from pathlib import Path

import pdfplumber
from PySide6.QtCore import Qt

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.start.start_card import StartCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import Field, TypedLine
from tests.app.desk.conftest import OpenDesk, press, type_into

FRETS = ("36", "102.5", "162", "214.5", "261.5", "322.5")
READINGS = ("44", "56", "455.5", "455.5", "458", "458", *FRETS, *FRETS)
"""Invented: a board 455.5 long, its diagonals 458.25 by derivation (hypot(455.45, 50)); frets 1, 3, 5, 7, 9 and 12 of a
scale of 645, to the half millimetre.
"""


def fill_table(desk: Desk) -> None:
    table = desk.measure.table
    for text in READINGS:
        type_into(table, text[0])
        line = next(found for found in table.findChildren(TypedLine) if found.isVisible())
        type_into(line, text[1:])
        press(line, Qt.Key.Key_Return)


def fill_field(desk: Desk, name: str, text: str) -> None:
    field = next(found for found in desk.card.findChildren(Field) if found.name.text() == name)
    field.line.setFocus()
    field.line.selectAll()
    type_into(field.line, text)
    press(field.line, Qt.Key.Key_Return)


def test_from_an_empty_job_to_a_template(open_desk: OpenDesk, tmp_path: Path) -> None:
    desk = open_desk(None)
    assert isinstance(desk.card, StartCard)
    press(desk.card, Qt.Key.Key_Return)
    fill_table(desk)
    layout = desk.document.layout
    assert layout is not None
    assert layout.survey.verdict == "clean"
    desk.cards.open("Strings")
    fill_field(desk, "At the nut", "36")
    fill_field(desk, "At the saddle", "55")
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    desk.card.glued.begin.click()
    desk.cards.open("Sheets")
    desk.exporter.export(tmp_path)
    assert {path.suffix for path in tmp_path.iterdir()} == {".pdf", ".dxf", ".svg"}
    with pdfplumber.open(tmp_path / "placement.pdf") as pdf:
        assert "BASS" in (pdf.pages[0].extract_text() or "")
    signs = {name: button.sign.value for name, button in desk.header.steps.buttons.items()}
    assert signs["Measure"] == "estimated or unchecked"  # nobody looked whether the edges are straight
    assert signs["Bridge"] == signs["Sheets"] == "estimated or unchecked"  # nobody listened yet: the slot waits
    while desk.document.stack.canUndo():
        desk.document.stack.undo()
    assert all(r.value is None for r in desk.document.job.readings)
