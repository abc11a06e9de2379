"""The small plans on written pages: no label is left out."""

from pathlib import Path

import msgspec
import pytest

from app.file import job_file, samples
from export.drawing.marks import Drawing
from export.plan import LabelPlaces, PlanView, compose_with
from export.records import Stamp
from export.templates.written import before_after, job_sheet
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out

Composed = list[LabelPlaces]
PAPERS = ("A4", "Letter")


@pytest.fixture
def composed(monkeypatch: pytest.MonkeyPatch) -> Composed:
    """Where the labels of the small plans that are drawn stand."""
    found: Composed = []

    def watching(job: Job, layout: Layout, view: PlanView) -> Drawing:
        drawing, stands = compose_with(job, layout, view)
        if view.window is not None:  # one without is only measured
            found.append(stands)
        return drawing

    for module in (job_sheet, before_after):
        monkeypatch.setattr(module, "compose", watching)
    return found


@pytest.mark.parametrize("path", samples.paths(), ids=lambda path: path.name.partition(".")[0])
def test_no_label_of_a_small_plan_is_left_out(stamp: Stamp, composed: Composed, path: Path) -> None:
    job = job_file.read(path)
    layout = work_out(job)
    for paper in PAPERS:
        asked = msgspec.structs.replace(stamp, paper=paper)
        job_sheet.pages(job, layout, asked)
        if layout.bridge is not None:
            before_after.pages(job, layout, asked)
    assert len(composed) >= len(PAPERS)
    for stands in composed:
        assert [key for key, place in stands.items() if place is None] == []


def test_a_slots_warning_stands_near_it(stamp: Stamp, composed: Composed) -> None:
    """Rather in its short words than so far off that its leader ends between another label and what that names."""
    job = job_file.read(next(path for path in samples.paths() if path.name.startswith("turned-left-old-slot")))
    for paper in PAPERS:
        job_sheet.pages(job, work_out(job), msgspec.structs.replace(stamp, paper=paper))
    stand = [places["slot", 0] for places in composed]
    assert stand
    assert all(place is not None and place.reach < 20.0 for place in stand)
