"""Where shifted lines and arcs cross, how arcs are cut and corners rounded: by triangles whose sides are known."""

import cmath
import math

import pytest

from export.drawing.marks import XY, Arc, Circle, Line, Path
from export.errors import ExportError
from export.machine.offset import _arc_arc, _arc_to, _crossing, _direction, _line_arc, _round, offset, round_corners

TURNS = [(0.0, 0j), (0.7, 5 - 3j), (-2.0, 100 + 40j), (math.pi / 2, 1j)]
turns = pytest.mark.parametrize(("turn", "shift"), TURNS)


def laid(z: complex, turn: float, shift: complex) -> XY:
    at = z * cmath.rect(1, turn) + shift
    return at.real, at.imag


def places(found: list[XY], turn: float, shift: complex) -> list[tuple[float, float]]:
    """Crossings turned back again, to 1 nm."""
    back = [(complex(*at) - shift) * cmath.rect(1, -turn) for at in found]
    return sorted((round(z.real, 6) + 0.0, round(z.imag, 6) + 0.0) for z in back)


@turns
@pytest.mark.parametrize(
    ("radius", "xs"),
    # derived: a line 3 mm off the middle; 3-4-5, and as near to touching as √(3.1² − 3²)
    [(5.0, [-4.0, 4.0]), (3.1, [-0.781025, 0.781025]), (2.9, [])],
)
@pytest.mark.parametrize("backward", [False, True])
def test_a_line_crosses_an_arc(turn: float, shift: complex, radius: float, xs: list[float], backward: bool) -> None:
    a, b = (laid(z, turn, shift) for z in (-20 + 3j, -12 + 3j))
    line = Line(b, a) if backward else Line(a, b)
    found = _line_arc(line, Arc(laid(0j, turn, shift), radius, 0.0, 1.0))
    assert places(found, turn, shift) == [(x, 3.0) for x in xs]


@turns
@pytest.mark.parametrize(
    ("apart", "one", "other", "at"),
    # derived: the triangle of 13, 14 and 15, and of 5, 5 and 6; nearly touching; too far; one within the other
    [
        (14.0, 13.0, 15.0, (5.0, 12.0)),
        (6.0, 5.0, 5.0, (3.0, 4.0)),
        (9.95, 5.0, 5.0, (4.975, 0.499375)),
        (10.1, 5.0, 5.0, None),
        (2.0, 5.0, 2.9, None),
        (0.0, 5.0, 5.0, None),
    ],
)
def test_an_arc_crosses_an_arc(
    turn: float, shift: complex, apart: float, one: float, other: float, at: XY | None
) -> None:
    first, second = Arc(laid(0j, turn, shift), one, 0.0, 1.0), Arc(laid(apart + 0j, turn, shift), other, 0.0, 1.0)
    assert places(_arc_arc(first, second), turn, shift) == ([] if at is None else [(at[0], -at[1]), at])


def test_of_two_crossings_the_one_at_the_corner_is_taken() -> None:
    line, arc = Line((-20.0, 3.0), (20.0, 3.0)), Arc((0.0, 0.0), 5.0, 0.0, 1.0)
    for near, x in (((3.0, 2.0), 4.0), ((-3.0, 2.0), -4.0)):
        assert _crossing(line, arc, near) == pytest.approx((x, 3.0))
        assert _crossing(arc, line, near) == pytest.approx((x, 3.0))
    assert _crossing(Line((0.0, 0.0), (1.0, 0.0)), Line((5.0, 7.0), (5.0, 9.0)), (0.0, 0.0)) == pytest.approx(
        (5.0, 0.0)
    )
    assert _crossing(Line((0.0, 0.0), (1.0, 0.0)), Line((5.0, 7.0), (6.0, 7.0)), (0.0, 0.0)) is None


@pytest.mark.parametrize(
    ("start", "stop", "right", "sweep"),
    [((2.0, 0.0), (0.0, 2.0), 2.0, 90.0), ((2.0, 0.0), (0.0, 2.0), -2.0, -270.0), ((0.0, -2.0), (2.0, 0.0), 2.0, 90.0)],
)
def test_a_corner_is_rounded_the_way_the_outline_goes(start: XY, stop: XY, right: float, sweep: float) -> None:
    """To the left where the offset lies at the right, and to the right else, by less than a whole turn."""
    corner = (7.0, -3.0)
    here, there = ((corner[0] + x, corner[1] + y) for x, y in (start, stop))
    arc = _round(corner, here, there, right)
    assert (arc.centre, arc.radius) == (corner, 2.0)
    assert arc.start == pytest.approx(math.atan2(start[1], start[0]))
    assert math.degrees(arc.sweep) == pytest.approx(sweep)


@pytest.mark.parametrize(
    ("sweep", "start", "stop", "cut"),
    [(1.0, 0.2, 0.9, 0.7), (1.0, 0.9, 0.2, math.tau - 0.7), (-1.0, 0.9, 0.2, -0.7), (-1.0, 0.2, 0.9, 0.7 - math.tau)],
)
def test_an_arc_that_is_cut_goes_on_the_same_way(sweep: float, start: float, stop: float, cut: float) -> None:
    found = _arc_to(Arc((1.0, 2.0), 3.0, 0.0, sweep), start, stop)
    assert (found.centre, found.radius, found.start) == ((1.0, 2.0), 3.0, start)
    assert found.sweep == pytest.approx(cut)


@pytest.mark.parametrize(("sweep", "first", "last"), [(math.pi / 2, 1j, -1 + 0j), (-math.pi / 2, -1j, -1 + 0j)])
def test_the_way_an_arc_goes(sweep: float, first: complex, last: complex) -> None:
    """Square to its radius, at its beginning and at its end."""
    arc = Arc((4.0, 5.0), 2.0, 0.0, sweep)
    assert complex(*_direction(arc, last=False)) == pytest.approx(first)
    assert complex(*_direction(arc, last=True)) == pytest.approx(last)


def both_ways(*vertices: tuple[float, float, float]) -> list[Path]:
    """An outline counter-clockwise and clockwise; a bulge belongs to what follows its vertex."""
    back = [(x, y, -vertices[at - 1][2]) for at, (x, y, _) in enumerate(vertices)][::-1]
    return [Path(vertices, closed=True), Path(tuple(back), closed=True)]


QUARTER = math.tan(math.pi / 8)
"""The bulge of a quarter of a circle."""


def rounded(r: float) -> list[Path]:
    """A slot of 20 by 10 with round corners, counter-clockwise and clockwise."""
    corners = [(r, 0.0), (20 - r, 0.0), (20.0, r), (20.0, 10 - r), (20 - r, 10.0), (r, 10.0), (0.0, 10 - r), (0.0, r)]
    return both_ways(*((x, y, QUARTER * (at % 2)) for at, (x, y) in enumerate(corners)))


@pytest.mark.parametrize(("tool", "stay"), [(1.0, 0), (3.8, 0), (4.2, 4), (4.9, 4)])
def test_an_inside_corner_that_is_rounder_than_the_tool_is_cut(tool: float, stay: int) -> None:
    assert [round_corners(path, tool) for path in rounded(2.0)] == [stay, stay]


@pytest.mark.parametrize("tool", [0.5, 16.0])
def test_corners_that_stand_into_the_slot_are_none(tool: float) -> None:
    """An L has five inside corners, and one that the tool goes round; a bulge into the slot is gone round
    as well, but for the two corners where it begins and ends."""
    ell = both_ways(*((x, y, 0.0) for x, y in ((0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30))))
    assert [round_corners(path, tool) for path in ell] == [5, 5]
    bulging = both_ways((0, 0, 0), (10, 0, -QUARTER), (20, 0, 0), (30, 0, 0), (30, 30, 0), (0, 30, 0))
    assert [round_corners(path, tool) for path in bulging] == [6, 6]


@pytest.mark.parametrize(("bend", "stay"), [(0.009, 4), (0.011, 5), (0.013, 5)])
def test_a_side_that_bends_by_a_hundredth_has_a_corner(bend: float, stay: int) -> None:
    """Radians; less is what rounding makes of a straight side."""
    paths = both_ways((0, 0, 0), (10, -10 * math.tan(bend / 2), 0), (20, 0, 0), (20, 10, 0), (0, 10, 0))
    assert [round_corners(path, 1.0) for path in paths] == [stay, stay]


@pytest.mark.parametrize(("by", "left"), [(-2.485, 0.015), (-2.488, 0.012), (-2.492, None), (-3.0, None)])
def test_what_is_left_of_a_hole_is_a_hundredth_at_least(by: float, left: float | None) -> None:
    hole = Circle((1.0, 2.0), 2.5)
    if left is None:
        with pytest.raises(ExportError, match=r"too large for the pin, which is 5\.00 mm wide"):
            offset(hole, by, "pin")
    else:
        assert offset(hole, by, "pin").radius == pytest.approx(left)  # type: ignore[union-attr]  # it is a circle
