"""Under which number a new reading is taken."""

import pytest

from geometry.advice.candidates import numbered
from geometry.job import Job, Point, Reading


@pytest.mark.parametrize(
    ("ids", "number"),
    [((), "r1"), (("r1", "r2"), "r3"), (("r1", "r3"), "r4"), (("r3", "r4"), "r5"), (("a", "b"), "r3")],
)
def test_the_next_number_that_is_free(ids: tuple[str, ...], number: str) -> None:
    """derived: one more than there are, and on from there as long as that is taken"""
    readings = tuple(Reading(id=name, kind="distance", of=("a", "b")) for name in ids)
    job = Job(points={"a": Point(), "b": Point()}, readings=readings)
    assert numbered(job, Reading(id="new", kind="distance", of=("a", "b"))).id == number
