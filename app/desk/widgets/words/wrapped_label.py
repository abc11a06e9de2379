"""A label whose lines end between words, never between a figure, its ± and its unit."""

from collections.abc import Iterable

from PySide6.QtCore import QRect, Qt
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


class SteadyLabel(WrappedLabel):
    """One that is as high as the longest of the sentences it may say, so that nothing under it moves."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("", parent)
        self._may_say: tuple[str, ...] = ()
        self.setAlignment(Qt.AlignmentFlag.AlignTop)

    def may_say(self, sentences: Iterable[str]) -> None:
        self._may_say = tuple(map(unbroken, sentences))
        self.updateGeometry()

    def heightForWidth(self, width: int) -> int:
        letters, room, wrap = self.fontMetrics(), QRect(0, 0, width, 10_000), Qt.TextFlag.TextWordWrap
        highs = (letters.boundingRect(room, wrap, sentence).height() for sentence in self._may_say)
        return max(super().heightForWidth(width), *highs, 0)
