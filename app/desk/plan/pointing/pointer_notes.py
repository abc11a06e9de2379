"""What is painted over the plan for the pointer: a point's name and ±, an answer to 'how far', one sentence."""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen, QPolygonF

from app.desk.plan.painting.plan_widget import SCALE_HIGH, Plan
from app.desk.plan.plan_answers import PlanAnswers
from app.desk.plan.pointing.clicked_places import Placing
from app.desk.plan.pointing.pointer import Pointer
from app.desk.widgets.look import LABEL, TEXT, Look, colour


class PointerNotes:
    """Paints over both pictures."""

    def __init__(self, pointer: Pointer, answers: PlanAnswers, look: Look) -> None:
        self.pointer, self.answers, self.look = pointer, answers, look

    def paint(self, painter: QPainter, plan: Plan) -> None:
        pointer = self.pointer
        if isinstance(pointer.state, Placing):
            self._paint_placed(painter, plan, pointer.state)
        if pointer.answer.ends is not None:
            self._paint_measured(painter, plan, *pointer.answer.ends, pointer.answer.number)
        for of in {pointer.over, f"point:{pointer.held}" if pointer.held else ""}:
            if of.startswith("point:"):
                self._paint_point(
                    painter, plan, of.partition(":")[2], ring=of.endswith(pointer.held) and bool(pointer.held)
                )
        self._paint_post(painter, plan, pointer.over)
        if pointer.says and not plan.is_detail:
            self._paint_band(painter, plan, pointer.says)

    def _paint_post(self, painter: QPainter, plan: Plan, over: str) -> None:
        """What is known of the new tuner post under the pointer."""
        kind, _, number = over.partition(":")
        post = self.answers.about_post(number) if kind == "post" else None
        if post is not None:
            self._paint_tag(painter, plan, plan.to_pixels(post[0]) + QPointF(14, -14), post[1])

    def _paint_point(self, painter: QPainter, plan: Plan, name: str, ring: bool) -> None:
        place = self.answers.place_of(name)
        if place is None:
            return
        at, p = plan.to_pixels(place), self.look.palette
        if not plan.area.contains(at):
            return
        if ring:
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.drawEllipse(at, 9.0, 9.0)
        self._paint_tag(painter, plan, at + QPointF(14, -14), self.answers.about(name))

    def _paint_placed(self, painter: QPainter, plan: Plan, state: Placing) -> None:
        """The places so far, joined in their order, each with its number."""
        at = [place if isinstance(place, tuple) else self.answers.place_of(place) for place in state.got]
        spots = [plan.to_pixels(place) for place in at if place is not None]
        painter.setPen(QPen(colour(self.look.palette.worked_out), 1.5))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(spots))
        for spot in spots:
            painter.drawLine(spot - QPointF(5, 5), spot + QPointF(5, 5))
            painter.drawLine(spot - QPointF(5, -5), spot + QPointF(5, -5))
        for number, spot in enumerate(spots, 1):
            self._paint_tag(painter, plan, spot + QPointF(8, -8), str(number))

    def _paint_tag(self, painter: QPainter, plan: Plan, at: QPointF, text: str) -> None:
        look = self.look
        metrics = QFontMetricsF(look.font(LABEL))
        wide, high = metrics.horizontalAdvance(text) + 16, metrics.height() + 8
        free = plan.area.adjusted(4, 4, -8, -4)
        x = max(free.left(), min(at.x(), free.right() - wide))
        y = max(free.top(), min(at.y() - high, free.bottom() - high))
        box = QRectF(x, y, wide, high)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour(look.palette.ink))
        painter.drawRoundedRect(box, 4, 4)
        painter.setFont(look.font(LABEL))
        painter.setPen(colour(look.palette.card))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)

    def _paint_measured(
        self, painter: QPainter, plan: Plan, a: tuple[float, float], b: tuple[float, float], told: str
    ) -> None:
        ends, p = (plan.to_pixels(a), plan.to_pixels(b)), self.look.palette
        painter.setPen(QPen(colour(p.worked_out), 2))
        painter.drawLine(*ends)
        painter.setBrush(colour(p.card))
        for end in ends:
            painter.drawEllipse(end, 4.0, 4.0)
        if not plan.is_detail or _crosses(QLineF(*ends), plan.area):
            self._paint_tag(painter, plan, (ends[0] + ends[1]) / 2 + QPointF(8, -8), told)

    def _paint_band(self, painter: QPainter, plan: Plan, text: str) -> None:
        """One sentence at the plan's foot: what to point at, or why a point does not move."""
        look, area = self.look, plan.area
        font = look.font(TEXT)
        wide = min(QFontMetricsF(font).horizontalAdvance(text) + 32, area.width() - 32)
        lines = QFontMetricsF(font).boundingRect(QRectF(0, 0, wide - 32, 400), Qt.TextFlag.TextWordWrap, text)
        high = lines.height() + 16
        over = wide < area.width() - 32  # one that takes all the width lies on the scale: the plan stays in sight
        low = area.bottom() - 8 - (SCALE_HIGH * look.text_scale if over else 0)
        box = QRectF(area.center().x() - wide / 2, low - high, wide, high)
        painter.setPen(QPen(colour(look.palette.outline), 1))
        painter.setBrush(colour(look.palette.card))
        painter.drawRoundedRect(box, 6, 6)
        painter.setFont(font)
        painter.setPen(colour(look.palette.ink))
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(box.adjusted(16, 0, -16, 0), flags, text)


def _crosses(line: QLineF, area: QRectF) -> bool:
    """Whether any of a line is seen in an area."""
    corners = [area.topLeft(), area.topRight(), area.bottomRight(), area.bottomLeft()]
    sides = [QLineF(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    bounded = QLineF.IntersectionType.BoundedIntersection
    return area.contains(line.p1()) or any(line.intersects(side)[0] == bounded for side in sides)
