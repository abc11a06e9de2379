"""A part of a card that folds: its heading, pressed, shows or hides what stands under it."""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QVBoxLayout, QWidget

from app.desk.widgets.look import VALUE, Look, colour
from app.desk.widgets.made_later import MadeLater
from app.desk.widgets.ringed import ring_outside
from app.desk.widgets.words.wrapped_label import WrappedLabel

ROOM = 18
"""What the sign before the words takes, pixels at text scale 1."""


class FoldHead(QAbstractButton):
    """A heading with a sign that points down while `body` is shown, and to it while it is folded away. `fill` makes
    what is in the body before it is first shown.
    """

    def __init__(
        self, text: str, body: QWidget, look: Look, parent: QWidget, fill: Callable[[], None] | None = None
    ) -> None:
        super().__init__(parent)
        self.look, self.body, self.rows = look, body, MadeLater(body, fill)
        self.setText(text)
        self.setCheckable(True)
        self.setAccessibleName(text)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.toggled.connect(self._turned)
        self._turned(False)
        ring_outside(self)

    def show_text(self, text: str) -> None:
        """Say something else, such as how much is under it."""
        self.setText(text)
        self.setAccessibleName(text)
        self.updateGeometry()

    def show_look(self, look: Look) -> None:
        self.look = look
        self.updateGeometry()
        self.update()

    def _turned(self, shown: bool) -> None:
        if shown:
            self.rows.now()
        self.body.setVisible(shown)
        self.setAccessibleDescription("Folds away what is under it" if shown else "Shows what is under it")

    def sizeHint(self) -> QSize:
        letters = QFontMetricsF(self.look.font(VALUE, bold=True))
        room = ROOM * self.look.text_scale
        return QSize(round(letters.horizontalAdvance(self.text()) + room), round(letters.height() + 8))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        p, scale = self.look.palette, self.look.text_scale
        painter.setPen(QPen(colour(p.ink), 1.6 * scale, c=Qt.PenCapStyle.RoundCap, j=Qt.PenJoinStyle.RoundJoin))
        x, y, half = 5.5 * scale, self.height() / 2, 4.5 * scale
        down = [QPointF(x - half, y - half / 2), QPointF(x, y + half / 2), QPointF(x + half, y - half / 2)]
        aside = [QPointF(x - half / 2, y - half), QPointF(x + half / 2, y), QPointF(x - half / 2, y + half)]
        painter.drawPolyline(QPolygonF(down if self.isChecked() else aside))
        painter.setFont(self.look.font(VALUE, bold=True))
        box = self.rect().adjusted(round(ROOM * scale), 0, 0, 0)
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self.text())
        painter.end()


class Fold(QWidget):
    """A heading and what is in force of its rows, seen always; the rows themselves, in `column`, only when asked for.
    `inside` is their parent; `fill` makes them before they are first shown.
    """

    def __init__(self, text: str, look: Look, parent: QWidget, fill: Callable[[], None] | None = None) -> None:
        super().__init__(parent)
        self.inside = QWidget(self)
        self.head = FoldHead(text, self.inside, look, self, fill)
        self.under = WrappedLabel("", self)
        self.under.setProperty("role", "label")
        self.under.hide()
        self.column = QVBoxLayout(self.inside)
        self.column.setContentsMargins(0, 8, 0, 0)
        self.column.setSpacing(12)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 12, 0, 0)
        whole.setSpacing(2)
        for part in (self.head, self.under, self.inside):
            whole.addWidget(part)

    @property
    def is_open(self) -> bool:
        """Whether its rows are shown."""
        return self.head.isChecked()

    @property
    def is_filled(self) -> bool:
        """Whether its rows are made."""
        return self.head.rows.is_made

    def fill(self) -> None:
        """Make its rows, if they are not made yet: something among them is asked for."""
        self.head.rows.now()

    def set_open(self, on: bool) -> None:
        """Show its rows, or hide them."""
        self.head.setChecked(on)

    def say(self, sentence: str) -> None:
        """What is in force of its rows, seen while they are hidden too."""
        self.under.setText(sentence)
        self.under.setVisible(bool(sentence))

    def show_look(self, look: Look) -> None:
        """The heading in other colours and another size."""
        self.head.show_look(look)
