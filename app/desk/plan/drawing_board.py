"""The drawing board: the plan with the detail lying on it, both kept in step with the document.

The detail shows the bridge's place enlarged, or wherever it was put; a frame on the plan tied to it says which place.
"""

from collections.abc import Callable, Mapping

import msgspec
from PySide6.QtCore import QPoint, QRectF, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.document.document import Document
from app.desk.plan.detail_frame import frame_of
from app.desk.plan.on_plan import OnPlan
from app.desk.plan.picture_cache import Compose, Drawn, Wish
from app.desk.plan.plan_widget import Plan
from app.desk.plan.pointer import Hand, Told
from app.desk.plan.where_to_look import Sights, spot_of
from app.desk.widgets.look import PAPER, Look
from app.edit.placed_turn import placed_turn
from app.edit.typing_visit import Refused
from app.say.rough_layout import layout_shown
from export.drawing.marks import XY
from geometry.layout import Layout

NO_LAYOUT = "This job could not be worked out: a fault of the program. Undo the last change, or save and go on."
NO_DRAWING = "This could not be drawn: a fault of the program. Undo the last change, or save and go on."
SHOWN = ("point", "string", "reading", "pin")
"""What stands out under the pointer."""


class DrawingBoard(QWidget):
    """Signals: `touched` with what was clicked; `asked_menu` with what is under the pointer and where on the screen;
    `typing_begins` before a number is typed on the plan, `put_value` with the reading's id and what was typed,
    `gave_up` with the id when it is to be as before.
    """

    touched = Signal(str)
    asked_menu = Signal(str, QPoint)
    put_value = Signal(str, str)
    typing_begins = Signal()
    gave_up = Signal(str)

    def __init__(self, document: Document, look: Look, compose: Compose, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.strong: frozenset[str] = frozenset()
        self.sights = Sights(self)
        self.wish = Wish()
        self.refused: Mapping[str, Refused] = {}
        """The readings' entries that cannot be, wherever they were typed; they stay to be mended."""
        self._as_printed = False
        self.plan = Plan(look, parent=self)
        self.detail = Plan(look, detail=True, parent=self)
        self.plan.setAccessibleName("Plan of the instrument")
        self.plan.setAccessibleDescription("Arrow keys move the plan, plus and minus enlarge it")
        self.detail.setAccessibleName("Detail of the bridge's place")
        self.detail.setAccessibleDescription("Arrow keys move the detail, plus and minus enlarge it")
        self.hand = Hand(self)
        self.words = OnPlan(self)
        self.plan.overlays.append(frame_of(self.detail))
        for plan in (self.plan, self.detail):
            plan.hand = self.hand
            plan.overlays.append(self.words.paint)
        document.started.connect(self.sights.forget)
        document.started.connect(self.hand.let_go)
        self.hand.changed.connect(self._hand_changed)
        self.hand.touched.connect(self.touched)
        self.hand.typing.connect(self.words.type_here)
        self.drawn_from: Layout | None = None
        self._pictures = tuple(Drawn(plan, compose) for plan in (self.plan, self.detail))
        for picture in self._pictures:
            document.started.connect(picture.forget)
        self._settle = self._timer(500, self.sights.go_home)  # no jumping while a number is typed
        self._again = self._timer(0, self._redraw_scaled)
        self._rest = self._timer(150, self._redraw_moved)  # words find new places once nothing moves any more
        self.plan.view_changed.connect(self._plan_looked)
        self.detail.view_changed.connect(self._detail_looked)

    def _timer(self, ms: int, do: Callable[[], None]) -> QTimer:
        timer = QTimer(self, singleShot=True, interval=ms)
        timer.timeout.connect(do)
        return timer

    # keeping in step

    def refresh(self) -> None:
        """Draw the document anew on both."""
        layout = self.document.layout
        for plan in (self.plan, self.detail):
            plan.unit = self.document.job.unit
        if layout is None:
            self._show_nothing()
            return
        self.drawn_from = layout_shown(self.document.job, layout)
        whole, enlarged = self._pictures
        self._draw(whole, stay=True)
        if self.sights.found:
            self._settle.start()
        else:
            self.sights.go_home()
        self._draw(enlarged, stay=True)
        self._rest.start()
        self.hand.tell_anew()
        self.detail.setVisible(layout.saddle is not None or bool(layout.old.outline))

    def _show_nothing(self) -> None:
        """No drawing may stay where there is no layout of this job."""
        self.drawn_from = None
        if self.document.fault is None:
            self.plan.update()
            return
        for plan in (self.plan, self.detail):
            plan.show_nothing(NO_LAYOUT)
        self.detail.hide()

    def _draw(self, picture: Drawn, *, stay: bool = False) -> None:
        if self.drawn_from is None:
            return
        drawing = None
        try:
            drawing = picture.draw(self.document.job, self.drawn_from, self.wish, self._under(picture), stay=stay)
            picture.plan.show_drawing(drawing, self.strong)
        finally:
            if drawing is None:
                picture.plan.show_nothing(NO_DRAWING)

    def _under(self, picture: Drawn) -> QRectF | None:
        """What of a picture lies under the detail."""
        covers = picture.plan is self.plan and self.detail.isVisibleTo(self)
        return QRectF(self.detail.geometry()) if covers else None

    def _redraw(self) -> None:
        for picture in self._pictures:
            self._draw(picture)

    def _redraw_scaled(self) -> None:
        """After a zoom the arrowheads and letters must be set for the new scale."""
        for picture in self._pictures:
            if picture.scaled:
                self._draw(picture)

    def _redraw_moved(self) -> None:
        """After a push the words that came into sight are set, and those under the detail moved; after an edit those
        that stayed look for the best place.
        """
        for picture in self._pictures:
            if picture.stayed or picture.sight != picture.sight_now(self._under(picture)):
                self._draw(picture)

    def show_wish(self, wish: Wish) -> None:
        """Draw both anew if something else is wished."""
        if wish != self.wish:
            self.wish = wish
            self._redraw()

    def highlight(self, strong: frozenset[str]) -> None:
        """Let the marks that stand for these things stand out."""
        if strong != self.strong:
            self.strong = strong
            for plan in (self.plan, self.detail):
                if plan.drawing is not None:
                    plan.show_drawing(plan.drawing, strong)

    def highlight_one(self, of: str) -> None:
        """Let one thing stand out, or nothing."""
        self.highlight(frozenset((of,)) if of else frozenset())

    def _hand_changed(self) -> None:
        over, held = self.hand.over, f"point:{self.hand.held}" if self.hand.held else ""
        shown = over if over.partition(":")[0] in SHOWN or self.hand.asks_lines else ""
        self.highlight(frozenset(of for of in (shown, held) if of))
        self.plan.update()
        self.detail.update()

    def toggle(self, overlay: str) -> None:
        """Show an overlay, or put it away."""
        self.show_wish(msgspec.structs.replace(self.wish, overlays=self.wish.overlays ^ {overlay}))

    def show_look(self, look: Look) -> None:
        self.look = look
        shown = msgspec.structs.replace(look, palette=PAPER) if self._as_printed else look
        for plan in (self.plan, self.detail):
            plan.show_look(shown)
        self._again.start()

    # what the hand asks

    def place_of(self, name: str) -> XY | None:
        """Where a point stands on the plan: as solved, or roughly."""
        layout = self.drawn_from
        if layout is None:
            return None
        solved = layout.points.get(name)
        return (solved.x, solved.y) if solved else layout.rough.get(name)

    def about(self, of: str) -> str:
        """What the hand says of a thing."""
        kind, _, name = of.partition(":")
        return self.words.about(name) if kind == "point" else ""

    def told(self, a: str, b: str) -> Told:
        """How far it is from one thing to another, points or lines, as it is now."""
        from app.say import distance
        from geometry.placed.how_far import how_far

        job = self.document.job
        found = how_far(job, a, b)
        if found is None:
            return Told(says=distance.unknown(self.document.layout, a, b, job.hand))
        ends = found.ends
        if found.kind == "points":
            places = self.place_of(a.removeprefix("point:")), self.place_of(b.removeprefix("point:"))
            ends = (places[0], places[1]) if places[0] and places[1] else None
        return Told(says=distance.sentence(found, a, b, job), number=distance.short(found, job), ends=ends)

    def placed_turn(self) -> float:
        """The angle from the frame of the placed points to the neck frame."""
        return placed_turn(self.document.job, self.document.layout)

    # where one looks

    def fit(self) -> None:
        """The whole instrument on the plan, and the bridge's place in the detail."""
        self.sights.forget()
        self.sights.go_home()
        self._again.start()

    def fit_detail(self) -> None:
        """The detail back to the bridge's place."""
        self.detail.put = False
        self.sights.go_home(resized=True)

    def zoom(self, factor: float) -> None:
        """Enlarge whichever picture has the focus."""
        (self.detail if self.detail.hasFocus() else self.plan).zoom(factor)

    def turn(self) -> None:
        """Turn both pictures by a quarter."""
        self._see(turn=(self.plan.view.turn + 1) % 4)

    def flip(self) -> None:
        """Seen from inside, and back."""
        self._see(inside=not self.plan.view.inside)

    def toggle_print(self) -> None:
        """Both pictures as paper would show them, and back."""
        self._as_printed = not self._as_printed
        self.show_look(self.look)

    def _see(self, **how: object) -> None:
        for plan in (self.plan, self.detail):
            plan.set_view(msgspec.structs.replace(plan.view, **how))
        self.fit()
        self._redraw()

    def show_place(self, where: str) -> None:
        """Bring what a finding is about into the detail, and let it stand out."""
        spot = spot_of(where, self.document.layout, self.place_of)
        if spot is not None:
            self.look_at(spot)
        self.highlight_one(where)

    def look_at(self, xy: XY) -> None:
        """Bring a place into the middle of the detail."""
        self.detail.set_view(msgspec.structs.replace(self.detail.view, centre=xy), by_hand=True)

    def _plan_looked(self) -> None:
        self._again.start()
        self._rest.start()
        self._caption()

    def _detail_looked(self) -> None:
        self._again.start()
        self._rest.start()
        self._caption()
        self.plan.update()

    def _caption(self) -> None:
        times = self.detail.view.scale / self.plan.view.scale
        self.detail.caption = f"detail, {times:.1f} × the plan"

    # laying out

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.plan.setGeometry(self.rect())
        self.sights.go_home(resized=True)
