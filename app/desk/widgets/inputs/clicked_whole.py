"""A line for one short value: who clicks into it types over what stood there, as after Tab."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QMouseEvent
from PySide6.QtWidgets import QWidget

from app.desk.widgets.inputs.whole_letters import WholeLetters


class ClickedWhole(WholeLetters):
    """A click that gives the focus selects all of it where it is `short`, a second one places the cursor; what is
    selected by dragging stays selected.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.short = True
        self._clicked_in = False

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._clicked_in = event.reason() == Qt.FocusReason.MouseFocusReason

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        if self._clicked_in and self.short and not self.hasSelectedText():
            self.selectAll()
        self._clicked_in = False
