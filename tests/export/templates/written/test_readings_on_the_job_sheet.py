"""The table of readings on the job sheet: what was struck, what is off and by how much, and how it is set."""

from types import SimpleNamespace
from typing import Any

import msgspec
import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Text
from export.paper.flow import Flow
from export.templates.written import job_tables
from export.templates.written.readings_listed import _end, readings_table
from export.templates.written.written_pages import FOOT
from geometry import words
from geometry.job import Job, Reading
from geometry.job.measured.kinds import PER_DEGREE
from geometry.layout import Fit, Layout


def test_readings_say_what_was_struck_and_what_is_suspect(job: Job, layout: Layout) -> None:
    readings = (*job.readings[:2], msgspec.structs.replace(job.readings[2], struck=True, why="slipped"))
    rows = job_tables.readings(msgspec.structs.replace(job, readings=readings), layout)
    assert rows[0] == ["r1", "Nut, edge to edge", "43.2", "0.05"]
    assert rows[1][2:] == ["643.2", "−3.10 !"]
    assert rows[2][3] == "struck"


def test_a_question_that_was_answered_says_yes(job: Job, layout: Layout) -> None:
    """In line, the same, square have no value; one still asked is not answered, and a length not read stays empty."""
    line = Reading(id="r1", kind="inline", of=("seam.1",), from_=("nut.left", "end.left"))
    asked = msgspec.structs.replace(line, id="r2", asked=True)
    struck = msgspec.structs.replace(asked, id="r3", struck=True)
    unread = msgspec.structs.replace(job.readings[0], id="r4", value=None)
    rows = job_tables.readings(msgspec.structs.replace(job, readings=(line, asked, struck, unread)), layout)
    assert [row[2] for row in rows] == ["yes", "not answered", "", ""]


def test_left_and_right_of_a_line_are_told_by_how_one_sights(job: Job) -> None:
    """Along an edge a side is bass or treble already, off the nut the headstock’s or the body’s; off a line between
    old holes, which lies any way, it is left or right.
    """
    along = Reading(id="r1", kind="off", of=("seam.1",), from_=("nut.left", "end.left"), side="right", value=30)
    across = msgspec.structs.replace(along, id="r2", of=("head.1",), from_=("nut.left", "nut.right"))
    any_way = msgspec.structs.replace(along, id="r3", of=("metal.1",), from_=("pin.1", "pin.2"))
    assert job_tables.off_by(msgspec.structs.replace(job, readings=(along, across))) == job_tables.OFF_BY
    told = job_tables.off_by(msgspec.structs.replace(job, readings=(along, across, any_way)))
    ends = [words.called(name, job.hand) for name in any_way.from_]
    assert told == f"{job_tables.OFF_BY} Left and right: as you sight from {ends[0]} to {ends[1]}."


def test_how_far_a_reading_is_off_is_told_in_64ths_in_a_job_in_inches(job: Job, layout: Layout) -> None:
    """derived: 0.05 mm is 0.126 of a 64th of an inch, less than half, and 3.10 mm 7.81, the nearest to which is 8/64"""
    rows = job_tables.readings(msgspec.structs.replace(job, unit="in"), layout)
    assert [row[3] for row in rows[:2]] == ["<1/64", "−1/8 !"]


@pytest.mark.parametrize("count", [1, 2, 47, 200])
def test_readings_run_down_the_left_half_of_a_page_and_then_the_right(job: Job, layout: Layout, count: int) -> None:
    many = tuple(msgspec.structs.replace(job.readings[0], id=f"q{n}") for n in range(count))
    flow = Flow(Box(0.0, 0.0, 180.0, 120.0), 4.5)
    readings_table(flow, job_tables.readings(msgspec.structs.replace(job, readings=many), layout), job_tables.OFF_BY)
    seen = [
        (page, mark.shape.at[0] > 90.0, -mark.shape.at[1], mark.shape.text)
        for page, marks in enumerate(flow.pages)
        for mark in marks
        if isinstance(mark.shape, Text) and mark.shape.text.startswith("q")
    ]
    assert [text for *_, text in sorted(seen)] == [reading.id for reading in many]
    assert all(-at >= 0.0 for _, _, at, _ in seen)


@pytest.mark.parametrize(
    ("count", "page", "below"),
    [(46, 0, 95.5 - 92.0), (47, 1, 275.5 - 4.0), (100, 1, 275.5 - 108.0), (182, 1, 275.5 - 272.0), (183, 2, 271.5)],
)
def test_each_page_takes_two_columns_of_readings(count: int, page: int, below: float) -> None:
    """derived: below a head of 4.5 mm, with 2 mm to spare, rows of 4 mm: 23 in the 100 mm that are left of a page, and
    68 on one of 280 mm; twice so many readings
    """
    flow: Any = SimpleNamespace(room=100.0, row=4.5, ground=SimpleNamespace(height=280.0))
    ends, left = _end(flow, count, 4.0)
    assert ends == page
    assert left == pytest.approx(below - FOOT)


LONG = "Old footprint 4 to old pin hole 6, both rims"


@pytest.mark.parametrize(
    ("wide", "read", "beside"),
    [(180.0, "50.1 ; 55.5", True), (160.0, "50.1 ; 55.5", True), (160.0, "1 31/32 ; 2 23/32 in", False)],
)
def test_no_name_of_a_reading_is_cut(wide: float, read: str, *, beside: bool) -> None:
    """derived: of a name of 52 mm; where figures are short their columns make room for it, else one table has it."""
    flow = Flow(Box(0.0, 0.0, wide, 120.0), 4.5)
    readings_table(flow, [[f"r{n}", LONG, read, "1/64 !"] for n in range(1, 9)], job_tables.OFF_BY)
    (marks,) = flow.pages
    said = [mark.shape for mark in marks if isinstance(mark.shape, Text)]
    names = [text for text in said if text.text == LONG]
    assert len(names) == sum(text.text == read for text in said) == 8
    assert (len({text.at[0] for text in names}) == 2) is beside
    assert not any("…" in text.text for text in said)


@pytest.mark.parametrize(("residual", "says"), [(0.5, "1.0°"), (-0.5, "−1.0°"), (0.0, "0.0°")])
def test_an_angle_says_which_way_it_is_off(residual: float, says: str) -> None:
    """derived: twice so many degrees as the residual, each as many mm as a degree counts"""
    reading = Reading(id="a", kind="angle", of=("a", "b"), from_=("c", "d"), value=90.0)
    fit = Fit(
        id="a",
        value=0.0,
        adjusted=0.0,
        residual=residual * 2 * PER_DEGREE,
        sigma=0.2,
        redundancy=0.5,
        w=1.0,
        believable=0.7,
    )
    assert job_tables._off(Job(), reading, {"a": fit}, set()) == says
    assert job_tables._off(Job(), reading, {"a": fit}, {"a"}) == f"{says} !"
    assert job_tables._off(Job(), reading, {"a": msgspec.structs.replace(fit, w=None)}, set()) == "–"
    assert job_tables._off(Job(), reading, {}, set()) == ""


@pytest.mark.parametrize(
    ("typed", "shown"), [("40 ; -457", "40 ; −457"), ("-24.5 ; -.5", "−24.5 ; −.5"), ("25-11/32", "25-11/32")]
)
def test_a_typed_minus_sign_is_as_wide_as_those_of_worked_out_numbers(typed: str, shown: str) -> None:
    assert job_tables.MINUS.sub("−", typed) == shown
