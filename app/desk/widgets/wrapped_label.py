"""A label whose lines end between words, never between a figure, its ± and its unit."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from export.drawing.line_breaks import unbroken


class WrappedLabel(QLabel):
    """Plain words on as many lines as they need; `text` gives them back as they were said."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setText(text)

    def setText(self, text: str) -> None:
        self._said = text
        super().setText(unbroken(text))

    def text(self) -> str:
        return self._said
