"""The frame on the plan that says which place the detail shows, and the line that ties it to the detail."""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QRegion

from app.desk.plan.plan_widget import Overlay, Plan
from app.desk.plan.where_to_look import as_rect
from app.desk.widgets.look import colour


def frame_of(detail: Plan) -> Overlay:
    """Paints the frame of the detail's place on the plan; it breaks where it would cross words."""

    def paint(painter: QPainter, plan: Plan) -> None:
        if not detail.isVisible() or plan.drawing is None:
            return
        frame = plan.transform.mapRect(as_rect(detail.view.seen(detail.width(), detail.height())))
        lens = QRectF(detail.geometry())
        painter.setPen(QPen(colour(plan.look.palette.outline), 1))
        crossed = plan.words_across(frame)
        if crossed:
            free = QRegion(plan.rect())
            for words in crossed:
                free -= QRegion(words.toAlignedRect())
            painter.setClipRegion(free, Qt.ClipOperation.IntersectClip)
        painter.drawRoundedRect(frame, 4, 4)
        if not frame.intersects(lens):
            painter.drawLine(_tie(lens, frame))

    return paint


def _tie(lens: QRectF, frame: QRectF) -> QLineF:
    """The shortest of the lines between two boxes' corners that face each other."""
    ends = [(a, b) for a in _corners(lens) for b in _corners(frame)]
    a, b = min(ends, key=lambda pair: (pair[0] - pair[1]).manhattanLength())
    return QLineF(a, b)


def _corners(r: QRectF) -> tuple[QPointF, ...]:
    return (r.topLeft(), r.topRight(), r.bottomLeft(), r.bottomRight())
