"""Words behind a sign, on as many lines as they need; pressing them goes to what they speak of."""

from functools import lru_cache

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QResizeEvent, QShowEvent, QTextOption
from PySide6.QtWidgets import QAbstractButton, QWidget

from app.desk.widgets.look import TEXT, Look, colour
from app.desk.widgets.ringed import ring_outside
from app.desk.widgets.signs import Sign, paint_sign
from export.drawing.line_breaks import unbroken


class SignedLine(QAbstractButton):
    """`room`: what stays free over and under the words, pixels."""

    def __init__(self, look: Look, parent: QWidget, room: int) -> None:
        super().__init__(parent)
        self.look, self.room = look, room
        self.words, self.bold = "", False
        self.sign: Sign | None = None
        policy = self.sizePolicy()
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setAccessibleDescription("Shows the place")
        ring_outside(self, 0)

    def put(self, words: str, sign: Sign | None, heard: str, *, bold: bool = False) -> None:
        """Take these words; without a sign they stand as far in. `heard` is told to who cannot see the sign."""
        self.words, self.sign, self.bold = words, sign, bold
        self.setAccessibleName(heard)
        self.make_room()
        self.update()

    def show_look(self, look: Look) -> None:
        self.look = look
        self.make_room()

    def make_room(self) -> None:
        """Room for all the words; the layouts of a hidden card keep the height of another width or text size."""
        self.setMinimumHeight(self.heightForWidth(max(self._wide, 240)))
        self.updateGeometry()

    @property
    def _wide(self) -> int:
        """Its width; while it is hidden that of what it will be shown in, for it was never laid out there."""
        shown: QWidget | None = self
        while shown is not None and not shown.isVisible():
            shown = shown.parentWidget()
        return self.width() if shown is None else shown.width()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.make_room()

    @property
    def indent(self) -> int:
        """Where the words begin: behind the sign."""
        return round(15 + 13 * self.look.text_scale)

    @property
    def words_font(self) -> QFont:
        """The font of the words as they are."""
        return self.look.font(TEXT, bold=self.bold)

    def heightForWidth(self, width: int) -> int:
        return _words_high(self.look, self.words, self.bold, width - self.indent) + 2 * self.room + 2

    def sizeHint(self) -> QSize:
        return QSize(300, self.heightForWidth(max(self.width(), 240)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p, side = self.look.palette, 13 * self.look.text_scale
        if self.sign is not None:
            paint_sign(painter, self.sign, QRectF(2, self.room + 3, side, side), p)
        painter.setFont(self.words_font)
        painter.setPen(colour(p.look if self.sign is Sign.STOP else p.ink))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WordWrap)
        painter.drawText(QRectF(self.rect()).adjusted(self.indent, self.room, 0, 0), unbroken(self.words), option)
        if self.underMouse() and not self.hasFocus():
            painter.setPen(QPen(colour(p.hair), 1))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
        painter.end()


@lru_cache(maxsize=1024)
def _words_high(look: Look, words: str, bold: bool, wide: int) -> int:
    """How high words are on lines so wide, pixels: layouts ask this many times of what has not changed."""
    metrics = QFontMetrics(look.font(TEXT, bold=bold))
    return metrics.boundingRect(0, 0, wide, 2000, Qt.TextFlag.TextWordWrap, unbroken(words)).height()
