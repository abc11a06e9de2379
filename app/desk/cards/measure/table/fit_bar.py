"""How well a reading fits, painted in its row: a bar from the middle, on a hairline whose ends are where it is
no longer believable.
"""

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from app.desk.cards.measure.table.reading_row import Row
from app.desk.widgets.look import Look, colour
from app.desk.widgets.signs import Sign, paint_sign

ROOM = 15 / 56
"""What of the cell's width is left at each end of the hairline, for the sign of what is to be looked at again."""


def paint_look(painter: QPainter, box: QRectF, look: Look) -> None:
    """The sign of what is to be looked at again, before the bar: behind it stands the frame of the row in hand."""
    side = 11 * look.text_scale
    sign = QRectF(box.left() + 2 * look.text_scale, box.center().y() - side / 2, side, side)
    paint_sign(painter, Sign.LOOK, sign, look.palette)


def paint_bar(painter: QPainter, box: QRectF, row: Row, look: Look) -> None:
    """How far off against what is believable; a ring where a slip would not show."""
    p, worst = look.palette, row.worst
    left, right = box.left() + ROOM * box.width(), box.right() - ROOM * box.width()
    middle = box.top() + box.height() // 2 + 0.5  # a line of one pixel is whole there
    centre, half = (left + right) // 2 + 0.5, (right - left) / 2
    painter.setPen(QPen(colour(p.field), 1))
    painter.drawLine(QLineF(left, middle, right, middle))
    painter.drawLine(QLineF(centre, middle - 7, centre, middle + 7))
    if row.suspect or row.wrong:
        paint_look(painter, box, look)
    if worst is None:
        return
    if row.unchecked:
        painter.setBrush(colour(p.card))
        painter.drawEllipse(QRectF(centre - 4, middle - 4, 8, 8))
        return
    reach = max(-1.0, min(1.0, -worst.residual / worst.believable)) * half
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour(p.look if row.suspect else p.quiet))
    high = 9.0 if row.suspect else 7.0
    start, stop = sorted((centre, centre + reach))
    painter.drawRoundedRect(QRectF(start - 1, middle - high / 2, max(stop - start, 1) + 2, high), 2, 2)
