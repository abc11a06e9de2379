"""The findings strip along the bottom: what matters in large figures; a click goes to the place.

Where room is short the cells say less, the last ones first; where even that has no room, as many as can say the least
are shown at a time, each with all that its part has room for, and they are turned over.
"""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from app.desk.frame.strip_cell import SIGNS, Cell
from app.desk.widgets.look import LABEL, Look, colour
from app.desk.widgets.ringed import Ringed
from app.desk.widgets.signs import paint_sign
from app.say.figures.key_figures import KeyFigure, Mark

SIDE, APART = 24, 24
WORST: tuple[Mark, ...] = ("stop", "look", "unsure", "good", "")


class More(QAbstractButton):
    """How many cells are out of sight, with the worst of their signs; a click brings them into sight."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look
        self.mark: Mark = ""
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def say(self, count: int, mark: Mark, *, at_end: bool) -> None:
        self.mark = mark
        self.setText("Back" if at_end else f"{count} more")
        what = f"{count} more finding{'s' if count > 1 else ''}"
        self.setAccessibleName(f"{what}, {SIGNS[mark].value}" if mark else what)
        self.setAccessibleDescription(
            "Back to the first findings" if at_end else "Moves along to the findings out of sight"
        )
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        scale = self.look.text_scale
        wide = QFontMetricsF(self.look.font(LABEL)).horizontalAdvance("9 more")
        return QSize(round(wide + 16), round(68 * scale))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale, p, box = self.look.text_scale, self.look.palette, QRectF(self.rect())
        side = 13 * scale
        paint_sign(painter, SIGNS[self.mark], QRectF(box.right() - 6 - side, 18 * scale - side / 2, side, side), p)
        painter.setFont(self.look.font(LABEL))
        painter.setPen(colour(p.ink if self.underMouse() else p.worked_out))
        low = QRectF(0, 34 * scale, box.width() - 6, 26 * scale)
        painter.drawText(low, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, self.text())
        if self.hasFocus():
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.drawRoundedRect(box.adjusted(1, 5, -1, -5), 4, 4)
        painter.end()


class Strip(Ringed):
    """Signals: `went_to` with what a figure is about (`"reading:r9"`, `"saddle"`)."""

    went_to = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.setObjectName("band")
        self.setAccessibleName("Findings")
        self.cells: list[Cell] = []
        self.more = More(look, self)
        self.at = self._count = 0
        """Which part of the cells is in sight where not all are, and how many have a figure."""
        self.row = QHBoxLayout()
        self.row.setSpacing(APART)
        across = QHBoxLayout(self)
        across.setContentsMargins(SIDE, 2, SIDE - 6, 2)
        across.setSpacing(APART)
        across.addLayout(self.row, 1)
        across.addWidget(self.more)
        self.more.clicked.connect(self.turn_over)
        self.show_look(look)

    def sizeHint(self) -> QSize:
        return QSize(800, round(72 * self.look.text_scale))

    def minimumSizeHint(self) -> QSize:
        """Room for one figure: the others then stand behind “more”, however many are in sight now."""
        least = max((cell.minimumSizeHint().width() for cell in self.cells[: self._count]), default=0)
        return QSize(2 * SIDE + least + APART + self.more.sizeHint().width(), self.sizeHint().height())

    def show_figures(self, figures: tuple[KeyFigure, ...]) -> None:
        while len(self.cells) < len(figures):
            cell = Cell(self.look, self)
            cell.clicked.connect(self._clicked)
            self.cells.append(cell)
            self.row.addWidget(cell, 1)
            QWidget.setTabOrder(cell, self.more)
        changed = self._count != len(figures)
        self._count = len(figures)
        for cell, figure in zip(self.cells, figures, strict=False):
            if cell.figure != figure:
                cell.say(figure)
                changed = True
        if changed:
            self._share_out()

    def show_look(self, look: Look) -> None:
        self.look = self.more.look = look
        self.setFixedHeight(self.sizeHint().height())
        for cell in self.cells:
            cell.look = look
            cell.updateGeometry()
            cell.update()
        self._share_out()

    # where room is short

    def _parts(self) -> list[list[Cell]]:
        """The cells, parted so that each part has room for the least that its cells can say; in one where all have."""
        cells, room = self.cells[: self._count], self.width() - 2 * SIDE
        if sum(cell.minimumSizeHint().width() + APART for cell in cells) - APART <= room:
            leave_off(cells, room - APART * (len(cells) - 1))
            return [cells]
        room -= self.more.sizeHint().width() + APART
        parts: list[list[Cell]] = [[]]
        for cell in cells:
            taken = sum(one.minimumSizeHint().width() + APART for one in parts[-1])
            if parts[-1] and taken + cell.minimumSizeHint().width() > room:
                parts.append([])
            parts[-1].append(cell)
        for part in parts:
            leave_off(part, room - APART * (len(part) - 1))
        return parts

    def _share_out(self) -> None:
        """Show the cells there is room for, and tell how many are out of sight, and how bad it is."""
        parts = self._parts()
        self.at = min(self.at, len(parts) - 1)
        shown = parts[self.at]
        out = [cell for part in parts for cell in part if part is not shown]
        for part in (*self.cells, self.more):  # what comes into sight asks for room at once: first what goes out of it
            if part not in shown and not (out and part is self.more):
                part.hide()
        for cell in shown:
            self.row.setStretch(self.row.indexOf(cell), cell.sizeHint().width())
            cell.show()
        marks = {cell.figure.mark for cell in out}
        worst = next((mark for mark in WORST if mark in marks), WORST[-1])
        self.more.say(len(out), worst, at_end=self.at == len(parts) - 1)
        self.more.setVisible(bool(out))

    def turn_over(self) -> None:
        """To the next of the cells, or from the last back to the first."""
        self.at = (self.at + 1) % len(self._parts())
        self._share_out()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_out()

    def _clicked(self) -> None:
        cell = self.sender()
        if isinstance(cell, Cell) and cell.figure.where:
            self.went_to.emit(cell.figure.where)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), colour(self.look.palette.card))
        painter.fillRect(QRectF(0, 0, self.width(), 1), colour(self.look.palette.hair))
        painter.end()
        super().paintEvent(event)


def leave_off(cells: Sequence[Cell], room: float) -> None:
    """Let cells say less until they have room, part by part and from the last one on, no more than must be; one part
    each goes before any title is shortened.
    """
    most = max((cell.parts for cell in cells), default=1) - 1
    left_off, over = _left_off(cells, room, min(most, 1), short=False)
    short = over > 0
    if short:
        left_off, _ = _left_off(cells, room, most, short=True)
    for cell, less in zip(cells, left_off, strict=True):
        cell.leave_off(less, short=short)


def _left_off(cells: Sequence[Cell], room: float, most: int, *, short: bool) -> tuple[list[int], float]:
    """How many parts each cell leaves off, `most` at most, and by how much all are then still too wide."""
    over = sum(cell.wide_without(0, short=short) for cell in cells) - room
    left_off = [0] * len(cells)
    for count in range(1, most + 1):
        for at in reversed(range(len(cells))):
            now = cells[at].wide_without(left_off[at], short=short)
            gain = now - cells[at].wide_without(count, short=short)
            if over > 0 and gain > 0:
                left_off[at], over = count, over - gain
    return left_off, over
