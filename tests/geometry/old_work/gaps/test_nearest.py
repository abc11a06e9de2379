"""Nearest places, what lies inside, and areas, against closed formulas and shapely."""

import math

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from geometry.frame import Points
from geometry.old_work.gaps import nearest

SQUARE = np.array([0, 4, 4 + 3j, 3j])
DENTED = np.array([0, 10, 10 + 8j, 5 + 2j, 8j])
FAR = st.integers(-30_000, 30_000).map(lambda count: count / 1000)
PLACES = st.builds(complex, FAR, FAR)
"""To the thousandth of a mm: nearer to an edge than that nothing is in or out for certain."""


def ring_of(points: Points) -> Polygon:
    return Polygon([(z.real, z.imag) for z in points.tolist()])


def test_a_polygons_area_is_the_shoelace_formulas() -> None:
    # derived: 4 × 3; the dented one is 10 × 8 less the triangle of base 10 and height 6 over its dent
    assert nearest.area(SQUARE) == 12.0
    assert nearest.area(DENTED) == 80.0 - 30.0
    assert nearest.area(SQUARE[::-1]) == -12.0


def test_a_regular_polygons_area_is_that_of_its_triangles() -> None:
    # derived: n triangles with two sides R and the angle 2π/n between them, R²/2 sin(2π/n) each
    for count in (3, 6, 17):
        ring = 5.0 * np.exp(2j * math.pi * np.arange(count) / count)
        assert nearest.area(ring) == pytest.approx(count * 25.0 / 2 * math.sin(2 * math.pi / count))


@given(PLACES)
def test_how_far_inside_agrees_with_shapely(place: complex) -> None:
    depth, near = nearest.inside(np.array([place]), DENTED)
    polygon, spot = ring_of(DENTED), Point(place.real, place.imag)
    far = polygon.exterior.distance(spot)
    assert abs(depth[0]) == pytest.approx(far, abs=1e-9)
    if far > 1e-9:
        assert (depth[0] > 0) == polygon.contains(spot)
    at = near.at(DENTED, np.roll(DENTED, -1))[0]
    assert abs(at - place) == pytest.approx(far, abs=1e-9)


@given(PLACES, PLACES)
@example(-0.746 - 0.746j, 0.088 + 0.088j)  # through a corner
def test_an_edge_is_parted_as_shapely_parts_it(start: complex, stop: complex) -> None:
    parts = nearest.parted(np.array([start]), np.array([stop]), DENTED)
    assert parts.low[0] == 0.0
    assert parts.high[-1] == 1.0
    within = float(((parts.high - parts.low) * parts.inside).sum()) * abs(stop - start)
    line = LineString([(start.real, start.imag), (stop.real, stop.imag)])
    if line.intersection(ring_of(DENTED).exterior).length < 1e-9:  # on an edge it is neither in nor out
        assert within == pytest.approx(line.intersection(ring_of(DENTED)).length, abs=1e-6)


def test_how_narrow_an_outline_is() -> None:
    assert nearest.narrow(SQUARE * np.exp(0.7j) + 5) == pytest.approx(3.0)
