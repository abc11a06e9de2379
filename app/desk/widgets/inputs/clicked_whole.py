"""A line for one short value: who clicks into it types over what stood there, as after Tab."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFocusEvent, QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget

from app.desk.widgets.inputs.whole_letters import WholeLetters


class ClickedWhole(WholeLetters):
    """A click with the left button that gives the focus selects all of it where it is `short`, a second one places the
    cursor; who drags has chosen what is selected, be it nothing.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.short = True
        self._clicked_in = False
        self._pressed_at = QPoint()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._clicked_in = event.reason() == Qt.FocusReason.MouseFocusReason

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        self._clicked_in &= event.button() == Qt.MouseButton.LeftButton
        self._pressed_at = event.position().toPoint()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        super().mouseMoveEvent(event)
        moved = event.position().toPoint() - self._pressed_at
        self._clicked_in &= moved.manhattanLength() < QApplication.startDragDistance()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        if self._clicked_in and self.short and not self.hasSelectedText():
            self.selectAll()
        self._clicked_in = False
