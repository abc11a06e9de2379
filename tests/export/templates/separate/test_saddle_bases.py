"""The sheets of saddle bases, read back from their files by other software and held against the layout."""

import datetime
import math
from itertools import combinations
from pathlib import Path

import pytest
from msgspec.structs import replace
from shapely import LineString, Point, Polygon

from app.file import export_job, job_file
from export import cautions
from export.drawing.marks import Circle, Line, Mark, Text
from export.drawing.marks import Path as Outline
from export.drawing.typeface import shown, text_box, width
from export.errors import ExportError
from export.paper.lay_sheets import Stamp
from export.templates import TEMPLATES, sheets
from export.templates.separate import saddle_bases
from export.templates.written import work_steps
from geometry.job import Bridge, Job, Sheets
from geometry.layout import SeparatePlan
from geometry.work_out import work_out
from tests.export.readers import dxf_items, pdf_all_words, pdf_words
from tests.export.templates.test_registration import with_seam
from tests.geometry.separate.slanted_sample import one_a_string, plan_of, sample, with_block

STAMP = Stamp(date=datetime.date(2025, 3, 1), fingerprint="0000-00", templates=("saddle-bases",))


def words(marks: tuple[Mark, ...]) -> list[str]:
    return [mark.shape.text for mark in marks if isinstance(mark.shape, Text)]


def drilled(marks: tuple[Mark, ...], kind: str) -> dict[str, Circle]:
    return {
        mark.of.partition(":")[2]: mark.shape
        for mark in marks
        if mark.purpose == "drill" and isinstance(mark.shape, Circle) and mark.of.startswith(f"{kind}:")
    }


def faced(job: Job) -> tuple[tuple[Mark, ...], SeparatePlan]:
    layout, plan = plan_of(job)
    return saddle_bases.draw_face(job, layout, STAMP).marks, plan


def test_the_face_has_every_hole_where_the_layout_has_it() -> None:
    marks, plan = faced(sample())
    screws, through = drilled(marks, "screw"), drilled(marks, "through")
    assert {name: shape.centre for name, shape in screws.items()} == {h.name: h.at for h in plan.bases[0].screws}
    assert {name: shape.centre for name, shape in through.items()} == {h.name: h.at for h in plan.through}
    assert {shape.radius for shape in screws.values()} == {1.25}  # the sample's 2.5 mm
    assert {shape.radius for shape in through.values()} == {1.75}  # the sample's 3.5 mm


def test_each_strings_window_runs_from_its_foremost_place_to_its_rearmost() -> None:
    marks, plan = faced(sample())
    for one in plan.saddles:
        own = [mark for mark in marks if mark.of == f"saddle:{one.string}"]
        assert Line(one.foremost, one.rearmost) in [mark.shape for mark in own if mark.purpose == "lay"]
        (wanted,) = (mark.shape for mark in own if mark.purpose == "mark")
        assert isinstance(wanted, Line)
        middle = ((wanted.a[0] + wanted.b[0]) / 2, (wanted.a[1] + wanted.b[1]) / 2)
        assert middle == pytest.approx(one.wanted)


def test_the_back_is_mirrored_and_has_the_ferrules() -> None:
    job = sample()
    layout, plan = plan_of(job)
    figure = saddle_bases.draw_back(job, layout, STAMP)
    assert figure.mirror
    assert figure.seen == "the back"
    ferrules = drilled(figure.marks, "ferrule")
    assert {name: shape.centre for name, shape in ferrules.items()} == {h.name: h.at for h in plan.through}
    assert {shape.radius for shape in ferrules.values()} == {4.0}  # the sample's 8 mm
    assert "SEEN FROM THE BACK" in words(figure.marks)
    assert not drilled(figure.marks, "screw")
    (sheet,) = sheets(job, layout, replace(STAMP, templates=("saddle-bases-back",)))
    bass, treble = (
        next(m.shape for m in sheet.drawing.marks if isinstance(m.shape, Text) and m.shape.text == word)
        for word in ("BASS", "TREBLE")
    )
    assert bass.at[1] > treble.at[1]  # right-handed: on the face treble is above


def test_each_side_says_how_it_is_drilled() -> None:
    """From the face pricked and drilled through, from the back for the ferrules."""
    job = sample()
    layout, _ = plan_of(job)
    drawn = (saddle_bases.draw_face(job, layout, STAMP), saddle_bases.draw_back(job, layout, STAMP))
    face, back = (" ".join(figure.notes) for figure in drawn)
    assert "Prick every middle through the paper" in face
    assert "Prick every middle through the paper" not in back
    assert "Ferrules: " in back
    assert "Ferrules: " not in face


def test_a_hole_at_the_back_lies_behind_the_one_on_the_face() -> None:
    job = sample()
    layout, _ = plan_of(job)
    (face,), (back,) = (
        sheets(job, layout, replace(STAMP, templates=(name,))) for name in ("saddle-bases", "saddle-bases-back")
    )
    on_face, on_back = drilled(face.drawing.marks, "through"), drilled(back.drawing.marks, "through")
    for one, other in (("1", "6"), ("2", "5"), ("1", "3")):
        (ax, ay), (bx, by) = on_face[one].centre, on_face[other].centre
        (cx, cy), (dx, dy) = on_back[one].centre, on_back[other].centre
        assert (bx - ax, by - ay) == pytest.approx((dx - cx, cy - dy), abs=1e-6)


def _written(job: Job, to: Path) -> dict[str, Path]:
    stamp = replace(export_job.stamp(job, job_file.fingerprint(job)), date=STAMP.date)
    return {path.name: path for path in export_job.export(job, work_out(job), stamp, to, ("pdf", "dxf", "svg"))}


def test_the_files_are_read_back(tmp_path: Path) -> None:
    job = replace(sample(), sheets=Sheets(templates=("saddle-bases", "saddle-bases-back"), edge=None))
    files = _written(job, tmp_path)
    assert sorted(files) == sorted(
        f"{name}.{kind}" for name in ("saddle-bases", "saddle-bases-back") for kind in ("pdf", "dxf", "svg")
    )
    _, plan = plan_of(job)
    for name, count in (("saddle-bases", 10), ("saddle-bases-back", 12)):
        holes = [item for item in dxf_items(files[f"{name}.dxf"]) if item.where == "DRILL"]
        assert len(holes) == count
    said = pdf_words(files["saddle-bases-back.pdf"])
    assert "SEEN FROM THE BACK" in said
    assert "Mirrored already: seen from the back. Do not mirror it again." in files["saddle-bases-back.svg"].read_text(
        encoding="utf-8"
    )
    face = " ".join(pdf_words(files["saddle-bases.pdf"]).split())
    for part in ("BASS", "TREBLE", "to the nut", "Read before you drill", "Print at 100 %", "eye protection"):
        assert part in face, part
    assert len(plan.through) == 6


def test_holes_to_turn_over_on_say_that_they_are_the_templates_own() -> None:
    job = replace(sample(), sheets=Sheets(turning=True))
    layout, _ = plan_of(job)
    for draw in (saddle_bases.draw_face, saddle_bases.draw_back):
        figure = draw(job, layout, STAMP)
        names = [one.name for one in figure.bored if "turn" in one.name]
        assert names == ["in the template, to turn on, treble", "in the template, to turn on, bass"]
    face, back = (draw(job, layout, STAMP) for draw in (saddle_bases.draw_face, saddle_bases.draw_back))
    on = [[m.shape for m in figure.marks if m.of == "turning" and m.purpose == "drill"] for figure in (face, back)]
    assert on[0] == on[1]  # the same two places, so that both sheets lie on each other


def test_a_stop_is_on_the_sheet() -> None:
    job = with_block(set="square", travel=3)
    for sheet in sheets(job, work_out(job), STAMP):
        assert any(text.startswith("STOP") for text in words(sheet.drawing.marks)), sheet.name


def test_bases_of_their_own_are_all_drawn() -> None:
    job = replace(sample(), separate=one_a_string())
    marks, plan = faced(job)
    assert len([mark for mark in marks if mark.of == "base" and mark.purpose == "mark"]) == 6
    assert set(drilled(marks, "screw")) == {f"{n}.1" for n in range(1, 7)}
    assert len(plan.bases) == 6


def test_what_cannot_be_drawn_says_why() -> None:
    job, plain = sample(), replace(sample(), separate=None, bridge=Bridge())
    with pytest.raises(ExportError, match="for saddles on a base that is screwed down"):
        sheets(plain, work_out(plain), STAMP)
    closed, bare = with_block(through=None), replace(job, strings=None)
    with pytest.raises(ExportError, match="no string goes through it"):
        sheets(closed, work_out(closed), replace(STAMP, templates=("saddle-bases-back",)))
    with pytest.raises(ExportError, match="cannot be drawn yet"):
        sheets(bare, work_out(bare), STAMP)
    for name in ("placement", "full-length", "bridge", "clearing", "plate", "before-and-after"):
        with pytest.raises(ExportError, match="Take saddle-bases here"):
            sheets(job, work_out(job), replace(STAMP, templates=(name,)))
        assert name in TEMPLATES


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_sizes_are_said_in_the_jobs_unit(unit: str) -> None:
    job = replace(sample(), unit=unit)
    layout, plan = plan_of(job)
    figure = saddle_bases.draw_face(job, layout, STAMP)
    assert figure.tables[0].title.endswith(unit)
    assert [h.at for h in plan.through] == [h.at for h in plan_of(sample())[1].through]


def test_no_words_of_the_sheets_lie_on_each_other_where_the_strings_are() -> None:
    layout, _ = plan_of(sample())
    figure = saddle_bases.draw_face(sample(), layout, STAMP)
    boxes = [
        (mark.shape.text, text_box(mark.shape))
        for mark in figure.marks
        if isinstance(mark.shape, Text) and not mark.shape.angle
    ]
    overlaps = [(a, b) for k, (a, one) in enumerate(boxes) for b, other in boxes[:k] if one.meets(other)]
    assert not overlaps


@pytest.mark.parametrize("name", ["saddle-bases", "saddle-bases-back"])
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_every_page_carries_its_cautions(name: str, paper: str, tmp_path: Path) -> None:
    job = replace(sample(), sheets=Sheets(templates=(name,), paper=paper))
    file = _written(job, tmp_path)[f"{name}.pdf"]
    assert cautions.of_template(name)
    pages = pdf_all_words(file)
    assert pages
    for said in pages:
        for caution in cautions.of_template(name):
            assert shown(caution) in said


def test_the_steps_that_drill_say_what_can_hurt() -> None:
    steps = work_steps.steps(sample(), work_out(sample()), TEMPLATES)
    drilling = [step for step in steps if step.startswith(("Drill", "Turn the body over"))]
    assert len(drilling) == 3
    assert cautions.CHIPS.text in drilling[0]
    assert all(step.endswith("Metal, chips and dust: as above.") for step in drilling[1:])
    assert "magnet" in " ".join(cautions.before("screws"))  # which is looked at before all steps
    assert any("Take the electrics off their supply" in step for step in steps)
    assert "watch the base" in steps[-1]


@pytest.mark.parametrize("name", ["saddle-bases", "saddle-bases-back"])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_no_words_lie_on_other_words(name: str, paper: str) -> None:
    job = sample()
    for sheet in sheets(job, work_out(job), replace(STAMP, templates=(name,), paper=paper)):
        boxes = [text_box(m.shape) for m in sheet.drawing.marks if isinstance(m.shape, Text)]
        for one, other in combinations(boxes, 2):
            assert not one.grown(-0.45).meets(other.grown(-0.45))


def test_slanted_frets_have_two_nominal_places_and_no_scale() -> None:
    from export.templates.written import job_results
    from tests.geometry.separate.slanted_sample import plan_of, sample

    names = [row[0] for row in job_results.results(sample(), plan_of(sample())[0])]
    assert "Scale" not in names
    assert sum(name.startswith("Nominal place") for name in names) == 2


def test_no_name_lies_on_the_openings_edge() -> None:
    """The names of the board's edges and the distances stand before it, and its own inside it; letters are measured by
    the typeface.
    """
    job = sample()
    found = saddle_bases.draw_face(job, work_out(job), STAMP)
    (opening,) = [mark.shape for mark in found.marks if mark.of == "opening" and isinstance(mark.shape, Outline)]
    ring = Polygon([vertex[:2] for vertex in opening.vertices])
    texts = [mark.shape for mark in found.marks if isinstance(mark.shape, Text)]
    names = [text for text in texts if text.text.endswith("edge of the board")]
    names += [text for text in texts if "good within" in text.text]
    assert len(names) == 4
    for name in names:
        half = width(name.text, name.height, bold=name.bold) / 2
        way = complex(math.cos(name.angle), math.sin(name.angle))
        ends = [complex(*name.at) + way * out for out in (-half, half)]
        assert LineString([(end.real, end.imag) for end in ends]).distance(ring) > 1.0
    (own,) = [text for text in texts if text.text == "opening"]
    half, (x, y) = width(own.text, own.height) / 2, own.at
    assert ring.contains(LineString([(x - half, y), (x + half, y)]))


def test_several_bases_say_whose_corners_are_read_and_keep_their_screws_on_the_job_sheet() -> None:
    job = replace(sample(), separate=one_a_string())
    (face,) = sheets(job, work_out(job), STAMP)
    assert "Front and back: the outer corners of the two outer bases." in words(face.drawing.marks)
    found = sheets(job, work_out(job), replace(STAMP, templates=("job-sheet",)))
    said = [text for page in found for text in words(page.drawing.marks)]
    assert "Screw holes, and strings beside the board" in said
    assert "middle of screw hole 1.1" in said
    one = sheets(sample(), work_out(sample()), STAMP)
    assert "Front and back: the outer corners of the two outer bases." not in words(one[0].drawing.marks)


def test_a_distances_tips_end_on_lines_where_board_and_base_slant() -> None:
    """Frets slanted by 4 degrees and a base by 8: 6.5 mm in from the edge their lines are 0.5 and 0.9 mm aside."""
    marks, _ = faced(sample())
    of_check = [mark for mark in marks if mark.of.startswith("check:")]
    tips = [mark.shape.vertices[0][:2] for mark in of_check if isinstance(mark.shape, Outline)]
    lines = [LineString([m.shape.a, m.shape.b]) for m in of_check if m.weight < 1.0 and isinstance(m.shape, Line)]
    assert len(tips) == len(lines) == 4
    for tip in tips:
        assert min(line.distance(Point(tip)) for line in lines) < 0.001


def test_a_distances_tips_need_no_more_lines_where_nothing_slants() -> None:
    job = sample()
    layout, plan = plan_of(job)
    ((x, y), (_, other)) = (max(plan.corners), min(plan.corners, key=lambda at: at[1]))
    square = replace(plan.bases[0], corners=((x, y), (x, other), (x + 30.0, other), (x + 30.0, y)))
    assert layout.neck is not None
    ((a, b), (_, c)) = layout.neck.end or ((0.0, 0.0), (0.0, 0.0))
    straight = replace(layout, neck=replace(layout.neck, end=((a, b), (a, c))), separate=replace(plan, bases=(square,)))
    checks = [
        replace(c, from_xy=(a, c.from_xy[1]), to_xy=(x, c.to_xy[1])) for c in layout.checks if "end.base" in c.code
    ]
    marks = saddle_bases.draw_face(job, replace(straight, checks=tuple(checks)), STAMP).marks
    assert len(checks) == 2
    assert not [mark for mark in marks if mark.of.startswith("check:") and mark.weight < 1.0]


@pytest.mark.parametrize(("behind", "near"), [(19.5, False), (20.5, True)])
@pytest.mark.parametrize(("before", "far"), [(40.5, False), (41.5, True)])
def test_windows_lie_where_the_seam_was_read_between_the_board_and_the_strings(
    behind: float, near: bool, before: float, far: bool
) -> None:
    """derived: from 20 mm behind the board's end to 16 mm before the strings' stubs, which begin 25 mm before the base.
    For a reading outside of these a window stands 0.15 or 0.95 of the way between them.
    """
    layout, plan = plan_of(sample())
    assert layout.neck is not None
    assert layout.neck.end is not None
    end, base = max(x for x, _ in layout.neck.end), min(x for x, _ in plan.corners)
    low, high = end + 20.0, base - 25.0 - 16.0
    wanted = [
        end + behind if near else low + 0.15 * (high - low),
        base - before if far else low + 0.95 * (high - low),
    ]
    marks = saddle_bases.draw_face(sample(), with_seam(layout, end + behind, base - before), STAMP).marks
    circles = [mark.shape for mark in marks if mark.of == "seam" and isinstance(mark.shape, Circle)]
    assert [circle.centre[0] for circle in circles] == pytest.approx(wanted)
