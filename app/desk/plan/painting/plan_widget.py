"""The **plan**: the one widget that shows a Drawing, used twice: as plan, and as the **detail** of the bridge's place.

It paints, and gives what the person does with mouse and keys to the pointer.
"""

from collections.abc import Callable, Sequence
from typing import Protocol

from PySide6.QtCore import QEvent, QMarginsF, QObject, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import QWidget

from app.desk.plan.painting import rulers
from app.desk.plan.painting.painted_words import place_words
from app.desk.plan.painting.painter import Prepared, paint, prepare
from app.desk.plan.painting.view import length_of
from app.desk.plan.painting.view_widget import ViewWidget
from app.desk.widgets.look import LABEL, Look, colour
from export.drawing.marks import XY, Circle, Drawing, Text
from geometry.units import Unit

SCALE_HIGH = 42
"""How high the scale at the plan's foot stands, with its words, pixels at text scale 1."""
BAND = 32
"""The height, in pixels, of the band that says that the view is from inside."""
PaintOver = Callable[[QPainter, "Plan"], None]


class TakesEvents(Protocol):
    """Who takes what the person does with mouse and keys; each answers whether it took the event."""

    def press(self, plan: "Plan", at: QPointF, event: QMouseEvent) -> bool: ...
    def move(self, plan: "Plan", at: QPointF, event: QMouseEvent) -> bool: ...
    def release(self, plan: "Plan", at: QPointF, event: QMouseEvent) -> bool: ...
    def double(self, plan: "Plan", at: QPointF) -> bool: ...
    def key(self, plan: "Plan", event: QKeyEvent) -> bool: ...
    def menu(self, plan: "Plan", at: QPointF, event: QContextMenuEvent) -> bool: ...
    def leave(self, plan: "Plan") -> None: ...


class Plan(ViewWidget):
    """Signals: `painted` after each picture. `things` stand for what is on it, one by one, and `thing_held` for what is
    in hand, for who can't see it.
    """

    painted = Signal()

    def __init__(self, look: Look, *, detail: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(look, detail=detail, parent=parent)
        self.unit: Unit = "mm"
        self.pointer: TakesEvents | None = None
        self.paint_over: list[PaintOver] = []
        self.caption = ""
        self.things: Sequence[QObject] = ()
        self.thing_held: QObject | None = None
        self._drawing: Drawing | None = None
        self._says = ""
        self._points: tuple[tuple[str, XY], ...] | None = None  # known once a place is asked for
        self._prepared = Prepared((), (), ())
        self._ground_key: object = None
        self._ground_kept = QPixmap()
        self._space = False
        self._by_key = False  # whether the focus came by a key, and is shown
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        if not detail:
            self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

    # what is shown

    @property
    def drawing(self) -> Drawing | None:
        return self._drawing

    def show_drawing(self, drawing: Drawing, strong: frozenset[str] = frozenset()) -> None:
        """Show a drawing; marks whose `of` is in `strong` stand out."""
        if drawing is not self._drawing:
            self._drawing, self._points = drawing, None
        self._prepared = prepare(drawing, strong)
        self.update()

    def show_nothing(self, says: str) -> None:
        """Show no drawing, and say why."""
        self._drawing, self._prepared, self._says = None, Prepared((), (), ()), says
        self.update()

    # what stands where

    def mark_at(self, at: QPointF, reach: float, *, only: tuple[str, ...] | None = None) -> str:
        """What the mark under the pointer stands for: words first, then points, then whatever else is near.

        `only`: what it may stand for besides points; None: anything.
        """
        if self._drawing is None:
            return ""
        from export.drawing.pick import pick

        for text, of in self._prepared.words:
            if (only is None or of in only) and self.text_box(text).contains(at):
                return of
        if self._points is None:
            self._points = _points_of(self._drawing)
        xy, near = self.to_mm(at), reach / self.view.scale
        away, point = min(((length_of(xy, place), of) for of, place in self._points), default=(near, ""))
        if away < near:
            return point
        found = pick(self._drawing, xy, near, only)
        return found.of if found else ""

    def text_box(self, text: Text) -> QRectF:
        """Where words stand, in pixels, with a little room round them."""
        return place_words(text, self.transform, self.paper_pixels).box(QMarginsF(6, 6, 6, 6))

    def words_of(self, of: str) -> QRectF | None:
        """Where the words that stand for something are, in pixels."""
        return next((self.text_box(text) for text, own in self._prepared.words if own == of), None)

    def words_across(self, frame: QRectF) -> list[QRectF]:
        """The boxes of the words that the edge of a frame (pixels) would cross."""
        boxes = [self.text_box(text) for text, _ in self._prepared.texts]
        return [box for box in boxes if frame.intersects(box) and not frame.contains(box)]

    # painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p, area = self.look.palette, self.area
        if self.is_detail:
            painter.setClipRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))  # its corners lie under the border's
            painter.fillRect(area, colour(p.paper))
        else:
            painter.drawPixmap(0, 0, self._ground())
            painter.setClipRect(area)
        paint(painter, self._prepared, self.transform, p, self.paper_pixels)
        if self._drawing is None and self._says:
            painter.setFont(self.look.font(bold=True))
            painter.setPen(colour(p.look))
            room = area.adjusted(BAND, BAND, -BAND, -BAND)
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self._says)
        if not self.is_detail:
            free = area.adjusted(0, 0, 0, -BAND if self.view.inside else 0)
            rulers.paint_scale_bar(painter, self.view, free, self.unit, self.look)  # under what is said over it
        for paint_more in self.paint_over:
            painter.save()
            paint_more(painter, self)
            painter.restore()
        if self.is_detail:
            self._paint_caption(painter)
            painter.setClipping(False)
            self._paint_border(painter)
        else:
            self._paint_edges(painter)
        painter.end()
        self.painted.emit()

    def _paint_border(self, painter: QPainter) -> None:
        """The detail's border; where the focus came by a key it is thicker too, for its two colours are as dark."""
        p, on = self.look.palette, self.hasFocus() and self._by_key
        line, edge = (4.0, 2.25) if on else (2.5, 1.5)
        painter.setPen(QPen(colour(p.worked_out if on else p.field), line))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(edge, edge, -edge, -edge), 4, 4)

    def _paint_edges(self, painter: QPainter) -> None:
        """The band where the plan is seen from inside, and the focus where it came by a key."""
        area = self.area
        if self.view.inside:
            self._paint_inside(painter)
        painter.setClipping(False)
        if self.hasFocus() and self._by_key:
            painter.setPen(QPen(colour(self.look.palette.worked_out), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(area.adjusted(1, 1, -1, -1))

    def _ground(self) -> QPixmap:
        """Paper, grid and rulers, painted once for each place one looks at."""
        ratio = self.devicePixelRatioF()
        key = (self.view, self.width(), self.height(), self.unit, self.look, ratio)
        if key != self._ground_key:
            self._ground_key = key
            self._ground_kept = QPixmap(round(self.width() * ratio), round(self.height() * ratio))
            self._ground_kept.setDevicePixelRatio(ratio)
            painter = QPainter(self._ground_kept)
            painter.fillRect(self.rect(), colour(self.look.palette.paper))
            rulers.paint_grid(painter, self.view, self.area, self.unit, self.look)
            rulers.paint_rulers(painter, self.view, self.area, self.unit, self.look)
            painter.end()
        return self._ground_kept

    def _paint_caption(self, painter: QPainter) -> None:
        painter.setFont(self.look.font(LABEL))
        flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
        room = QRectF(self.rect()).adjusted(16, 12, -16, -12)
        fits = painter.fontMetrics().horizontalAdvance(self.caption) < room.width()
        caption = self.caption if fits else self.caption.rpartition(", ")[2]
        plate = painter.boundingRect(room, flags, caption).adjusted(-8, -3, 8, 3)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(self.look.palette.paper))
        painter.drawRoundedRect(plate, 4, 4)
        painter.setPen(colour(self.look.palette.quiet))
        painter.drawText(room, flags, caption)

    def _paint_inside(self, painter: QPainter) -> None:
        """Say in a band across the plan that everything is mirrored, so that nobody marks wood from it by mistake."""
        area, p = self.area, self.look.palette
        band = QRectF(area.left(), area.bottom() - BAND, area.width(), BAND)
        painter.fillRect(band, colour(p.look_ground))
        painter.setFont(self.look.font(bold=True))
        painter.setPen(colour(p.look))
        painter.drawText(band, Qt.AlignmentFlag.AlignCenter, "Seen from inside: everything is mirrored")

    # what the person does

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        panning = event.button() == Qt.MouseButton.MiddleButton or (
            event.button() == Qt.MouseButton.LeftButton and self._space
        )
        taken = not panning and self.pointer is not None and self.pointer.press(self, at, event)
        if panning or (not taken and event.button() == Qt.MouseButton.LeftButton):
            self.start_pan(at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        if not self.pan_to(at) and self.pointer:
            self.pointer.move(self, at, event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if not self.end_pan() and self.pointer:
            self.pointer.release(self, event.position(), event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if self.pointer:
            self.pointer.double(self, event.position())

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self.pointer:
            self.pointer.menu(self, QPointF(event.pos()), event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = True
            self.setCursor(Qt.CursorShape.OpenHandCursor)
        elif self.pointer and self.pointer.key(self, event):
            return
        elif not self.pan_by_key(event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self.unsetCursor()
        else:
            super().keyReleaseEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        if self.pointer:
            self.pointer.leave(self)
        super().leaveEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        reason = Qt.FocusReason
        self._by_key = event.reason() in (reason.TabFocusReason, reason.BacktabFocusReason, reason.ShortcutFocusReason)
        self.update()
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self._space = False
        self.update()
        super().focusOutEvent(event)

    def sizeHint(self) -> QSize:
        return QSize(420, 420) if self.is_detail else QSize(900, 600)


def _points_of(drawing: Drawing) -> tuple[tuple[str, XY], ...]:
    """The points of a drawing, by what they stand for and where their middle is."""
    marks = (mark for mark in drawing.marks if mark.of.startswith("point:"))
    return tuple((mark.of, mark.shape.centre) for mark in marks if isinstance(mark.shape, Circle))
