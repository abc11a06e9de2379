"""The plan as a drawing: what it shows, what it stands for, and that its words never lie on each other."""

import datetime
import itertools
import math
import subprocess
import sys
from typing import Any

import msgspec
import pytest

from app.file import job_file, samples
from export.drawing.flatten import Box, arc_points, pieces
from export.drawing.marks import Arc, Circle, Drawing, Line, Mark, Path, Text
from export.drawing.pick import pick
from export.drawing.typeface import text_corners
from export.plan import USUAL_OVERLAYS, PlanView, compose
from export.plan.bridge import bridgework
from export.plan.label_obstacles import label_grounds
from export.plan.labels import labels_by_key, place_labels
from export.records import Stamp
from export.templates import sheets
from geometry.job import Floating, Job, Point, Reading, Separate, TieBlock
from geometry.layout import Layout, Loose, PlacedPoint
from geometry.work_out import work_out


def of(drawing: Drawing, name: str) -> list[Mark]:
    return [mark for mark in drawing.marks if mark.of == name]


def words(drawing: Drawing) -> set[str]:
    return {mark.shape.text for mark in drawing.marks if isinstance(mark.shape, Text)}


@pytest.fixture
def plan(job: Job, layout: Layout) -> Drawing:
    return compose(job, layout, PlanView(scale=0.27))


def test_everything_that_matters_can_be_picked(plan: Drawing, layout: Layout) -> None:
    named = {mark.of for mark in plan.marks}
    wanted = {"body", "board", "nut", "neck", "seam", "bridge", "slot", "saddle", "old", "scar", "metal:metal.1"}
    wanted |= {f"point:{name}" for name in layout.points}
    wanted |= (
        {f"string:{n}" for n in range(1, 7)} | {f"pin:{n}" for n in range(1, 7)} | {f"fret:{n}" for n in range(1, 21)}
    )
    assert wanted <= named


def test_a_point_is_picked_before_what_it_lies_on(plan: Drawing) -> None:
    found = pick(plan, (588.0, 5.1), 2.0)
    assert found is not None
    assert found.of == "point:seam.1"


def test_coordinates_are_the_layouts_own(plan: Drawing, layout: Layout) -> None:
    assert layout.bridge is not None
    assert [m.shape for m in of(plan, "bridge")] == [Path(layout.bridge.outline, closed=True)]
    assert [m.shape for m in of(plan, "pin:2") if m.purpose == "drill"] == [
        Circle(layout.bridge.pins[1].at, layout.bridge.pins[1].diameter / 2)
    ]


def test_the_body_is_only_a_suggestion_where_it_was_not_measured(plan: Drawing) -> None:
    assert "body: only a suggestion" in words(plan)


@pytest.mark.parametrize("held", [{"floating": Floating()}, {"separate": Separate()}])
def test_under_a_bridge_that_is_not_glued_no_body_is_suggested(held: dict[str, Any], layout: Layout) -> None:
    """A skin or a plank has no waist: no outline that nobody read."""
    drawing = compose(Job(**held), layout, PlanView(scale=0.27))
    assert "body: only a suggestion" not in words(drawing)
    assert not of(drawing, "body")


def test_the_suggested_body_follows_its_own_curve(plan: Drawing, layout: Layout) -> None:
    # derived: 0.75 of the scale long; at two fifths of that 0.3 (1 - 0.2³)^(1/3) (0.85 + 0.06 - 0.2) of it wide, halved
    assert layout.frets is not None
    (body,) = [m.shape for m in of(plan, "body") if isinstance(m.shape, Path)]
    xs = [x for x, _, _ in body.vertices]
    assert max(xs) - min(xs) == pytest.approx(0.75 * layout.frets.scale, abs=0.5)
    waist = min(xs) + 0.4 * 0.75 * layout.frets.scale
    wide = 0.3 * (1 - 0.2**3) ** (1 / 3) * (0.85 + 0.06 - 0.2) * layout.frets.scale
    near = min(((x, y) for x, y, _ in body.vertices if y > 0), key=lambda at: abs(at[0] - waist))
    assert near[1] == pytest.approx(wide, abs=0.02 * layout.frets.scale)


def test_a_measured_body_passes_through_its_points(job: Job, layout: Layout) -> None:
    ring = [(400.0, 0.0), (430.0, 110.0), (560.0, 95.0), (760.0, 180.0), (860.0, 0.0), (760.0, -185.0), (560.0, -95.0)]
    points = {f"body.{k}": PlacedPoint(x=x, y=y, sx=1, sy=1, sxy=0, checked=True) for k, (x, y) in enumerate(ring, 1)}
    measured = msgspec.structs.replace(layout, points={**layout.points, **points})
    drawing = compose(job, measured, PlanView(scale=0.27))
    (body,) = [m.shape for m in of(drawing, "body")]
    assert isinstance(body, Path)
    for at in ring:
        assert min(math.dist(at, v[:2]) for v in body.vertices) < 1e-9
    assert "body: only a suggestion" not in words(drawing)


def test_what_is_unchecked_is_hollow(plan: Drawing) -> None:
    """seam.2 is unchecked: a ring, not a dot."""
    assert [m.filled for m in of(plan, "point:seam.2")] == [False]
    assert [m.filled for m in of(plan, "point:seam.1")] == [True]


def test_a_suspect_reading_marks_its_points_in_shape_and_tone(plan: Drawing) -> None:
    shapes = of(plan, "point:old.2")
    assert {m.tone for m in shapes} == {"look"}
    assert any(isinstance(m.shape, Path) for m in shapes)


@pytest.mark.parametrize("scale", [0.15, 0.27, 0.45, 0.8, 1.6, 3.0])
@pytest.mark.parametrize(("turn", "inside"), [(0, False), (1, False), (2, False), (3, True)])
def test_words_never_lie_on_each_other(job: Job, layout: Layout, scale: float, turn: int, inside: bool) -> None:
    view = PlanView(scale=scale, turn=turn, inside=inside, overlays=USUAL_OVERLAYS | {"ellipses", "opposite slant"})
    drawing = compose(job, layout, view)
    boxes = []
    for mark in drawing.marks:
        if isinstance(mark.shape, Text):
            corners = [view.seen(at) for at in text_corners(mark.shape, view.scale)]
            xs, ys = zip(*corners, strict=True)
            boxes.append(Box(min(xs), min(ys), max(xs), max(ys)))
    assert len(boxes) >= 6
    for one, other in itertools.combinations(boxes, 2):
        assert not one.grown(-0.35).meets(other.grown(-0.35))


def test_words_stay_in_the_window(job: Job, layout: Layout) -> None:
    window = Box(600.0, -90.0, 700.0, 90.0)
    drawing = compose(job, layout, PlanView(scale=1.5, window=window))
    for mark in drawing.marks:
        if isinstance(mark.shape, Text):
            for x, y in text_corners(mark.shape, 1.5):
                assert 599.5 <= x <= 700.5
                assert -90.5 <= y <= 90.5


@pytest.mark.parametrize("turn", [0, 1, 2, 3])
@pytest.mark.parametrize("inside", [False, True])
def test_words_are_upright_on_the_screen(job: Job, layout: Layout, turn: int, inside: bool) -> None:
    view = PlanView(scale=0.3, turn=turn, inside=inside)
    for mark in compose(job, layout, view).marks:
        if isinstance(mark.shape, Text):
            angle = view.to_screen.angle(mark.shape.angle)
            assert math.sin(angle) == pytest.approx(0.0, abs=1e-9)


def test_the_same_view_gives_the_same_drawing(job: Job, layout: Layout) -> None:
    view = PlanView(scale=0.9)
    assert compose(job, layout, view) == compose(job, layout, view)


def test_overlays_come_and_go(job: Job, layout: Layout, stamp: Stamp) -> None:
    bare = compose(job, layout, PlanView(overlays=frozenset()))
    assert not of(bare, "seam")
    assert not of(bare, "scar")
    assert not words(bare)
    pages = sheets(job, layout, stamp)
    full = compose(job, layout, PlanView(overlays=USUAL_OVERLAYS | {"opposite slant", "sheets"}, sheets=pages))
    assert of(full, "opposite")
    (sheet,) = [m.shape for m in of(full, "sheet:placement") if isinstance(m.shape, Path)]
    assert math.dist(sheet.vertices[0][:2], sheet.vertices[1][:2]) == pytest.approx(297.0)


def test_the_opposite_slant_leans_the_other_way(job: Job, layout: Layout) -> None:
    drawing = compose(job, layout, PlanView(overlays=frozenset(("opposite slant",))))
    (line,) = [m.shape for m in of(drawing, "opposite") if isinstance(m.shape, Line)]
    (saddle,) = [m.shape for m in of(drawing, "saddle") if isinstance(m.shape, Line)]
    lean = (saddle.b[0] - saddle.a[0]) / (saddle.b[1] - saddle.a[1])
    assert (line.b[0] - line.a[0]) / (line.b[1] - line.a[1]) == pytest.approx(-lean)


def test_ellipses_are_drawn_larger_by_a_stated_factor(job: Job, layout: Layout) -> None:
    drawing = compose(job, layout, PlanView(scale=0.27, overlays=USUAL_OVERLAYS | {"ellipses"}))
    (said,) = [text for text in words(drawing) if text.startswith("95 % ellipses")]
    factor = float(said.split("drawn ")[1].split()[0])
    (ring,) = [m.shape for m in of(drawing, "point:nut.left") if isinstance(m.shape, Path)]
    reach = [math.dist((0.0, 21.6), at) for p in pieces(ring) if isinstance(p, Arc) for at in arc_points(p, 0.01)]
    assert reach == pytest.approx([0.25 * math.sqrt(5.991464547) * factor] * len(reach), rel=1e-6)


def test_a_loose_point_is_drawn_where_it_might_be(job: Job, layout: Layout) -> None:
    survey = msgspec.structs.replace(
        layout.survey, loose=(Loose(point="pin.9", direction=(1.0, 0.0), held_by="a distance from the nut"),)
    )
    loose = msgspec.structs.replace(layout, survey=survey, rough={"pin.9": (655.0, 40.0)})
    (ring, *_) = of(compose(job, loose, PlanView(scale=0.8)), "point:pin.9")
    assert ring.purpose == "hidden"
    assert ring.tone == "look"


def test_a_loose_point_shows_the_way_it_can_move(job: Job, layout: Layout) -> None:
    """Derived: arrows from 1.6 to 5 mm of paper either side of the point, along (0, 1) at a scale of 0.8."""
    survey = msgspec.structs.replace(layout.survey, loose=(Loose(point="pin.9", direction=(0.0, 1.0), held_by=""),))
    loose = msgspec.structs.replace(layout, survey=survey, rough={"pin.9": (655.0, 40.0)})
    arrows = [m.shape for m in of(compose(job, loose, PlanView(scale=0.8)), "point:pin.9") if isinstance(m.shape, Path)]
    ys = sorted(y for arrow in arrows for _, y, _ in arrow.vertices[:2])
    assert ys == pytest.approx([40 - 6.25, 40 - 2.0, 40 + 2.0, 40 + 6.25])


def test_a_point_that_may_lie_on_either_side_is_drawn_on_both(job: Job, layout: Layout) -> None:
    survey = msgspec.structs.replace(layout.survey, elsewhere={"body.1": (500.0, -140.0)})
    either = msgspec.structs.replace(layout, survey=survey, rough={"body.1": (500.0, 140.0)})
    drawing = compose(job, either, PlanView(scale=0.8))
    centres = {m.shape.centre for m in of(drawing, "point:body.1") if isinstance(m.shape, Circle)}
    assert centres == {(500.0, 140.0), (500.0, -140.0)}
    assert {"here, or", "here?"} <= set(words(drawing))


@pytest.mark.parametrize("taken", [False, True])
def test_a_point_of_which_a_reading_is_still_to_be_taken_is_no_fault(job: Job, layout: Layout, taken: bool) -> None:
    waits = Reading(id="r99", kind="distance", of=("nut.left", "body.1"), value=520.0 if taken else None)
    loose = (Loose(point="body.1", direction=(0.0, 1.0), held_by=""),)
    survey = msgspec.structs.replace(layout.survey, elsewhere={"body.1": (500.0, -140.0)}, loose=loose)
    either = msgspec.structs.replace(layout, survey=survey, rough={"body.1": (500.0, 140.0)})
    points = job.points | {"body.1": Point()}
    asked = msgspec.structs.replace(job, points=points, readings=(*job.readings, waits))
    drawn = of(compose(asked, either, PlanView(scale=0.8)), "point:body.1")
    assert ("look" in {mark.tone for mark in drawn}) == taken


@pytest.mark.parametrize(("x0", "inside"), [(-4.0, True), (300.0, False)])
def test_a_value_stays_in_sight_with_what_it_measures_and_leaves_with_it(
    job: Job, layout: Layout, x0: float, inside: bool
) -> None:
    """The nut is read across at x = 0; its value stands left of it, or where the window begins."""
    window = Box(x0, -80.0, x0 + 500.0, 80.0)
    drawing = compose(job, layout, PlanView(scale=0.3, reading="r1", window=window))
    (value,) = [m.shape for m in of(drawing, "reading:r1") if isinstance(m.shape, Text)]
    assert (text_corners(value)[0][0] >= x0) == inside


def test_left_handed_words_change_sides(job: Job, layout: Layout) -> None:
    def side(hand: str) -> float:
        drawing = compose(msgspec.structs.replace(job, hand=hand), layout, PlanView(scale=0.27))
        return next(m.shape.at[1] for m in drawing.marks if isinstance(m.shape, Text) and m.shape.text == "bass")

    assert side("right") < 0 < side("left")


@pytest.mark.parametrize(("wide", "count"), [(40.0, 2), (11.9, 1)])
def test_a_plan_too_small_for_words_at_the_bridge_has_them_at_the_nut(
    job: Job, layout: Layout, wide: float, count: int
) -> None:
    """12 mm of paper from wing to wing: common practice, no source; at 40 there is room without a line to them"""
    assert layout.bridge is not None
    wings = math.dist(layout.bridge.corners[3], layout.bridge.corners[2])
    drawing = compose(job, layout, PlanView(scale=wide / wings))
    for side in ("bass", "treble"):
        assert len([mark for mark in of(drawing, f"side:{side}") if isinstance(mark.shape, Text)]) == count


@pytest.mark.parametrize("wide", [12.1, 16.0, 20.0, 30.0, 40.0])
def test_no_line_leads_to_bass_and_treble_far_off_the_bridge(job: Job, layout: Layout, wide: float) -> None:
    assert layout.bridge is not None
    wings = math.dist(layout.bridge.corners[3], layout.bridge.corners[2])
    drawing = compose(job, layout, PlanView(scale=wide / wings))
    for side in ("bass", "treble"):
        lines = [mark.shape for mark in of(drawing, f"side:{side}") if isinstance(mark.shape, Line)]
        bridges = [line for line in lines if line.a[0] > 100]  # what leads to the nut’s is another
        assert all(math.dist(line.a, line.b) * wide / wings <= 4.5 for line in bridges)


def test_a_job_just_begun_is_an_empty_plan(job: Job) -> None:
    from geometry.layout import Survey, Why

    bare = Layout(frame="straightedge", points={}, readings=(), survey=Survey(verdict="loose", why=Why(what="")))
    assert compose(job, bare, PlanView()).marks == ()


def test_drawing_the_plan_loads_no_library_for_files() -> None:
    """The window draws the plan long before anything is written."""
    heavy = "reportlab", "ezdxf", "fontTools", "scipy", "shapely"
    code = f"import sys, export.plan; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_slot_that_leans_the_wrong_way_is_seen_at_a_glance(job: Job, layout: Layout) -> None:
    assert layout.saddle is not None
    wrong = msgspec.structs.replace(layout.saddle, wrong_way=("slot",))
    right, mended = compose(job, layout, PlanView()), msgspec.structs.replace(layout, saddle=wrong)
    drawing = compose(job, mended, PlanView())
    assert "leans the wrong way" in words(drawing)
    outlines = [mark for mark in of(drawing, "slot") if isinstance(mark.shape, Path)]
    assert [mark.tone for mark in outlines] == ["look", "look"]  # the slot, and a triangle beside it
    assert [mark.tone for mark in of(right, "slot")] == ["worked out"]
    assert "leans the wrong way" not in words(right)


@pytest.mark.parametrize("sight", [None, Box(-100.0, -160.0, 260.0, 160.0), Box(560.0, -60.0, 700.0, 90.0)])
def test_each_page_over_the_plan_is_named(sight: Box | None) -> None:
    """derived: a tie block seen from behind lies nowhere on the top, so its page is not laid there."""
    tied = job_file.read(next(path for path in samples.paths() if path.name == "tie-bridge.job.json"))
    assert tied.bridge is not None
    tied = msgspec.structs.replace(tied, bridge=msgspec.structs.replace(tied.bridge, tie=TieBlock()))
    found, chosen = work_out(tied), ("placement", "bridge", "tie-block", "nut-slots", "full-length")
    stamp = Stamp(date=datetime.date(2026, 11, 1), fingerprint="abc", templates=chosen)
    pages = sheets(tied, found, stamp)
    view = PlanView(scale=0.3, overlays=USUAL_OVERLAYS | {"sheets"}, sheets=pages, window=sight)
    marks = [mark for mark in compose(tied, found, view).marks if mark.of.startswith("sheet:")]
    drawn, named = ({mark.of for mark in marks if mark.purpose == purpose} for purpose in ("register", "note"))
    assert drawn
    assert drawn == named
    assert "sheet:tie-block" not in drawn
    without = compose(tied, found, msgspec.structs.replace(view, overlays=view.overlays - {"labels"}))
    assert {"sheet:placement", "sheet:nut-slots"} & {mark.of.rpartition(" ")[0] or mark.of for mark in without.marks}


@pytest.mark.parametrize("scale", [0.2, 0.3])
def test_a_sides_name_stands_on_no_other_side(job: Job, layout: Layout, scale: float) -> None:
    """Pages over the headstock leave little room there: a name comes to lie on its own side, or nowhere."""
    assert layout.neck is not None
    (x, y), _ = layout.neck.nut
    full = [
        Mark(shape=Line((x - 200.0, up), (x + 700.0, up)), purpose="body", of="string") for up in range(int(y), 200, 4)
    ]
    view = PlanView(scale=scale)
    labels = bridgework.bridgework(job, layout, view)[1]
    asked = labels_by_key([one for one in labels if one.of.startswith("side:")])
    left = job.bass_or_treble("left")
    said, _ = place_labels(asked, view, label_grounds(full, view))
    for mark in said:
        if isinstance(mark.shape, Text):
            assert (mark.shape.at[1] > 0) == (mark.shape.text == left), mark.shape
    assert any(isinstance(mark.shape, Text) for mark in said)
