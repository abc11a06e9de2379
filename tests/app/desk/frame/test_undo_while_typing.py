"""Undo while a cell is open takes back what it says, and the open line does not put it back on leaving."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QTableView

from app.desk.cards.strings.strings_card import StringsCard
from app.desk.cards.strings.strings_model import DIAMETER
from app.desk.cards.strings.strings_table import StringTable
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import TypedLine
from tests.app.desk.conftest import OpenDesk, press, sample, type_into


def type_in(table: QTableView, text: str) -> TypedLine:
    table.window().activateWindow()  # else no line is left, whatever takes the keys
    QApplication.processEvents()
    type_into(table, text[0])
    (line,) = [found for found in table.findChildren(TypedLine) if found.isVisible()]
    type_into(line, text[1:])
    line.setFocus()
    return line


def leave(desk: Desk, card: str) -> None:
    """Go to another card and back."""
    desk.cards.open("Sheets")
    desk.cards.open(card)


def at_the_first_string(open_desk: OpenDesk) -> tuple[Desk, StringTable]:
    """The desk, and the strings' table with the first string's diameter in hand."""
    desk = open_desk(sample("turned-left"), "Strings")
    assert isinstance(desk.card, StringsCard)
    table = desk.card.table
    table.go(0, DIAMETER)
    table.setFocus()
    return desk, table


@pytest.mark.parametrize("typed", ["0.02", "0.02x"])
def test_a_string_is_as_it_was_and_can_be_done_again(open_desk: OpenDesk, typed: str) -> None:
    desk, table = at_the_first_string(open_desk)
    before = desk.document.job
    type_in(table, typed)
    assert table.strings.text(0, DIAMETER) == "0.02"
    desk.menu_actions["Undo"].trigger()
    QApplication.processEvents()
    assert desk.notice.words.text() == "Taken back: string 1 diameter 0.02."
    leave(desk, "Strings")
    assert desk.document.job == before
    assert not table.refused
    desk.menu_actions["Redo"].trigger()
    assert table.strings.text(0, DIAMETER) == "0.02"


def test_a_reading_is_as_it_was(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("turned-left"))
    table, before = desk.measure.table, desk.document.job
    for typed in ("17 1/2", "17 1/2 xx"):
        table.go(2)
        table.setFocus()
        type_in(table, typed)
        assert desk.document.job != before, typed
        desk.menu_actions["Undo"].trigger()
        QApplication.processEvents()
        assert desk.notice.words.text() == "Taken back: nut to board end, bass edge 17 1/2.", typed
        leave(desk, "Measure")
        assert desk.document.job == before, typed
        assert not table.readings.refused, typed


def test_two_cells_are_taken_back_one_after_the_other(open_desk: OpenDesk) -> None:
    desk, table = at_the_first_string(open_desk)
    before = desk.document.job
    press(type_in(table, "0.02"), Qt.Key.Key_Return)
    type_in(table, "0.03")
    desk.menu_actions["Undo"].trigger()
    assert [table.strings.text(row, DIAMETER) for row in (0, 1)] == ["0.02", "0.016"]
    desk.menu_actions["Undo"].trigger()
    assert desk.document.job == before
