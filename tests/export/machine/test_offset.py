"""Edges offset for kerf and cutter."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from export.drawing.flatten import path_points, pieces
from export.drawing.marks import Arc, Circle, Mark, Path
from export.errors import ExportError
from export.machine.machine_file import MachineSettings
from export.machine.offset import offset, round_corners
from export.machine.tools import fitted, tool_words
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


def test_what_little_a_wide_cutter_leaves_of_a_round_hole_keeps_its_arcs() -> None:
    """derived: two halves of a circle of 4 mm, less 1.9 all round: arcs of 0.1"""
    made = offset(Path(((-2.0, 0.0, 1.0), (2.0, 0.0, 1.0)), closed=True), -1.9, "hole")
    assert isinstance(made, Path)
    assert [piece.radius for piece in pieces(made) if isinstance(piece, Arc)] == pytest.approx([0.1, 0.1])


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


def test_an_edge_that_vanishes_leaves_a_sharp_corner() -> None:
    """derived: a corner cut off by 0.3 mm; 2 mm inward its edge would run backward, for x + y = 29.7 − 2√2 lies beyond
    where x = 18 and y = 8 meet. The rest is 16 by 6.
    """
    ring = ((0.0, 0.0, 0.0), (20.0, 0.0, 0.0), (20.0, 9.7, 0.0), (19.7, 10.0, 0.0), (0.0, 10.0, 0.0))
    smaller = offset(Path(ring, closed=True), -2.0, "slot")
    assert isinstance(smaller, Path)
    assert {(round(x, 6), round(y, 6)) for x, y, _ in smaller.vertices} == {(2, 2), (18, 2), (18, 8), (2, 8)}
    assert area(smaller) == pytest.approx(96.0, abs=1e-6)


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
    (bridge, pin, old), _ = fitted(marks, ("bridge",), MachineSettings(kerf=0.2))
    assert isinstance(bridge.shape, Path)
    assert area(bridge.shape) > 200
    assert pin.shape == Circle((5.0, 5.0), 1.9)
    assert old.shape == marks[2].shape


@pytest.mark.parametrize("radius", [1.0, 2.6, 6.0])
def test_a_cutter_never_changes_a_hole_that_is_drilled(radius: float) -> None:
    hole = Mark(shape=Circle((5.0, 5.0), radius), purpose="drill", of="pin:1")
    assert fitted((hole,), (), MachineSettings(cutter=3.0)) == ((hole,), ())
    assert fitted((hole,), (), MachineSettings(cutters={"outline": 3.0})) == ((hole,), ())


def test_a_hole_is_milled_where_its_cutter_is_named() -> None:
    """derived: 5.2 wide, less a cutter of 2: the cutter's middle runs round at a radius of 1.6."""
    hole = Mark(shape=Circle((5.0, 5.0), 2.6), purpose="drill", of="pin:1")
    ((milled,), misfits) = fitted((hole,), (), MachineSettings(cutters={"holes": 2.0}))
    assert isinstance(milled.shape, Circle)
    assert milled.shape.centre == (5.0, 5.0)
    assert milled.shape.radius == pytest.approx(1.6)
    assert misfits == ()


def test_each_operation_has_its_own_cutter_and_what_does_not_fit_is_named() -> None:
    slot = Path(((0.0, 0.0, 0.0), (76.0, 0.0, 0.0), (76.0, 3.0, 0.0), (0.0, 3.0, 0.0)), closed=True)
    marks = (Mark(shape=SQUARE, purpose="cut", of="bridge"), Mark(shape=slot, purpose="route", of="slot"))
    made, misfits = fitted(marks, ("bridge",), MachineSettings(cutter=3.175))
    assert [mark.of for mark in made] == ["bridge"]
    (misfit,) = misfits
    assert (misfit.name, misfit.operation, misfit.cutter) == ("the slot", "slot", 3.175)
    assert misfit.room == pytest.approx(3.0)
    both, none = fitted(marks, ("bridge",), MachineSettings(cutter=3.175, cutters={"slot": 2.0}))
    assert [mark.of for mark in both] == ["bridge", "slot"]
    assert none == ()
    assert tool_words(marks, ("bridge",), MachineSettings(cutter=3.175, cutters={"slot": 2.0})) == (
        "Edges are offset for a cutter of 3.175 mm (outlines), of 2 mm (slots): set no further offset.",
    )


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
        fitted((mark,), (), MachineSettings(kerf=2.0))


def segment(radius: float, off: float) -> float:
    """The part of a disc beyond a line that passes its middle by `off` (derived: sector less triangle)."""
    return radius**2 * math.acos(off / radius) - off * math.sqrt(radius**2 - off**2)


@pytest.mark.parametrize("way", [1, -1])
def test_arcs_are_trimmed_where_they_meet_lines(way: int) -> None:
    """derived: half a disc of 10 mm made smaller by 1 is what a disc of 9 has beyond a line 1 from its middle; a plate
    of 40 by 20 with half a disc of 5 bitten out, made smaller by 1, is 38 by 18 less what a disc of 6 has there
    """
    half = [(0.0, -10.0, 1.0), (0.0, 10.0, 0.0)]
    bitten = [
        (0.0, 0.0, 0.0),
        (15.0, 0.0, -1.0),
        (25.0, 0.0, 0.0),
        (40.0, 0.0, 0.0),
        (40.0, 20.0, 0.0),
        (0.0, 20.0, 0.0),
    ]
    for ring, wanted in ((half, segment(9.0, 1.0)), (bitten, 38 * 18 - segment(6.0, 1.0))):
        path = Path(tuple(ring) if way > 0 else backward(ring), closed=True)
        made = offset(path, -1.0, "bridge")
        assert isinstance(made, Path)
        assert any(isinstance(piece, Arc) for piece in pieces(made))
        assert area(made) == pytest.approx(wanted, abs=0.03)


def backward(ring: list[tuple[float, float, float]]) -> tuple[tuple[float, float, float], ...]:
    """The same outline the other way round: each piece's bulge turns over and stands where it now begins."""
    count = len(ring)
    return tuple((*ring[-k][:2], -ring[(-k - 1) % count][2]) for k in range(count))


@pytest.mark.parametrize("by", [-5.0, -1.0, 3.0])
def test_a_lens_of_two_arcs_keeps_its_tips(by: float) -> None:
    """derived: circles of 50 about (±30, 0) cross at y = ±40; with a radius of 50 + by, at the root of it less 900."""
    tip = math.atan2(40.0, 30.0)
    lens = Path(((0.0, -40.0, math.tan(tip / 2)), (0.0, 40.0, math.tan(tip / 2))), closed=True)
    made = offset(lens, by, "lens")
    assert isinstance(made, Path)
    radii = sorted(round(piece.radius, 9) for piece in pieces(made) if isinstance(piece, Arc))
    if by > 0:  # the tips become rounds of their own
        assert radii == [by, by, 50 + by, 50 + by]
        assert max(y for _, y in path_points(made, 0.001)) == pytest.approx(40 + by, abs=0.01)
    else:
        assert radii == [50 + by, 50 + by]
        assert sorted(y for _, y, _ in made.vertices) == pytest.approx(
            [-math.sqrt((50 + by) ** 2 - 900), math.sqrt((50 + by) ** 2 - 900)]
        )
        assert [x for x, _, _ in made.vertices] == pytest.approx([0.0, 0.0], abs=1e-9)


@pytest.mark.parametrize(("by", "fits"), [(-19.9, True), (-20.1, False)])
def test_arcs_that_no_longer_meet_leave_nothing(by: float, fits: bool) -> None:
    """derived: the lens is 40 mm wide, so nothing of it is left 20 mm inside."""
    tip = math.atan2(40.0, 30.0)
    lens = Path(((0.0, -40.0, math.tan(tip / 2)), (0.0, 40.0, math.tan(tip / 2))), closed=True)
    if fits:
        assert area(offset(lens, by, "lens")) < 1.0
    else:
        with pytest.raises(ExportError):
            offset(lens, by, "lens")
