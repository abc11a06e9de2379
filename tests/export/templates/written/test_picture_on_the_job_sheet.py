"""The small plan on the job sheet: it keeps within the page, and its words off its lines."""

import msgspec
import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Path, Text
from export.drawing.room.clear_words import words_clear
from export.paper.flow import Flow
from export.records import Stamp
from export.templates.written.job_sheet import _room
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.templates.written.test_job_sheet import job_sheet


def test_the_picture_keeps_within_the_page(job: Job, layout: Layout, stamp: Stamp) -> None:
    page = job_sheet(job, layout, stamp)[0]
    (body,) = [m.shape for m in page.drawing.marks if m.of == "body" and isinstance(m.shape, Path)]
    assert all(8.0 < x < 202.0 for x, _, _ in body.vertices)


@pytest.mark.parametrize(("left", "page"), [(56.01, 0), (55.99, 1)])
def test_the_picture_goes_to_a_new_page_where_it_does_not_fit(left: float, page: int) -> None:
    """derived: 100 by 50 mm is drawn 52 mm high, 2 mm under what stands above and 2 mm above what follows"""
    flow = Flow(Box(10.0, 10.0, 210.0, 290.0))
    flow.y = flow.ground.y0 + left
    found, low, scale, for_words = _room(flow, Box(0.0, 0.0, 100.0, 50.0), 52.0)
    top = flow.ground.y1 if page else flow.ground.y0 + left
    assert found == page
    assert (low, scale, for_words) == pytest.approx((top - 2.0 - 52.0, 1.04, 0.0))
    assert flow.y == pytest.approx(low - 2.0)
    assert flow.y >= flow.ground.y0 - 1e-9


def test_a_wide_picture_keeps_8_mm_on_both_sides() -> None:
    flow = Flow(Box(10.0, 10.0, 210.0, 290.0))
    assert _room(flow, Box(0.0, 0.0, 400.0, 50.0), 52.0)[2] == pytest.approx((200.0 - 16.0) / 400.0)


@pytest.mark.parametrize(("name", "paper"), [("turned-left", "A4"), ("tie-bridge", "A4"), ("leaning-neck", "Letter")])
def test_no_word_of_the_small_plan_lies_on_a_line(name: str, paper: str, stamp: Stamp) -> None:
    """Only the plan's marks stand for something."""
    job = sample(name)
    (first, *_) = job_sheet(job, work_out(job), msgspec.structs.replace(stamp, paper=paper))
    plan = tuple(mark for mark in first.drawing.marks if mark.of)
    assert any(isinstance(mark.shape, Text) and mark.shape.text == "saddle" for mark in plan)
    assert words_clear(plan) == plan
