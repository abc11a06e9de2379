"""Edges offset for kerf and cutter."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from export.drawing.flatten import path_points, pieces
from export.drawing.marks import Arc, Circle, Mark, Path
from export.errors import ExportError
from export.machine.offset import offset, offset_marks, round_corners
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
