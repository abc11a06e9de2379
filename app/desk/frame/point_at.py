"""A ring round what is spoken of, over the window: it takes no clicks, and goes with what it rings."""

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.desk.widgets.look import Look, colour

WIDE, AWAY = 3.0, 9
"""The ring's line, and how far it stays from what it rings, pixels."""


class PointAt(QWidget):
    """The ring; hidden while it rings nothing."""

    def __init__(self, look: Look, over: QWidget) -> None:
        super().__init__(over)
        self.look = look
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("Ring round what the example speaks of")
        self.hide()

    def ring(self, widget: QWidget | None, part: QRect | None = None) -> None:
        """Ring a widget, or a part of it (in its own pixels); None: nothing."""
        over = self.parentWidget()
        if widget is None or over is None or not widget.isVisible():
            self.hide()
            return
        box = part if part is not None else widget.rect()
        at = widget.mapTo(over, box.topLeft())
        ringed = QRect(at, box.size()).adjusted(-AWAY, -AWAY, AWAY, AWAY).intersected(over.rect())
        if ringed != self.geometry() or self.isHidden():
            self.setGeometry(ringed)
            self.show()
            self.raise_()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour(self.look.palette.worked_out), WIDE))
        inside = WIDE / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inside, inside, -inside, -inside), 6, 6)
        painter.end()
