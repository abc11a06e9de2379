"""The drawing board: the plan with the detail lying on it, both kept in step with the document.

The detail shows the bridge's place enlarged, or wherever it was put; a frame on the plan tied to it says which place.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QLineF, QPoint, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPen, QRegion, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.document import Document
from app.desk.hand import Hand, Told
from app.desk.look import PAPER, Look, colour
from app.desk.on_plan import OnPlan
from app.desk.plan import BAND, Plan
from app.desk.sights import Sights, as_rect, place_of_bridge
from app.desk.view import Box, View
from app.placing import placed_turn
from app.sketch import sketch
from export.drawing.marks import XY, Drawing
from geometry.job import Job, Reading
from geometry.layout import Layout

if TYPE_CHECKING:
    from export.plan import Stands


class Wish(msgspec.Struct, frozen=True, kw_only=True):
    """What the person wants to see on both pictures besides the layout: overlays, the reading in hand, a reading that
    might be next, pages laid over.
    """

    overlays: frozenset[str] = frozenset(("seam", "old bridge", "points", "labels"))
    reading: str = ""
    advice: Reading | None = None
    sheets: tuple[object, ...] = ()


class Sight(msgspec.Struct, frozen=True, kw_only=True):
    """What a picture shows: paper mm per instrument mm, the box where words may stand, the box that the detail covers
    (instrument mm).
    """

    scale: float
    free: Box
    covered: Box | None


Compose = Callable[[Job, Layout, View, Sight, Wish, "Stands | None"], tuple[Drawing, "Stands"]]
"""From job, layout, view, what is in sight, what is wished and where labels are to stay, to the drawing for the screen
and where its labels stand.
"""


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
        self.document, self._compose = document, compose
        self.look = look
        self.strong: frozenset[str] = frozenset()
        self.sights = Sights(self)
        self.wish = Wish()
        self._as_printed = False
        self.plan = Plan(look, parent=self)
        self.detail = Plan(look, detail=True, parent=self)
        self.plan.setAccessibleName("Plan of the instrument")
        self.plan.setAccessibleDescription("Arrow keys move the plan, plus and minus enlarge it")
        self.detail.setAccessibleName("Detail of the bridge's place")
        self.detail.setAccessibleDescription("Arrow keys move the detail, plus and minus enlarge it")
        self.hand = Hand(self)
        self.words = OnPlan(self)
        self.plan.overlays.append(self._paint_frame)
        for plan in (self.plan, self.detail):
            plan.hand = self.hand
            plan.overlays.append(self.words.paint)
        document.started.connect(self.sights.forget)
        document.started.connect(self.hand.let_go)
        self.hand.changed.connect(self._hand_changed)
        self.hand.touched.connect(self.touched)
        self.hand.typing.connect(self.words.type_here)
        self.drawn_from: Layout | None = None
        self._drawn_for: dict[Plan, Sight] = {}
        self._stands: dict[Plan, Stands] = {}
        document.started.connect(self._stands.clear)
        self._stayed: set[Plan] = set()  # the pictures whose labels did not look for new places yet
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(500)  # no jumping while a number is typed
        self._settle.timeout.connect(self.sights.go_home)
        self._again = QTimer(self)
        self._again.setSingleShot(True)
        self._again.setInterval(0)
        self._again.timeout.connect(self._redraw_scaled)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(150)  # words find new places once nothing moves any more
        self._rest.timeout.connect(self._redraw_moved)
        self.plan.view_changed.connect(self._plan_looked)
        self.detail.view_changed.connect(self._detail_looked)

    # keeping in step

    def refresh(self) -> None:
        """Draw the document anew on both."""
        layout = self.document.layout
        for plan in (self.plan, self.detail):
            plan.unit = self.document.job.unit
        if layout is None:
            self.plan.update()
            return
        self.drawn_from = sketch(self.document.job, layout)
        self._draw(self.plan, stay=True)
        if self.sights.found:
            self._settle.start()
        else:
            self.sights.go_home()
        self._draw(self.detail, stay=True)
        self._rest.start()
        self.hand.tell_anew()
        self.detail.setVisible(layout.saddle is not None or bool(layout.old.outline))

    def _draw(self, plan: Plan, *, stay: bool = False) -> None:
        """Draw the document as it is looked at; labels look for new places, or stay while nothing else changes."""
        layout, sight = self.drawn_from, self._sight(plan)
        if layout is None:
            return
        before = self._stands.get(plan) if stay and self._drawn_for.get(plan) == sight else None
        drawing, stands = self._compose(self.document.job, layout, plan.view, sight, self.wish, before)
        plan.show_drawing(drawing, self.strong)
        self._drawn_for[plan], self._stands[plan] = sight, stands
        (self._stayed.add if stands is before else self._stayed.discard)(plan)

    def _sight(self, plan: Plan) -> Sight:
        covered = not plan.is_detail and self.detail.isVisibleTo(self)
        return Sight(
            scale=plan.paper_scale,
            free=plan.box_of(self._free_of_words(plan)),
            covered=plan.box_of(QRectF(self.detail.geometry()).adjusted(-6, -6, 6, 6)) if covered else None,
        )

    def _free_of_words(self, plan: Plan) -> QRectF:
        """Where words may stand: off the edges, and off the detail's caption, or the plan's scale bar and band."""
        strip, free = self.look.text_scale, plan.area.adjusted(6, 6, -6, -6)
        if plan.is_detail:
            return free.adjusted(0, 28 * strip, 0, 0)
        return free.adjusted(0, 0, 0, -42 * strip - (BAND if plan.view.inside else 0))

    def _redraw_scaled(self) -> None:
        """After a zoom the arrowheads and letters must be set for the new scale."""
        for plan in (self.plan, self.detail):
            drawn = self._drawn_for.get(plan)
            if drawn is None or abs(drawn.scale / plan.paper_scale - 1) > 1e-3:
                self._draw(plan)

    def _redraw_moved(self) -> None:
        """After a push the words that came into sight are set, and those under the detail moved; after an edit those
        that stayed look for the best place.
        """
        for plan in (self.plan, self.detail):
            if plan in self._stayed or self._drawn_for.get(plan) != self._sight(plan):
                self._draw(plan)

    def show_wish(self, wish: Wish) -> None:
        """Draw both anew if something else is wished."""
        if wish != self.wish:
            self.wish = wish
            self._draw(self.plan)
            self._draw(self.detail)

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
        from app import distance_words
        from geometry.how_far import how_far

        job = self.document.job
        found = how_far(job, a, b)
        if found is None:
            return Told(says=distance_words.unknown(self.document.layout, a, b, job.hand))
        ends = found.ends
        if found.kind == "points":
            places = self.place_of(a.removeprefix("point:")), self.place_of(b.removeprefix("point:"))
            ends = (places[0], places[1]) if places[0] and places[1] else None
        return Told(says=distance_words.sentence(found, a, b, job), number=distance_words.short(found, job), ends=ends)

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
        self._draw(self.plan)
        self._draw(self.detail)

    def show_place(self, where: str) -> None:
        """Bring what a finding is about into the detail, and let it stand out."""
        spot = self._spot(where)
        if spot is not None:
            self.look_at(spot)
        self.highlight_one(where)

    def _spot(self, where: str) -> XY | None:
        kind, _, name = where.partition(":")
        layout = self.document.layout
        if layout is None:
            return None
        if kind == "point":
            return self.place_of(name)
        if kind == "check":
            return next((check.to_xy for check in layout.checks if check.code == name), None)
        if kind == "metal" and layout.old.metal:
            return layout.old.metal[0].at
        if kind == "string":
            return next((string.break_point for string in layout.strings if string.name == name), None)
        if kind == "fret" and layout.frets is not None:
            return next((_middle(line.left, line.right) for line in layout.frets.lines if str(line.fret) == name), None)
        if kind == "nut" and layout.neck is not None:
            return _middle(*layout.neck.nut)
        if kind == "seam" and layout.neck is not None and layout.neck.seam is not None:
            return layout.neck.seam.at
        home = place_of_bridge(layout)
        return ((home[0] + home[2]) / 2, (home[1] + home[3]) / 2) if home else None

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

    def _paint_frame(self, painter: QPainter, plan: Plan) -> None:
        """The frame of the detail's place and the line that ties it to the detail."""
        if not self.detail.isVisible() or plan.drawing is None:
            return
        box = self.detail.view.seen(self.detail.width(), self.detail.height())
        frame = plan.transform.mapRect(as_rect(box))
        lens = QRectF(self.detail.geometry())
        painter.setPen(QPen(colour(self.look.palette.outline), 1))
        crossed = plan.words_across(frame)
        if crossed:  # the frame breaks where it would cross words
            free = QRegion(plan.rect())
            for words in crossed:
                free -= QRegion(words.toAlignedRect())
            painter.setClipRegion(free, Qt.ClipOperation.IntersectClip)
        painter.drawRoundedRect(frame, 4, 4)
        if not frame.intersects(lens):
            painter.drawLine(_tie(lens, frame))


def _middle(a: XY, b: XY) -> XY:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _tie(lens: QRectF, frame: QRectF) -> QLineF:
    """The shortest of the lines between two boxes' corners that face each other."""
    ends = [(a, b) for a in _corners(lens) for b in _corners(frame)]
    a, b = min(ends, key=lambda pair: (pair[0] - pair[1]).manhattanLength())
    return QLineF(a, b)


def _corners(r: QRectF) -> tuple[QPointF, ...]:
    return (r.topLeft(), r.topRight(), r.bottomLeft(), r.bottomRight())
