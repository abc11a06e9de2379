"""The last survey serves again only while nothing has changed that it stands on, and is then the very same."""

from collections.abc import Callable
from pathlib import Path

import pytest

from app.desk.document.working_out import WorkingOut
from app.edit import edits
from app.edit.edits import replace
from app.file import job_file, samples
from export.plan import PlanView, compose
from geometry.job import Bridge, Job, Point, Saddle, Strings
from geometry.survey import survey
from geometry.work_out import surveyed_alike

CHANGES: dict[str, Callable[[Job], Job]] = {
    "a string": lambda job: edits.in_block(job, "strings", Strings, shift=1.0),
    "the saddle": lambda job: edits.in_block(job, "saddle", Saddle, thickness=2.5),
    "the bridge": lambda job: edits.in_block(job, "bridge", Bridge, width=30.0),
    "the paper": lambda job: replace(job, sheets=replace(job.sheets, paper="Letter")),
    "the title": lambda job: replace(job, title="another"),
    "the hand": lambda job: replace(job, hand="left"),
    "the board": lambda job: replace(job, board=replace(job.board, zero_fret=True)),
    "old work": lambda job: replace(job, old=None),
    "a reading": lambda job: edits.set_value(job, "r1", "44.9"),
    "a rough place": lambda job: replace(job, points={**job.points, "seam.1": Point(near=(500.0, 3.0))}),
    "the frets": lambda job: replace(job, frets=replace(job.frets, spacing="eighteen")),
    "the unit": lambda job: replace(job, unit="in"),
}
OWN = ("a reading", "a rough place", "the frets", "the unit", "the hand")


@pytest.fixture(scope="module")
def whole() -> Job:
    path = samples.find("leaning-neck")
    assert path is not None
    return job_file.read(path)


@pytest.mark.parametrize("what", CHANGES)
def test_what_is_worked_out_is_the_same_with_or_without_what_came_before(whole: Job, what: str) -> None:
    thinking, changed = WorkingOut(), CHANGES[what](whole)
    before = thinking.work_out(whole)
    assert thinking.work_out(changed) == WorkingOut().work_out(changed)
    assert thinking.work_out(whole) == before


@pytest.mark.parametrize("what", CHANGES)
def test_a_survey_stands_on_readings_points_frets_unit_and_hand_alone(whole: Job, what: str) -> None:
    changed = CHANGES[what](whole)
    assert surveyed_alike(whole, changed) == (what not in OWN)
    if what not in OWN:
        one, other = survey(whole), survey(changed)
        assert (one.report, one.fits) == (other.report, other.fits)
        assert (one.state == other.state).all()


@pytest.mark.parametrize("path", samples.paths(), ids=lambda path: path.stem)
def test_no_place_moves_once_the_layout_is_judged(path: Path) -> None:
    """The picture is painted of the places alone: only what is said, and what becomes of the old work, comes later."""
    job = job_file.read(path)
    laid = WorkingOut().lay_places(job)
    judged = laid.judged()
    assert (laid.layout.findings, laid.layout.consequences) == ((), None)
    assert judged.findings
    assert replace(judged, findings=(), consequences=None) == laid.layout
    assert laid.judged() == judged
    view = PlanView(scale=0.4)
    assert compose(job, laid.layout, view) == compose(job, judged, view)
