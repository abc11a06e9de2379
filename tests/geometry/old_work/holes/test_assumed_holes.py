"""Assumed holes are told from those that were read, whatever these are called."""

import pytest
from msgspec.structs import replace

from geometry.job import Job, Old, Point
from geometry.old_work.holes.assumed_holes import after, assumed_name, number_in_row
from geometry.old_work.holes.old_holes_told import hole_called


@pytest.mark.parametrize("name", ["+", "a+2", "a+", "+1", "screw"])
def test_a_hole_that_was_read_keeps_its_name(name: str) -> None:
    job = Job(points={name: Point(), "a": Point()})
    assert after(job, name) == (name, "")
    assert hole_called(job, name) == f"the old hole “{name}”"


@pytest.mark.parametrize("name", ["pin.1", "a+2", "+"])
def test_an_assumed_hole_tells_after_which_it_lies(name: str) -> None:
    job = replace(Job(), points={name: Point()})
    assert after(job, assumed_name(name, 3)) == (name, "3")
    assert hole_called(job, assumed_name(name, 3)).startswith("the assumed hole 3 on from ")


@pytest.mark.parametrize(
    ("ends", "row", "number"),
    [((1, 6), 6, "4"), ((6, 1), 6, "3"), ((3, 8), 6, "6"), ((1, 2), 6, ""), ((1, 6), 5, ""), ((1, 6), None, "")],
)
def test_an_assumed_hole_has_a_number_where_the_ends_of_its_row_leave_just_so_many(
    ends: tuple[int, int], row: int | None, number: str
) -> None:
    """derived: the third after the first of the two; four lie between 1 and 6, as they do in a row of six"""
    first, last = (f"pin.{end}" for end in ends)
    job = replace(Job(), points={first: Point(), last: Point()}, old=Old(row=row))
    assert number_in_row(job, first, "3") == number
    called = hole_called(job, assumed_name(first, 3))
    assert called == (
        f"old pin hole {number} (assumed)" if number else f"the assumed hole 3 on from old pin hole {ends[0]}"
    )
