"""A string that starts at a fret on the sheets, the plan and the pages, the files read back by other software."""

import math
from pathlib import Path as File

import pytest
from msgspec.structs import replace

from app.cli import bench_page
from export import write_all
from export.drawing.marks import Line, Mark, Text
from export.plan import PlanView, compose
from export.records import Stamp
from export.templates import sheets
from export.templates.blanks import nut
from export.templates.glued.placement import draw_full_length
from export.templates.written import job_results, job_tables
from geometry.job import Bridge, Job, Spread
from geometry.layout import Layout, StringPlan
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.export import readers
from tests.geometry.slanted_made import made, plain

NUT_WIDE = 6.0
"""How wide the small nut is drawn, mm: ours."""


@pytest.fixture(scope="module")
def job() -> Job:
    whole = plain()
    assert whole.strings is not None
    strings = replace(whole.strings, list=SETS["short fifth steel 10-24"].strings, nut=Spread(spread=26.0))
    return replace(whole, strings=strings, bridge=Bridge(length=152.0, width=26.0), title="Short fifth")


@pytest.fixture(scope="module")
def layout(job: Job) -> Layout:
    return work_out(job)


def fifth(layout: Layout) -> StringPlan:
    return layout.strings[-1]


def lines_of(marks: tuple[Mark, ...], of: str) -> list[Line]:
    return [mark.shape for mark in marks if mark.of == of and isinstance(mark.shape, Line)]


def test_the_nut_strip_has_the_strings_that_begin_there(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = nut.draw(job, layout, stamp)
    on_it = {mark.of for mark in figure.marks if mark.of.startswith("string:")}
    assert on_it == {"string:1", "string:2", "string:3", "string:4"}
    assert "Not on this nut, but on its own: string 5 at fret 5." in figure.notes


def test_the_full_length_sheet_marks_its_small_nut(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    figure = draw_full_length(job, layout, stamp)
    nuts = [line for line in lines_of(figure.marks, "string:5") if math.dist(line.a, line.b) == pytest.approx(NUT_WIDE)]
    assert len(nuts) == 1
    middle = (nuts[0].a[0] + nuts[0].b[0]) / 2, (nuts[0].a[1] + nuts[0].b[1]) / 2
    assert middle == pytest.approx(fifth(layout).nut_xy)
    (file,) = write_all(job, layout, replace(stamp, templates=("full-length",)), tmp_path, ("dxf",))
    read = [item for item in readers.dxf_items(file) if len(item.points) == 2]
    lengths = [math.dist(*item.points) for item in read if item.where == "MARK"]
    assert any(length == pytest.approx(NUT_WIDE, abs=1e-3) for length in lengths)


def test_its_stub_begins_behind_its_nut(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = draw_full_length(job, layout, stamp)
    at_start = [
        line for line in lines_of(figure.marks, "string:5") if math.dist(line.a, line.b) == pytest.approx(10, abs=0.1)
    ]
    assert [min(line.a[0], line.b[0]) for line in at_start] == pytest.approx([fifth(layout).nut_xy[0] + 2.0])


def test_the_plan_draws_it_from_its_start(job: Job, layout: Layout) -> None:
    drawn = compose(job, layout, PlanView(scale=0.5))
    from_start = [line for line in lines_of(drawn.marks, "string:5") if line.a == fifth(layout).nut_xy]
    assert len(from_start) == 1
    assert "5 starts at fret 5" in readers_words(drawn.marks)


def readers_words(marks: tuple[Mark, ...]) -> set[str]:
    return {getattr(mark.shape, "text", "") for mark in marks}


def test_the_pages_say_where_it_starts(job: Job, layout: Layout) -> None:
    rows = job_tables.strings(job, layout)
    assert [row[5] for row in rows] == ["worked out"] * 4 + ["worked out, from fret 5"]
    assert "String 5, from fret 5" in bench_page.page(job, layout)


def test_the_pages_tell_the_slants_of_slanted_frets() -> None:
    job = made()
    layout = work_out(job)
    rows = {row[0]: row[1:] for row in job_results.results(job, layout)}
    assert rows["Slant of the nut"][0] == "8.3 mm"
    assert rows["Slant of the nut"][2] == "treble side farther; declared 8.3 mm farther at treble"
    assert rows["Slant of the nominal places"][2] == "bass side farther; declared 16.7 mm farther at bass"
    assert rows["Nearest to square"] == ["fret 7", "", "fret 7 was declared"]
    assert "Slant of the saddle, at the strings" in rows
    assert "Nearest to square: fret 7 (fret 7 declared)." in " ".join(bench_page.page(job, layout).split())


def test_the_job_sheet_says_from_what_its_height_is_taken(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: the fifth lies beyond string 4, the outer one that begins at the nut"""
    found = sheets(job, layout, replace(stamp, templates=("job-sheet",)))
    said = [mark.shape.text for page in found for mark in page.drawing.marks if isinstance(mark.shape, Text)]
    assert "The height of string 5 is taken as that of string 4, over frets 1 and 12 and where it breaks." in said
