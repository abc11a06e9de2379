"""What a card's inputs are scrolled in: a field that takes the focus lies wholly in it, with some room."""

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QScrollArea, QWidget

from app.desk.widgets.inputs.fields import Field

ROOM = 1.5
"""How much is left over and under a field, in lines of text: what is said under it comes there."""
HELD = 40
"""ms after which it is looked whether a mouse button is still held: till then what is under it stays there."""


class InputsArea(QScrollArea):
    """Scrolls to what takes the focus in it, but not as its window comes back from another; by a click only to a line
    that is typed in, and once the button is up.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._held: QWidget | None = None
        """What had the focus in it last."""
        self._wait = QTimer(self)
        self._wait.setSingleShot(True)
        self._wait.timeout.connect(self.show_focus)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._focus_moved)

    def _focus_moved(self, before: QWidget | None, now: QWidget | None) -> None:
        if now is None or not self.isAncestorOf(now) or (_pressed() and not isinstance(now, QLineEdit)):
            return
        elsewhere = before is None or before.window() is not self.window()
        left, self._held = self._held, now
        if now is not left or not elsewhere:  # else its window is back, and stays as it was left
            self._wait.start(0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """What comes up under the card takes its foot away from it: a field that was in sight stays there."""
        held, before = self._focused(), event.oldSize().height()
        super().resizeEvent(event)
        if held is not None and 0 <= self._top(held) <= before - held.height():
            self._wait.start(0)

    def show_focus(self) -> None:
        """Scroll as little as shows what has the focus in it."""
        held = self._focused()
        if held is None:
            return
        if _pressed():
            self._wait.start(HELD)
            return
        room = round(ROOM * self.fontMetrics().lineSpacing())
        field = held.parentWidget()
        for shown in (field, held) if isinstance(field, Field) else (held,):
            if shown.height() + 2 * room <= self.viewport().height():  # of what is higher Qt shows what it can
                self.ensureWidgetVisible(shown, 0, room)

    def _focused(self) -> QWidget | None:
        """What in it has the focus."""
        held, inside = QApplication.focusWidget(), self.widget()
        return held if held is not None and inside is not None and inside.isAncestorOf(held) else None

    def _top(self, held: QWidget) -> int:
        return held.mapTo(self.viewport(), QPoint(0, 0)).y()


def _pressed() -> bool:
    return QApplication.mouseButtons() != Qt.MouseButton.NoButton
