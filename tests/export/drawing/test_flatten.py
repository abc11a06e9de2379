"""Bulges, arcs and boxes."""

import itertools
import math

import pytest

from export.drawing.flatten import Box, arc_between, arc_points, box, path_points, pieces
from export.drawing.marks import Arc, Circle, Line, Path

HALF = 1.0
"""The bulge of half a circle: tan(180° / 4)."""


def test_a_bulge_of_one_is_half_a_circle_to_the_right_of_its_chord() -> None:
    arc = arc_between((0.0, 0.0), (10.0, 0.0), HALF)
    assert arc.centre == pytest.approx((5.0, 0.0))
    assert arc.radius == pytest.approx(5.0)
    assert arc.sweep == pytest.approx(math.pi)
    assert box(arc) == pytest.approx((0.0, -5.0, 10.0, 0.0))


def test_a_quarter_turn() -> None:
    """derived: from (1, 0) to (0, 1) about the origin the bulge is tan(90° / 4)."""
    arc = arc_between((1.0, 0.0), (0.0, 1.0), math.tan(math.pi / 8))
    assert arc.centre == pytest.approx((0.0, 0.0), abs=1e-12)
    assert arc.radius == pytest.approx(1.0)


def test_chords_keep_to_the_arc() -> None:
    arc = Arc((0.0, 0.0), 100.0, 0.0, 1.0)
    points = arc_points(arc, 0.01)
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in itertools.pairwise(points)]
    assert max(100.0 - math.hypot(*middle) for middle in middles) <= 0.01


def test_pieces_leave_out_what_has_no_length() -> None:
    path = Path(((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (5.0, 0.0, 0.0)), closed=True)
    assert list(pieces(path)) == [Line((0.0, 0.0), (5.0, 0.0)), Line((5.0, 0.0), (0.0, 0.0))]


def test_a_closed_path_does_not_repeat_its_first_point() -> None:
    square = Path(((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 1.0, 0.0), (0.0, 1.0, 0.0)), closed=True)
    assert path_points(square, 0.1) == [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]


def test_box_of_a_circle() -> None:
    assert box(Circle((1.0, 2.0), 3.0)) == Box(-2.0, -1.0, 4.0, 5.0)
