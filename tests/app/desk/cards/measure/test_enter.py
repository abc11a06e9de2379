"""Where Enter and what is typed lead in the table of readings, when the hand has not come down it line by line."""

import pytest
from PySide6.QtCore import Qt

from app.edit import edits
from tests.app.desk.cards.measure.test_measure_card import type_value
from tests.app.desk.conftest import OpenDesk, press
from tests.short_list import short_list


def test_behind_a_reading_that_was_visited_enter_goes_back_to_what_waits(open_desk: OpenDesk) -> None:
    """The next value typed would else be put over the reading behind the one that was mended."""
    desk = open_desk(edits.set_value(short_list(r8="4 3/8"), "r17", ""))
    card = desk.measure
    assert card.table.readings.again == ("r8",)
    card.table.go_to("r17")
    card.notes.go_button.click()
    assert card.table.chosen == "r8"
    type_value(card, "4 1/32")
    assert card.table.chosen == "r17"
    assert not list(card.table.readings.again)


def test_an_accused_one_that_was_gone_to_by_hand_is_left_for_what_waits_as_well(open_desk: OpenDesk) -> None:
    card = open_desk(edits.set_value(short_list(r8="4 3/8"), "r17", "")).measure
    card.table.go_to("r8")
    card.table.setFocus()
    type_value(card, "4 1/32")
    assert card.table.chosen == "r17"


def test_behind_one_that_goes_with_the_others_enter_goes_to_the_next(open_desk: OpenDesk) -> None:
    card = open_desk(edits.set_value(short_list(), "r17", "")).measure
    card.table.go_to("r8")
    card.table.setFocus()
    type_value(card, "4 1/32")
    assert card.table.chosen == "r9"


def test_a_false_alarm_midway_does_not_stop_one_who_types_a_list_down(open_desk: OpenDesk) -> None:
    job = short_list(r5="17 45/64")
    for waits in ("r6", "r17"):
        job = edits.set_value(job, waits, "")
    card = open_desk(job).measure
    card.table.go_to("r6")
    card.table.setFocus()
    type_value(card, "17 1/2")
    assert card.table.readings.again
    assert card.table.chosen == "r7"


def test_a_slip_typed_over_a_reading_midway_is_taken_in_hand_where_nothing_waits(open_desk: OpenDesk) -> None:
    """What is typed next would else be put over the good reading behind it."""
    card = open_desk(short_list()).measure
    card.table.go_to("r8")
    card.table.setFocus()
    type_value(card, "4 3/8")
    assert card.table.readings.again == ("r8",)
    assert card.table.chosen == "r8"
    press(card.table, Qt.Key.Key_Return)
    assert card.table.chosen == "r8"
    type_value(card, "4 1/32")
    assert card.notes.on_button.isVisibleTo(card)


def test_the_way_to_the_next_card_stays_whichever_row_is_in_hand(open_desk: OpenDesk) -> None:
    card = open_desk(edits.set_value(short_list(), "r18", "")).measure
    card.table.go_to("r18")
    card.table.setFocus()
    type_value(card, "12 43/64")
    press(card.table, Qt.Key.Key_Up)
    assert card.table.chosen == "r17"
    assert card.notes.on_button.isVisibleTo(card)
    card.document.edit("r3", edits.set_value(card.document.job, "r3", ""))
    assert not card.notes.on_button.isVisibleTo(card)


def test_once_the_last_is_mended_the_way_to_the_next_card_is_offered(open_desk: OpenDesk) -> None:
    card = open_desk(short_list(r8="4 3/8")).measure
    card.notes.go_button.click()
    type_value(card, "4 1/32")
    assert card.notes.on_button.isVisibleTo(card)
    assert card.focusWidget() is card.table


def test_once_more_enter_goes_on_to_the_strings_and_what_is_typed_stays_a_reading(open_desk: OpenDesk) -> None:
    desk = open_desk(edits.set_value(short_list(), "r18", ""))
    card = desk.measure
    card.table.go_to("r18")
    card.table.setFocus()
    for _ in range(2):
        type_value(card, "12 43/64")
        assert desk.cards.is_open("Measure")
    press(card.table, Qt.Key.Key_Return)
    assert desk.cards.is_open("Strings")
    assert [string.name for string in desk.document.job.strings.list] == [str(n) for n in range(1, 7)]  # type: ignore[union-attr]


def test_once_the_last_that_waited_is_typed_it_is_offered_wherever_that_stands(open_desk: OpenDesk) -> None:
    card = open_desk(edits.set_value(short_list(), "r8", "")).measure
    card.table.go_to("r8")
    card.table.setFocus()
    type_value(card, "4 1/32")
    assert card.notes.on_button.isVisibleTo(card)


def test_the_way_to_the_next_card_is_not_offered_at_once_in_the_next_job(open_desk: OpenDesk) -> None:
    desk = open_desk(edits.set_value(short_list(), "r8", ""))
    desk.measure.table.go_to("r8")
    desk.measure.table.setFocus()
    type_value(desk.measure, "4 1/32")
    assert desk.measure.notes.on_button.isVisibleTo(desk.measure)
    desk.document.start(short_list())
    assert not desk.measure.notes.on_button.isVisibleTo(desk.measure)


@pytest.mark.parametrize("waits", ["r1", "r2"])
def test_what_is_typed_on_a_groups_line_is_its_first_reading_that_waits(open_desk: OpenDesk, waits: str) -> None:
    desk = open_desk(edits.set_value(short_list(), waits, ""))
    table = desk.measure.table
    table.setFocus()
    table.fold(0, away=True)
    assert table.group.startswith("Board")
    type_value(desk.measure, "1 3/4")
    assert next(r.value for r in desk.document.job.readings if r.id == waits) == "1 3/4 in"
    assert [r for r in desk.document.job.readings if r.value is None] == []


def test_the_start_of_the_table_is_its_first_reading(open_desk: OpenDesk) -> None:
    table = open_desk(short_list()).measure.table
    table.go_to("r12")
    table.setFocus()
    press(table, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
    assert table.chosen == "r1"
