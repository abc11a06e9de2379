"""How far from here to there, with its ±."""

import pytest

from geometry.how_far import how_far
from geometry.job import Job, Point, Reading, SideHint


def board(sigma: float = 0.1) -> Job:
    """A rectangle of 400 by 50 mm, its sides and both diagonals (403.1129 by Pythagoras) read with the same sigma."""
    sides = {
        ("a", "b"): 400.0,
        ("d", "c"): 400.0,
        ("a", "d"): 50.0,
        ("b", "c"): 50.0,
        ("a", "c"): 403.1128874149275,
        ("b", "d"): 403.1128874149275,
    }
    readings = tuple(
        Reading(id=f"r{at}", kind="distance", of=of, value=value, sigma=sigma)
        for at, (of, value) in enumerate(sides.items(), 1)
    )
    above = Point(side=(SideHint(of=("a", "b"), is_="left"),))
    return Job(points={"a": Point(), "b": Point(), "c": above, "d": above}, readings=readings)


def test_a_distance_that_was_read_is_known_at_least_as_well_as_read() -> None:
    found = how_far(board(), "a", "b")
    assert found is not None
    assert found.distance == pytest.approx(400.0, abs=1e-6)
    assert found.pm95 < 1.96 * 0.1  # derived: the normal distribution's 95 % of one reading alone


def test_the_plus_or_minus_grows_with_the_readings_own() -> None:
    fine, coarse = how_far(board(0.1), "a", "c"), how_far(board(0.2), "a", "c")
    assert fine is not None
    assert coarse is not None
    assert coarse.pm95 == pytest.approx(2 * fine.pm95, rel=1e-6)


def test_two_points_alone_are_as_far_apart_as_read() -> None:
    job = Job(
        points={"a": Point(), "b": Point()},
        readings=(Reading(id="r1", kind="distance", of=("a", "b"), value=100.0, sigma=0.5),),
    )
    found = how_far(job, "a", "b")
    assert found is not None
    assert (found.distance, found.pm95) == pytest.approx((100.0, 0.9799819922700271))  # derived: 1.959964 × 0.5


@pytest.mark.parametrize(("a", "b"), [("a", "a"), ("a", "nowhere")])
def test_what_is_not_held_has_no_distance(a: str, b: str) -> None:
    assert how_far(board(), a, b) is None
