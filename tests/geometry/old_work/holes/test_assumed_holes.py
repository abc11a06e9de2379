"""Assumed holes are told from those that were read, whatever these are called."""

import pytest
from msgspec.structs import replace

from geometry.job import Job, Point
from geometry.old_work.holes.assumed_holes import after, assumed_name
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
    assert hole_called(job, assumed_name(name, 3)).startswith("the assumed hole 3 after ")
