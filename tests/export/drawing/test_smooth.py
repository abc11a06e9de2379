"""Smooth outlines through measured points."""

import math

import pytest

from export.drawing.flatten import arc_ends, pieces
from export.drawing.marks import XY, Arc, Line
from export.drawing.smooth import biarc, closed_curve


def ring(count: int, radius: float) -> tuple[XY, ...]:
    return tuple(
        (radius * math.cos(k * math.tau / count), radius * math.sin(k * math.tau / count)) for k in range(count)
    )


def test_points_of_a_circle_give_the_circle() -> None:
    for piece in pieces(closed_curve(ring(8, 100.0))):
        assert isinstance(piece, Arc)
        assert piece.radius == pytest.approx(100.0)
        assert piece.centre == pytest.approx((0.0, 0.0), abs=1e-9)


def test_pieces_meet_without_a_corner() -> None:
    body = ((0.0, 0.0), (30.0, 60.0), (120.0, 70.0), (200.0, 55.0), (330.0, 90.0), (400.0, 0.0), (200.0, -70.0))
    found = list(pieces(closed_curve(body)))
    for one, other in zip(found, [*found[1:], found[0]], strict=True):
        assert direction(one, True) == pytest.approx(direction(other, False), abs=1e-6)


def direction(piece: Arc | Line, last: bool) -> XY:
    if isinstance(piece, Line):
        length = math.dist(piece.a, piece.b)
        return (piece.b[0] - piece.a[0]) / length, (piece.b[1] - piece.a[1]) / length
    way = math.copysign(1.0, piece.sweep)
    angle = piece.start + (piece.sweep if last else 0.0)
    return -way * math.sin(angle), way * math.cos(angle)


def test_it_passes_through_every_point() -> None:
    points = ((0.0, 0.0), (50.0, 40.0), (100.0, 0.0), (50.0, -70.0))
    starts = [arc_ends(p)[0] if isinstance(p, Arc) else p.a for p in pieces(closed_curve(points))]
    for point in points:
        assert min(math.dist(point, start) for start in starts) < 1e-9


def test_a_straight_stretch_stays_straight() -> None:
    first, second = biarc((0.0, 0.0), (1.0, 0.0), (10.0, 0.0), (1.0, 0.0))
    assert first == pytest.approx((0.0, 0.0, 0.0))
    assert second == pytest.approx((5.0, 0.0, 0.0))
