"""A base that would lie on the board: its front against the board's end, of places made by hand."""

import re

import pytest
from msgspec.structs import replace

from geometry.layout import Layout
from geometry.separate.separate_told import _hole_ahead, _on_board
from tests.geometry.separate.slanted_sample import plan_of, sample

LEFT, RIGHT = (440.0, 28.0), (436.0, -28.0)
"""The board's end, which leans: 440 mm at the left edge, 436 at the right one."""


def lies(left: float, right: float, *, end: bool = True) -> list[tuple[str, float]]:
    """What is said of one base whose front corners lie at these places along the neck, 14 mm either side of it."""
    layout, plan = plan_of(sample())
    assert layout.neck is not None
    corners = ((left, 14.0), (right, -14.0), (right + 40.0, -14.0), (left + 40.0, 14.0))
    placed = replace(plan, bases=(replace(plan.bases[0], corners=corners),))
    seen: Layout = replace(layout, neck=replace(layout.neck, end=(LEFT, RIGHT) if end else None))
    return [(found.grade, found.values["mm"]) for found in _on_board(sample(), placed, seen)]


@pytest.mark.parametrize(
    ("left", "right", "room"),
    [
        # derived: 14 mm off the neck centre line the end lies at 438 + 14 × 4 / 56 = 439 at the left, 437 at the right
        (438.0, 440.0, -1.0),
        (440.0, 436.5, -0.5),
        (430.0, 430.0, -9.0),
    ],
)
def test_a_front_before_the_boards_end_stops(left: float, right: float, room: float) -> None:
    ((grade, told),) = lies(left, right)
    assert grade == "stop"
    assert told == pytest.approx(room)


def test_a_front_at_the_end_or_behind_it_is_well() -> None:
    assert lies(439.001, 437.001) == lies(500.0, 500.0) == lies(430.0, 430.0, end=False) == []


@pytest.mark.parametrize(
    ("ends", "says"),
    [
        ((650.0, 660.0), None),
        ((640.0, 660.0), "The through hole of string 1 lies 0.0 mm in front"),  # a hole beneath its break point
        ((639.5, 660.0), "The through hole of string 1 lies 0.5 mm in front"),
        ((639.5, 638.0), "The through holes of strings 1 and 2 lie in front of where .* that of string 2 by 2.0 mm"),
    ],
)
def test_through_holes_ahead_of_their_saddles(ends: tuple[float, float], says: str | None) -> None:
    """derived: strings straight along the neck that break at 640 mm"""
    layout, plan = plan_of(sample())
    strings = tuple(
        replace(string, nut_xy=(0.0, y), break_point=(640.0, y), end=(end, y))
        for string, y, end in zip(layout.strings, (10.0, -10.0), ends, strict=False)
    )
    found = _hole_ahead(sample(), plan, replace(layout, strings=strings))
    assert (found is None) is (says is None)
    assert found is None or re.search(says or "", found.text)
    assert _hole_ahead(sample(), replace(plan, through=()), replace(layout, strings=strings)) is None
