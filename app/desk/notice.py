"""The notice bar under the header: one sentence the person should know, with up to two things to do about it."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from app.desk.look import GRID, Look, colour

Answer = tuple[str, Callable[[], None]]
"""A button's words, and what it does."""


class Notice(QWidget):
    """Hidden while there is nothing to say."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look, self.wrong = look, False
        self.words = QLabel(self)
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(3 * GRID, GRID, 2 * GRID, GRID)
        self.row.setSpacing(GRID)
        self.row.addWidget(self.words, 1)
        self._answers: list[Callable[[], None]] = []
        self.buttons = [QPushButton(self) for _ in range(3)]
        for button in self.buttons:
            button.setAccessibleName("Close")
            button.setAccessibleDescription("Puts the notice away")
            button.clicked.connect(self._answered)
            self.row.addWidget(button)
        self.hide()

    def say(self, sentence: str, *answers: Answer, wrong: bool = False) -> None:
        """Show a sentence; a button to put it away is always there."""
        self.wrong = wrong
        self.words.setText(sentence)
        self.words.setAccessibleName(sentence)
        given = (*answers, ("Close", lambda: None))
        self._answers = [do for _, do in given]
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(given))
            if at < len(given):
                button.setText(given[at][0])
                button.setAccessibleName(given[at][0])
                button.setAccessibleDescription(sentence)
        self.show()
        self.update()

    def _answered(self) -> None:
        button = self.sender()
        self.hide()
        if isinstance(button, QPushButton):
            self._answers[self.buttons.index(button)]()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        p = self.look.palette
        painter.fillRect(self.rect(), colour(p.look_ground if self.wrong else p.row))
        painter.fillRect(0, 0, 4, self.height(), colour(p.look if self.wrong else p.steel_line))
        painter.end()
