"""Edges offset for kerf and cutter."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from export.drawing.flatten import path_points, pieces
from export.drawing.marks import Arc, Circle, Mark, Path
from export.errors import ExportError
from export.machine.offset import _agrees, offset, offset_marks, round_corners
from tests.export.conftest import belly_outline

SQUARE = Path(((0.0, 0.0, 0.0), (20.0, 0.0, 0.0), (20.0, 10.0, 0.0), (0.0, 10.0, 0.0)), closed=True)
BRIDGE = Path(belly_outline(0.0, 76.0, 26.0, 9.0), closed=True)


def area(path: Circle | Path) -> float:
    if isinstance(path, Circle):
        return math.pi * path.radius**2
    return float(Polygon(path_points(path, 0.001)).area)


def test_a_circle_stays_a_circle() -> None:
    assert offset(Circle((1.0, 2.0), 2.5), -0.1, "pin") == Circle((1.0, 2.0), 2.4)


def test_a_slot_gets_smaller_and_keeps_sharp_corners() -> None:
    smaller = offset(SQUARE, -1.0, "slot")
    assert isinstance(smaller, Path)
    corners = {(round(x, 9), round(y, 9)) for x, y, _ in smaller.vertices}
    assert corners == {(1.0, 1.0), (19.0, 1.0), (19.0, 9.0), (1.0, 9.0)}


def test_outward_corners_are_true_arcs() -> None:
    """derived: 20 by 10 grown by 2: 200 + 2·60 + π·4."""
    larger = offset(SQUARE, 2.0, "bridge")
    assert isinstance(larger, Path)
    arcs = [piece for piece in pieces(larger) if isinstance(piece, Arc)]
    assert [round(arc.radius, 9) for arc in arcs] == [2.0] * 4
    assert area(larger) == pytest.approx(200 + 120 + 4 * math.pi, abs=0.01)


@given(st.floats(-3.0, 3.0).filter(lambda by: abs(by) > 0.05))
def test_a_belly_keeps_its_arcs(by: float) -> None:
    made = offset(BRIDGE, by, "bridge")
    assert isinstance(made, Path)
    before = sorted(piece.radius for piece in pieces(BRIDGE) if isinstance(piece, Arc))
    after = [piece.radius for piece in pieces(made) if isinstance(piece, Arc)]
    for radius in before:
        assert min(abs(abs(radius - found) - abs(by)) for found in after) < 1e-6
    wanted = Polygon(path_points(BRIDGE, 0.001)).buffer(by, quad_segs=128)
    assert Polygon(path_points(made, 0.001)).symmetric_difference(wanted).area < 0.5


def test_clockwise_outlines_grow_as_well() -> None:
    back = Path(tuple(reversed(SQUARE.vertices)), closed=True)
    assert area(offset(back, 1.0, "bridge")) == pytest.approx(area(offset(SQUARE, 1.0, "bridge")), abs=0.01)


def test_an_inside_corner_that_vanishes_is_still_right() -> None:
    """A hollow of radius 1 grown by 2 closes up: shapely's outline stands in."""
    hollow = Path(
        ((0.0, 0.0, 0.0), (20.0, 0.0, 0.0), (20.0, 10.0, 0.0), (11.0, 10.0, -1.0), (9.0, 10.0, 0.0), (0.0, 10.0, 0.0)),
        closed=True,
    )
    wanted = Polygon(path_points(hollow, 0.001)).buffer(2.0, quad_segs=64)
    assert area(offset(hollow, 2.0, "bridge")) == pytest.approx(wanted.area, abs=0.05)


def test_a_cutter_wider_than_the_slot_is_refused() -> None:
    slot = Path(((0.0, 0.0, 0.0), (76.0, 0.0, 0.0), (76.0, 3.0, 0.0), (0.0, 3.0, 0.0)), closed=True)
    with pytest.raises(ExportError, match=r"cutter of 3\.175 mm is too large for the slot, which is 3\.00 mm wide"):
        offset(slot, -3.175 / 2, "slot")


def test_an_outline_that_crosses_itself_is_refused() -> None:
    crossed = Path(((0.0, 0.0, 0.0), (10.0, 10.0, 0.0), (10.0, 0.0, 0.0), (0.0, 10.0, 0.0)), closed=True)
    with pytest.raises(ExportError, match="crosses itself"):
        offset(crossed, 1.0, "bridge")


def test_what_is_kept_grows_and_what_is_waste_shrinks() -> None:
    marks = (
        Mark(shape=SQUARE, purpose="cut", of="bridge"),
        Mark(shape=Circle((5.0, 5.0), 2.0), purpose="drill", of="pin:1"),
        Mark(shape=Circle((5.0, 5.0), 2.0), purpose="before", of="old"),
    )
    bridge, pin, old = offset_marks(marks, ("bridge",), 0.2, is_cutter=False)
    assert area(bridge.shape) > 200  # type: ignore[arg-type]  # a path
    assert pin.shape == Circle((5.0, 5.0), 1.9)
    assert old.shape == marks[2].shape


def test_holes_smaller_than_a_cutter_are_left_to_the_drill() -> None:
    mark = Mark(shape=Circle((5.0, 5.0), 1.0), purpose="drill", of="pin:1")
    assert offset_marks((mark,), (), 3.0, is_cutter=True) == (mark,)


def test_corners_that_stay_round_are_counted() -> None:
    assert round_corners(SQUARE, 2.0) == 4


def test_a_cutter_as_wide_as_the_slot_runs_down_its_middle() -> None:
    slot = Path(((0.0, 0.0, 0.0), (76.0, 0.0, 0.0), (76.0, 3.0, 0.0), (0.0, 3.0, 0.0)), closed=True)
    run = offset(slot, -1.5, "slot")
    assert isinstance(run, Path)
    assert all(abs(y - 1.5) <= 0.005 + 1e-9 for _, y, _ in run.vertices)
    assert max(x for x, _, _ in run.vertices) == pytest.approx(74.5, abs=0.006)


def test_a_slot_wider_than_its_cutter_by_less_than_a_hair_is_no_fault() -> None:
    slot = Path(((0.0, 0.0, 0.0), (76.0, 0.0, 0.0), (76.0, 3.0 + 1e-7, 0.0), (0.0, 3.0 + 1e-7, 0.0)), closed=True)
    assert area(offset(slot, -1.5, "slot")) < 1.0


def test_a_kerf_too_large_is_called_a_kerf() -> None:
    mark = Mark(shape=Circle((5.0, 5.0), 0.75), purpose="drill", of="pin:1")
    with pytest.raises(ExportError, match=r"The kerf of 2 mm is too large for the pin 1, which is 1\.50 mm wide"):
        offset_marks((mark,), (), 2.0, is_cutter=False)


def test_a_bevel_that_vanishes_leaves_a_sharp_corner() -> None:
    """The pieces shifted one by one would cross each other there: shapely's outline stands in. derived: 40 by 20 less 5
    all round is 30 by 10; the bevel of 1 by 1 lies 0.71 from the corner, shifted 5.71, and the inner corner 7.07.
    """
    bevelled = Path(
        ((0.0, 0.0, 0.0), (40.0, 0.0, 0.0), (40.0, 19.0, 0.0), (39.0, 20.0, 0.0), (0.0, 20.0, 0.0)), closed=True
    )
    run = offset(bevelled, -5.0, "bridge")
    assert isinstance(run, Path)
    ring = Polygon([(x, y) for x, y, _ in run.vertices])
    assert ring.is_valid
    assert ring.symmetric_difference(box(5.0, 5.0, 35.0, 15.0)).area < 1e-6


@pytest.mark.parametrize(("too_wide", "agrees"), [(0.90, True), (0.92, False), (-0.90, True), (-0.92, False)])
def test_the_outline_by_pieces_may_differ_by_a_hair_from_shapelys(too_wide: float, agrees: bool) -> None:
    # derived: 100 by 50 is 300 round; 3 thousandths of that and a hundredth of the offset of 1 are 0.91 mm²
    made = Path(((0, 0, 0), (100, 0, 0), (100, 50 + too_wide / 100, 0), (0, 50 + too_wide / 100, 0)), closed=True)
    assert _agrees(made, box(0, 0, 100, 50), -1.0) == agrees


@pytest.mark.parametrize("cutter", [1.995, 2.0, 2.009])
def test_a_cutter_may_be_a_hair_wider_than_its_slot(cutter: float) -> None:
    # 0.01 mm; what is left of the slot is then 0.01 wide and not longer than 20 − 2 and a hair
    slot = Path(((0.0, 0.0, 0.0), (20.0, 0.0, 0.0), (20.0, 2.0, 0.0), (0.0, 2.0, 0.0)), closed=True)
    assert 0.0 < area(offset(slot, -cutter / 2, "slot")) < 0.01 * 18.02


def test_a_cutter_wider_than_its_slot_by_more_than_a_hair_does_not_fit() -> None:
    slot = Path(((0.0, 0.0, 0.0), (20.0, 0.0, 0.0), (20.0, 2.0, 0.0), (0.0, 2.0, 0.0)), closed=True)
    with pytest.raises(ExportError, match=r"2\.011 mm is too large for the slot, which is 2\.00 mm wide"):
        offset(slot, -2.011 / 2, "slot")


@pytest.mark.parametrize(("tool", "left"), [(1.97, 0.015), (1.99, None)])
def test_a_hole_keeps_a_hundredth_or_is_refused(tool: float, left: float | None) -> None:
    # derived: radius 1 less half the tool, 0.015 and 0.005, against 0.01
    if left is None:
        with pytest.raises(ExportError, match=r"which is 2\.00 mm wide"):
            offset(Circle((0.0, 0.0), 1.0), -tool / 2, "pin:1")
    else:
        made = offset(Circle((0.0, 0.0), 1.0), -tool / 2, "pin:1")
        assert isinstance(made, Circle)
        assert made.radius == pytest.approx(left)


@pytest.mark.parametrize(("tool", "is_cutter", "radius"), [(2.0, True, 1.0), (1.9, True, 0.05), (1.9, False, 0.05)])
def test_a_hole_no_wider_than_a_cutter_is_left_to_the_drill(tool: float, is_cutter: bool, radius: float) -> None:
    # derived: a hole of 2 mm under a cutter of 2 is left as it is, one of 1.9 runs 0.05 from its middle
    (made,) = offset_marks((Mark(shape=Circle((0.0, 0.0), 1.0), purpose="drill"),), (), tool, is_cutter)
    assert isinstance(made.shape, Circle)
    assert made.shape.radius == pytest.approx(radius)


@pytest.mark.parametrize(("tool", "sharp"), [(9.9, 0), (10.1, 4)])
def test_an_inside_corner_rounder_than_the_tool_is_no_fault(tool: float, sharp: int) -> None:
    # derived: four corners of radius 5, a quarter turn each: bulge tan(90° / 4)
    bulge = math.tan(math.pi / 8)
    rounded = Path(
        (
            (5, 0, 0),
            (45, 0, bulge),
            (50, 5, 0),
            (50, 25, bulge),
            (45, 30, 0),
            (5, 30, bulge),
            (0, 25, 0),
            (0, 5, bulge),
        ),
        closed=True,
    )
    assert round_corners(rounded, tool) == sharp


def test_outside_corners_are_within_reach() -> None:
    """An L has five inside corners, seen from within, and one that points inward."""
    ell = Path(((0, 0, 0), (20, 0, 0), (20, 10, 0), (10, 10, 0), (10, 20, 0), (0, 20, 0)), closed=True)
    assert round_corners(ell, 2.0) == 5
    assert round_corners(Path(tuple(reversed(ell.vertices)), closed=True), 2.0) == 5


@pytest.mark.parametrize("by", [-1.0, 1.0])
@pytest.mark.parametrize("way", [1, -1])
def test_the_corner_that_points_inward_gets_a_true_arc_inside(by: float, way: int) -> None:
    """An L of 20 by 20 less 10 by 10; derived: Inward, the corner that points inward gets an arc of
    a quarter turn about itself; outward, the five others do.
    """
    ell = ((0, 0, 0), (20, 0, 0), (20, 10, 0), (10, 10, 0), (10, 20, 0), (0, 20, 0))
    made = offset(Path(ell[::way], closed=True), by, "bridge")
    arcs = [piece for piece in pieces(made) if isinstance(piece, Arc)]  # type: ignore[arg-type]  # a path
    assert [abs(arc.sweep) for arc in arcs] == pytest.approx([math.pi / 2] * (1 if by < 0 else 5))
    assert [arc.radius for arc in arcs] == pytest.approx([1.0] * len(arcs))
    wanted = Polygon([(x, y) for x, y, _ in ell]).buffer(by, quad_segs=256)
    assert area(made) == pytest.approx(wanted.area, abs=0.01)
