"""What is to be looked at again is reached in the order in which the note names it."""

import pytest
from PySide6.QtCore import Qt

from app.desk.frame.desk import Desk
from app.edit import edits
from app.edit.measure import new_reading
from tests.app.desk.cards.measure.test_measure_card import open_line, type_value
from tests.app.desk.conftest import OpenDesk, in_low_window, press, sample
from tests.long_list import DIAGONAL, LAST, long_list
from tests.short_list import short_list

NAMED = ["r3", "r4", "r5", "r6", "r1", "r2"]
"""The note's order: the lengths first, of which a slip of 1/8 in is enough."""


def slipped(open_desk: OpenDesk) -> Desk:
    desk = open_desk(short_list(r5="17 45/64"))
    assert desk.document.layout is not None
    assert desk.document.layout.survey.groups == (tuple(NAMED),)
    return desk


def test_the_link_goes_through_all_of_them_in_the_order_that_is_named(open_desk: OpenDesk) -> None:
    card = slipped(open_desk).measure
    card.table.go_to("r12")
    went = []
    for _ in range(len(NAMED) + 1):
        said = card.notes.go_button.text()
        card.notes.go_button.click()
        went.append((said, card.table.chosen))
    first, *onward, again = went
    assert first == again == ("Go to the first", "r3")
    assert onward == [("Go to the next", name) for name in NAMED[1:]]


def test_the_job_opens_with_the_first_in_hand_and_the_link_leads_on(open_desk: OpenDesk) -> None:
    card = slipped(open_desk).measure
    card.start()
    assert card.table.chosen == "r3"
    assert card.notes.go_button.text() == "Go to the next"
    card.notes.go_button.click()
    assert card.table.chosen == "r4"


def test_one_that_was_typed_again_is_not_gone_to_once_more(open_desk: OpenDesk) -> None:
    card = slipped(open_desk).measure
    card.table.go_to("r3")
    card.table.cells.settled.emit("r3", "17 25/64")
    card.table.go_to("r12")
    assert card.notes.go_button.text() == "Go to the next"
    card.notes.go_button.click()
    assert card.table.chosen == "r4"


def test_the_figure_at_the_foot_leads_to_the_first_as_well(open_desk: OpenDesk) -> None:
    desk = slipped(open_desk)
    figure = next(cell for cell in desk.strip.cells if cell.figure.title == "Readings")
    figure.click()
    assert desk.measure.table.chosen == "r3"


@pytest.mark.parametrize("slips", [{}, {"r5": "17 45/64"}], ids=["all agree", "one is out"])
def test_after_the_last_reading_what_is_to_be_read_again_comes_before_the_next_card(
    open_desk: OpenDesk, slips: dict[str, str]
) -> None:
    card = open_desk(edits.set_value(short_list(**slips), "r18", "")).measure
    card.table.go_to("r18")
    card.table.setFocus()
    type_value(card, "12 43/64")
    assert card.notes.on_button.isVisibleTo(card) == (not slips)
    assert card.table.chosen == ("r3" if slips else "r18")
    assert card.focusWidget() is card.table  # a link that had the keys would be pressed by the space in 17 5/64


def test_enter_goes_through_those_of_which_one_is_out(open_desk: OpenDesk) -> None:
    card = slipped(open_desk).measure
    card.table.go_to("r12")
    card.notes.go_button.click()
    for name, text in (("r3", "17 25/64"), ("r4", "17 15/32"), ("r5", "17 37/64")):
        assert card.table.chosen == name
        type_value(card, text)
    assert not list(card.table.readings.again)
    assert card.notes.on_button.isVisibleTo(card)


def test_a_second_reading_of_each_in_turn_names_the_one_that_is_out(open_desk: OpenDesk) -> None:
    """derived: r3 and r4 agree with themselves and are cleared; r5 differs from itself by the slip and is named."""
    desk = slipped(open_desk)
    card, document = desk.measure, desk.document
    card.table.go_to("r12")
    assert "read the first a second time and keep both readings" in card.notes.look_again.body.text()
    for name, text in (("r3", "17 25/64"), ("r4", "17 15/32"), ("r5", "17 37/64")):
        assert card.notes.second_button.isVisibleTo(card)
        card.notes.second_button.click()
        added = card.table.chosen
        assert added is not None
        taken = {reading.id: reading for reading in document.job.readings}
        assert (taken[added].of, taken[added].value, taken[added].with_) == (taken[name].of, None, taken[name].with_)
        assert not card.notes.second_button.isVisibleTo(card)
        document.edit("a second reading", edits.set_value(document.job, added, text))
        assert document.layout is not None
        card.table.go_to("r12")
    assert document.layout is not None
    assert document.layout.survey.suspects == ("r5",)
    assert not card.notes.second_button.isVisibleTo(card)


def test_nothing_is_taken_a_second_time_where_one_is_named(open_desk: OpenDesk) -> None:
    card = open_desk(sample("one-slip")).measure
    assert card.notes.look_again.isVisible()
    assert not card.notes.second_button.isVisibleTo(card)


def test_one_that_was_typed_before_it_was_accused_is_gone_to_first(open_desk: OpenDesk) -> None:
    """r3 was typed while all agreed; then r5 is typed 1/8 in too long, and r3 is named first: nobody read it again."""
    card = open_desk(short_list()).measure
    for name, text in (("r3", "17 25/64"), ("r5", "17 45/64")):
        assert not card.table.readings.again
        card.table.go_to(name)
        card.table.setFocus()
        type_value(card, text)
    assert card.table.readings.again == tuple(NAMED)
    card.table.go_to("r12")
    assert card.notes.go_button.text() == "Go to the first"
    card.notes.go_button.click()
    assert card.table.chosen == "r3"


def test_those_of_which_one_is_out_are_numbered_in_the_table(open_desk: OpenDesk) -> None:
    rows = {row.reading.id: row for row in slipped(open_desk).measure.table.readings.rows}
    assert [(rows[name].turn, rows[name].turns) for name in NAMED] == [(turn, 6) for turn in range(1, 7)]
    assert {row.turn for name, row in rows.items() if name not in NAMED} == {0}


def test_of_two_readings_of_one_thing_each_says_which_it_is_and_a_third_is_asked_for(open_desk: OpenDesk) -> None:
    """The nut's width was read 1 11/16 in, and is read 1/8 in more the second time: nothing else holds it (derived)."""
    desk = open_desk(short_list())
    card = desk.measure
    width = next(r for r in desk.document.job.readings if r.id == "r1")
    second = card.commands.add(new_reading.second(width))
    desk.document.edit("a second reading", edits.set_value(desk.document.job, second, "1 13/16"))
    mine = [row for row in card.table.readings.rows if row.reading.of_what == width.of_what]
    assert [row.how.split(", ")[-1] for row in mine] == ["first time", "second time"]
    assert "Read it once more and keep all 3" in card.notes.look_again.body.text()
    assert card.notes.second_button.text() == "Add one more reading"
    card.notes.second_button.click()
    third = card.table.chosen
    assert third is not None
    desk.document.edit("a third reading", edits.set_value(desk.document.job, third, "1 11/16"))
    assert desk.document.layout is not None
    assert desk.document.layout.survey.suspects == (second,)


def test_enter_leads_on_in_the_order_that_is_named_though_none_was_found_wrong(open_desk: OpenDesk) -> None:
    card = slipped(open_desk).measure
    card.table.go_to("r12")
    card.notes.go_button.click()
    went = []
    for text in ("17 25/64", "17 15/32", "17 45/64", "17 1/2", "1 11/16", "2 3/16"):
        went.append(card.table.chosen)
        type_value(card, text)
    assert went == NAMED
    assert card.table.chosen == "r2"  # after the last of them the hand stays
    assert card.notes.go_button.text() == "Go to the first"


def test_a_slip_typed_over_one_of_them_is_not_taken_for_looked_at(open_desk: OpenDesk) -> None:
    """r4 is typed 1/8 in too long among readings that agree: Enter takes the first named in hand, then comes r4."""
    card = open_desk(short_list()).measure
    card.table.go_to("r4")
    card.table.setFocus()
    type_value(card, "17 19/32", enter=False)
    order = card.table.readings.again
    assert order.index("r4") > 0
    assert card.notes.go_button.text() == "Go to the first"
    press(open_line(card), Qt.Key.Key_Return)
    went = []
    for _ in order:
        went.append(card.table.chosen)
        press(card.table, Qt.Key.Key_Return)
    assert went == list(order)


def test_from_one_taken_by_hand_enter_goes_behind_it_and_round_to_the_first(open_desk: OpenDesk) -> None:
    card = slipped(open_desk).measure
    card.table.go_to("r5")
    card.table.setFocus()
    assert card.notes.go_button.text() == "Go to the first"
    went = []
    for _ in NAMED:
        went.append(card.table.chosen)
        press(card.table, Qt.Key.Key_Return)
    assert went == ["r5", "r6", "r1", "r2", "r3", "r4"]


def test_those_looked_at_are_left_for_what_still_waits(open_desk: OpenDesk) -> None:
    card = open_desk(edits.set_value(short_list(r5="17 45/64"), "r17", "")).measure
    order = card.table.readings.again
    card.notes.go_button.click()
    for name in order:
        assert card.table.chosen == name
        press(card.table, Qt.Key.Key_Return)
    assert card.table.chosen == "r17"


def test_the_links_act_on_the_reading_that_the_words_name(open_desk: OpenDesk) -> None:
    """The last reading is empty and in hand, and without it the pin hole may lie on either side."""
    desk = open_desk(long_list(**{DIAGONAL: "17 19/32", LAST: ""}))
    card = desk.measure
    card.table.go_to(LAST)
    assert card.notes.look_again.head.text() == "Look again: nut bass to board end treble"
    assert "Old pin hole" not in card.notes.look_again.body.text()
    card.notes.go_button.click()
    assert card.table.chosen == DIAGONAL
    card.table.go_to(LAST)
    card.notes.out_button.click()
    assert [r.id for r in desk.document.job.readings if r.struck] == [DIAGONAL]


def test_enter_leads_to_one_that_was_only_shown_once_nothing_else_waits(open_desk: OpenDesk) -> None:
    """The link leads to the diagonal, it is struck out and brought back; then the last reading is typed."""
    desk = open_desk(long_list(**{DIAGONAL: "17 19/32", LAST: ""}))
    card = desk.measure
    card.table.go_to(LAST)
    card.notes.go_button.click()
    card.notes.out_button.click()
    desk.document.stack.undo()
    card.table.go_to(LAST)
    card.table.setFocus()
    type_value(card, "4 3/64 ; 4 15/64")
    assert card.table.chosen == DIAGONAL


def test_one_left_as_it_is_is_led_to_once_more_when_the_last_is_typed_and_then_the_hand_stays(
    open_desk: OpenDesk,
) -> None:
    card = open_desk(edits.set_value(short_list(r5="17 45/64"), "r17", "")).measure
    order = card.table.readings.again
    card.notes.go_button.click()
    for _ in order:
        press(card.table, Qt.Key.Key_Return)
    assert card.table.chosen == "r17"
    type_value(card, short_list().readings[16].value.removesuffix(" in"))  # type: ignore[union-attr]
    went = []
    for _ in range(3 * len(order)):
        went.append(card.table.chosen)
        press(card.table, Qt.Key.Key_Return)
    assert went[: len(order)] == list(card.table.readings.again)
    assert set(went[len(order) :]) == {went[len(order) - 1]}  # no second round by itself


def test_what_was_confirmed_is_looked_at_anew_once_something_else_is_accused(open_desk: OpenDesk) -> None:
    """r3 is typed once more as it is; then r8 goes wrong as well: r3 is named among others than before."""
    card = slipped(open_desk).measure
    card.table.go_to("r3")
    card.table.setFocus()
    type_value(card, "17 25/64")
    card.document.edit("a slip", edits.set_value(card.document.job, "r8", "4 3/8"))
    assert "r8" in card.table.readings.again
    card.table.go_to("r12")
    card.table.setFocus()
    type_value(card, "12 43/64")
    assert card.table.chosen == card.table.readings.again[0] == "r3"


def test_why_is_asked_of_one_job_and_not_of_the_next(open_desk: OpenDesk) -> None:
    desk = in_low_window(open_desk, "one-slip", 1.0)
    notes = desk.measure.notes
    few = notes.look_again.body.text()
    notes.why_button.click()
    assert (notes.why_button.text(), notes.look_again.body.text() == few) == ("Less", False)
    desk.document.start(sample("one-slip"))
    assert (notes.why_button.text(), notes.look_again.body.text()) == ("Why", few)


def test_what_the_link_has_shown_is_shown_anew_once_something_else_is_accused(open_desk: OpenDesk) -> None:
    """The link leads to r3 and r4; then r8 goes wrong as well, and they are named among others than before."""
    card = slipped(open_desk).measure
    card.table.go_to("r12")
    for name in ("r3", "r4"):
        card.notes.go_button.click()
        assert card.table.chosen == name
    card.document.edit("a slip", edits.set_value(card.document.job, "r8", "4 3/8"))
    order = card.table.readings.again
    assert set(order) != set(NAMED)
    card.table.go_to("r12")
    assert card.notes.go_button.text() == "Go to the first"
    went = []
    for _ in order:
        card.notes.go_button.click()
        went.append(card.table.chosen)
    assert went == list(order)
