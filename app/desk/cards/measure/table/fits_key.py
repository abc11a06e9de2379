"""The key to the marks under “fits”: a line below the table that shows each of them with its meaning."""

from PySide6.QtCore import QLineF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.desk.cards.measure.table.reading_row import UNCHECKED
from app.desk.widgets.look import LABEL, SIDE, Look, colour

FILLED, HOLLOW = "off what the others say", UNCHECKED
SHORT = "off the others", "unchecked"
"""The same where there is little room."""
HIGH, LOW = 28, 18
"""Its height at text scale 1, and where there is little room."""


class FitsKey(QWidget):
    """One line: a filled bar and a hollow ring, each with its words."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look, self._high = look, HIGH
        self.setObjectName("fits key")
        self.setAccessibleName("Key to the marks under “fits”")
        self.setAccessibleDescription(
            "A filled bar: how far a reading is off what the others say. A hollow ring: a slip would not show."
        )
        self.setToolTip(self.accessibleDescription())
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_look(self, look: Look) -> None:
        self.look = look
        self.updateGeometry()
        self.update()

    def make_low(self, low: bool) -> None:
        """No higher than its words, where the window has few lines."""
        high = LOW if low else HIGH
        if high != self._high:
            self._high = high
            self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(200, round(self._high * self.look.text_scale))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p, scale, middle = (
            self.look.palette,
            self.look.text_scale,
            self.height() // 2 + 2.5,
        )  # a line of one pixel, whole
        painter.setFont(self.look.font(LABEL))
        letters = QFontMetricsF(painter.font())
        mark, gap, x = 20 * scale, 6 * scale, float(SIDE)
        room = self.width() - 2 * SIDE - 2 * (mark + gap) - 3 * gap
        fits = letters.horizontalAdvance(FILLED) + letters.horizontalAdvance(HOLLOW) <= room
        for at, words in enumerate((FILLED, HOLLOW) if fits else SHORT):
            painter.setPen(QPen(colour(p.field), 1))
            painter.drawLine(QLineF(x, middle, x + mark, middle))
            centre = x + mark / 2
            if at == 0:
                painter.drawLine(QLineF(centre, middle - 6, centre, middle + 6))
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(colour(p.quiet))
                painter.drawRoundedRect(QRectF(centre - 1, middle - 3.5, mark / 3, 7), 2, 2)
            else:
                painter.setBrush(colour(p.card))
                painter.drawEllipse(QRectF(centre - 4, middle - 4, 8, 8))
            x += mark + gap
            wide = letters.horizontalAdvance(words)
            painter.setPen(colour(p.quiet))
            side = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRectF(x, 2, wide + 2, self.height()), side, words)
            x += wide + 3 * gap
        painter.end()
