"""How fine a job in inches is told."""

from collections.abc import Iterable

import pytest

from geometry.job import Job, Point, Reading
from geometry.job.told_by_rule import by_rule_alone, in_64ths, places_of
from geometry.units import Unit
from tests.in_one import in_one

POINTS = {"nut.left": Point(), "nut.right": Point()}


def read(unit: Unit, *tools: str) -> Job:
    readings = (
        Reading(id=f"r{at}", kind="distance", of=("nut.left", "nut.right"), value=43.0, with_=tool)
        for at, tool in enumerate(tools)
    )
    return Job(unit=unit, points=POINTS, readings=tuple(readings))


@in_one(
    ("unit", "tools", "alone"),
    [
        ("in", ("rule 1/64",), True),
        ("in", ("rule 1/64", "caliper 0.05"), False),
        ("in", (), False),  # nothing is known yet of what is at hand
        ("mm", ("rule 0.5",), False),
    ],
)
def test_a_rule_alone_shows_64ths(unit: Unit, tools: Iterable[str], alone: bool) -> None:
    assert by_rule_alone(read(unit, *tools)) is alone
    assert places_of(read(unit, *tools)) == (1 if alone else 2)


@pytest.mark.parametrize(
    ("unit", "pm95s", "ruled"),
    [("in", (0.1, 0.396), False), ("in", (0.1, 0.397), True), ("in", (), False), ("mm", (2.0,), False)],
)
def test_what_is_no_surer_than_a_64th_is_told_in_64ths(unit: Unit, pm95s: tuple[float, ...], ruled: bool) -> None:
    """derived: 25.4 / 64 is 0.3969 mm"""
    assert in_64ths(read(unit, "caliper 0.05"), pm95s) is ruled
    assert in_64ths(read(unit, "rule 1/64"), pm95s) is (unit == "in")
