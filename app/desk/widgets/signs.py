"""The few signs that stand beside colours: a tick for done, two waves for estimated or unchecked, a triangle for look
again, a filled one for stop, a dot for under way. Each is told from the others by its shape alone.
"""

from enum import Enum
from typing import assert_never

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen, QPolygonF

from app.desk.widgets.look import Palette, colour


class Sign(Enum):
    """What a step or a finding has to say for itself; the value is how it is said aloud."""

    EMPTY = "empty"
    UNDER_WAY = "under way"
    DONE = "done"
    UNSURE = "estimated or unchecked"
    LOOK = "look again"
    STOP = "stop"


def paint_sign(painter: QPainter, sign: Sign, box: QRectF, palette: Palette) -> None:
    """Paint a sign into a square box."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    side = box.width()
    match sign:
        case Sign.EMPTY:
            pass
        case Sign.UNDER_WAY:
            painter.setPen(QPen(colour(palette.quiet), 1.5))
            painter.drawEllipse(box.center(), side * 0.2, side * 0.2)
        case Sign.DONE:
            painter.setPen(_pen(palette.worked_out, side * 0.15))
            x, y = box.x(), box.y()
            points = ((0.08, 0.55), (0.36, 0.82), (0.92, 0.2))
            painter.drawPolyline(QPolygonF([QPointF(x + a * side, y + b * side) for a, b in points]))
        case Sign.UNSURE:
            painter.setPen(_pen(palette.ink, side * 0.12))
            for low in (0.34, 0.7):
                painter.drawPath(_wave(box, low))
        case Sign.LOOK | Sign.STOP:
            painter.setPen(_pen(palette.look, side * 0.12))
            if sign is Sign.STOP:
                painter.setBrush(colour(palette.look))
            top, low = box.top() + side * 0.08, box.bottom() - side * 0.12
            corners = [(box.center().x(), top), (box.right() - side * 0.04, low), (box.left() + side * 0.04, low)]
            painter.drawPolygon(QPolygonF([QPointF(*corner) for corner in corners]))
        case _:
            assert_never(sign)
    painter.restore()


def _wave(box: QRectF, low: float) -> QPainterPath:
    """One wave across the box, at that part of its height."""
    x, y, side = box.x(), box.y() + low * box.height(), box.width()
    path = QPainterPath(QPointF(x + 0.06 * side, y + 0.06 * side))
    path.cubicTo(
        QPointF(x + 0.34 * side, y - 0.34 * side),
        QPointF(x + 0.66 * side, y + 0.34 * side),
        QPointF(x + 0.94 * side, y - 0.06 * side),
    )
    return path


def _pen(name: str, width: float) -> QPen:
    pen = QPen(colour(name), max(width, 1.5))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen
