"""The steps along the top, in the order of the work, each with a sign behind it.

A step that has no card yet is not shown; the row has room for it.
"""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from app.desk.widgets.look import VALUE, Look, colour
from app.desk.widgets.signs import Sign, paint_sign
from app.say.figures.progress import Progress, Step

APART, CLOSE, LARGE = 16, 2, 1.5
"""Pixels between two steps, and from how large a text on they stand close, so that all of them are seen."""
LEAST = 0.78
"""No step's word is made smaller than this share of its size; then the window grows."""


class StepButton(QAbstractButton):
    """One step: its word, its sign, a thick line under it while its card is open."""

    def __init__(self, name: str, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self.name, self.look, self.sign = name, look, Sign.EMPTY
        self.share = 1.0
        """How much of its size the words have: less where large text would leave the row no room."""
        self.setText(name)
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.show_sign(Sign.EMPTY)

    def show_sign(self, sign: Sign, waits: str = "") -> None:
        """Show how far it has come; `waits`: what is still missing, and where."""
        tip = "" if sign is Sign.EMPTY else f"{self.name}: {sign.value}{f', {waits}' if waits else ''}"
        if sign is self.sign and tip == self.toolTip() and self.accessibleName():
            return
        self.sign = sign
        self.setAccessibleName(f"{self.name}, {sign.value}")
        self.setAccessibleDescription(f"Opens the card {self.name}{f'; {waits}' if waits else ''}")
        self.setToolTip(tip)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        words = QFontMetricsF(self.look.font(VALUE + 1, bold=True)).horizontalAdvance(self.name)
        sign = 0.0 if self.sign is Sign.EMPTY and self._large else 13 * self.look.text_scale
        return QSize(round(words + sum(self._room) + sign), 48)

    @property
    def _room(self) -> tuple[int, int, int]:
        """Pixels before the word, between it and its sign, and behind that: a sign stands by its own word."""
        return (8, 7, 8) if self._large else (12, 10, 13)

    @property
    def _large(self) -> bool:
        return self.look.text_scale >= LARGE

    def minimumSizeHint(self) -> QSize:
        return QSize(round(LEAST * self.sizeHint().width()), 48)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        p, chosen = self.look.palette, self.isChecked()
        painter.setFont(self.look.font((VALUE + 1) * self.share, bold=chosen))
        painter.setPen(colour(p.ink if chosen or self.underMouse() else p.quiet))
        words = QFontMetricsF(painter.font()).horizontalAdvance(self.name)
        box, (left, gap, _) = QRectF(self.rect()), self._room
        painter.drawText(
            box.adjusted(left, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.name
        )
        side = 13 * self.look.text_scale * self.share
        paint_sign(painter, self.sign, QRectF(left + words + gap, box.center().y() - side / 2, side, side), p)
        if chosen:
            painter.fillRect(QRectF(left - 4, box.bottom() - 3, words + 4 + min(4, gap - 1), 4), colour(p.ink))
        if self.hasFocus():
            painter.setPen(QPen(colour(p.worked_out), 2))
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            sign = 0 if self.sign is Sign.EMPTY else gap + side
            right = min(left + words + sign + left - 2, box.width() - 1)
            high, low = (4, 5) if self._large else (8, 10)
            painter.drawRoundedRect(QRectF(QPointF(2, high), QPointF(right, box.height() - low)), 4, 4)
        painter.end()


class StepRow(QWidget):
    """Signals: `chosen` with the step's name. Left and right arrows walk along the row."""

    chosen = Signal(str)

    def __init__(self, steps: Sequence[str], look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Steps of the work")
        self.row = row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(APART)
        self.buttons: dict[str, StepButton] = {}
        for name in steps:
            button = StepButton(name, look, self)
            button.clicked.connect(self._clicked)
            self.buttons[name] = button
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addStretch(1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """All words give way alike where the row is too narrow for them."""
        super().resizeEvent(event)
        self._share_out()

    def _share_out(self) -> None:
        apart = self.row.spacing() * len(self.buttons)
        needed = sum(button.sizeHint().width() for button in self.buttons.values())
        for button in self.buttons.values():
            button.share = min(1.0, (self.width() - apart) / needed)
            button.update()

    def choose(self, name: str) -> None:
        """Mark a step as the open one; none where the card that is open is no step."""
        for step, button in self.buttons.items():
            button.setAutoExclusive(step == name)  # else the last one that is chosen could not be let go
            button.setChecked(step == name)
        for button in self.buttons.values():
            button.setAutoExclusive(True)

    def show_signs(self, signs: Mapping[Step, Progress], measure_waits: str = "") -> None:
        for name, progress in signs.items():
            self.buttons[name].show_sign(Sign(progress), measure_waits if name == "Measure" else "")
        self._share_out()

    def show_look(self, look: Look) -> None:
        layout = self.layout()
        if layout is not None:
            layout.setSpacing(APART if look.text_scale < LARGE else CLOSE)
        for button in self.buttons.values():
            button.look = look
            button.updateGeometry()
            button.update()

    def _clicked(self) -> None:
        button = self.sender()
        if isinstance(button, StepButton):
            self.chosen.emit(button.name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        names = list(self.buttons)
        here = next((at for at, name in enumerate(names) if self.buttons[name].hasFocus()), None)
        if step is None or here is None:
            super().keyPressEvent(event)
            return
        button = self.buttons[names[(here + step) % len(names)]]
        button.click()
        button.setFocus(Qt.FocusReason.TabFocusReason)
