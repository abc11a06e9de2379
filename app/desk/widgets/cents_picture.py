"""The picture of cents: what stays out of tune at each fret, a line for each string, before and after.

Within the shaded band of ±2 cents nothing can be claimed: ten players fretting the same note differ by 2 cents, one
standard deviation (Mottola, measurements of fretting by ten players).
"""

import math

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.desk.widgets.look import LABEL, Look, colour
from geometry.layout import StringPlan

FLOOR = 2.0
"""Cents."""


class CentsPicture(QWidget):
    """Signals: `chosen` with a string's name when its line is clicked."""

    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.strings: tuple[StringPlan, ...] = ()
        self.string = ""
        self.setAccessibleName("Cents at each fret")
        self.setMinimumHeight(150)

    def sizeHint(self) -> QSize:
        return QSize(360, round(196 * self.look.text_scale))

    def show_strings(self, strings: tuple[StringPlan, ...]) -> None:
        self.strings = tuple(s for s in strings if s.cents and all(map(math.isfinite, s.cents.values())))
        worst = max((abs(c) for s in self.strings for c in s.cents.values()), default=0.0)
        self.setAccessibleDescription(
            f"At worst {worst:.1f} cents out of tune" if self.strings else "Nothing known yet"
        )
        self.setVisible(bool(self.strings))
        self.update()

    def choose(self, name: str) -> None:
        self.string = name
        self.update()

    # where things are

    @property
    def area(self) -> QRectF:
        scale = self.look.text_scale
        return QRectF(self.rect()).adjusted(34 * scale, 8, -28 * scale, -24 * scale)

    @property
    def reach(self) -> float:
        """The largest cents shown, a round number; what was before may run out of the picture."""
        worst = max((abs(c) for s in self.strings for c in s.cents.values()), default=0.0)
        return next((r for r in (4.0, 6.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0) if worst * 1.5 <= r), worst)

    def _at(self, fret: float, cents: float) -> QPointF:
        area, frets = self.area, max((f for s in self.strings for f in s.cents), default=12)
        x = area.left() + fret / max(frets, 1) * area.width()
        return QPointF(x, area.center().y() - cents / self.reach * area.height() / 2)

    def _line(self, cents: dict[int, float]) -> QPolygonF:
        return QPolygonF([self._at(fret, value) for fret, value in sorted(cents.items())])

    # painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter)
        p = self.look.palette
        for s in self.strings:
            if s.name != self.string:
                painter.setPen(QPen(colour(p.outline), 1))
                painter.drawPolyline(self._line(s.cents))
        chosen = next((s for s in self.strings if s.name == self.string), None)
        if chosen is not None:
            painter.setClipRect(self.area)
            painter.setPen(QPen(colour(p.before), 1.4, Qt.PenStyle.DashLine))
            painter.drawPolyline(self._line(chosen.cents_before))
            painter.setClipping(False)
            painter.setPen(QPen(colour(p.worked_out), 2.4))
            painter.drawPolyline(self._line(chosen.cents))
        self._paint_names(painter)
        painter.end()

    def _paint_ground(self, painter: QPainter) -> None:
        p, area = self.look.palette, self.area
        painter.setFont(self.look.font(LABEL - 1))
        top, low = self._at(0, min(FLOOR, self.reach)).y(), self._at(0, -min(FLOOR, self.reach)).y()
        painter.fillRect(QRectF(area.left(), top, area.width(), low - top), colour(p.row))
        right, mid = Qt.AlignmentFlag.AlignRight, Qt.AlignmentFlag.AlignVCenter
        for cents in (-self.reach, 0.0, self.reach):
            y = self._at(0, cents).y()
            painter.setPen(QPen(colour(p.field if cents == 0 else p.hair), 1))
            painter.drawLine(QLineF(area.left(), y, area.right(), y))
            painter.setPen(colour(p.quiet))
            painter.drawText(QRectF(0, y - 9, area.left() - 6, 18), right | mid, _signed(cents))
        frets = max((f for s in self.strings for f in s.cents), default=12)
        for fret in (f for f in (0, 3, 5, 7, 9, 12, 15, 17, 19, 22, 24) if f <= frets):
            x = self._at(fret, 0).x()
            painter.setPen(QPen(colour(p.hair), 1))
            painter.drawLine(QLineF(x, area.bottom(), x, area.bottom() + 4))
            painter.setPen(colour(p.quiet))
            words = "open" if fret == 0 else str(fret)
            painter.drawText(QRectF(x - 20, area.bottom() + 5, 40, 16), Qt.AlignmentFlag.AlignCenter, words)

    def _paint_names(self, painter: QPainter) -> None:
        """String names at the right end, pushed apart where they would lie over each other."""
        ends = sorted(((self._line(s.cents).last().y(), s.name) for s in self.strings), key=lambda end: end[0])
        high, places = 13.0 * self.look.text_scale, [-1e9]
        for y, _ in ends:
            places.append(max(y, places[-1] + high))
        lift = sum(place - y for place, (y, _) in zip(places[1:], ends, strict=True)) / max(len(ends), 1)
        for (_, name), place in zip(ends, places[1:], strict=True):
            last = place - lift
            painter.setFont(self.look.font(LABEL - 1, bold=name == self.string))
            painter.setPen(colour(self.look.palette.worked_out if name == self.string else self.look.palette.quiet))
            flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRectF(self.area.right() + 6, last - 9, 40, 18), flags, name)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        near = min(
            ((abs(p.y() - at.y()), s.name) for s in self.strings for p in [_point_at(self._line(s.cents), at.x())]),
            default=(1e9, ""),
        )
        if near[0] < 12:
            self.chosen.emit(near[1])


def _signed(cents: float) -> str:
    return f"{cents:+.0f}".replace("-", "−") if cents else "0"


def _point_at(line: QPolygonF, x: float) -> QPointF:
    points = [line.at(k) for k in range(line.size())]
    return min(points, key=lambda p: abs(p.x() - x), default=QPointF(1e9, 1e9))
