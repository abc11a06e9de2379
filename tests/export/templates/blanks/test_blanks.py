"""The blanks of nut and saddle: what other software reads in their files is what was worked out, in its own size."""

import datetime
import math
from pathlib import Path as File

import numpy as np
import pytest
from msgspec.structs import replace

from app.file import job_file, samples
from export import cautions, write_all
from export.drawing.marks import Text
from export.errors import ExportError
from export.hole_table import Table, filled
from export.machine.machine_file import ENLARGED, MachineSettings, machine_drawing
from export.paper.flow import Column
from export.records import Figure, Stamp
from export.templates import TEMPLATES, sheets
from export.templates.blanks import nut, solid_views
from export.templates.written import solid_tables, work_steps
from geometry.findings import Finding
from geometry.job import Job, Nut
from geometry.layout import XY, Layout
from geometry.work_out import work_out
from tests.export import readers

NEAR = 0.001
"""What is asked of every coordinate, mm."""
STAMP = Stamp(date=datetime.date(2026, 11, 25), fingerprint="ABCD-EF")
BOTH = ["nut-blank", "saddle-blank"]


def asked(name: str = "leaning-neck", **nut_fields: object) -> Job:
    """A sample job whose saddle and nut are made anew."""
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    assert job.bridge is not None
    assert job.saddle is not None
    given: dict[str, object] = {"height": 8.0, "bed": 5.0, "fret_height": 1.0, "over_fret1": (0.4, 0.4), **nut_fields}
    return replace(
        job,
        nut=Nut(**given),  # type: ignore[arg-type]  # a test gives the fields of a nut
        board=replace(job.board, radius=305.0),
        bridge=replace(job.bridge, thickness=9.5),
        saddle=replace(job.saddle, slot_depth=6.0),
    )


def figure(name: str, job: Job, layout: Layout) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, layout, STAMP)


def wanted(name: str, job: Job, layout: Layout) -> list[XY]:
    """What a blank must show, in its own mm: corners, and the ridge or the slots' bottoms."""
    if name == "saddle-blank":
        blank = layout.saddle_blank
        assert blank is not None
        ridge = [
            (string.along if job.bass == "left" else blank.length - string.along, string.whole[0])
            for string in blank.strings
            if string.whole is not None
        ]
        return [(0.0, 0.0), (blank.length, 0.0), blank.profile[0], blank.profile[-1], *ridge]
    nut_blank = layout.nut_blank
    assert nut_blank is not None
    length, found = nut_blank.length[0], [(0.0, 0.0), (nut_blank.length[0], 0.0), (nut_blank.length[0], 8.0)]
    for slot in nut_blank.slots:
        assert slot.width is not None
        assert slot.over_bed is not None
        assert slot.deep is not None
        x = slot.along[0] if job.bass == "right" else length - slot.along[0]
        if slot.deep[0] > slot.width / 2:  # its sides are straight down to its round bottom
            found += [(x + side * slot.width / 2, slot.over_bed[0] + slot.width / 2) for side in (-1, 1)]
    return found


@pytest.mark.parametrize("sample", ["leaning-neck", "turned-left"])
@pytest.mark.parametrize("name", BOTH)
def test_it_is_read_back_in_its_own_size(tmp_path: File, name: str, sample: str) -> None:
    job = asked(sample)
    layout = work_out(job)
    stamp = replace(STAMP, templates=(name,))
    pdf, dxf, svg = write_all(job, layout, stamp, tmp_path, ("pdf", "dxf", "svg"))
    places = wanted(name, job, layout)
    page = sheets(job, layout, stamp)[0].transform
    assert page is not None
    file = machine_drawing(figure(name, replace(job, unit="mm"), layout), layout, MachineSettings(), job.title, ())
    assert worst(readers.all_points(readers.pdf_items(pdf)), [page.xy(at) for at in places]) < NEAR
    # notes stand below the drawing and lift it; both files hold the same ones
    for points in (readers.all_points(readers.dxf_items(dxf)), readers.all_points(readers.svg_items(svg))):
        low = corner(points, places)
        assert worst(points, [(x + low[0], y + low[1]) for x, y in places]) < NEAR
    assert file.size[0] > 0


def corner(points: list[XY], places: list[XY]) -> XY:
    """Where in a file a blank's own corner lies: there all its places are drawn."""
    drawn = np.array([complex(*at) for at in points])
    off = [np.abs(drawn[:, None] + complex(*place) - drawn).min(axis=1) for place in places[:4]]
    return points[int(np.max(off, axis=0).argmin())]


def worst(points: list[XY], places: list[XY]) -> float:
    return max(readers.nearest(points, at) for at in places)


def test_the_comparison_can_fail(tmp_path: File) -> None:
    job = asked()
    layout = work_out(job)
    stamp = replace(STAMP, templates=("saddle-blank",))
    (pdf,) = write_all(job, layout, stamp, tmp_path, ("pdf",))
    page = sheets(job, layout, stamp)[0].transform
    assert page is not None
    lower = [(x, y - 0.05) for x, y in wanted("saddle-blank", job, layout)]
    assert worst(readers.all_points(readers.pdf_items(pdf)), [page.xy(at) for at in lower]) > 0.01


@pytest.mark.parametrize("name", BOTH)
def test_beside_it_the_same_twice_as_large_for_the_eye_alone(name: str) -> None:
    job = asked()
    layout = work_out(job)
    found = figure(name, job, layout)
    own, enlarged = (
        [mark for mark in found.marks if (mark.of == ENLARGED) == large and mark.purpose == "cut"]
        for large in (False, True)
    )
    assert own
    assert enlarged
    made = machine_drawing(found, layout, MachineSettings(), job.title, ())
    assert not [mark for mark in made.marks if mark.of == ENLARGED]


def test_the_nuts_places_are_those_of_the_strip() -> None:
    """The strip is drawn by another template from the strings; a rule that lies along it reads the same."""
    job = asked()
    layout = work_out(job)
    assert layout.nut_blank is not None
    assert layout.neck is not None
    strip = nut.draw(job, layout, STAMP)
    bass = layout.neck.nut[1]
    for slot, string in zip(layout.nut_blank.slots, layout.strings, strict=True):
        lines = [mark.shape for mark in strip.marks if mark.of == f"string:{string.name}" and mark.purpose == "mark"]
        middles = [shape.a[1] for shape in lines if hasattr(shape, "a")]
        y = sum(middles) / len(middles) if middles else string.nut_xy[1]
        assert y - bass[1] == pytest.approx(slot.along[0], abs=0.01)


@pytest.mark.parametrize("name", BOTH)
def test_bass_and_treble_stand_at_their_ends(name: str) -> None:
    """The saddle is seen from the nut, left at the left; the nut from the saddle, left at the right."""
    for sample, bass in (("leaning-neck", "right"), ("turned-left", "left")):
        job = asked(sample)
        layout = work_out(job)
        shapes = [mark.shape for mark in figure(name, job, layout).marks if mark.of == ""]
        words = {shape.text: shape.at[0] for shape in shapes if isinstance(shape, Text)}
        left_first = (bass == "left") == (name == "saddle-blank")
        assert (words["BASS"] < words["TREBLE"]) == left_first


def test_the_moved_front_edge_is_drawn_in_steps() -> None:
    job = asked()
    assert job.strings is not None
    steps = (0.2, 0.3, 0.4, 0.5, 0.6, 0.7)
    moved = replace(job, strings=replace(job.strings, nut_compensation=steps))
    found = figure("nut-blank", moved, work_out(moved))
    (edge,) = (mark.shape for mark in found.marks if mark.of == "nut front edge")
    assert hasattr(edge, "vertices")
    low = min(y for mark in found.marks if mark.of == "nut above" for _, y, _ in mark.shape.vertices)  # type: ignore[union-attr]  # an outline
    assert sorted({round(y - low, 6) for _, y, _ in edge.vertices}) == list(steps)
    assert any("compensated nut" in note for note in found.notes)
    assert not [mark for mark in figure("nut-blank", job, work_out(job)).marks if mark.of == "nut front edge"]


def test_a_blank_of_unknown_height_is_marked_and_not_cut() -> None:
    job = asked(height=None, bed=None)
    purposes = {mark.of: mark.purpose for mark in figure("nut-blank", job, work_out(job)).marks}
    assert purposes["nut front"] == "mark"
    assert job.saddle is not None
    shallow = replace(job, saddle=replace(job.saddle, slot_depth=None))
    found = figure("saddle-blank", shallow, work_out(shallow))
    assert {mark.purpose for mark in found.marks if mark.of == "saddle front"} == {"mark"}
    assert any("add your slot’s depth" in note for note in found.notes)


def test_a_nut_of_unknown_height_is_drawn_0_3_mm_past_half_of_its_highest_string() -> None:
    """derived: 2.0 + 0.5 x 1.2 + 0.3 = 2.9 mm over the board, without its size 2.3; 8 mm where no slot's bottom is
    known.
    """
    job = asked(height=None, bed=None)
    layout = work_out(job)
    assert layout.nut_blank is not None
    first, *others = layout.nut_blank.slots
    slots = (replace(first, over_board=(2.0, 0.1)), *(replace(slot, over_board=(1.0, 0.9)) for slot in others))
    blank = replace(layout.nut_blank, slots=slots)
    unknown = replace(blank, slots=tuple(replace(slot, over_board=None) for slot in slots))
    tops = []
    for nut_blank, size in ((blank, 1.2), (blank, None), (unknown, 1.2)):
        strings = tuple(replace(string, diameter=size) for string in layout.strings)
        drawn = figure("nut-blank", job, replace(layout, nut_blank=nut_blank, strings=strings))
        (ring,) = (mark.shape for mark in drawn.marks if mark.of == "nut front")
        assert hasattr(ring, "vertices")
        tops.append(max(y for _, y, _ in ring.vertices))
    assert tops == pytest.approx([2.9, 2.3, 8.0])


def test_a_bridge_known_at_one_side_alone_draws_no_bridges_top() -> None:
    job = asked()
    assert job.bridge is not None
    one_side = replace(job, bridge=replace(job.bridge, thickness=(9.5, None)))
    drawn = {mark.of for mark in figure("saddle-blank", one_side, work_out(one_side)).marks}
    assert "bridge top" not in drawn
    assert "bridge top" in {mark.of for mark in figure("saddle-blank", job, work_out(job)).marks}


def test_a_nut_whose_bottoms_wait_has_its_places_all_the_same() -> None:
    job = asked(fret_height=None)
    found = figure("nut-blank", job, work_out(job))
    assert any("wait for the frets’ height" in note for note in found.notes)
    assert [mark for mark in found.marks if mark.of == "string:6" and mark.purpose == "mark"]


def test_what_cannot_be_drawn_says_what_it_needs() -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    with pytest.raises(ExportError, match="needs a nut that is to be made"):
        figure("nut-blank", job, layout)
    with pytest.raises(ExportError, match="its thickness at the slot"):
        figure("saddle-blank", job, layout)


@pytest.mark.parametrize("name", BOTH)
def test_a_stop_stands_on_the_sheet(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str) -> None:
    stop = Finding(grade="stop", code="nut.through", text="The slot would go through.", where="field:nut.bed")
    (file,) = write_all(job, replace(layout, findings=(stop,)), replace(stamp, templates=(name,)), tmp_path, ("pdf",))
    said = " ".join(phrase.where for phrase in readers.pdf_phrases(file))
    assert "STOP" in said


def test_the_job_sheet_has_both_tables_and_both_steps() -> None:
    job = asked()
    layout = work_out(job)
    assert [row[0] for row in solid_tables.saddle(job, layout)] == list("123456")
    assert [row[0] for row in solid_tables.nut(job, layout)] == list("123456")
    assert layout.nut_blank is not None
    shown = layout.nut_blank.slots[0].over_board
    assert shown is not None
    assert solid_tables.nut(job, layout)[0][3].startswith(f"{shown[0]:.2f} ±")
    shaping = ("Shape the saddle", "Shape the nut")
    steps = [step for step in work_steps.steps(job, layout, TEMPLATES) if step.startswith(shaping)]
    assert len(steps) == 2
    assert all(step.endswith("Dust and protected woods, ivory, shell: as above.") for step in steps)
    told = " ".join(work_steps.steps(job, layout, TEMPLATES))
    assert told.count(cautions.DUST.text) == told.count(cautions.LAW.text) == 1
    without = replace(layout, nut_blank=None, saddle_blank=None)
    assert not [step for step in work_steps.steps(job, without, TEMPLATES) if step.startswith(shaping)]


def test_labels_that_would_touch_stand_in_two_rows() -> None:
    assert solid_views.in_rows([0.0, 10.0, 20.0]) == [0, 0, 0]
    assert solid_views.in_rows([20.0, 2.0, 0.0, 4.0]) == [0, 1, 0, 0]


@pytest.mark.parametrize(
    ("degrees", "press", "said"),
    [((24.4, 1.2), 6.4, ("24 ±2°", "6 N")), (None, None, ("", "")), ((24.5, 1.0), None, ("24 ±1°", ""))],
)
def test_how_a_string_breaks_and_presses(
    degrees: tuple[float, float] | None, press: float | None, said: tuple[str, str]
) -> None:
    """In whole degrees, the ± rounded up."""
    blank = work_out(asked()).saddle_blank
    assert blank is not None
    assert solid_views.break_and_press(replace(blank.strings[0], degrees=degrees, press=press), "mm") == said


def test_a_column_that_nothing_stands_in_is_left_out() -> None:
    rows = [["1", "", "a"], ["2", "", ""]]
    columns, kept = solid_tables.filled((Column("string", 10), Column("press", 20), Column("deep", 30)), rows)
    assert [column.heading for column in columns] == ["string", "deep"]
    assert kept == [["1", "a"], ["2", ""]]
    table = filled(Table(title="t", head=("string", "press", "deep"), rows=(("", "", "a"),), sides="ses"))
    assert (table.head, table.rows, table.sides) == (("string", "deep"), (("", "a"),), "ss")


@pytest.mark.parametrize(("degrees", "told"), [(0.05, False), (0.3, True), (1.5, True), (-1.5, True)])
def test_a_nut_that_stands_askew_says_so(degrees: float, told: bool) -> None:
    """derived: counter-clockwise, with the tail to the right, brings the left end nearer the headstock"""
    job = asked()
    layout = work_out(job)
    assert layout.nut_blank is not None
    turned = replace(layout, nut_blank=replace(layout.nut_blank, turn=math.radians(degrees)))
    said = [m.shape.text for m in figure("nut-blank", job, turned).marks if isinstance(m.shape, Text)]
    said += figure("nut-blank", job, turned).notes
    near = job.bass_or_treble("left" if degrees > 0 else "right")
    says = f"out of square to the neck, its {near} end nearer the headstock; its slots"
    assert any(says in text for text in said) == told
