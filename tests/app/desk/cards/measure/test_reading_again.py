"""What is to be looked at again is reached in the order in which the note names it."""

from app.desk.frame.desk import Desk
from tests.app.desk.conftest import OpenDesk
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
