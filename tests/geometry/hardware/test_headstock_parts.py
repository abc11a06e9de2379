"""The headstock's small sums: what lies inside an outline, how far a side is, which plug a hole wants, against shapely
and by hand.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from geometry.hardware.headstock_and_posts import _by_string, _plugs
from geometry.hardware.near_posts import is_inside, to_side
from geometry.hardware.post_rows import PostRow
from geometry.job import Job, Tuners
from geometry.job.sides import Side
from geometry.layout import HeadstockPlan, Hole, Plug, Post, Ray
from tests.export.conftest import strings

DENTED = np.array([0, 10, 10 + 8j, 5 + 2j, 8j])
FAR = st.integers(-15_000, 15_000).map(lambda count: count / 1000)
PLACES = st.builds(complex, FAR, FAR)


@given(PLACES)
def test_inside_an_outline_agrees_with_shapely(at: complex) -> None:
    ring = Polygon([(z.real, z.imag) for z in DENTED.tolist()])
    spot = Point(at.real, at.imag)
    if ring.exterior.distance(spot) > 1e-6:
        assert is_inside(at, DENTED) == ring.contains(spot)


@given(PLACES, PLACES, PLACES)
def test_how_far_a_side_is_agrees_with_shapely(at: complex, start: complex, stop: complex) -> None:
    side = LineString([(start.real, start.imag), (stop.real, stop.imag)])
    found = to_side(np.array([at]), np.array([start]), np.array([stop]))
    assert found.tolist() == pytest.approx([side.distance(Point(at.real, at.imag))], abs=1e-6)


def plug(diameter: float, away: float = 100.0, again: str = "", bushing: float | None = None) -> tuple[Plug, ...]:
    """For an old hole and one new post of 6 mm so far from it, middle to middle."""
    old = Hole(name="post.1", at=(-50.0, 20.0), diameter=diameter)
    plan = HeadstockPlan(
        outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(old,), old_screws=(), posts=()
    )
    post = Post(
        string="3", side="left", at=(-50.0 - away, 20.0), pm95=(0.1, 0.1), diameter=6.0, bushing=bushing, again=again
    )
    return _plugs(Job(), plan, (post,), Tuners(post=6.0, bushing=bushing))


@pytest.mark.parametrize(
    ("diameter", "wanted"), [(2.0, 2.5), (3.0, 3.5), (6.2, 8.0), (6.5, 8.0), (19.5, 20.0), (20.0, 20.5), (25.0, 25.5)]
)
def test_a_hole_is_plugged_in_the_next_size(diameter: float, wanted: float) -> None:
    """Usual plug cutters to 20 mm; the next half mm for a dowel and for what no cutter is wide enough for (common
    practice, no source)
    """
    (found,) = plug(diameter)
    assert (found.plug, found.diameter, found.before) == (wanted, diameter, ())


@pytest.mark.parametrize(
    ("away", "bushing", "before"),
    [
        # derived: 3 mm and 4 mm of radius, and 1.5 mm of wood between
        (8.49, None, ("3",)),
        (8.51, None, ()),
        (10.49, 10.0, ("3",)),
        (10.51, 10.0, ()),
    ],
)
def test_a_post_waits_for_the_plug_that_is_near(away: float, bushing: float | None, before: tuple[str, ...]) -> None:
    (found,) = plug(8.0, away, bushing=bushing)
    assert found.before == before


def test_a_hole_that_is_used_again_has_no_plug() -> None:
    assert plug(8.0, 0.0, again="post.1") == ()


@pytest.mark.parametrize(
    ("left", "right", "wanted"),
    [
        (3, 3, (("1", "2", "3"), ("6", "5", "4"))),
        (6, 0, (("1", "2", "3", "4", "5", "6"), ())),
        (4, 2, (("1", "2", "3", "4"), ("6", "5"))),
        # each string once, round by round from the nut
        (7, 1, (("1", "2", "3", "4", "5", "", ""), ("6",))),
        (4, 3, (("1", "2", "3", ""), ("6", "5", "4"))),
        (2, 2, (("1", "2"), ("6", "5"))),
    ],
)
def test_the_outermost_string_goes_to_the_first_post(
    left: int, right: int, wanted: tuple[tuple[str, ...], ...]
) -> None:
    sides: tuple[tuple[Side, int], ...] = (("left", left), ("right", right))
    rows = [PostRow(side, np.zeros((1, count), dtype=complex), ("",) * count) for side, count in sides]
    found = _by_string(rows, strings())
    assert (found["left"], found["right"]) == wanted
