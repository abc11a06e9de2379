"""What the desk works out and draws of a sample job as it is: made once for all tests, for it is the same each time and
frozen. A job that was edited is worked out as ever, and so is a sample while a test has put anything in the way.
"""

from typing import Any

import pytest

from app.desk.document.working_out import WorkingOut
from app.desk.frame.desk import Desk
from app.desk.plan.painting.picture_cache import Compose, PlanOptions, ShownPart
from app.desk.plan.painting.view import View
from export import plan, templates, writing
from export.drawing.marks import Drawing
from export.paper.lay_sheets import Sheet, Stamp
from export.plan import LabelPlaces
from export.templates import LeftOut
from geometry import advice
from geometry import survey as surveying
from geometry import work_out as stages
from geometry.advice import Advised
from geometry.job import Job
from geometry.layout import Laid, Layout
from geometry.survey.result import Surveyed

ADVISE, ALL_SHEETS = advice.advise, templates.all_sheets
Places = LabelPlaces | None


class Remembered:
    """What is known of the samples. Each is told by being the very one, not one that is equal: what was typed in
    another way may be shown in another way.
    """

    def __init__(self) -> None:
        self.samples: list[Job] = []
        self._laid: dict[tuple[object, ...], tuple[Surveyed, Laid]] = {}
        self._advised: dict[tuple[int, int], tuple[Layout, Advised]] = {}
        self._sheets: list[tuple[Job, Layout, Stamp, tuple[Sheet, ...], tuple[str, ...]]] = []
        self._drawn: dict[tuple[int, int], list[tuple[tuple[object, ...], Layout, tuple[Drawing, LabelPlaces]]]] = {}

    def is_sample(self, job: Job) -> bool:
        return any(job is one for one in self.samples)

    def lend(self, desk: Desk) -> None:
        """Let a desk that is not awake yet take what is known."""
        working_out: Any = desk.document._lay_places
        assert isinstance(working_out.__self__, WorkingOut)
        desk.document._lay_places = self._laying(working_out.__self__)
        for cache in desk.board.pictures.caches:
            cache._compose = self._composing(cache._compose)

    def take_place(self, monkeypatch: pytest.MonkeyPatch) -> None:
        """Stand, for one test, in the place of what the desk asks for by name."""
        monkeypatch.setattr(advice, "advise", self.advise)
        monkeypatch.setattr(templates, "all_sheets", self.all_sheets)
        monkeypatch.setattr(writing, "all_sheets", self.all_sheets)

    def advise(self, job: Job, layout: Layout) -> Advised:
        """What is worth measuring next, in the place of `geometry.advice.advise`."""
        if not self.is_sample(job):
            return ADVISE(job, layout)
        if (id(job), id(layout)) not in self._advised:
            self._advised[id(job), id(layout)] = layout, ADVISE(job, layout)
        return self._advised[id(job), id(layout)][1]

    def all_sheets(self, job: Job, layout: Layout, stamp: Stamp, left_out: LeftOut | None = None) -> tuple[Sheet, ...]:
        """All pages, in the place of `export.templates.all_sheets`. A sample's own layout tells of itself; its job is
        another by its title.
        """
        if not any(layout is laid.judged() for _, laid in self._laid.values()):
            return ALL_SHEETS(job, layout, stamp, left_out)
        pages, told = self._pages(job, layout, stamp, strict=left_out is None)
        if left_out is not None:
            for sentence in told:
                left_out(sentence)
        return pages

    def _pages(
        self, job: Job, layout: Layout, stamp: Stamp, *, strict: bool
    ) -> tuple[tuple[Sheet, ...], tuple[str, ...]]:
        """The pages, and what is told to be left out of them; `strict`: nothing may be."""
        for seen, of, carried, pages, told in self._sheets:
            if of is layout and carried == stamp and seen == job and not (strict and told):
                return pages, told
        sentences: list[str] = []
        pages = ALL_SHEETS(job, layout, stamp, None if strict else sentences.append)
        self._sheets.append((job, layout, stamp, pages, tuple(sentences)))
        return pages, tuple(sentences)

    def _laying(self, working_out: WorkingOut) -> Any:
        def lay_places(job: Job) -> Laid:
            if not self.is_sample(job):
                return working_out.lay_places(job)
            key = id(job), stages.lay_places, surveying.survey
            if key not in self._laid:
                laid = working_out.lay_places(job)
                assert working_out.surveys.last is not None
                self._laid[key] = working_out.surveys.last[1], _judged_once(laid)
            surveyed, laid = self._laid[key]
            working_out.surveys.last = job, surveyed
            return laid

        return lay_places

    def _composing(self, compose: Compose) -> Compose:
        def composed(
            job: Job, layout: Layout, view: View, shown: ShownPart, options: PlanOptions, before: Places
        ) -> tuple[Drawing, LabelPlaces]:
            if not self.is_sample(job) or options.sheets or options.choices:
                return compose(job, layout, view, shown, options, before)
            asked = plan.compose_with, view, shown, options, before
            known = self._drawn.setdefault((id(job), id(layout)), [])
            for seen, _, drawn in known:
                if seen == asked:
                    return drawn
            drawn = compose(job, layout, view, shown, options, before)
            known.append((asked, layout, drawn))
            return drawn

        return composed


def _judged_once(laid: Laid) -> Laid:
    """The same places, whose judgement is made at the first asking and then kept."""
    kept: list[Layout] = []

    def judged(_: Layout) -> Layout:
        if not kept:
            kept.append(laid.judged())
        return kept[0]

    return Laid(laid.layout, (judged,))
