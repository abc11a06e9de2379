"""A cell of the findings strip: one figure, large, with its title, its ± and its sign."""

import re
from collections.abc import Sequence
from math import ceil

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from app.desk.plan.painting.styles import tone_colour
from app.desk.widgets.look import LABEL, TITLE, Look, colour
from app.desk.widgets.ringed import ring_outside
from app.desk.widgets.signs import Sign, paint_sign
from app.desk.widgets.words.letters import letters_wide
from app.say.figures.key_figures import KeyFigure

SIGNS = {"": Sign.EMPTY, "good": Sign.DONE, "unsure": Sign.UNSURE, "look": Sign.LOOK, "stop": Sign.STOP}


class Cell(QAbstractButton):
    """One figure with its title and sign."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        ring_outside(self, -5)
        self.look = look
        self.figure = KeyFigure(title="", value="", rest="")
        self.left_off, self.short = 0, False
        """How many of the parts behind the value are left off, for want of room; whether the title is its short one."""
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def say(self, figure: KeyFigure) -> None:
        self.figure, self.left_off, self.short = figure, 0, False
        sign = SIGNS[figure.mark]
        said = f"{figure.title}: {figure.value} {figure.rest}"
        self.setAccessibleName(said + (f", {sign.value}" if figure.mark else ""))
        self.setAccessibleDescription("Shows the place on the plan")
        self.setToolTip(said)  # where room is short some of it is not painted
        self.updateGeometry()
        self.update()

    def _wide(self, words: str, *, large: bool = False) -> float:
        return letters_wide(self.look, TITLE if large else LABEL, large, words)

    def _room(self, title: str, rest: str) -> int:
        """How wide it is with such words."""
        sign = 13 * self.look.text_scale + 17 if self.figure.mark else 0
        return ceil(max(self._wide(title) + sign, self._wide(self.figure.value, large=True) + 8 + self._wide(rest)) + 4)

    def sizeHint(self) -> QSize:
        """With what is said of the figure."""
        return QSize(self.wide_without(self.left_off, short=self.short), round(68 * self.look.text_scale))

    def minimumSizeHint(self) -> QSize:
        """With the shortest words that still say it."""
        return QSize(max(self.wide_without(self.parts - 1, short=True), 64), self.sizeHint().height())

    @property
    def parts(self) -> int:
        """In how many wordings the figure can be told."""
        return len(shorter_and_shorter(self.figure.rest))

    def wide_without(self, count: int, *, short: bool) -> int:
        """How wide it is with so many parts left off, and the title whole or `short`."""
        f = self.figure
        return self._room((short and f.short) or f.title, shorter_and_shorter(f.rest)[min(count, self.parts - 1)])

    def leave_off(self, count: int, *, short: bool) -> None:
        """Say so many parts less."""
        if (count, short) != (self.left_off, self.short):
            self.left_off, self.short = count, short
            self.updateGeometry()

    @property
    def words(self) -> tuple[str, str]:
        """The title and what stands behind the value, as far as there is room."""
        f, letters = self.figure, QFontMetricsF(self.look.font(LABEL))
        sign = 13 * self.look.text_scale + 12 if f.mark else 0
        title = fitting((f.title, f.short), letters, self.width() - sign)
        room = self.width() - self._wide(f.value, large=True) - 8
        return title, fitting(shorter_and_shorter(f.rest), letters, room)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        look, p, f = self.look, self.look.palette, self.figure
        value = self._wide(f.value, large=True)
        named, behind = self.words
        scale, box = look.text_scale, QRectF(self.rect())
        left, mid = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignVCenter
        painter.setFont(look.font(LABEL))
        painter.setPen(colour(p.quiet))
        top = QRectF(0, 9 * scale, box.width(), 18 * scale)
        side = 13 * scale
        painter.drawText(top, left | mid, named)
        paint_sign(painter, SIGNS[f.mark], QRectF(self._wide(named) + 9, top.center().y() - side / 2, side, side), p)
        low = QRectF(0, 28 * scale, box.width(), 32 * scale)
        painter.setFont(look.font(TITLE, bold=True))
        painter.setPen(tone_colour(f.tone, p))
        painter.drawText(low, left | mid, f.value)
        painter.setFont(look.font(LABEL))
        painter.setPen(colour(p.ink if self.underMouse() else p.quiet))
        rest = low.adjusted(value + 8, 6 * scale, 0, 0)
        painter.drawText(rest, left | mid, behind)
        painter.end()


def shorter_and_shorter(words: str) -> list[str]:
    """A figure's words, and with part after part left off from the end: the ± comes first, and is the last to go."""
    cuts = [cut.start() for cut in re.finditer("[,;] | · ", words)]
    return [words, *(words[:at] for at in reversed(cuts))]


def fitting(wordings: Sequence[str], letters: QFontMetricsF, room: float) -> str:
    """The first of the wordings that has room, or the last one cut short."""
    said = [wording for wording in wordings if wording] or [""]
    whole = (wording for wording in said if letters.horizontalAdvance(wording) <= room)
    return next(whole, "") or letters.elidedText(min(said, key=len), Qt.TextElideMode.ElideRight, room)
