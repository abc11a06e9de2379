"""Bridge outlines: closed, tangent, and as large as they say."""

import math

import pytest

from geometry.bridge.bridge_outline import Belly, back_at, outline
from geometry.job import Bridge

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
