"""What the move does to the old work, line by line under a few headings; pressing a line goes to its place."""

from itertools import groupby

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.widgets.look import Look
from app.desk.widgets.signs import Sign
from app.desk.widgets.words.signed_line import SignedLine
from geometry.findings import Grade
from geometry.old_work.move_told import TITLES, Line

SIGNS: dict[Grade, Sign] = {"stop": Sign.STOP, "look": Sign.LOOK}
SAID: dict[Grade, str] = {"stop": "stop: ", "look": "look again: ", "good": ""}


class MoveLine(SignedLine):
    """One line; a sign stands before it only where it asks to be looked at."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(look, parent, room=2)
        self.line = Line(part="move", text="")

    def say(self, line: Line) -> None:
        self.line = line
        self.put(line.text, SIGNS.get(line.grade), f"{SAID[line.grade]}{line.text}")


class MoveList(QWidget):
    """Signals: `went_to` with the line whose place is asked for."""

    went_to = Signal(object)

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look
        self.setAccessibleName("What the move does")
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(0)
        self._shown: tuple[Line, ...] = ()
        self._made: list[QWidget] = []

    @property
    def lines(self) -> list[MoveLine]:
        """The lines there are, from top to bottom."""
        return [made for made in self._made if isinstance(made, MoveLine)]

    def show_lines(self, lines: tuple[Line, ...]) -> None:
        self.setVisible(bool(lines))
        if [line.part for line in lines] != [line.part for line in self._shown]:
            self._make(lines)
        for made, line in zip(self.lines, lines, strict=True):
            if made.line != line:
                made.say(line)
        self._shown = lines

    def _make(self, lines: tuple[Line, ...]) -> None:
        """Lines and headings for so many of each part."""
        for made in self._made:
            made.hide()
            made.deleteLater()
        self._made = []
        for part, group in groupby(lines, lambda line: line.part):
            title = label(TITLES[part], "label", self, wrap=False)
            title.setContentsMargins(0, 6, 0, 0)
            self._put(title)
            for _ in group:
                made = MoveLine(self.look, self)
                made.clicked.connect(self._clicked)
                self._put(made)

    def _put(self, made: QLabel | MoveLine) -> None:
        self._made.append(made)
        self.column.addWidget(made)

    def show_look(self, look: Look) -> None:
        self.look = look
        for line in self.lines:
            line.show_look(look)

    def _clicked(self) -> None:
        line = self.sender()
        if isinstance(line, MoveLine):
            self.went_to.emit(line.line)
