"""Someone new makes a left-handed job in 64ths, finds a slip of the rule by what the screen says, compares two
placements and prints: on the real window, by its keys and its buttons.
"""

from pathlib import Path

import pdfplumber
import pytest
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.frame.desk import Desk
from app.desk.frame.strip_cell import Cell
from app.desk.output import print_pages as printing
from app.desk.widgets.inputs.fields import TypedLine
from export.drawing.marks import Text
from export.records import Sheet
from tests.app.desk.conftest import OpenDesk, field, fill, press, type_into
from tests.app.desk.test_sixties import Measured, left_handed, typed, with_a_slip
from tests.campaign.invented.instruments import Instrument


def cell(desk: Desk, title: str) -> Cell:
    return next(one for one in desk.strip.cells if title in (one.figure.title, one.figure.short) and not one.isHidden())


def accused(desk: Desk) -> int:
    """How many readings the strip says are to be looked at again."""
    said = cell(desk, "Readings").accessibleName()
    return int(said.split()[1]) if "to look at again" in said else 0


def read_again(desk: Desk, instrument: Instrument) -> None:
    """Lay the rule once more at the reading in hand, and type what it says over what stands there."""
    table = desk.measure.table
    reading = table.readings.rows[table.at].reading
    text = typed(reading, instrument, 0)
    type_into(table, text[0])
    line = next(found for found in table.findChildren(TypedLine) if found.isVisible())
    type_into(line, text[1:])
    press(line, Qt.Key.Key_Return)
    QApplication.processEvents()


def find_the_slip(desk: Desk, instrument: Instrument) -> list[str]:
    """Go where the screen leads and read again, until it is content; the readings that were read again."""
    tried: list[str] = []
    count = accused(desk)
    assert count, "the screen says nothing of the slip"
    QTest.mouseClick(cell(desk, "Readings"), Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    table = desk.measure.table
    marked = [row.reading.id for row in table.readings.rows if row.suspect]
    assert table.chosen == marked[0]
    for name in marked:
        table.go_to(name)
        tried.append(name)
        read_again(desk, instrument)
        if not accused(desk):
            return tried
    raise AssertionError("still not content")


@pytest.mark.parametrize(
    "list_of",
    [
        Measured("Whole top with old work", 64, ("old.1", "old.3"), 1),
        Measured("Neck and bridge", 33, ("nut.left", "end.right"), 4),
    ],
    ids=["the long list", "the short list"],
)
def test_from_the_rule_to_paper(
    open_desk: OpenDesk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, list_of: Measured
) -> None:
    desk, instrument = open_desk(None), left_handed()
    desk.frame.resize(1366, 768)
    slipped = with_a_slip(desk, instrument, list_of)
    tried = find_the_slip(desk, instrument)
    assert slipped in tried
    assert len(tried) <= list_of.named
    layout = desk.document.layout
    assert layout is not None
    assert layout.survey.verdict == "clean"
    assert "to look at again" not in cell(desk, "Readings").accessibleName()

    desk.cards.open("Strings")
    if "waits" in cell(desk, "Slant").accessibleName():
        fill(field(desk.card, "At the nut"), "1 13/32")
        fill(field(desk.card, "At the saddle"), "2 5/32")
    desk.cards.open("Bridge")
    bridge = desk.card
    assert isinstance(bridge, BridgeCard)
    if bridge.glued.begin.isVisible():
        bridge.glued.begin.click()
    _compare_two(desk, bridge)
    assert "treble longer" not in cell(desk, "Slant").accessibleName()  # left-handed or not: the bass string is longer

    desk.cards.open("Sheets")
    said = _print(desk, tmp_path / "printed.pdf", monkeypatch)
    assert "BASS" in said
    assert "TREBLE" in said
    assert "left-handed" in said


def _compare_two(desk: Desk, bridge: BridgeCard) -> None:
    """Keep the place, move the wings' ends in, and read the difference on the card and on the plan."""
    part = bridge.placements
    if not part.fold.isChecked():
        press(part.fold, Qt.Key.Key_Space)
    press(part.keep_button, Qt.Key.Key_Space)
    fill(field(bridge, "Length, wing to wing"), "5 1/2")
    model = part.table.compared
    told = {model.index(row, 0).data(): model.index(row, 2).data() for row in range(model.rowCount())}
    # derived: half of 6 in less 5 1/2 in
    assert told["Bridge, front bass corner"].startswith("1/4 in to treble")
    assert told["Slot front, bass end"] == "the same"
    drawing = desk.board.plan.drawing
    assert drawing is not None
    assert any(mark.of == "kept:Placement 1" for mark in drawing.marks)


def _print(desk: Desk, path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """Press Print; a printer that writes into a file takes the sheets. What stands on them."""
    words: list[str] = []

    def into_file(printer: QPrinter, pages: tuple[Sheet, ...]) -> bool:
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(path))
        words.extend(mark.shape.text for page in pages for mark in page.drawing.marks if isinstance(mark.shape, Text))
        return really(printer, pages)

    really = printing.print_pages
    monkeypatch.setattr(printing, "print_pages", into_file)
    monkeypatch.setattr(QPrinterInfo, "availablePrinterNames", lambda: ["Bench"])
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    assert isinstance(desk.card, SheetsCard)
    desk.menu_actions["Print…"].trigger()
    assert "Sent to" in desk.notice.words.text()
    with pdfplumber.open(path) as pdf:
        assert pdf.pages
        assert all(page.lines or page.curves for page in pdf.pages)
    return " ".join(words)
