"""What the move does to the old work, line by line under a few headings; pressing a line goes to its place."""

from itertools import groupby

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen, QResizeEvent, QTextOption
from PySide6.QtWidgets import QAbstractButton, QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.widgets.look import TEXT, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from geometry.findings import Grade
from geometry.old_work.what_it_does import TITLES, Line

SIGNS: dict[Grade, Sign] = {"stop": Sign.STOP, "look": Sign.LOOK}
SAID: dict[Grade, str] = {"stop": "stop: ", "look": "look again: ", "good": ""}


class MoveLine(QAbstractButton):
    """One line; a sign stands before it only where it asks to be looked at."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look
        self.line = Line(part="move", text="")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def say(self, line: Line) -> None:
        self.line = line
        self.setAccessibleName(f"{SAID[line.grade]}{line.text}")
        self.setAccessibleDescription("Shows the place")
        self._make_room()
        self.update()

    def show_look(self, look: Look) -> None:
        self.look = look
        self._make_room()

    def _make_room(self) -> None:
        self.setMinimumHeight(self.heightForWidth(max(self.width(), 240)))
        self.updateGeometry()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    @property
    def _indent(self) -> int:
        return round(15 + 13 * self.look.text_scale)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        metrics = QFontMetrics(self.look.font(TEXT))
        box = metrics.boundingRect(0, 0, width - self._indent, 2000, Qt.TextFlag.TextWordWrap, self.line.text)
        return box.height() + 6

    def sizeHint(self) -> QSize:
        return QSize(300, self.heightForWidth(max(self.width(), 240)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p, side = self.look.palette, 13 * self.look.text_scale
        if self.line.grade in SIGNS:
            paint_sign(painter, SIGNS[self.line.grade], QRectF(2, 5, side, side), p)
        painter.setFont(self.look.font(TEXT))
        painter.setPen(colour(p.look if self.line.grade == "stop" else p.ink))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WordWrap)
        painter.drawText(QRectF(self.rect()).adjusted(self._indent, 2, 0, 0), self.line.text, option)
        if self.hasFocus() or self.underMouse():
            painter.setPen(QPen(colour(p.worked_out if self.hasFocus() else p.hair), 2 if self.hasFocus() else 1))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
        painter.end()


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
