"""The rulers along two edges of the plan, its grid and its scale bar, all in the job's unit."""

from collections.abc import Iterator

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QTransform

from app.desk.plan.painting.view import View, inch_steps, metric_steps, tick_step
from app.desk.widgets.look import LABEL, Look, colour
from geometry.units import MM_PER, Unit, in_decimals

EDGE = 28
"""How thick a ruler is, in pixels at text scale 1."""
TICK = 12
"""The longest mark of a ruler, in pixels."""


def edge_of(text_scale: float) -> int:
    """How thick a ruler is, in pixels: its marks, and a line of numbers."""
    return round(TICK + (EDGE - TICK) * text_scale)


class RulerMarks:
    """The marks of one ruler: `axis` 0 runs along the top edge, 1 down the left edge.

    `along_x`: whether it tells how far from the nut; the other tells how far from the neck centre line, either way.
    """

    def __init__(self, view: View, area: QRectF, unit: Unit, axis: int) -> None:
        back = (view.transform(area.width(), area.height()) * QTransform.fromTranslate(area.x(), area.y())).inverted()[
            0
        ]
        low = back.map(area.topLeft())
        high = back.map(area.topRight() if axis == 0 else area.bottomLeft())
        self.along_x = (axis == 0) == (view.turn % 2 == 0)
        per = MM_PER[unit]
        self.first = (low.x() if self.along_x else low.y()) / per
        self.last = (high.x() if self.along_x else high.y()) / per
        self.start, self.length = (area.x(), area.width()) if axis == 0 else (area.y(), area.height())
        pixels = view.scale * per
        steps = inch_steps() if unit == "in" else metric_steps()
        self.numbered = tick_step(pixels, 64, steps)
        self.fine = tick_step(pixels, 7, steps)
        self.middle = tick_step(pixels, 28, steps)

    def at(self, value: float) -> float:
        """Where a value stands, in pixels."""
        return self.start + (value - self.first) / (self.last - self.first) * self.length

    def values(self, step: float) -> Iterator[float]:
        """The round values the ruler shows, `step` apart."""
        low, high = sorted((self.first, self.last))
        count = int(-(-low // step))
        while count * step <= high:
            yield count * step
            count += 1


def is_on(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < 1e-6


def paint_grid(painter: QPainter, view: View, area: QRectF, unit: Unit, look: Look) -> None:
    """A faint grid in step with the rulers."""
    fine, bold = QPen(colour(look.palette.grid), 1), QPen(colour(look.palette.grid_bold), 1)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    for axis in (0, 1):
        marks = RulerMarks(view, area, unit, axis)
        lines: tuple[list[QLineF], list[QLineF]] = ([], [])
        step = marks.middle if marks.middle < marks.numbered else marks.fine
        for value in marks.values(step):
            p = round(marks.at(value))
            line = QLineF(p, area.top(), p, area.bottom()) if axis == 0 else QLineF(area.left(), p, area.right(), p)
            lines[is_on(value, marks.numbered)].append(line)
        for pen, some in zip((fine, bold), lines, strict=True):
            painter.setPen(pen)
            painter.drawLines(some)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)


def paint_rulers(painter: QPainter, view: View, area: QRectF, unit: Unit, look: Look) -> None:
    """Both rulers, over the edges of the plan outside `area`."""
    p = look.palette
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.fillRect(QRectF(0, 0, area.right(), area.top()), colour(p.card))
    painter.fillRect(QRectF(0, 0, area.left(), area.bottom()), colour(p.card))
    painter.setFont(look.font(LABEL))
    for axis in (0, 1):
        _paint_ruler(painter, RulerMarks(view, area, unit, axis), area, axis, look)
    painter.fillRect(QRectF(0, 0, area.left() - 1, area.top() - 1), colour(p.card))
    painter.setPen(QPen(colour(p.hair), 1))
    painter.drawLines(
        [
            QLineF(area.left() - 1, area.top() - 1, area.right(), area.top() - 1),
            QLineF(area.left() - 1, area.top() - 1, area.left() - 1, area.bottom()),
        ]
    )
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)


def _paint_ruler(painter: QPainter, marks: RulerMarks, area: QRectF, axis: int, look: Look) -> None:
    ticks = []
    edge = (area.top() if axis == 0 else area.left()) - 1
    for value in marks.values(marks.fine):
        p = round(marks.at(value))
        long = TICK if is_on(value, marks.numbered) else 7 if is_on(value, marks.middle) else 4
        ticks.append(QLineF(p, edge - long, p, edge) if axis == 0 else QLineF(edge - long, p, edge, p))
    painter.setPen(QPen(colour(look.palette.field), 1))
    painter.drawLines(ticks)
    painter.setPen(colour(look.palette.quiet))
    start, end = (area.left(), area.right()) if axis == 0 else (area.top(), area.bottom())
    for value in marks.values(marks.numbered):
        words, at = number(value, marks.along_x), marks.at(value)
        half = painter.fontMetrics().horizontalAdvance(words) / 2
        if start <= at - half and at + half <= end:
            _paint_number(painter, words, at, (edge - TICK) / 2, axis)


def number(value: float, along_x: bool) -> str:
    """A ruler's number, never in powers of ten: before the nut it has its sign, across the neck it has none."""
    return in_decimals(value if along_x else abs(value), 4).rstrip("0").rstrip(".")


def _paint_number(painter: QPainter, words: str, at: float, aside: float, axis: int) -> None:
    centre = Qt.AlignmentFlag.AlignCenter
    painter.save()
    if axis:
        painter.translate(QPointF(aside + 1, at))
        painter.rotate(-90)
    else:
        painter.translate(QPointF(at, aside))
    painter.setRenderHint(QPainter.RenderHint.TextAntialiasing, True)
    painter.drawText(QRectF(-64, -aside, 128, 2 * aside), centre | Qt.TextFlag.TextDontClip, words)
    painter.restore()


def paint_scale_bar(painter: QPainter, view: View, area: QRectF, unit: Unit, look: Look) -> None:
    """A bar of round length in the lower right corner of an area."""
    per = MM_PER[unit]
    steps = inch_steps() if unit == "in" else metric_steps()
    step = tick_step(view.scale * per, 88, steps)
    wide = step * per * view.scale
    right, low = area.right() - 40, area.bottom() - 18
    painter.setPen(QPen(colour(look.palette.ink), 1.2))
    painter.drawLines(
        [
            QLineF(right - wide, low, right, low),
            QLineF(right - wide, low - 5, right - wide, low + 5),
            QLineF(right, low - 5, right, low + 5),
        ]
    )
    painter.setPen(colour(look.palette.quiet))
    painter.setFont(look.font(LABEL))
    words = f"{step:g} {unit}"
    painter.drawText(QRectF(right - wide - 40, low - 26, wide + 80, 18), Qt.AlignmentFlag.AlignCenter, words)
