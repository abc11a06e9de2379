"""What is inside a card, or along the foot, with the ring of the focus round what stands at its edge and has no edge of
its own: a tick, a button that reads as a link, a heading that folds, words behind a sign, a figure. So these begin
where all else does, and the ring touches no letter.
"""

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QApplication, QWidget

OUT, OVER, LINE = 6, 1, 2
"""How far the ring's outer edge lies beside what it rings and over it, and its line, pixels."""


def ring_outside(widget: QWidget, over: int = OVER) -> None:
    """Let a widget's ring be painted round it wherever it stands in a `Ringed`; `over`: so far over and under it."""
    widget.setProperty("ringed", over)


class Ringed(QWidget):
    """Paints the ring under its children: these show no ground."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._painted = QRect()
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._moved)

    def _moved(self) -> None:
        """The focus is elsewhere, or what has it."""
        ring = self.ring()
        if ring != self._painted:
            self.update(ring.united(self._painted).adjusted(-1, -1, 1, 1))
            self._painted = ring

    def ring(self) -> QRect:
        """Where the ring is, none where nothing inside asks for one."""
        found = QApplication.focusWidget()
        over = found.property("ringed") if found is not None else None
        if found is None or over is None or not self.isAncestorOf(found):
            return QRect()
        box = QRect(found.mapTo(self, QPoint(0, 0)), found.size())
        if not found.hasHeightForWidth():  # words on one line need not reach to the card's other edge
            box.setWidth(min(found.width(), found.sizeHint().width()))
        return box.adjusted(-OUT, -over, OUT, over)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest and not self._painted.isEmpty():
            self.update()
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        self._moved()
        if self._painted.isEmpty():
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Highlight), LINE))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        inside = LINE / 2
        painter.drawRoundedRect(QRectF(self._painted).adjusted(inside, inside, -inside, -inside), 4, 4)
        painter.end()
