"""A list's questions on the Measure card: asked in the cell, answered by keys or by the button, undone by name."""

import pytest
from PySide6.QtCore import Qt

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.frame.desk import Desk
from app.edit import edits
from app.edit.start.new_job import begin
from geometry.job import Reading
from tests.app.desk.cards.measure.test_measure_card import open_line, type_value
from tests.app.desk.conftest import OpenDesk, press, type_into


@pytest.fixture
def desk(open_desk: OpenDesk) -> Desk:
    return open_desk(begin(measuring="neck and bridge"))


@pytest.fixture
def at(desk: Desk) -> int:
    """The row of the first question."""
    return next(row for row, reading in enumerate(desk.document.job.readings) if reading.asked)


@pytest.fixture
def card(desk: Desk, at: int) -> MeasureCard:
    desk.measure.table.go(at)
    desk.measure.table.setFocus()
    return desk.measure


def reading(desk: Desk, at: int) -> Reading:
    return desk.document.job.readings[at]


def test_the_cell_asks_and_says_that_nobody_answered(card: MeasureCard, at: int) -> None:
    row = card.table.readings.rows[at]
    assert (row.shown, row.value, row.said()) == ("in line?", "", "not answered")
    spoken = card.table.readings.data(card.table.currentIndex(), Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.endswith("as read: in line? Not answered")
    assert "Does “fret 12, treble” lie on it?" in card.under.text()


def test_enter_comes_to_a_question_and_leaves_it_unanswered(desk: Desk, card: MeasureCard, at: int) -> None:
    card.table.go(at - 1)
    press(card.table, Qt.Key.Key_Return)
    assert card.table.at == at
    press(card.table, Qt.Key.Key_Return)
    assert (card.table.at, reading(desk, at).asked) == (at + 1, True)


@pytest.mark.parametrize("text", ["yes", "y", "0"])
def test_yes_by_keys_then_on_to_the_next(desk: Desk, card: MeasureCard, at: int, text: str) -> None:
    type_value(card, text)
    assert (reading(desk, at).kind, reading(desk, at).taken) == ("inline", True)
    assert card.table.at == at + 1


def test_off_by_so_much_by_keys_and_undone_at_once(desk: Desk, card: MeasureCard, at: int) -> None:
    before = desk.document.job
    type_value(card, "0.8 bass")
    found = reading(desk, at)
    assert (found.kind, found.side, found.value) == ("off", "right", 0.8)
    desk.document.stack.undo()
    assert desk.document.job == before


def test_a_length_without_a_side_answers_nothing(desk: Desk, card: MeasureCard, at: int) -> None:
    type_value(card, "0.8")
    assert reading(desk, at).asked
    assert "does not say to which side" in card.wrong.body.text()


def test_escape_leaves_the_question_open(desk: Desk, card: MeasureCard, at: int) -> None:
    type_value(card, "y", enter=False)
    press(open_line(card), Qt.Key.Key_Escape)
    assert reading(desk, at).asked


def test_the_line_says_what_may_be_typed(card: MeasureCard) -> None:
    type_into(card.table, "y")
    line = open_line(card)
    assert line.accessibleName().endswith("in line?")
    assert line.accessibleDescription().startswith("yes, or 0.8 bass.")
    assert line.placeholderText() == "yes, or how far off"  # a length there would look like one that was read


def test_the_line_asks_in_the_jobs_unit(desk: Desk, card: MeasureCard) -> None:
    desk.document.edit("unit", edits.set_unit(desk.document.job, "in"))
    type_into(card.table, "y")
    assert open_line(card).accessibleDescription().startswith("yes, or 1/32 bass.")


def test_the_button_answers_and_goes_on(desk: Desk, card: MeasureCard, at: int) -> None:
    button = card.panel.yes_button
    assert button.isVisible()
    assert button.accessibleName() == "Yes, in line"
    press(button, Qt.Key.Key_Space)
    assert reading(desk, at).taken
    assert card.table.at == at + 1
    assert not button.isVisible()
    desk.document.stack.undo()
    assert reading(desk, at).asked


def test_an_answer_can_be_gone_back_to(desk: Desk, card: MeasureCard, at: int) -> None:
    type_value(card, "yes")
    card.table.go(at)
    type_value(card, "0.6 treble")
    assert (reading(desk, at).kind, reading(desk, at).side) == ("off", "left")


def test_the_plan_asks_too_and_takes_the_answer(desk: Desk, card: MeasureCard, at: int) -> None:
    for row, value in enumerate(("43", "56", "430", "430", "433", "433", "52")):
        card.table.go(row)
        type_value(card, value)
    card.table.go(at)
    press(desk.board.plan, Qt.Key.Key_Return)
    line = desk.board.value_line.line
    assert line is not None
    type_into(line, "0.5 bass")
    press(line, Qt.Key.Key_Return)
    assert (reading(desk, at).kind, reading(desk, at).value) == ("off", 0.5)


def test_an_answer_from_elsewhere_puts_away_what_was_refused(desk: Desk, card: MeasureCard, at: int) -> None:
    type_value(card, "0.8")
    assert card.table.readings.rows[at].wrong
    desk.document.edit("an answer", edits.set_value(desk.document.job, reading(desk, at).id, "yes"))
    assert not card.table.readings.rows[at].wrong
    assert card.table.readings.rows[at].said() != "not answered"


def test_the_side_that_was_missing_is_typed_by_itself(desk: Desk, card: MeasureCard, at: int) -> None:
    type_value(card, "0.8")
    assert card.table.readings.rows[at].wrong
    assert card.table.at == at
    type_value(card, "bass")
    assert (reading(desk, at).kind, reading(desk, at).side, reading(desk, at).value) == ("off", "right", 0.8)
    assert not card.table.readings.rows[at].wrong
    desk.document.stack.undo()
    assert reading(desk, at).asked
