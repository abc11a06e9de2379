"""Cells of a table in which a value is typed, and what the keys do there."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemDelegate, QComboBox, QStyledItemDelegate

from app.desk.widgets.inputs.fields import TypedLine

KEYS = "Up and Down go from row to row, Escape takes back; with Alt they step, as Page up and Page down do"
"""What is said of a cell's line besides what Enter does."""
ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class TypedCells(QStyledItemDelegate):
    """Enter and Down settle and go on, Up goes back, Escape takes back; with Alt, Up and Down step the value."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._putting = False
        self._known: str | None = None

    def put_typed(self, put: Callable[[], None], in_force: Callable[[], str | None]) -> None:
        """Put what a key typed into force; `in_force`: what the cell then holds."""
        self._putting = True
        try:
            put()
        finally:
            self._putting = False
        self._known = in_force()

    def takes(self, line: TypedLine, in_force: str | None) -> bool:
        """Whether the line takes over what is in force: until something is typed, and where the value has since come
        from elsewhere, as by undo; else the line would put back on leaving what was taken back.
        """
        if line.isModified() and (self._putting or in_force == self._known):
            return False
        self._known = in_force
        return True

    def go_on(self, step: int) -> None:
        """Go to another row, unless what was settled here cannot be."""
        raise NotImplementedError

    def give_up(self) -> None:
        """Take back what was typed in the current cell."""
        raise NotImplementedError

    def steps(self) -> bool:
        """Whether the current cell holds a number."""
        return True

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if isinstance(watched, TypedLine | QComboBox) and event.key() == Qt.Key.Key_Escape:
                self.give_up()
                self.closeEditor.emit(watched, QAbstractItemDelegate.EndEditHint.RevertModelCache)
                return True
            if isinstance(watched, TypedLine) and self._took(watched, event):
                return True
        return super().eventFilter(watched, event)

    def _took(self, line: TypedLine, event: QKeyEvent) -> bool:
        """Whether the key was one of ours."""
        up = event.key() == Qt.Key.Key_Up
        if event.key() in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            return not self.steps()
        if not up and event.key() not in (*ENTER, Qt.Key.Key_Down):
            return False
        if event.modifiers() & Qt.KeyboardModifier.AltModifier:
            if self.steps():
                line.step(1 if up else -1)
            return True
        self.commitData.emit(line)
        self.closeEditor.emit(line, QAbstractItemDelegate.EndEditHint.NoHint)
        self.go_on(-1 if up else 1)
        return True
