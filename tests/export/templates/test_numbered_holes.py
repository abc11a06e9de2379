"""Where the numbers of holes stand beside them."""

import pytest

from export.drawing.marks import Circle, Line, Mark, Text
from export.hole_table import Bored
from export.records import Figure
from export.templates.numbered_holes import numbers, with_hole_table
from geometry.job import Job, Point, Reading
from geometry.layout import Layout
from geometry.units import mm
from tests.in_one import in_one


def hole(x: float, y: float, diameter: float = 6.0) -> Bored:
    return Bored(name="hole", at=(x, y), diameter=diameter, drill=("6.0", "15/64"))


def stands(*others: Bored) -> tuple[float, float, str]:
    """The first hole's number, with others about it."""
    text = numbers((hole(0.0, 0.0), *others))[0].shape
    assert isinstance(text, Text)
    assert text.text == "1"
    return (*text.at, text.anchor)


TAIL, NUT, LEFT, RIGHT = (hole(x, y, 6.1) for x, y in ((9.0, 0.0), (-9.0, 0.0), (0.0, 9.0), (0.0, -9.0)))
CORNERS = tuple(hole(x, y, 2.0) for x in (4.5, -4.5) for y in (4.5, -4.5))


@in_one(
    ("others", "at"),
    [
        # derived: half of 6 mm, 1.4 mm of cross and 1 mm beside it; or half of 6 mm and 0.6 mm at 45 degrees, 2.5456
        ((), (5.4, 0.0, "sm")),
        ((TAIL,), (-5.4, 0.0, "em")),
        ((TAIL, NUT), (2.5456, 2.5456, "sb")),
        ((TAIL, NUT, *CORNERS[:1]), (2.5456, -2.5456, "st")),
        ((TAIL, NUT, *CORNERS[:2]), (-2.5456, 2.5456, "eb")),
        ((TAIL, NUT, *CORNERS[:3]), (-2.5456, -2.5456, "et")),
        ((TAIL, NUT, *CORNERS), (0.0, 5.4, "mb")),
        ((TAIL, NUT, *CORNERS, LEFT), (0.0, -5.4, "mt")),
        ((TAIL, NUT, *CORNERS, LEFT, RIGHT), (5.4, 0.0, "sm")),  # nowhere is clear
        ((hole(40.0, 0.0),), (5.4, 0.0, "sm")),
    ],
)
def test_on_the_first_side_that_is_clear(others: tuple[Bored, ...], at: tuple[float, float, str]) -> None:
    found = stands(*others)
    assert found[:2] == pytest.approx(at[:2], abs=0.001)
    assert found[2] == at[2]


def test_a_rows_numbers_stand_in_one_place_off_the_parts_edge() -> None:
    """The edge runs from 9 mm behind the first of three holes to 6.5 mm behind the last: to the tail of that one's
    cross its number would stand on it, from 5.4 to 7 mm behind the middle; between the arms of their crosses none does.
    """
    row = [hole(0.0, y) for y in (0.0, 11.0, 22.0)]
    edge = Mark(shape=Line((9.0, 0.0), (6.5, 22.0)), purpose="cut", of="bridge")
    alone, beside = ([mark.shape for mark in numbers(row, part)] for part in ((), (edge,)))
    assert [text.anchor for text in alone if isinstance(text, Text)] == ["sm"] * 3
    assert [text.anchor for text in beside if isinstance(text, Text)] == ["em"] * 3
    saddle = Mark(shape=Line((-6.0, 0.0), (-6.0, 22.0)), purpose="centre", of="saddle")
    between = [mark.shape for mark in numbers(row, (edge, saddle))]
    assert [text.anchor for text in between if isinstance(text, Text)] == ["sb"] * 3


@pytest.mark.parametrize(
    ("old", "at"),
    [
        (Mark(shape=Line((7.3, -9.0), (7.3, 9.0)), purpose="before", of="old"), (4.9, 0.0)),
        (Mark(shape=Line((6.0, -9.0), (6.0, 9.0)), purpose="before", of="bare"), (-5.4, 0.0)),
        (Mark(shape=Circle((-7.0, 0.0), 2.6), purpose="before", of="old pin:pin.1"), (5.4, 0.0)),
    ],
)
def test_numbers_keep_off_what_is_old(old: Mark, at: tuple[float, float]) -> None:
    """A number 2.1 mm high and 1.2 wide, 5.4 mm behind the middle: 0.7 mm off the dots of an outline 7.3 mm behind it
    half a millimetre nearer to the hole, before it where the edge of the finish runs 6 mm behind, and behind it where
    an old hole lies before it.
    """
    (text,) = [mark.shape for mark in numbers((hole(0.0, 0.0),), (old,))]
    assert isinstance(text, Text)
    assert text.at == pytest.approx(at, abs=0.001)


def test_a_slots_ends_have_their_numbers_beyond_them() -> None:
    """derived: 1 mm beyond, and 1 mm behind the saddle line through both."""
    left, right = (Bored(name="slot", at=(8.0, y), diameter=3.0) for y in (35.0, -35.0))
    found = [mark.shape for mark in numbers((hole(0.0, 0.0), left, right))]
    assert [(text.text, text.at, text.anchor) for text in found if isinstance(text, Text)][1:] == [
        ("2", (9.0, 36.0), "sb"),
        ("3", (9.0, -36.0), "st"),
    ]


def test_between_two_slots_the_numbers_stand_before_each_ones_own_end() -> None:
    """derived: 1 mm before the slot's front, half its 3 mm before its middle, and 4.5 mm in from its end."""
    at = ((8.0, 35.0), (7.0, 2.0), (9.0, -2.0), (8.0, -35.0))
    found = [mark.shape for mark in numbers([Bored(name="slot", at=end, diameter=3.0) for end in at])]
    assert [(text.text, text.at, text.anchor) for text in found if isinstance(text, Text)] == [
        ("1", (9.0, 36.0), "sb"),
        ("2", (4.5, 6.5), "em"),
        ("3", (6.5, -6.5), "em"),
        ("4", (9.0, -36.0), "st"),
    ]


@pytest.mark.parametrize(("tool", "places"), [("caliper 0.1", ["4.173", "−0.618"]), ("rule 1/64", ["4 11/64", "−5/8"])])
def test_who_reads_with_a_rule_alone_is_told_64ths(layout: Layout, tool: str, places: list[str]) -> None:
    """derived: 106 mm are 4.1732 in, 4 and 11.09/64; 15.7 mm 0.6181 in, 39.6/64. A drill is named as drills are."""
    read = Reading(id="r1", kind="distance", of=("nut.left", "nut.right"), value=43.2, with_=tool)
    job = Job(unit="in", points={"nut.left": Point(), "nut.right": Point()}, readings=(read,))
    figure = Figure(
        title="Bridge",
        marks=(),
        keep=(),
        bored=(hole(106.0, -15.7, 5.16), hole(0.0, 0.0)),
        own_datum=("nut", (0.0, 0.0)),
    )
    rows = with_hole_table(job, layout, figure).tables[0].rows
    assert list(rows[0][2:4]) == places
    assert rows[0][4] == "0.203"


@pytest.mark.parametrize(("typed", "told"), [("13/64 in", "13/64"), (5.2, "0.205")])
def test_a_size_in_64ths_is_told_as_it_was_typed(layout: Layout, typed: float | str, told: str) -> None:
    """derived: 5.2 mm are 0.2047 in, which no 64th is"""
    holes = tuple(hole(at, 0.0, mm(typed)) for at in (0.0, 9.0))
    figure = Figure(title="Bridge", marks=(), keep=(), bored=holes, own_datum=("nut", (0.0, 0.0)))
    (table,) = with_hole_table(Job(unit="in"), layout, figure).tables
    ((said, _),) = table.below
    assert f" All {told} wide, drill " in said
