"""What is small and matters is drawn with its size in the detail, from edge to edge, and left out of the plan."""

import math
from pathlib import Path

import msgspec
import pytest

from export.drawing.clip import clip_line
from export.drawing.flatten import Box, arc_points
from export.drawing.marks import XY, Arc, Line, Mark, Text
from export.drawing.typeface import width
from export.plan import PlanView, compose
from export.plan.bridge.close_up import corners, sizes
from export.plan.labels import Label
from geometry.job import Job
from geometry.job.sheets import Sheets
from geometry.layout import Hole, Layout
from tests.export.sample_pages import laid

CLOSE = PlanView(scale=1.0, close_up=True)


def close_up(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    marks, labels = corners(job, layout, view)
    sized = sizes(job, layout, view)
    return [*marks, *(mark for one in sized for mark in one.arrows)], [*labels, *(one.label for one in sized)]


def edges(marks: list[Mark], of: str) -> set[XY]:
    """Where the arrows from outside end, to 1 µm."""
    lines = [mark.shape for mark in marks if mark.of == of and isinstance(mark.shape, Line)]
    return {(round(line.b[0], 3), round(line.b[1], 3)) for line in lines}


def cut_with(job: Job, cutter: float) -> Job:
    return msgspec.structs.replace(job, sheets=Sheets(cutter=cutter))


def nearer(layout: Layout) -> Layout:
    """The same with its pin holes 1 mm nearer to the slot."""
    assert layout.bridge is not None
    pins = tuple(msgspec.structs.replace(pin, at=(pin.at[0] - 1.0, pin.at[1])) for pin in layout.bridge.pins)
    return msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=pins))


def test_from_afar_nothing_of_it_is_drawn(job: Job, layout: Layout) -> None:
    assert close_up(cut_with(job, 2.0), layout, PlanView(scale=1.0)) == ([], [])


def test_a_scar_is_measured_from_the_bridge_to_the_old_edge(job: Job, layout: Layout) -> None:
    narrow = msgspec.structs.replace(
        layout.old,
        scar=(((635.6, 70.0), (637.0, -70.0), (637.4, -70.0), (637.4, 70.0)),),
        scar_widths={"front": 1.8},  # derived: the bridge's front is at 637.4
    )
    marks, labels = close_up(job, msgspec.structs.replace(layout, old=narrow), CLOSE)
    assert edges(marks, "scar") == {(637.4, 70.0), (635.6, 70.0)}
    assert [label.words for label in labels if label.of == "scar"] == ["scar 1.8 mm"]


def test_each_side_of_a_scar_has_its_own_size(job: Job, layout: Layout) -> None:
    corner = ((636.4, -78.5), (663.4, -78.5), (663.4, -76.0), (637.4, -76.0), (637.4, 76.0), (636.4, 76.0))
    old = msgspec.structs.replace(layout.old, scar=(corner,), scar_widths={"front": 1.0, "right wing": 2.5})
    marks, labels = close_up(job, msgspec.structs.replace(layout, old=old), CLOSE)
    assert [label.words for label in labels if label.of == "scar"] == ["1.0 mm", "scar 2.5 mm"]
    assert {(637.4, -78.5), (636.4, -78.5), (636.4, -76.0)} <= edges(marks, "scar")


def test_the_wall_between_two_holes_runs_from_edge_to_edge(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    pins = (Hole(name="1", at=(653.0, 20.0), diameter=5.0), Hole(name="2", at=(653.0, 13.0), diameter=5.0))
    bridge = msgspec.structs.replace(layout.bridge, pins=pins)
    marks, labels = close_up(job, msgspec.structs.replace(layout, bridge=bridge), CLOSE)
    assert edges(marks, "bridge") == {(653.0, 17.5), (653.0, 15.5)}  # derived: 2.5 mm from each centre
    assert "2.0 mm of wood, pin to pin" in [label.words for label in labels if label.of == "bridge"]


def test_the_wall_behind_the_slot_is_square_to_it(job: Job, layout: Layout) -> None:
    marks, labels = close_up(job, nearer(layout), CLOSE)
    (label,) = [label for label in labels if label.of == "slot"]
    (on_hole, on_slot) = (mark.shape.b for mark in marks if mark.of == "slot" and isinstance(mark.shape, Line))
    # derived: pin 1 lies 652.0 - (644.8 + 2.8/55) from the saddle line, along x; square to it, less half slot and hole
    lean = 2.8 / 55
    wood = (652.0 - (644.8 + lean * 1.0)) * math.cos(math.atan(lean)) - 1.5 - 2.5
    assert math.dist(on_hole, on_slot) == pytest.approx(wood, abs=0.05)
    assert label.words.endswith(" mm of wood, pin to slot")
    assert label.short == label.words.replace(" of wood,", ",")


@pytest.mark.parametrize(("off", "told"), [(0.04, "3.2 mm"), (0.06, "3.1 mm")])
def test_the_walls_figure_is_that_of_the_card(job: Job, layout: Layout, off: float, told: str) -> None:
    """derived: the wall is 3.14 mm (as above); of a figure that is farther off than no file shows it tells its own"""
    near = nearer(layout)
    assert near.bridge is not None
    wood = (652.0 - 644.8 - 2.8 / 55) * math.cos(math.atan(2.8 / 55)) - 1.5 - 2.5
    assert wood == pytest.approx(3.14, abs=0.005)
    card = msgspec.structs.replace(near, bridge=msgspec.structs.replace(near.bridge, wood={"between": wood + off}))
    (label,) = [label for label in close_up(job, card, CLOSE)[1] if label.of == "slot"]
    assert label.words.startswith(told)


def test_thick_wood_needs_no_number(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    far = tuple(Hole(name=str(k), at=(656.0, 20.0 - 11.0 * k), diameter=5.0) for k in range(5))
    bridge = msgspec.structs.replace(layout.bridge, pins=far)
    old = msgspec.structs.replace(layout.old, pins=())
    marks, _ = close_up(job, msgspec.structs.replace(layout, bridge=bridge, old=old), CLOSE)
    assert not [mark for mark in marks if mark.of in ("slot", "bridge")]


def test_the_cutter_leaves_the_slots_corners_round(job: Job, layout: Layout) -> None:
    assert layout.saddle is not None
    marks, labels = close_up(cut_with(job, 2.0), layout, CLOSE)
    arcs = [mark.shape for mark in marks if isinstance(mark.shape, Arc)]
    assert [arc.radius for arc in arcs] == [1.0] * 4
    for arc, corner in zip(arcs, layout.saddle.slot, strict=True):
        ends = arc_points(arc, 0.01)
        assert [math.dist(ends[at], corner) for at in (0, -1)] == pytest.approx([1.0, 1.0])
        # derived: the middle of the arc stands radius · (√2 - 1) off the corner
        assert min(math.dist(at, corner) for at in ends) == pytest.approx(math.sqrt(2) - 1, abs=1e-3)
    assert "cutter 2.0 mm: corners stay round" in [label.words for label in labels]


def test_a_cutter_that_does_not_fit_the_slot_is_not_drawn_in_it(job: Job, layout: Layout) -> None:
    marks, _ = close_up(cut_with(job, 3.2), layout, CLOSE)
    assert not [mark for mark in marks if isinstance(mark.shape, Arc)]


def test_the_sizes_stand_in_the_drawing(job: Job, layout: Layout) -> None:
    texts = {mark.shape.text for mark in compose(job, nearer(layout), CLOSE).marks if isinstance(mark.shape, Text)}
    assert "scar 7.9 mm" in texts
    assert any(text.endswith(", pin to slot") for text in texts)


def test_arrows_have_their_figure_or_are_not_there(job: Job, layout: Layout) -> None:
    """Where a gap's words find no room, or no words are wanted, its arrows say nothing and are left out."""
    near = nearer(layout)
    (gap,) = (one for one in sizes(job, near, CLOSE) if one.label.of == "slot")
    bare = msgspec.structs.replace(CLOSE, overlays=CLOSE.overlays - {"labels"})
    assert set(gap.arrows) <= set(compose(job, near, CLOSE).marks)
    assert not set(gap.arrows) & set(compose(job, near, bare).marks)


@pytest.mark.parametrize("sample", sorted(path.name for path in Path("sample_jobs").glob("*.job.json")))
@pytest.mark.parametrize(("scale", "clear"), [(0.4, 1.0), (0.6, 0.0), (1.5, 0.0)])
def test_no_figure_of_a_gap_is_struck_by_an_arrow(sample: str, scale: float, clear: float) -> None:
    """Every label's ground in the detail against the arrows of all gaps (paper mm)."""
    job, layout = laid(sample.removesuffix(".job.json"))
    view = msgspec.structs.replace(CLOSE, scale=scale, clear=clear)
    drawn = compose(job, layout, view).marks
    arrows = [mark for one in sizes(job, layout, view) for mark in one.arrows if mark in drawn]
    lines = [(view.seen(m.shape.a), view.seen(m.shape.b)) for m in arrows if isinstance(m.shape, Line)]
    for mark in drawn:
        if isinstance(mark.shape, Text) and mark.purpose == "note":
            (x, y), wide = view.seen(mark.shape.at), width(mark.shape.text, mark.shape.height, mark.shape.bold)
            ground = Box(x, y, x + wide, y + mark.shape.height)
            assert not [line for line in lines if clip_line(*line, ground)], mark.shape.text
