"""A line to type in that, while nobody types in it, cuts what is too long at a letter and shows that it does."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QLineEdit, QStyle, QStyleOptionFrame, QWidget

BESIDE = 2
"""Pixels that a line keeps free at both ends of its words, as Qt does."""


class WholeLetters(QLineEdit):
    """`cut_at`: the end that is left out where there is no room."""

    def __init__(self, parent: QWidget | None = None, cut_at: Qt.TextElideMode = Qt.TextElideMode.ElideRight) -> None:
        super().__init__(parent)
        self.cut_at = cut_at

    @property
    def shown(self) -> str:
        """What is painted: all of it while it is typed in, or where it has room."""
        if self.hasFocus():
            return self.text()
        return self.fontMetrics().elidedText(self.text(), self.cut_at, self._words_box(self._frame()).width())

    def _frame(self) -> QStyleOptionFrame:
        frame = QStyleOptionFrame()
        self.initStyleOption(frame)
        return frame

    def _words_box(self, frame: QStyleOptionFrame) -> QRect:
        box = self.style().subElementRect(QStyle.SubElement.SE_LineEditContents, frame, self)
        return box.adjusted(BESIDE, 0, -BESIDE, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        shown = self.shown
        if shown == self.text():
            super().paintEvent(event)
            return
        painter, frame = QPainter(self), self._frame()
        self.style().drawPrimitive(QStyle.PrimitiveElement.PE_PanelLineEdit, frame, painter, self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Text))
        painter.drawText(self._words_box(frame), self.alignment() | Qt.AlignmentFlag.AlignVCenter, shown)
        painter.end()
