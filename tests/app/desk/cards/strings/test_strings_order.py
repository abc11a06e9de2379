"""What the Strings card shows first, and what it leaves out where it says nothing."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QScrollArea
from pytestqt.qtbot import QtBot

from app.desk.cards.findings_list import sign_of
from app.desk.cards.strings.string_cells import BESIDE
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.cards.strings.strings_model import DIAMETER, MAKE
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.fields import TypedLine
from app.desk.widgets.look import LABEL
from app.desk.widgets.signs import Sign
from app.edit.strings import solid_entries
from tests.app.desk.conftest import OpenDesk, field, sample


def top(card: StringsCard, widget: object) -> int:
    for _ in range(3):
        QApplication.processEvents()
    return int(widget.mapTo(card, QPoint(0, 0)).y())  # type: ignore[attr-defined]


def test_the_strings_come_before_what_is_only_told_of_them(strings: StringsCard) -> None:
    assert {sign_of(line.finding) for line in strings.told.lines if line.isVisible()} == {Sign.UNSURE, Sign.DONE}
    assert not any(line.isVisible() for line in strings.findings.lines)
    assert top(strings, strings.table) < top(strings, strings.told) < top(strings, field(strings, "At the nut"))


def test_what_is_to_be_looked_at_again_stands_over_the_strings(desk: Desk, strings: StringsCard) -> None:
    job = desk.document.job
    assert job.strings is not None
    desk.document.edit("a thin one", strings.table.strings.made(5, DIAMETER, "0.1 in"))
    shown = [line for line in strings.findings.lines if line.isVisible()]
    assert {sign_of(line.finding) for line in shown} <= {Sign.LOOK, Sign.STOP}
    assert shown
    assert top(strings, shown[0]) < top(strings, strings.table)


def test_far_down_the_card_it_is_said_which_string_is_told_of(strings: StringsCard) -> None:
    strings.table.go(3, MAKE)
    said = [label.text() for label in strings.findChildren(QLabel)]
    assert "The chosen string: 4" in said
    assert any(text.startswith("String 4, full: with this compensation") for text in said)


def test_how_heights_are_read_is_said_where_one_is_to_be_typed(strings: StringsCard) -> None:
    assert strings.heights.read.isVisible()  # all four are on the Measure card
    assert not strings.heights.how.isVisible()


def test_a_nut_that_is_not_to_be_made_asks_for_nothing(desk: Desk, strings: StringsCard) -> None:
    nut = strings.solids[1]
    nut.set_open(True)
    assert not field(nut, "Frets’ height").isVisible()
    desk.document.edit("a nut", solid_entries.ask(desk.document.job, True))
    assert field(nut, "Frets’ height").isVisible()


def test_a_number_is_typed_where_it_stands_and_makes_are_chosen_by_their_whole_names(strings: StringsCard) -> None:
    strings.table.go(2, DIAMETER)
    strings.table.edit(strings.table.currentIndex())
    (line,) = strings.table.findChildren(TypedLine)
    assert line.alignment() & line.alignment().AlignRight
    strings.table.go(2, MAKE)
    strings.table.edit(strings.table.currentIndex())
    box = next(found for found in strings.table.findChildren(QComboBox) if found.count() > 5)
    assert isinstance(box, Choice)  # its list is as wide as its words


@pytest.mark.parametrize("name", ["floating-five", "leaning-neck"])
def test_the_largest_text_shows_makes_whole_and_the_card_to_its_right_edge(open_desk: OpenDesk, name: str) -> None:
    desk = open_desk(sample(name))
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    desk.cards.open("Strings")
    for _ in range(4):
        QApplication.processEvents()
    card = desk.card
    assert isinstance(card, StringsCard)
    letters, rows = QFontMetricsF(desk.look.font(LABEL)), range(card.table.strings.count)
    widest = max(letters.horizontalAdvance(card.table.strings.text(row, MAKE)) for row in rows)
    assert widest <= card.table.columnWidth(MAKE) - 2 * BESIDE
    (area,) = card.findChildren(QScrollArea)
    inside = area.widget()
    assert inside is not None
    assert inside.width() == area.viewport().width()
    assert card.table.rowHeight(0) < 60


def test_one_click_opens_the_list_of_what_a_string_is_made_of(
    strings: StringsCard, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Choice] = []
    monkeypatch.setattr(Choice, "showPopup", lambda box: opened.append(box))  # a builtin is no method
    table = strings.table
    place = table.visualRect(table.strings.index(2, MAKE)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place)
    qtbot.waitUntil(lambda: len(opened) == 1)
    assert opened == table.viewport().findChildren(Choice)
    assert table.currentIndex().row() == 2
