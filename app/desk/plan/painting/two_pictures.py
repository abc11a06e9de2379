"""The plan and the detail kept in step: both show the same layout with the same options, each in its own scale."""

from collections.abc import Callable

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QWidget

from app.desk.document.document import Document
from app.desk.plan.painting.picture_cache import Compose, PictureCache, PlanOptions
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.plan_answers import PlanAnswers

NO_LAYOUT = "This job could not be worked out: a fault of the program. Undo the last change, or save and go on."
NO_DRAWING = "This could not be drawn: a fault of the program. Undo the last change, or save and go on."


class TwoPictures(QObject):
    """Draws both, at once where the job or the options change and a little later where the view does. Signals:
    `options_changed` when something else is to be shown.
    """

    options_changed = Signal()

    def __init__(
        self, document: Document, answers: PlanAnswers, plan: Plan, detail: Plan, compose: Compose, board: QWidget
    ) -> None:
        super().__init__(board)
        self._board = board
        self.document, self.answers, self.plan, self.detail = document, answers, plan, detail
        self.options = PlanOptions()
        self.strong: frozenset[str] = frozenset()
        self.caches = PictureCache(plan, compose), PictureCache(detail, compose)
        self._again = timer(self, 0, self._redraw_scaled)
        self._rest = timer(self, 150, self.redraw_moved)  # words find new places once nothing moves any more
        for cache in self.caches:
            document.started.connect(cache.forget)
            cache.plan.view_changed.connect(self._again.start)
            cache.plan.view_changed.connect(self._rest.start)

    def draw_plan(self) -> None:
        """Draw the plan after an edit: its labels stay until it rests."""
        self._draw(self.caches[0], stay=True)

    def draw_detail(self) -> None:
        """Draw the detail after an edit, when it is settled where both look."""
        self._draw(self.caches[1], stay=True)
        self._rest.start()

    def show_nothing(self) -> None:
        """No drawing may stay where there is no layout of this job."""
        if self.document.fault is None:
            self.plan.update()
            return
        for cache in self.caches:
            cache.plan.show_nothing(NO_LAYOUT)

    def _draw(self, cache: PictureCache, *, stay: bool = False) -> None:
        layout = self.answers.drawn_from
        if layout is None:
            return
        drawing = None
        try:
            drawing = cache.draw(self.document.job, layout, self.options, stay=stay)
            cache.plan.show_drawing(drawing, self.strong)
        finally:
            if drawing is None:
                cache.plan.show_nothing(NO_DRAWING)

    def redraw(self) -> None:
        """Draw both anew, and let the labels look for new places."""
        for cache in self.caches:
            self._draw(cache)

    def redraw_soon(self) -> None:
        """Draw anew what is drawn for another scale than the one that is shown."""
        self._again.start()

    def _redraw_scaled(self) -> None:
        """After a zoom the arrowheads and letters must be set for the new scale."""
        for cache in self.caches:
            if cache.scaled:
                self._draw(cache)

    def redraw_moved(self) -> None:
        """After a push words that came into view are set; after an edit those that stayed look for the best place."""
        for cache in self.caches:
            if cache.stayed or cache.shown != cache.shown_now():
                self._draw(cache)

    def show_options(self, options: PlanOptions) -> None:
        """Draw both anew if something else is to be shown."""
        if options != self.options:
            self.options = options
            self.redraw()
            self.options_changed.emit()

    def toggle(self, overlay: str) -> None:
        """Show an overlay, or put it away."""
        self.show_options(msgspec.structs.replace(self.options, overlays=self.options.overlays ^ {overlay}))

    def highlight(self, strong: frozenset[str]) -> None:
        """Let the marks that stand for these things stand out."""
        if strong != self.strong:
            self.strong = strong
            for cache in self.caches:
                if cache.plan.drawing is not None:
                    cache.plan.show_drawing(cache.plan.drawing, strong)

    def highlight_one(self, of: str) -> None:
        """Let one thing stand out, or nothing."""
        self.highlight(frozenset((of,)) if of else frozenset())


def timer(owner: QObject, ms: int, do: Callable[[], None]) -> QTimer:
    """A timer that calls `do` once, so long after it was started last."""
    made = QTimer(owner, singleShot=True, interval=ms)
    made.timeout.connect(do)
    return made
