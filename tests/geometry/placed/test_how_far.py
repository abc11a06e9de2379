"""How far from here to there, with its ±."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job, Point, Reading, SideHint
from geometry.placed.how_far import HowFar, _between, how_far
from geometry.survey import survey
from geometry.work_out import work_out
from tests.bench.test_work_out_speed import usual_job as samples_job


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
    found = how_far(board(), "point:a", "point:b")
    assert found is not None
    assert found.distance == pytest.approx(400.0, abs=1e-6)
    assert found.pm95 < 1.96 * 0.1  # derived: the normal distribution's 95 % of one reading alone


def test_the_plus_or_minus_grows_with_the_readings_own() -> None:
    fine, coarse = (how_far(board(sigma), "point:a", "point:c") for sigma in (0.1, 0.2))
    assert fine is not None
    assert coarse is not None
    assert coarse.pm95 == pytest.approx(2 * fine.pm95, rel=1e-6)


def test_two_points_alone_are_as_far_apart_as_read() -> None:
    job = Job(
        points={"a": Point(), "b": Point()},
        readings=(Reading(id="r1", kind="distance", of=("a", "b"), value=100.0, sigma=0.5),),
    )
    found = how_far(job, "point:a", "point:b")
    assert found is not None
    assert (found.distance, found.pm95) == pytest.approx((100.0, 0.9799819922700271))  # derived: 1.959964 × 0.5


@pytest.mark.parametrize(("a", "b"), [("point:a", "point:a"), ("point:a", "point:nowhere"), ("point:a", "neck")])
def test_what_is_not_held_has_no_distance(a: str, b: str) -> None:
    assert how_far(board(), a, b) is None


BOARD = {"nut.left": 22j, "nut.right": -22j, "end.left": 460 + 28j, "end.right": 460 - 28j}


def instrument(**errors: float) -> Job:
    """A true board, 44 mm at the nut and 56 at its end, a seam 3 mm to the left of its middle that turns by 1 in 200,
    and a hole; every distance from the four corners read, each with sigma 0.2 and the error given.
    """
    points = BOARD | {"seam.1": 500 + 3j, "seam.2": 700 + 4j, "pin.1": 650 + 10j}
    pairs = [(a, b) for at, a in enumerate(points) for b in list(points)[at + 1 :] if a in BOARD]
    readings = tuple(
        Reading(
            id=f"r{at}",
            kind="distance",
            of=pair,
            value=abs(points[pair[1]] - points[pair[0]]) + errors.get(f"r{at}", 0),
            sigma=0.2,
        )
        for at, pair in enumerate(pairs)
    )
    near = {name: Point(near=(place.real, place.imag)) for name, place in points.items()}
    return Job(points=near, readings=readings)


@pytest.mark.parametrize(
    ("a", "b", "kind", "distance", "side"),
    [
        ("point:pin.1", "neck", "square", 10.0, 1),  # derived: its own y
        ("neck", "point:pin.1", "square", 10.0, 1),
        ("point:pin.1", "edge:right", "square", 40.4765, 1),  # derived: (10 + 22 + 6/460 * 650) / hypot(1, 6/460)
        ("point:nut.right", "edge:left", "square", 43.9963, -1),  # derived: 44 / hypot(1, 6/460)
        ("neck", "seam", "beside", 3.7, 1),  # derived: 3 + 140 / 200 where a saddle is when none is known, at 640
        ("edge:left", "edge:right", "beside", 60.6905, -1),  # derived: 2 (22 + 640 * 6/460) / hypot(1, 6/460)
    ],
)
def test_from_lines(a: str, b: str, kind: str, distance: float, side: int) -> None:
    found = how_far(instrument(), a, b)
    assert found is not None
    assert (found.kind, found.side) == (kind, side)
    assert found.distance == pytest.approx(distance, abs=0.002)


def test_the_seams_turn_is_told_with_its_plus_or_minus() -> None:
    found = how_far(instrument(), "neck", "seam")
    assert found is not None
    assert found.angle == pytest.approx(math.degrees(math.atan(1 / 200)), abs=1e-4)
    assert 0.1 < found.angle_pm95 < 1.0  # derived: two points 200 apart, each known to ±2


@pytest.mark.parametrize(("a", "b"), [("point:pin.1", "neck"), ("point:pin.1", "seam"), ("neck", "seam")])
def test_the_plus_or_minus_against_three_hundred_readings_anew(a: str, b: str) -> None:
    """The survey taken anew 300 times with errors of sigma 0.2 (Monte Carlo, JCGM 101:2008)."""
    chance, true = np.random.default_rng(7), instrument()
    told = how_far(true, a, b)
    assert told is not None
    found = []
    for _ in range(300):
        one = how_far(instrument(**{r.id: chance.normal(0, 0.2) for r in true.readings}), a, b)
        assert one is not None
        found.append(one.distance * one.side)
    spread = 1.959964 * float(np.std(found, ddof=1))
    assert told.pm95 == pytest.approx(spread, rel=0.12)  # derived: the sd of 300 is good to 4.1 %, thrice that


def test_lines_that_cross_are_told_by_their_crossing() -> None:
    job = samples_job()
    found = how_far(job, "saddle", "neck")
    layout = work_out(job)
    assert found is not None
    assert layout.saddle is not None
    (ax, ay), (bx, by) = layout.saddle.line
    assert found.kind == "crossing"
    assert found.distance == pytest.approx(ax + (bx - ax) * (0 - ay) / (by - ay), abs=1e-6)
    assert abs(found.angle) == pytest.approx(90 - abs(math.degrees(math.atan2(ax - bx, ay - by))), abs=1e-6)


@pytest.mark.parametrize(("a", "b"), [("saddle", "neck"), ("seam", "saddle")])
def test_how_far_along_lines_cross_is_drawn_where_they_do(a: str, b: str) -> None:
    """derived: along the neck from the nut's place, as far across as the crossing lies"""
    found = how_far(samples_job(), a, b)
    assert found is not None
    assert found.kind == "crossing"
    assert found.ends is not None
    start, stop = found.ends
    assert start == (0.0, stop[1])
    assert stop[0] == pytest.approx(found.distance)


def test_a_hole_in_front_of_the_saddle_lies_on_its_left() -> None:
    job = samples_job()
    front, behind = (how_far(job, name, "saddle") for name in ("point:end.left", "point:seam.2"))
    assert front is not None
    assert behind is not None
    assert (front.side, behind.side) == (1, -1)


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("point:nowhere", "neck"),
        ("neck", "point:nowhere"),
        ("neck", "neck"),
        ("edge:left", "edge:left"),
        ("neck", "saddle"),
        ("point:nowhere", "point:nut.left"),
    ],
)
def test_of_an_instrument_too_what_is_not_held_has_no_distance(a: str, b: str) -> None:
    """The board alone: no strings, and so no saddle line."""
    assert how_far(instrument(), a, b) is None
    assert how_far(instrument(), "neck", "point:nut.left") is not None


def test_one_seam_point_makes_no_line() -> None:
    job = instrument()
    kept = tuple(reading for reading in job.readings if "seam.2" not in reading.of)
    assert how_far(replace(job, readings=kept), "seam", "neck") is None
    assert how_far(job, "seam", "neck") is not None


def test_a_point_lies_at_no_distance_from_itself() -> None:
    assert _between(survey(board()), "a", "a") == HowFar(kind="points", distance=0.0, pm95=0.0)
