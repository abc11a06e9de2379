"""Composes the drawing for one picture. What that takes is loaded when first needed."""

from typing import TYPE_CHECKING

from app.desk.plan.painting.picture_cache import PlanOptions, ShownPart
from app.desk.plan.painting.view import View
from export.drawing.marks import Drawing
from geometry.job import Job
from geometry.layout import Layout

if TYPE_CHECKING:
    from export.plan import LabelPlaces

CLEAR = 0.6
"""The room round words on the screen, paper mm; common practice, no source."""


def compose(
    job: Job, layout: Layout, view: View, shown: ShownPart, options: PlanOptions, before: "LabelPlaces | None"
) -> "tuple[Drawing, LabelPlaces]":
    """The drawing for one picture, and where its labels stand; they stay where they stood `before`."""
    from export.drawing.flatten import Box as FlatBox
    from export.plan import PlanView, compose_with

    wanted = PlanView(
        scale=shown.scale,
        turn=view.turn,
        inside=view.inside,
        window=FlatBox(*shown.free),
        overlays=options.overlays,  # type: ignore[arg-type]  # the view menu knows the overlays' names
        reading=options.reading,
        advice=options.advice,
        close_up=shown.close_up,
        clear=CLEAR,
        sheets=options.sheets,  # type: ignore[arg-type]  # opaque to the desk
        choices=options.choices,  # type: ignore[arg-type]  # opaque to the desk
        chosen=options.chosen,
    )
    return compose_with(job, layout, wanted, before)
