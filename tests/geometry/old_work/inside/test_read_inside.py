"""Readings of what lies under the top say that they were taken inside, and hang on what goes through the wood."""

import pytest
from msgspec.structs import replace

from geometry.job import Brace, Job, Old, Point, Reading
from geometry.old_work.inside.read_inside import findings, not_said

BRACE = Old(braces={"1": Brace(of=("brace.1.a", "brace.1.b"))}, plate=("plate.1", "plate.2", "plate.3"))


def at(name: str, inside: bool) -> Reading:
    return Reading(id=f"{name} {inside}", kind="at", of=(name,), value=(1.0, 2.0), inside=inside)


def job(*readings: Reading, old: Old = BRACE) -> Job:
    names = dict.fromkeys((*old.points, *(name for reading in readings for name in reading.of)))
    return Job(points={name: Point() for name in names}, readings=readings, old=old)


def codes(made: Job) -> dict[str, str]:
    return {finding.code: finding.text for finding in findings(made)}


def test_a_brace_that_nobody_says_was_read_inside_is_told() -> None:
    made = job(at("brace.1.a", False), at("plate.1", False), at("pin.1", False))
    assert not_said(made) == ("plate.1", "brace.1.a")
    assert codes(made)["old.from_inside"].startswith("Plate 1 and brace 1 a lie under the top")
    (finding,) = findings(made)
    assert finding.where == "field:old.inside"


def test_one_reading_that_says_so_is_enough() -> None:
    made = job(at("brace.1.a", False), at("brace.1.a", True), at("pin.1", True), at("pin.6", True))
    assert not_said(made) == ()


def test_what_was_not_read_yet_needs_no_word() -> None:
    made = job(replace(at("brace.1.a", False), value=None))
    assert codes(made) == {}


@pytest.mark.parametrize("tied", [(), ("pin.1",), ("pin.1", "pin.6")])
def test_two_points_read_from_both_sides_tie_the_inside(tied: tuple[str, ...]) -> None:
    # derived: a figure that is shifted along two axes and turned needs two points of two numbers each
    both = [at(name, inside) for name in tied for inside in (True, False)]
    found = codes(job(at("brace.1.a", True), *both))
    assert ("old.untied" in found) == (len(tied) < 2)
    assert set(found) <= {"old.untied"}


def test_holes_alone_read_from_inside_need_no_tie() -> None:
    assert codes(job(at("pin.1", True), at("pin.1", False))) == {}
