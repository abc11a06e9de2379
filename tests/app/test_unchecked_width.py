"""In the shortest list nothing checks the board's two widths: a slip of 1/8 in there shows nowhere as a fault. What
hangs on them says that it is not checked, and which reading would check it.
"""

import re

import msgspec
import pytest
from msgspec.structs import replace

from app.cli import bench_page
from app.desk.cards.measure.found_in_readings import found_in_readings
from app.edit import edits
from app.edit.measure import new_reading
from app.edit.strings.spread_entries import spread_put
from app.say.figures import key_figures, progress
from export.drawing.marks import Text
from export.plan import PlanView, compose
from export.templates.written import job_tables
from geometry.advice import advise
from geometry.findings import Finding
from geometry.job import Job, Reading
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.short_list import short_list

SLIPPED = "1 13/16"
"""The nut's width with a slip of 1/8 in."""


def strung(**slips: str) -> tuple[Job, Layout]:
    job = spread_put("saddle")(spread_put("nut")(short_list(**slips), "1 7/16 in"), "2 1/8 in")
    return job, work_out(job)


def told(layout: Layout) -> Finding:
    return next(finding for finding in layout.findings if finding.code == "margin.unchecked")


@pytest.mark.parametrize("slips", [{}, {"r1": SLIPPED}], ids=["right", "slipped"])
def test_the_margins_are_said_to_be_unchecked_and_by_which_readings_they_would_be(slips: dict[str, str]) -> None:
    _, layout = strung(**slips)
    assert layout.survey.verdict == "clean"
    again = msgspec.json.decode(told(layout).where.removeprefix("take:"), type=Reading)
    assert (again.kind, again.of, again.value) == ("distance", ("nut.left", "nut.right"), None)
    said = told(layout).text
    assert "“nut, edge to edge” and “board end, edge to edge” could be out by 1/8 in or more" in said
    assert said.endswith("Read them once more, as a second reading beside the first.")


def test_no_margin_stands_with_a_bare_plus_minus() -> None:
    job, layout = strung()
    page = bench_page.page(job, layout)
    table = page.split("Outer strings to the board’s edges, in\n")[1].split("\n\n")[0].splitlines()[1:]
    assert len(table) == 3
    assert all(", not checked " in line for line in table)
    assert "is not checked: “nut, edge to edge”" in " ".join(page.split())
    rows = [row for row in job_tables.checks(job, layout, proved=False) if row[0].startswith("outer strings")]
    assert all(row[1].endswith(", not checked") for row in rows)
    drawn = compose(job, layout, PlanView(scale=2.0))
    words = [mark.shape.text for mark in drawn.marks if "margin." in mark.of and isinstance(mark.shape, Text)]
    assert len(words) == 6
    assert all(re.search(r"±\d+/\d+ in, not checked$", text) for text in words)


def test_neither_the_strip_nor_the_step_wears_a_tick() -> None:
    job, layout = strung()
    figure = next(one for one in key_figures.key_figures(job, layout) if one.title == "Readings")
    assert (figure.rest, figure.mark) == ("taken, 16 checked by others", "unsure")
    assert progress.steps(job, layout)["Measure"] == "estimated or unchecked"
    looked = tuple(finding for finding in layout.findings if finding.code != "board.unlooked")
    assert progress.steps(job, replace(layout, findings=looked))["Measure"] == "estimated or unchecked"


def test_the_job_sheet_gives_no_figure_for_a_reading_that_nothing_checks() -> None:
    rows = job_tables.readings(*strung(r1=SLIPPED))
    assert [row[3] for row in rows[:2]] == ["–", "–"]
    assert all(row[3] != "–" for row in rows[2:])


def test_what_is_to_be_measured_next_are_the_widths_and_then_a_slip_shows() -> None:
    job, layout = strung(r1=SLIPPED)
    found = advise(job, layout).advice
    assert [one.reading.of for one in found[:2]] == [("nut.left", "nut.right"), ("end.left", "end.right")]
    for one, text in zip(found, ("1 11/16", "2 3/16"), strict=False):
        job, name = new_reading.add(job, one.reading, None)
        job = edits.set_value(job, name, text)
    after = work_out(job)
    assert "r1" in {name for group in after.survey.groups for name in group} | set(after.survey.suspects)


def test_once_both_widths_are_read_twice_nothing_more_is_said() -> None:
    job, layout = strung()
    for one, text in zip(advise(job, layout).advice[:2], ("1 11/16", "2 3/16"), strict=True):
        job, name = new_reading.add(job, one.reading, None)
        job = edits.set_value(job, name, text)
    after = work_out(job)
    assert "margin.unchecked" not in {finding.code for finding in after.findings}
    assert after.margins is not None
    assert all(margin.checked for margin in after.margins.at)


def test_where_the_edges_were_only_looked_at_the_width_is_asked_for() -> None:
    """Each edge in line with fret 12, both widths read twice: nothing but the looks tells where the edges are there."""
    job, layout = strung()
    for one, text in zip(advise(job, layout).advice[:2], ("1 11/16", "2 3/16"), strict=True):
        job, name = new_reading.add(job, one.reading, None)
        job = edits.set_value(job, name, text)
    for side in ("left", "right"):
        look = Reading(id="l", kind="inline", of=(f"fret12.{side}",), from_=(f"nut.{side}", f"end.{side}"))
        job, _ = new_reading.add(job, look, None)
    found = told(work_out(job))
    assert "nothing but “fret 12, " in found.text
    assert found.text.endswith("tells where they are. Read “fret 12, edge to edge”.")
    wide = msgspec.json.decode(found.where.removeprefix("take:"), type=Reading)
    job, name = new_reading.add(job, wide, None)
    job = edits.set_value(job, name, "2 3/64")
    assert "margin.unchecked" not in {finding.code for finding in work_out(job).findings}


def test_a_card_says_it_as_the_paper_does() -> None:
    _, layout = strung()
    assert told(layout) in found_in_readings(layout)
