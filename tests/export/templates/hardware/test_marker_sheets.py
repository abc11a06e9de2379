"""The sheets for markers: a strip as long as the board's edge, dots where they belong, no seam through a hole."""

import datetime
from pathlib import Path as FilePath

import pytest
from ezdxf.filemanagement import readfile
from msgspec.structs import replace

from app.file import export_job, job_file, samples
from export.drawing.marks import Circle, Path, Text
from export.errors import ExportError
from export.records import Figure, Stamp
from export.templates import TEMPLATES, all_sheets
from export.templates.hardware import markers
from geometry.job import FaceMarkers, Hardware, Job, Markers, SideMarkers
from geometry.work_out import work_out

STAMP = Stamp(date=datetime.date(2026, 1, 2), fingerprint="ABCD-EF", templates=("side-markers", "face-markers"))


def marked(name: str = "turned-left", side: str = "bass") -> Job:
    path = samples.find(name)
    assert path is not None
    dots = Markers(side=SideMarkers(side=side, frets=(3, 5, 12), twice=(12,)), face=FaceMarkers(frets=(5, 12)))  # type: ignore[arg-type]
    return replace(job_file.read(path), hardware=Hardware(markers=dots))


def figure(job: Job, name: str) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, work_out(job), STAMP)


def circles(found: Figure) -> list[Circle]:
    return [mark.shape for mark in found.marks if mark.purpose == "drill" and isinstance(mark.shape, Circle)]


@pytest.mark.parametrize(("name", "side", "down"), [("turned-left", "bass", 1), ("leaning-neck", "bass", -1)])
def test_the_strip_hangs_down_on_its_own_side(name: str, side: str, down: int) -> None:
    job = marked(name, side)
    found, layout = circles(figure(job, "side-markers")), work_out(job)
    assert [hole.centre[0] for hole in found] == pytest.approx([dot.along for dot in layout.hardware.side])
    assert [hole.centre[1] for hole in found] == pytest.approx([3.0 * down] * len(found))


def test_the_strip_is_as_long_as_the_boards_edge() -> None:
    job = marked()
    layout = work_out(job)
    (strip,) = (
        mark.shape for mark in figure(job, "side-markers").marks if mark.of == "strip" and mark.purpose == "cut"
    )
    assert isinstance(strip, Path)
    assert layout.neck is not None
    assert layout.neck.end is not None
    nut, end = complex(*layout.neck.nut[0]), complex(*layout.neck.end[0])
    assert max(x for x, _, _ in strip.vertices) == pytest.approx(
        abs(end - nut), abs=0.2
    )  # its edge is all but straight


def test_no_seam_runs_through_a_hole() -> None:
    job = marked()
    for name in ("side-markers", "face-markers"):
        found = figure(job, name)
        assert len(found.keep) == len(circles(found))
        for box, hole in zip(found.keep, circles(found), strict=True):
            assert box.x0 < hole.centre[0] - hole.radius
            assert hole.centre[0] + hole.radius < box.x1


def test_dots_come_back_out_of_the_file_for_a_machine(tmp_path: FilePath) -> None:
    """Read by ezdxf: a template's pilot holes lie as far apart as the layout's dots."""
    job = marked()
    layout = work_out(job)
    stamp = replace(export_job.stamp(job, "ABCD-EF"), templates=("face-markers",))
    (path,) = export_job.export(job, layout, stamp, tmp_path, ("dxf",))
    drilled = [entity for entity in readfile(path).modelspace().query("CIRCLE") if entity.dxf.layer == "DRILL"]
    assert len(drilled) == len(layout.hardware.face)
    first, last = drilled[0].dxf.center, drilled[-1].dxf.center
    apart = abs(complex(*layout.hardware.face[-1].at) - complex(*layout.hardware.face[0].at))
    assert first.distance(last) == pytest.approx(apart, abs=1e-3)


def test_sheets_are_laid_for_both() -> None:
    job = marked()
    names = {sheet.template for sheet in all_sheets(job, work_out(job), STAMP)}
    assert names == {"side-markers", "face-markers"}


@pytest.mark.parametrize("name", ["side-markers", "face-markers"])
def test_what_is_missing_is_said(name: str) -> None:
    job = replace(marked(), hardware=Hardware())
    with pytest.raises(ExportError, match=r"ask for .* markers on the Headstock card"):
        figure(job, name)
    unread = replace(marked(), readings=())
    with pytest.raises(ExportError, match="read them first"):
        figure(unread, name)


def test_the_drill_and_the_width_stand_in_the_notes() -> None:
    notes = " ".join(figure(marked(), "side-markers").notes)
    assert "Drill 1/16 in or 1.6 mm" in notes
    assert "1/8 in in deep" not in notes
    assert "in scrap first; good to ±" in notes


def test_markers_are_among_the_templates() -> None:
    assert TEMPLATES["side-markers"].draw is markers.draw_side


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
def test_the_words_of_a_strip_are_not_lost_at_a_seam(turn: str) -> None:
    """A text that a seam crosses is left out on both sheets: the words that keep the sides stand near the nut."""
    stamp = replace(STAMP, templates=("side-markers",), turn=turn)
    for paper in ("A4", "Letter", "A3"):
        pages = all_sheets(marked(), work_out(marked()), replace(stamp, paper=paper))
        said = [mark.shape.text for mark in pages[0].drawing.marks if isinstance(mark.shape, Text)]
        assert {"nut", "on the face, BASS side", "down the BASS edge", "Turned left"} <= set(said)
