"""A widget that shows a **view** of the instrument: what stands where on it, and how it is pushed and enlarged."""

from typing import NamedTuple

import msgspec
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QTransform, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.desk.plan.painting import rulers
from app.desk.plan.painting.painter import SCREEN_PIXELS_PER_MM
from app.desk.plan.painting.view import Box, View
from app.desk.widgets.look import Look
from export.drawing.marks import XY

READABLE = 1.06
"""Letters are so much larger than on paper: those of a label, 2 mm high there, are 12 pixels of type here (derived)."""


class PutThere(NamedTuple):
    """A view that the person put there, and the room it had then, pixels."""

    view: View
    wide: float
    high: float


class ViewWidget(QWidget):
    """Signals: `view_changed` after pan, zoom, turn or a new size. `is_detail`: it has no rulers along its edges.
    `put`: the view that the person put there; None: it follows what there is to see.
    """

    view_changed = Signal()

    def __init__(self, look: Look, *, detail: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look, self.is_detail = look, detail
        self.view = View()
        self.put: PutThere | None = None
        self.instrument: Box | None = None
        """The box, mm, over which the middle of the picture stays when a hand pushes it; None: anywhere."""
        self._onto_key: object = None
        self._onto = QTransform()
        self._pan_from: QPointF | None = None

    def show_look(self, look: Look) -> None:
        self.look = look
        self.update()

    def set_view(self, view: View, *, by_hand: bool = False) -> None:
        if by_hand:
            view = view.kept_over(self.instrument) if self.instrument is not None else view
            self.put = PutThere(view, self.area.width(), self.area.height())
        if view != self.view:
            self.view = view
            self.update()
            self.view_changed.emit()

    def keep_put(self, strip: float) -> None:
        """Show as much as the person put there in the room there is now; `strip` pixels at its head are for words."""
        if self.put is not None:
            view, wide, high = self.put
            by = min(self.area.width() / wide, max(self.area.height() - 2 * strip, 1) / max(high - 2 * strip, 1))
            self.set_view(msgspec.structs.replace(view, scale=view.scale * by))

    # where things are

    @property
    def area(self) -> QRectF:
        """The part of the widget that shows the instrument."""
        edge = 0 if self.is_detail else rulers.edge_of(self.look.text_scale)
        return QRectF(edge, edge, max(self.width() - edge, 1), max(self.height() - edge, 1))

    @property
    def transform(self) -> QTransform:
        """Instrument mm to this widget's pixels."""
        key = (self.view, self.width(), self.height())
        if key != self._onto_key:
            area = self.area
            middle = QTransform.fromTranslate(area.x(), area.y())
            self._onto_key, self._onto = key, self.view.transform(area.width(), area.height()) * middle
        return self._onto

    def to_pixels(self, xy: XY) -> QPointF:
        return self.transform.map(QPointF(*xy))

    def to_mm(self, at: QPointF) -> XY:
        back = self.transform.inverted()[0].map(at)
        return (back.x(), back.y())

    def box_of(self, part: QRectF) -> Box:
        """The instrument's box that a part of this widget (pixels) shows."""
        r = self.transform.inverted()[0].mapRect(part)
        return r.left(), r.top(), r.right(), r.bottom()

    @property
    def paper_scale(self) -> float:
        """Paper mm (of the screen) per instrument mm."""
        return self.view.scale / self.paper_pixels

    @property
    def paper_pixels(self) -> float:
        """Pixels of one paper mm; grows with the text so that letters on the plan keep step."""
        return READABLE * SCREEN_PIXELS_PER_MM * self.look.text_scale

    # pushing and enlarging

    def fit(self, box: Box, margin: float = 32.0) -> None:
        """Show the whole of `box`."""
        area = self.area
        self.set_view(self.view.fitted(box, area.width(), area.height(), margin))

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        about = self.to_mm(at if at is not None else self.area.center())
        self.set_view(self.view.zoomed(factor, about), by_hand=True)

    def start_pan(self, at: QPointF) -> None:
        """The person takes hold of the plan to push it."""
        self._pan_from = at
        self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def pan_to(self, at: QPointF) -> bool:
        """Push it as far as the mouse has come; whether the person holds it."""
        if self._pan_from is None:
            return False
        step = at - self._pan_from
        self._pan_from = at
        self.set_view(self.view.panned(step.x(), step.y()), by_hand=True)
        return True

    def end_pan(self) -> bool:
        """Let go of the plan; whether the person held it."""
        if self._pan_from is None:
            return False
        self._pan_from = None
        self.unsetCursor()
        return True

    def pan_by_key(self, event: QKeyEvent) -> bool:
        """Push or enlarge by a key; whether it was such a key."""
        step = {
            Qt.Key.Key_Left: (48, 0),
            Qt.Key.Key_Right: (-48, 0),
            Qt.Key.Key_Up: (0, 48),
            Qt.Key.Key_Down: (0, -48),
        }.get(Qt.Key(event.key()))
        if step:
            self.set_view(self.view.panned(*step), by_hand=True)
        elif event.text() in ("+", "="):
            self.zoom(1.25)
        elif event.text() == "-":
            self.zoom(0.8)
        else:
            return False
        return True

    def wheelEvent(self, event: QWheelEvent) -> None:
        steps = event.angleDelta().y() / 120
        if steps:
            self.zoom(1.2**steps, event.position())
        event.accept()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.view_changed.emit()
