"""The steps of reading an outline: arcs and transforms as the standard has them, lines joined, letters' curves."""

import cmath
import math

import pytest

from export.machine.letter_outlines import _quadratic, _tidy
from export.machine.outline_dxf import _joined
from export.machine.outline_svg import PIECES, _after, _arc, _transform
from tests.in_one import in_one


@in_one("tilt", [0.0, 30.0, -75.0])
@in_one("by", [40.0, 170.0, 190.0, 300.0, -40.0, -170.0, -190.0, -300.0])
@in_one("first", [10.0, 200.0])
def test_an_arc_runs_along_its_ellipse(tilt: float, by: float, first: float) -> None:
    """derived: so many degrees of an ellipse of 20 by 10, from its own equation; the flags by Scalable Vector Graphics
    (SVG) 1.1, 8.3.8: more than half a turn, and the way to which angles grow.
    """

    def at(degrees: float) -> complex:
        turn = math.radians(degrees)
        return 7 - 4j + complex(20 * math.cos(turn), 10 * math.sin(turn)) * cmath.rect(1, math.radians(tilt))

    found = _arc(at(first), at(first + by), [20, 10, tilt, float(abs(by) > 180), float(by > 0), 0, 0])
    assert found == pytest.approx([at(first + by * step / PIECES) for step in range(1, PIECES + 1)])


@pytest.mark.parametrize("sweep", [0.0, 1.0])
def test_radii_that_do_not_reach_are_made_as_large_as_they_must_be(sweep: float) -> None:
    """derived: half a circle of 20 over a chord of 40 (F.6.6 there)."""
    found = _arc(3 + 1j, 43 + 1j, [5, 5, 0, 0, sweep, 0, 0])
    assert [abs(z - (23 + 1j)) for z in found] == pytest.approx([20.0] * PIECES)
    assert found[PIECES // 2 - 1] == pytest.approx(23 + 1j + (-20j if sweep else 20j))


@pytest.mark.parametrize("radii", [(0, 5), (5, 0)])
def test_an_arc_without_a_radius_is_a_line(radii: tuple[float, float]) -> None:
    assert _arc(0j, 40 + 1j, [*radii, 0, 0, 1, 0, 0]) == [40 + 1j]
    assert _arc(5j, 5j, [9, 9, 0, 0, 1, 0, 0]) == [5j]


@in_one(
    ("called", "values", "to"),
    # where 5, 3 comes to (derived: chapter 7.6 there)
    [
        ("matrix", [2, 3, 5, 7, 11, 13], (2 * 5 + 5 * 3 + 11, 3 * 5 + 7 * 3 + 13)),
        ("translate", [10], (15, 3)),
        ("translate", [10, 20], (15, 23)),
        ("scale", [2], (10, 6)),
        ("scale", [2, -3], (10, -9)),
        ("rotate", [90], (-3, 5)),
        ("rotate", [90, 1, 2], (0, 6)),
        ("rotate", [-90, 1, 2], (2, -2)),
        ("skewX", [math.degrees(math.atan(2))], (5 + 2 * 3, 3)),
        ("skewY", [math.degrees(math.atan(2))], (5, 3 + 2 * 5)),
        ("twist", [2], (5, 3)),
        ("skewX", [1, 2], (5, 3)),
    ],
)
def test_where_a_transform_brings_a_place(called: str, values: list[float], to: tuple[float, float]) -> None:
    def brought(turned: tuple[complex, complex, complex], z: complex) -> complex:
        a, b, c = turned
        return a * z + b * z.conjugate() + c

    made = _transform(called, values)
    assert brought(made, 5 + 3j) == pytest.approx(complex(*to))
    inner = _transform("matrix", [1, 2, -3, 4, 5, -6])
    assert brought(_after(made, inner), 5 + 3j) == pytest.approx(brought(made, brought(inner, 5 + 3j)))


A, B, C, D = 0j, 10 + 0j, 10 + 10j, 10j


@pytest.mark.parametrize(
    "lines",
    [
        [[A, B, C, D, A]],
        [[A, B], [B, C], [C, D], [D, A]],
        [[A, B], [C, B], [C, D], [A, D]],
        [[A, B, C], [A, D, C]],
        [[A, B, C], [C + 0.05, D, A]],
        [[A, B, C, D, A + 0.05]],
        [[C, D, A], [D, 5 + 20j], [A, B, C]],
    ],
)
def test_lines_are_joined_end_to_end(lines: list[list[complex]]) -> None:
    """Whichever way round each was drawn, and with gaps no wider than a tenth."""
    (found,) = _joined(lines, 0.1)
    assert len(found) == 4
    area = sum((a.conjugate() * b).imag for a, b in zip(found, [*found[1:], found[0]], strict=True)) / 2
    assert abs(area) == pytest.approx(100.0, abs=0.6)


@pytest.mark.parametrize(
    "lines",
    [
        [],
        [[A]],
        [[A, B], [B, C], [C, D]],
        [[A, B, C], [C + 0.15, D, A]],
        [[A, B, C, D, A + 0.15]],
        [[A, B], [B, A]],
        [[A, B, A]],
    ],
)
def test_what_is_not_closed_is_no_outline(lines: list[list[complex]]) -> None:
    assert _joined(lines, 0.1) == []


def test_each_closed_line_is_an_outline_of_its_own() -> None:
    far = 100 + 0j
    found = _joined([[A, B, C, A], [far + A, far + B], [far + C, far + B], [far + A, far + C]], 0.1)
    assert [len(line) for line in found] == [3, 3]


@pytest.mark.parametrize(("strays", "steps"), [(0.5, 1), (0.99, 1), (1.01, 2), (8.9, 3), (9.1, 4), (15.9, 4)])
def test_a_curve_is_cut_as_often_as_its_chords_would_stray(strays: float, steps: int) -> None:
    """derived: |a − 2b + c| / 4 over the steps' square is what a chord strays by, here as many hundredths."""
    off, a, c = 0.01, (3.0, 1.0), (5.0, 1.0)
    b = (4.0, 1.0 + 2 * off * strays)
    found = _quadratic(a, b, c, off)
    assert len(found) == steps
    for k, (x, y) in enumerate(found, 1):
        t = k / steps
        assert x == pytest.approx(3 + 2 * t)
        assert y == pytest.approx(1 + 2 * t * (1 - t) * (b[1] - 1))


def test_a_leaning_curve_runs_through_its_own_places() -> None:
    """derived: in the middle a quarter of its ends and half of its bend"""
    found = _quadratic((0.0, 0.0), (8.0, 2.0), (4.0, 10.0), 0.9)
    assert len(found) == 2
    assert found[0] == pytest.approx((5.0, 3.5))
    assert found[1] == pytest.approx((4.0, 10.0))


def test_a_point_that_is_repeated_is_left_out() -> None:
    near, far = 5e-7, 2e-6
    ring = [(0.0, 0.0), (near, 0.0), (1.0, 0.0), (1.0 + far, 0.0), (1.0, 1.0), (0.0, near), (0.0, 0.0)]
    assert _tidy(ring) == ((0.0, 0.0), (1.0, 0.0), (1.0 + far, 0.0), (1.0, 1.0))
    assert _tidy([(0.0, 0.0), (0.0, 0.0)]) == ((0.0, 0.0),)
