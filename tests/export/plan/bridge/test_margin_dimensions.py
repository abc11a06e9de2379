"""The outer strings' margins on the plan: dimensions from string to edge, and only where they can be read."""

import pytest

from app.file import job_file, samples
from export.drawing.marks import Drawing, Mark, Text
from export.plan import PlanView, compose
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out

MARGIN = "check:margin."


@pytest.fixture(scope="module")
def worked() -> tuple[Job, Layout]:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    return job, work_out(job)


def drawn(worked: tuple[Job, Layout], scale: float) -> list[Mark]:
    drawing: Drawing = compose(*worked, PlanView(scale=scale))
    return [mark for mark in drawing.marks if mark.of.startswith(MARGIN)]


def test_close_by_each_margin_is_a_dimension_with_its_plus_minus(worked: tuple[Job, Layout]) -> None:
    marks = drawn(worked, 2.0)
    places = {"nut", "fret12", "end"}
    assert {mark.of for mark in marks} == {f"{MARGIN}{place}.{hand}" for place in places for hand in ("bass", "treble")}
    texts = [mark.shape.text for mark in marks if isinstance(mark.shape, Text)]
    assert len(texts) == 6
    assert all("±" in text and text.endswith(" mm") for text in texts)


def test_from_afar_they_would_clutter_and_are_left_out(worked: tuple[Job, Layout]) -> None:
    assert drawn(worked, 0.27) == []


@pytest.mark.parametrize("scale", [1.4, 2.0, 3.0])
def test_their_words_do_not_lie_on_the_boards_edge(worked: tuple[Job, Layout], scale: float) -> None:
    _, layout = worked
    assert layout.margins is not None
    edges = [margin.edge_xy for margin in layout.margins.at]
    said = [mark.shape for mark in drawn(worked, scale) if isinstance(mark.shape, Text)]
    assert said
    for words in said:
        beside = [y for x, y in edges if abs(words.at[0] - x) < 40 / scale]
        assert not [y for y in beside if words.at[1] < y < words.at[1] + words.height / scale]
