"""One picture kept in step with the document: what it was last drawn for, and where its labels stand.

Labels **stay** while something is typed or dragged: each keeps where it stands by what it names. They look for new
places once nothing moves any more.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QRectF

from app.desk.plan.painting.plan_widget import BAND, SCALE_HIGH, Plan
from app.desk.plan.painting.view import Box, View
from export.drawing.marks import Drawing
from geometry.job import Job, Reading
from geometry.layout import Layout

if TYPE_CHECKING:
    from export.plan import LabelPlaces


class PlanOptions(msgspec.Struct, frozen=True, kw_only=True):
    """What the person wants to see on both pictures besides the layout: overlays, the chosen reading, a reading that
    might be next, pages laid over, places to choose from and the one looked at.
    """

    overlays: frozenset[str] = frozenset(("seam", "old bridge", "points", "labels", "placements"))
    reading: str = ""
    advice: Reading | None = None
    sheets: tuple[object, ...] = ()
    choices: tuple[object, ...] = ()
    chosen: str = ""


class ShownPart(msgspec.Struct, frozen=True, kw_only=True):
    """What a picture shows: paper mm per instrument mm, the box where words may stand (instrument mm), and whether what
    is small is drawn with its size.
    """

    scale: float
    free: Box
    close_up: bool = False


Compose = Callable[[Job, Layout, View, ShownPart, PlanOptions, "LabelPlaces | None"], tuple[Drawing, "LabelPlaces"]]
"""From job, layout, view, the part shown, the options and where labels are to stay, to the drawing for the screen
and where its labels stand.
"""


class PictureCache:
    """What one picture was drawn for. `stayed`: its labels did not look for new places yet."""

    def __init__(self, plan: Plan, compose: Compose) -> None:
        self.plan, self._compose = plan, compose
        self.shown: ShownPart | None = None
        self.label_places: LabelPlaces | None = None
        self.stayed = False

    def forget(self) -> None:
        """Let the labels of another job look for places of their own."""
        self.label_places = None

    def draw(self, job: Job, layout: Layout, options: PlanOptions, *, stay: bool = False) -> Drawing:
        """The drawing as one looks at it; labels may stay where nothing but the layout has changed."""
        shown = self.shown_now()
        before = self.label_places if stay and shown == self.shown else None
        drawing, self.label_places = self._compose(job, layout, self.plan.view, shown, options, before)
        self.shown, self.stayed = shown, self.label_places is before
        return drawing

    def shown_now(self) -> ShownPart:
        """The part that is shown now."""
        plan = self.plan
        return ShownPart(scale=plan.paper_scale, free=plan.box_of(self._free_of_words()), close_up=plan.is_detail)

    def _free_of_words(self) -> QRectF:
        """Where words may stand: off the edges, and off the detail's caption, or the plan's scale bar and band."""
        plan, strip = self.plan, self.plan.look.text_scale
        free = plan.area.adjusted(6, 6, -6, -6)
        if plan.is_detail:
            return free.adjusted(0, 28 * strip, 0, 0)
        return free.adjusted(0, 0, 0, -SCALE_HIGH * strip - (BAND if plan.view.inside else 0))

    @property
    def scaled(self) -> bool:
        """Whether arrowheads and letters are of another scale than one looks at now."""
        return self.shown is None or abs(self.shown.scale / self.plan.paper_scale - 1) > 1e-3
