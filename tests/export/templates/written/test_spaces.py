"""The spaces between what stands below each other on written pages, mm (common practice, no source)."""

from collections.abc import Callable
from typing import Any

import pytest

from export.paper.flow import Flow
from export.templates import TEMPLATES
from geometry.job import Job
from geometry.work_out import work_out
from tests.export.held_drawn.drawn_sums import STAMP, job_and_layout
from tests.geometry.held.changed_jobs import as_made
from tests.geometry.proof.proof_read import read

PUT = ("put", "heading", "words", "named", "table", "listed")
Spaces = set[tuple[str, str, float]]


@pytest.fixture
def spaces(monkeypatch: pytest.MonkeyPatch) -> Spaces:
    """What is left free between one thing that is put on a page by itself and the next, by what they are."""
    found: Spaces = set()
    inside: list[str] = []
    last: dict[int, tuple[str, int, float]] = {}

    def watched(name: str, put: Callable[..., None]) -> Callable[..., None]:
        def watching(flow: Flow, *given: Any, **more: Any) -> None:
            if not inside and id(flow) in last:
                before, page, low = last[id(flow)]
                if page == len(flow.pages) and abs(low - flow.y) > 1e-9:
                    found.add((before, name, round(low - flow.y, 3)))
            inside.append(name)
            put(flow, *given, **more)
            inside.pop()
            if not inside:
                last[id(flow)] = name, len(flow.pages), flow.y

        return watching

    for name in PUT:
        monkeypatch.setattr(Flow, name, watched(name, getattr(Flow, name)))
    return found


def told(template: str, job: Job) -> None:
    pages = TEMPLATES[template].pages
    assert pages is not None
    pages(job, work_out(job), STAMP)


HEAD = {("put", "words", 2.0), ("words", "heading", 1.0)}
"""Below a page's name, and below what follows it."""


def test_on_a_page_for_the_owner(spaces: Spaces) -> None:
    """The pictures are 52, 45, 39 or 33 mm high, and 2 mm more are left below them; 1 mm before what a proof says."""
    told("before-and-after", read(as_made("five-pairs"), 1.2 - 0.5j, 0.5))
    pictures = {space for space in spaces if space[:2] == ("heading", "heading")}
    assert pictures <= {("heading", "heading", high + 2.0) for high in (52.0, 45.0, 39.0, 33.0)}
    assert pictures
    assert spaces - pictures == HEAD | {("table", "words", 1.0)}


def test_on_the_job_sheet(spaces: Spaces) -> None:
    """The picture has what room there is; 1 mm is left before the words below a table, and before each note."""
    told("job-sheet", job_and_layout("fullest")[0])
    beside = {space for space in spaces if space[2] < 0 or space[2] > 10 or space[1] == "put"}
    assert spaces - beside == {("put", "words", 2.0), ("words", "words", 1.0), ("table", "words", 1.0)} | (
        {("words", "heading", 1.0)} & spaces
    )
