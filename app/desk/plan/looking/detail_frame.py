"""The frame on the plan that says which place the detail shows, and the line that ties it to the detail."""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QRegion

from app.desk.plan.looking.where_to_look import as_rect
from app.desk.plan.painting.plan_widget import PaintOver, Plan
from app.desk.widgets.look import colour


def frame_of(detail: Plan) -> PaintOver:
    """Paints the frame of the detail's place on the plan; it breaks where it would cross words."""

    def paint(painter: QPainter, plan: Plan) -> None:
        if not detail.isVisible() or plan.drawing is None:
            return
        seen = plan.transform.mapRect(as_rect(detail.view.seen(detail.width(), detail.height())))
        frame = QRectF(seen.toRect()).translated(0.5, 0.5)  # on whole pixels, where its colour is its own
        box = QRectF(detail.geometry())
        painter.setPen(QPen(colour(plan.look.palette.field), 1))
        crossed = plan.words_across(frame)
        if crossed:
            free = QRegion(plan.rect())
            for words in crossed:
                free -= QRegion(words.toAlignedRect())
            painter.setClipRegion(free, Qt.ClipOperation.IntersectClip)
        painter.drawRoundedRect(frame, 4, 4)
        if not frame.intersects(box):
            painter.drawLine(_tie(box, frame))

    return paint


def _tie(box: QRectF, frame: QRectF) -> QLineF:
    """The shortest of the lines from a corner of the frame to the detail's box."""
    ends = [(_nearest(box, b), b) for b in _corners(frame)]
    a, b = min(ends, key=lambda pair: (pair[0] - pair[1]).manhattanLength())
    return QLineF(a, b)


def _nearest(box: QRectF, at: QPointF) -> QPointF:
    """The box's place that is nearest to a point outside it."""
    x, y = min(max(at.x(), box.left()), box.right()), min(max(at.y(), box.top()), box.bottom())
    return QPointF(x, y)


def _corners(r: QRectF) -> tuple[QPointF, ...]:
    return (r.topLeft(), r.topRight(), r.bottomLeft(), r.bottomRight())
