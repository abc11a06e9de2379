"""Typing, wherever it is done: what was settled stays, Escape comes back to it, and a wrong entry ends with its job."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import TypedLine
from app.edit import edits
from geometry import units
from tests.app.desk.conftest import field, press, sample, type_into

ENTER, ESCAPE = Qt.Key.Key_Return, Qt.Key.Key_Escape


def open_line(where: QWidget) -> TypedLine:
    """The line that is open; one that was closed is only waiting to be deleted."""
    return next(line for line in where.findChildren(TypedLine) if line.isVisible())


def type_in_table(table: QWidget, text: str, key: Qt.Key) -> None:
    type_into(table, text[0])
    line = open_line(table)
    type_into(line, text[1:])
    press(line, key)


def type_on_plan(desk: Desk, reading_id: str, text: str, key: Qt.Key) -> None:
    desk.board.value_line.type_here(desk.board.plan, reading_id)
    line = desk.board.value_line.line
    assert line is not None
    line.selectAll()
    type_into(line, text)
    press(line, key)


@pytest.fixture
def last_row(desk: Desk) -> MeasureCard:
    """The Measure card with its last row in hand, which Enter cannot leave."""
    card = desk.measure
    rows = card.table.readings.rows
    last = next(at for at in reversed(range(len(rows))) if rows[at].takes_value and len(rows[at].reading.parts) == 1)
    job = desk.document.job
    for row in rows[last + 1 :]:
        job = edits.remove(job, row.reading.id)
    desk.document.edit("removing", job)
    card.table.go(last)
    card.table.setFocus()
    return card


@pytest.mark.parametrize(("text", "key"), [("13.2", ESCAPE), ("13x", ENTER)])
def test_in_the_table_what_was_settled_comes_back(desk: Desk, last_row: MeasureCard, text: str, key: Qt.Key) -> None:
    type_in_table(last_row.table, "13.1", ENTER)
    type_in_table(last_row.table, text, key)
    assert last_row.table.readings.rows[-1].reading.value == 13.1
    assert edits.find(desk.document.job, str(last_row.table.chosen)).value == 13.1


@pytest.mark.parametrize(("text", "key"), [("452", ESCAPE), ("4x", ENTER)])
def test_on_the_plan_what_was_settled_comes_back(desk: Desk, text: str, key: Qt.Key) -> None:
    desk.measure.table.go_to("r3")
    type_on_plan(desk, "r3", "451", ENTER)
    type_on_plan(desk, "r3", text, key)
    assert edits.find(desk.document.job, "r3").value == 451.0


def test_what_was_given_up_is_not_on_offer_to_be_done_again(desk: Desk) -> None:
    desk.measure.table.go(0)
    type_in_table(desk.measure.table, "44.9", ESCAPE)
    assert not desk.document.stack.canRedo()


@pytest.mark.parametrize(("text", "key"), [("31", ESCAPE), ("31x", ENTER)])
def test_in_a_field_the_value_in_force_comes_back(desk: Desk, bridge: BridgeCard, text: str, key: Qt.Key) -> None:
    width = field(bridge, "Width at the wings")
    in_force = desk.document.job.bridge
    for typed, ends in (("260", ENTER), (text, key)):
        field(bridge, "Thickness").line.setFocus()
        width.line.setFocus()
        width.line.selectAll()
        type_into(width.line, typed)
        press(width.line, ends)
    assert desk.document.job.bridge == in_force


def test_a_wrong_entry_ends_with_its_job(desk: Desk, strings: StringsCard) -> None:
    card = desk.measure
    desk.cards.open("Measure")
    card.table.go(0)
    type_in_table(card.table, "9x", ENTER)
    desk.cards.open("Strings")
    strings.table.go(0, 3)
    type_in_table(strings.table, "x", ENTER)
    desk.document.start(sample("tie-bridge"))
    desk.cards.open("Measure")
    assert not card.wrong.isVisibleTo(card)
    assert card.table.readings.rows[0].value == "52.05"
    assert not strings.table.refused


def test_a_wrong_entry_ends_with_its_reading(desk: Desk) -> None:
    card = desk.measure
    card.table.go(0)
    type_in_table(card.table, "9x", ENTER)
    card.commands.remove()
    assert not card.wrong.isVisibleTo(card)


def test_a_wrong_string_is_opened_again_as_it_was_typed(strings: StringsCard) -> None:
    strings.table.go(1, 3)
    type_in_table(strings.table, "0,x", ENTER)
    assert strings.table.currentIndex().row() == 1
    strings.table.edit(strings.table.currentIndex())
    assert open_line(strings.table).text() == "0,x"


@pytest.mark.parametrize("key", [Qt.Key.Key_Up, Qt.Key.Key_PageUp])
def test_the_line_on_the_plan_steps(desk: Desk, key: Qt.Key) -> None:
    desk.measure.table.go_to("r3")
    type_on_plan(desk, "r3", "451.0", key)
    value = edits.find(desk.document.job, "r3").value
    assert isinstance(value, float | str)
    assert units.mm(value) == pytest.approx(451.1 if key == Qt.Key.Key_Up else 452.0)


def test_a_strings_diameter_steps_with_alt(desk: Desk, strings: StringsCard) -> None:
    strings.table.go(0, 3)
    strings.table.edit(strings.table.currentIndex())
    line = open_line(strings.table)
    press(line, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert desk.document.job.strings is not None
    assert desk.document.job.strings.list[0].diameter == "0.013 in"


def test_a_field_keeps_a_fractions_fineness_while_it_is_stepped(bridge: BridgeCard) -> None:
    width = field(bridge, "Width at the wings")
    width.line.setFocus()
    width.line.selectAll()
    type_into(width.line, "1 3/32 in")
    for key, shown in ((Qt.Key.Key_Up, "1 1/8 in"), (Qt.Key.Key_Down, "1 3/32 in"), (Qt.Key.Key_Down, "1 1/16 in")):
        press(width.line, key)
        assert width.line.text() == shown


def test_the_reading_in_hand_says_what_was_understood(desk: Desk) -> None:
    card = desk.measure
    card.table.go(0)
    type_into(card.table, "1")
    type_into(open_line(card.table), " 3/4 in")
    assert card.panel.understood.text() == "= 44.45 mm"
    press(open_line(card.table), ESCAPE)
    assert card.panel.understood.text() == ""
