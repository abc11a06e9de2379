"""What takes thought: working out and drawing. Loaded when first needed, after the first picture is on the screen."""

from typing import TYPE_CHECKING

from app.desk.plan.picture_cache import Sight, Wish
from app.desk.plan.view import View
from export.drawing.marks import Drawing
from geometry.job import Job
from geometry.layout import Layout

if TYPE_CHECKING:
    from export.plan import Stands
    from geometry.survey.result import Surveyed


class Thinking:
    """Works out one job after the other. The last survey serves again while nothing has changed that it stands on."""

    def __init__(self) -> None:
        self._last: tuple[Job, Surveyed] | None = None

    def work_out(self, job: Job) -> Layout:
        """The layout of a job."""
        from geometry.survey import survey
        from geometry.work_out import lay_out, surveyed_alike

        if self._last is None or not surveyed_alike(job, self._last[0]):
            self._last = job, survey(job)
        return lay_out(job, self._last[1])


def compose(
    job: Job, layout: Layout, view: View, sight: Sight, wish: Wish, before: "Stands | None"
) -> "tuple[Drawing, Stands]":
    """The drawing for one picture, and where its labels stand; they stay where they stood `before`."""
    from export.drawing.flatten import Box as FlatBox
    from export.plan import PlanView, compose_with

    wanted = PlanView(
        scale=sight.scale,
        turn=view.turn,
        inside=view.inside,
        window=FlatBox(*sight.free),
        covered=FlatBox(*sight.covered) if sight.covered else None,
        overlays=wish.overlays,  # type: ignore[arg-type]  # the view menu knows the overlays' names
        reading=wish.reading,
        advice=wish.advice,
        sheets=wish.sheets,  # type: ignore[arg-type]  # opaque to the desk
    )
    return compose_with(job, layout, wanted, before)
