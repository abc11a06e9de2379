"""Bridge outlines: closed, tangent, and as large as they say."""

import math
from typing import Any

import numpy as np
import pytest
from shapely import LineString, Polygon

from geometry.bridge.belly import Belly
from geometry.bridge.bridge_outline import back_at, corners, edges_at, front_at, outline, tips
from geometry.job import Bridge
from geometry.job.checks import NotAJob
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.uncovered import followed
from tests.in_one import in_one

BELLY = Bridge(length=152.0, width=26.0, belly_depth=11.0)


def test_a_straight_bridge_is_a_rectangle() -> None:
    corners = outline(Bridge(outline="straight", length=180.0, width=28.0))
    assert corners == ((0, 90, 0), (0, -90, 0), (28, -90, 0), (28, 90, 0))


def test_the_belly_stands_out_by_its_depth_in_the_middle() -> None:
    assert back_at(BELLY, 0.0) == pytest.approx(37.0)  # derived: 26 + 11


def test_the_belly_meets_the_wings_where_it_begins() -> None:
    belly = Belly(BELLY)
    assert back_at(BELLY, belly.reach) == pytest.approx(26.0)
    assert back_at(BELLY, -belly.reach + 1e-9) == pytest.approx(26.0)


def test_the_outline_is_followed_by_its_bulges() -> None:
    # derived: the crown's bulge over its chord gives the sagitta bulge × chord / 2, which reaches the belly's depth
    _, _, _, _, (x, y, bulge), *_ = outline(BELLY)
    assert x + bulge * 2 * abs(y) / 2 == pytest.approx(37.0)


def test_the_back_is_the_same_on_both_sides() -> None:
    belly = Belly(BELLY)
    back = [(x, y) for x, y, _ in outline(BELLY)[3:7]]
    assert back == [(x, -y) for x, y in reversed(back)]
    assert back[2:] == [belly.joint, (26.0, belly.reach)]


def test_hollow_and_crown_are_tangent_where_they_meet() -> None:
    # derived: both arcs turn by the same angle there, so the hollow's sweep is half the crown's
    _, _, _, (_, _, hollow), (_, _, crown), *_ = outline(BELLY)
    assert 4 * math.atan(abs(hollow)) == pytest.approx(4 * math.atan(crown) / 2)


def test_back_at_is_even_and_never_in_front_of_the_wings() -> None:
    for y in (0.0, 10.0, 30.0, 46.0, 60.0):
        assert back_at(BELLY, y) == back_at(BELLY, -y) >= 26.0


def test_a_belly_of_no_depth_is_a_straight_edge() -> None:
    for depth in (0.0, 1e-300):
        assert outline(Bridge(length=152.0, width=26.0, belly_depth=depth)) == outline(Bridge(outline="straight"))


def test_a_usual_belly_never_stands_out_farther_than_it_reaches() -> None:
    stubby = Bridge(length=30.0, width=60.0)
    assert back_at(stubby, 0.0) == pytest.approx(60.0 + 0.31 * 30.0)


NAMES = ("straight", "belly", "reversed belly", "stepped wings", "tapered wings", "pyramid")
KITE = ((0.0, 10.0), (4.0, -40.0), (20.0, 0.0), (6.0, 40.0))


def of(name: str, **changes: Any) -> Bridge:
    return Bridge(outline=name, length=152.0, width=26.0, **changes)  # type: ignore[arg-type]  # an outline's name


def traced(points: tuple[tuple[float, float], ...] = KITE, length: float = 80.0, width: float = 20.0) -> Bridge:
    return Bridge(outline="traced", length=length, width=width, traced=points)


@pytest.mark.parametrize("name", NAMES)
def test_every_outline_goes_round_counter_clockwise_through_its_corners(name: str) -> None:
    bridge = of(name)
    ring = followed(bridge)
    assert nearest.area(ring) >= 152.0 * 26.0 - 1e-9
    for corner in corners(bridge):
        assert corner in [(x, y) for x, y, _ in outline(bridge)]


@in_one("name", NAMES)
@in_one("y", [0.0, 3.0, 30.0, 44.0, 60.0, -60.0, -20.0])
def test_front_and_back_are_where_the_outline_is(name: str, y: float) -> None:
    bridge = of(name)
    ring = Polygon([(z.real, z.imag) for z in followed(bridge).tolist()])
    x0, _, x1, _ = ring.intersection(LineString([(-99.0, y), (99.0, y)])).bounds
    # chords of 0.05 rad lie within R (1 − cos 0.025) of their arcs (derived): 0.05 mm for the crown's 140
    assert (front_at(bridge, y), back_at(bridge, y)) == pytest.approx((x0, x1), abs=0.06)


def test_a_reversed_belly_is_the_belly_before_the_front() -> None:
    for y in (0.0, 10.0, 40.0, 60.0):
        assert front_at(of("reversed belly"), y) == pytest.approx(26.0 - back_at(of("belly"), y))
        assert back_at(of("reversed belly"), y) == 26.0


def test_stepped_and_tapered_wings_begin_where_they_are_said_to() -> None:
    # derived: the middle is 152 − 2 × 30 long and stands out 8; halfway along a tapered wing half of it is left
    stepped, tapered = (of(f"{kind} wings", belly_depth=8.0, wing_length=30.0) for kind in ("stepped", "tapered"))
    assert [back_at(stepped, y) for y in (0.0, 45.9, 46.1, 76.0)] == [34.0, 34.0, 26.0, 26.0]
    assert [back_at(tapered, y) for y in (0.0, 46.0, 61.0, 76.0)] == pytest.approx([34.0, 34.0, 30.0, 26.0])


def test_pyramid_ends_are_straight_from_above() -> None:
    assert outline(of("pyramid")) == outline(of("straight"))


def test_a_traced_outline_runs_through_its_points_whichever_way_they_were_taken() -> None:
    bridge = traced()
    assert {(x, y) for x, y, _ in outline(bridge)} == set(KITE)
    assert outline(traced(KITE[::-1])) == outline(bridge)
    assert tips(bridge) == (6 + 40j, 4 - 40j)
    # derived: at y = 0 its front lies a fifth of the way from (0, 10) to (4, −40), its back at the corner (20, 0)
    assert (front_at(bridge, 0.0), back_at(bridge, 0.0)) == pytest.approx((0.8, 20.0))


def test_past_its_tips_a_traced_outline_is_as_there() -> None:
    """derived: a tip is a corner; half a millimetre before one its front and its back are where its sides come to"""
    bridge = traced()
    for y, at in ((40.0, 6.0), (45.0, 6.0), (-40.0, 4.0), (-99.0, 4.0)):
        assert (front_at(bridge, y), back_at(bridge, y)) == pytest.approx((at, at))
    front, back = edges_at(bridge, np.array([39.0, -39.0]))
    assert front == pytest.approx([6.0 * 29 / 30, 4.0 * 49 / 50])
    assert back == pytest.approx([6.0 + 14.0 / 40, 4.0 + 16.0 / 40])


def test_a_traced_outline_with_a_straight_end_is_as_deep_as_that() -> None:
    block = traced(((0.0, 40.0), (0.0, -40.0), (20.0, -40.0), (20.0, 40.0)))
    for y in (40.0, -40.0, 0.0, 50.0):
        assert (front_at(block, y), back_at(block, y)) == (0.0, 20.0)


def test_an_outline_to_be_traced_is_straight_until_it_is() -> None:
    assert outline(of("traced")) == outline(of("straight"))


@pytest.mark.parametrize(
    ("points", "says"),
    [
        (((0.0, 40.0), (20.0, -40.0), (0.0, -40.0), (20.0, 40.0)), "crosses itself"),
        (((0.0, 40.0), (0.0, -40.0)), "needs 3"),
        (((0.0, 40.0), (0.0, -40.0), (21.0, -40.0), (21.0, 40.0)), "21 mm deep"),
        (((0.0, 41.0), (0.0, -39.0), (20.0, -39.0), (20.0, 41.0)), "from the middle"),
    ],
)
def test_a_traced_outline_that_is_none_is_refused_in_a_sentence(points: Any, says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        traced(points)


def test_wings_that_leave_no_middle_are_refused() -> None:
    with pytest.raises(NotAJob, match="leave no middle"):
        of("stepped wings", wing_length=76.0)


@pytest.mark.parametrize("past", [0.0, 0.5, 5.0])
def test_beyond_its_reach_a_belly_stands_out_by_nothing(past: float) -> None:
    belly = Belly(BELLY)
    assert belly.out_at(belly.reach + past) == 0.0
    assert belly.out_at(-belly.reach - past) == 0.0
    assert belly.out_at(belly.reach - 0.5) > 0.0
