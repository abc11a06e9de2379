"""The findings strip along the bottom: what matters in large figures; a click goes to the place."""

import re
from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from app.desk.plan.painter import tone_colour
from app.desk.widgets.look import LABEL, TITLE, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from app.say.key_figures import KeyFigure

_SIGNS = {"": Sign.EMPTY, "good": Sign.DONE, "unsure": Sign.UNSURE, "look": Sign.LOOK, "stop": Sign.STOP}


class Cell(QAbstractButton):
    """One figure with its title and sign."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look
        self.figure = KeyFigure(title="", value="", rest="")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def say(self, figure: KeyFigure) -> None:
        self.figure = figure
        sign = _SIGNS[figure.mark]
        said = f"{figure.title}: {figure.value} {figure.rest}"
        self.setAccessibleName(said + (f", {sign.value}" if figure.mark else ""))
        self.setAccessibleDescription("Shows the place on the plan")
        self.updateGeometry()
        self.update()

    def _widths(self) -> tuple[float, float, float]:
        look, f = self.look, self.figure
        title = QFontMetricsF(look.font(LABEL)).horizontalAdvance(f.title)
        value = QFontMetricsF(look.font(TITLE, bold=True)).horizontalAdvance(f.value)
        return title, value, QFontMetricsF(look.font(LABEL)).horizontalAdvance(f.rest)

    def sizeHint(self) -> QSize:
        title, value, rest = self._widths()
        return QSize(round(max(title + 30, value + 8 + rest) + 4), round(68 * self.look.text_scale))

    def minimumSizeHint(self) -> QSize:
        return QSize(round(max(self._widths()[1], 64)), self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        look, p, f = self.look, self.look.palette, self.figure
        _, value, _ = self._widths()
        scale, box = look.text_scale, QRectF(self.rect())
        left, mid = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignVCenter
        painter.setFont(look.font(LABEL))
        painter.setPen(colour(p.quiet))
        top = QRectF(0, 9 * scale, box.width(), 18 * scale)
        letters = QFontMetricsF(painter.font())
        side = 13 * scale
        named = fitting((f.title, f.short), letters, box.width() - (side + 12 if f.mark else 0))
        title = letters.horizontalAdvance(named)
        painter.drawText(top, left | mid, named)
        paint_sign(painter, _SIGNS[f.mark], QRectF(title + 9, top.center().y() - side / 2, side, side), p)
        low = QRectF(0, 28 * scale, box.width(), 32 * scale)
        painter.setFont(look.font(TITLE, bold=True))
        painter.setPen(tone_colour(f.tone, p))
        painter.drawText(low, left | mid, f.value)
        painter.setFont(look.font(LABEL))
        painter.setPen(colour(p.ink if self.underMouse() else p.quiet))
        rest = low.adjusted(value + 8, 6 * scale, 0, 0)
        painter.drawText(rest, left | mid, fitting(shorter_and_shorter(f.rest), letters, rest.width()))
        if self.hasFocus():
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.drawRoundedRect(box.adjusted(-3, 5, -1, -5), 4, 4)
        painter.end()


def shorter_and_shorter(words: str) -> list[str]:
    """A figure's words, and with part after part left off from the end: the ± comes first, and is the last to go."""
    cuts = [cut.start() for cut in re.finditer(", | · ", words)]
    return [words, *(words[:at] for at in reversed(cuts))]


def fitting(wordings: Sequence[str], letters: QFontMetricsF, room: float) -> str:
    """The first of the wordings that has room, or the last one cut short."""
    said = [wording for wording in wordings if wording] or [""]
    whole = (wording for wording in said if letters.horizontalAdvance(wording) <= room)
    return next(whole, "") or letters.elidedText(min(said, key=len), Qt.TextElideMode.ElideRight, room)


class Strip(QWidget):
    """Signals: `went_to` with what a figure is about (`"reading:r9"`, `"saddle"`)."""

    went_to = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        self.setObjectName("band")
        self.setAccessibleName("Findings")
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(24, 0, 24, 0)
        self.row.setSpacing(24)
        self.cells: list[Cell] = []
        self.show_look(look)

    def sizeHint(self) -> QSize:
        return QSize(800, round(72 * self.look.text_scale))

    def show_figures(self, figures: tuple[KeyFigure, ...]) -> None:
        while len(self.cells) < len(figures):
            cell = Cell(self.look, self)
            cell.clicked.connect(self._clicked)
            self.cells.append(cell)
            self.row.addWidget(cell, 1)
        for cell, figure in zip(self.cells, figures, strict=False):
            if cell.figure != figure:
                cell.say(figure)
        for at, cell in enumerate(self.cells):
            cell.setVisible(at < len(figures))
            self.row.setStretch(at, cell.sizeHint().width() if at < len(figures) else 0)

    def show_look(self, look: Look) -> None:
        self.look = look
        self.setFixedHeight(self.sizeHint().height())
        for cell in self.cells:
            cell.look = look
            cell.updateGeometry()
            cell.update()

    def _clicked(self) -> None:
        cell = self.sender()
        if isinstance(cell, Cell) and cell.figure.where:
            self.went_to.emit(cell.figure.where)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), colour(self.look.palette.card))
        painter.fillRect(QRectF(0, 0, self.width(), 1), colour(self.look.palette.hair))
        painter.end()
