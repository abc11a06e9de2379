"""The ± of points in the neck frame, against instruments drawn from the survey's covariance."""

import msgspec
import numpy as np
import pytest

from geometry.frame import Array
from geometry.neck.find_neck import find_neck
from geometry.perturbed_states import perturb
from geometry.placed.placed_points import place_points, rough_places
from geometry.survey.result import Surveyed
from tests.geometry.made import BOARD, job, surveyed

POINTS = BOARD | {"edge.left.1": (200.0, 24.9), "seam.1": (700.0, 4.0), "old.1": (640.0, -70.0)}
MAKERS = [name for name in POINTS if name.startswith(("nut.", "end.", "edge."))]
DRAWS = 4000


def known() -> Surveyed:
    """Points whose errors hang together in every way, each of 0.1 to 0.4 mm."""
    random = np.random.default_rng(5)
    found = surveyed(POINTS, {})
    mixed = random.normal(0, 0.1, (len(found.state), len(found.state) + 4))
    return msgspec.structs.replace(found, cov=mixed @ mixed.T)


def placed(found: Surveyed) -> Array:
    """All points in the neck frame, (2n,)."""
    seen = perturb(found, MAKERS, ())
    frame = find_neck(seen, job(POINTS))
    assert frame is not None
    return np.array([value for point in place_points(seen, frame).values() for value in (point.x, point.y)])


@pytest.fixture(scope="module")
def drawn() -> Array:
    """The covariance of all places over many instruments, (2n, 2n)."""
    random = np.random.default_rng(11)
    found = known()
    states = random.multivariate_normal(found.state, found.cov, DRAWS)
    return np.cov(np.array([placed(msgspec.structs.replace(found, state=state)) for state in states]).T)


@pytest.mark.parametrize("name", list(POINTS))
def test_the_covariance_is_that_of_many_instruments(name: str, drawn: Array) -> None:
    # 4,000 draws leave 1.1 % of a standard deviation (1/sqrt(2 n)); 5 % is more than four times that
    found = known()
    seen = perturb(found, MAKERS, ())
    point = place_points(seen, find_neck(seen, job(POINTS)))[name]
    at = 2 * list(POINTS).index(name)
    assert point.sx == pytest.approx(drawn[at, at] ** 0.5, rel=0.05)
    assert point.sy == pytest.approx(drawn[at + 1, at + 1] ** 0.5, rel=0.05)
    assert point.sxy == pytest.approx(drawn[at, at + 1], abs=0.05 * point.sx * point.sy)


def test_the_nut_lies_on_the_frame_it_makes() -> None:
    # derived: the frame's origin is on the nut's front, so of the corners' x only their difference is left
    point = place_points(perturb(surveyed(BOARD, {}), list(BOARD), ()), None)["nut.left"]
    assert (point.sx, point.sy, point.sxy) == pytest.approx((0.1, 0.1, 0.0))
    seen = perturb(surveyed(BOARD, {}), list(BOARD), ())
    left, right = (place_points(seen, find_neck(seen, job()))[f"nut.{side}"] for side in ("left", "right"))
    assert left.sx == pytest.approx(right.sx)
    assert left.sx < 0.1


def test_points_that_are_not_solved_are_placed_roughly() -> None:
    found = msgspec.structs.replace(surveyed(BOARD, {}), rough={"seam.1": (500.0, 3.0)})
    seen = perturb(found, list(BOARD), ())
    assert rough_places(found, None)["seam.1"] == (500.0, 3.0)
    assert rough_places(found, find_neck(seen, job()))["seam.1"] == pytest.approx((500.0, 3.0))


def test_no_points_are_no_points() -> None:
    found = surveyed({}, {})
    assert place_points(perturb(found, (), ()), None) == {}
