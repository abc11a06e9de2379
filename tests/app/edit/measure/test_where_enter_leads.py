"""Where Enter leads: down the list, to what is to be looked at again, back to what waits."""

from typing import NamedTuple

from app.edit.measure.where_enter_leads import Stay, lead, next_accused
from tests.in_one import in_one


class Listed(NamedTuple):
    id: str
    waits: bool = False
    takes_value: bool = True
    wrong: str = ""


def rows(waits: str = "", wrong: str = "") -> list[Listed]:
    return [Listed(name, name in waits, wrong="not a length" if name in wrong else "") for name in "abcdef"]


@in_one(
    ("at", "stay", "accused", "done", "waits", "leads"),
    [
        (1, Stay(), "", "", "", 2),
        (1, Stay(waited=True), "db", "", "e", 2),  # a false alarm midway: typing goes on
        (1, Stay(typed=True), "db", "", "e", 2),
        (1, Stay(typed=True), "db", "", "", 3),  # nothing waits: the first that is named
        (1, Stay(visited=True), "dbf", "b", "e", 5),  # behind it in the order that is named
        (1, Stay(visited=True), "dbf", "bf", "e", 3),  # round to the first
        (1, Stay(visited=True), "dbf", "dbf", "e", 4),  # back to what waits
        (1, Stay(visited=True), "dbf", "dbf", "", None),
        (5, Stay(waited=True, typed=True), "", "", "", None),
        (5, Stay(waited=True, typed=True), "", "", "b", 1),
        (2, Stay(waited=True, typed=True), "", "", "", None),
        (2, Stay(), "db", "", "", 3),  # nothing was typed: one row after the other
    ],
)
def test_where_enter_leads(at: int, stay: Stay, accused: str, done: str, waits: str, leads: int | None) -> None:
    assert lead(rows(waits), at, 1, stay, accused, done) == leads


def test_up_goes_one_back_whatever_is_accused() -> None:
    assert lead(rows(), 3, -1, Stay(visited=True), "af", "") == 2


def test_an_entry_that_cannot_be_is_gone_back_to_at_the_end() -> None:
    assert lead(rows(wrong="c"), 5, 1, Stay(typed=True), "", "") == 2


def test_of_those_accused_the_first_comes_first_where_none_was_taken_in_hand_to_be_looked_at() -> None:
    assert next_accused("dbf", "b", "", visited=False) == "d"
