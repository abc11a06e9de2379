"""The desk's buttons, all made here: each says what it does to those who don't see it."""

import math
from typing import Literal

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QHideEvent, QMouseEvent, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QApplication, QHBoxLayout, QPushButton, QWidget

from app.desk.widgets.ringed import ring_outside

Role = Literal["", "main", "plain"]
"""An outlined button, the card's main one, or one that reads as a link."""


class Button(QPushButton):
    """The second press of a double click counts only where the first fell on the same button: what a press has brought
    under the pointer is not pressed unseen.
    """

    _pressed_at = -math.inf

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._pressed_at = event.timestamp()
        super().mousePressEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.timestamp() - self._pressed_at <= QApplication.doubleClickInterval():
            super().mouseDoubleClickEvent(event)


class MainButton(Button):
    """The card's main button. An edge alone does not show the focus on its dark ground; a light ring inside does."""

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus():
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(self.palette().color(QPalette.ColorRole.ButtonText), 1.6))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(3, 3, -3, -3), 3, 3)
            painter.end()


class PlainButton(Button):
    """A button that reads as a link."""

    def hideEvent(self, event: QHideEvent) -> None:
        """Hidden with what it stands in, it is not told that the pointer is over it no more: back again it would look
        pressed.
        """
        super().hideEvent(event)
        self.setAttribute(Qt.WidgetAttribute.WA_UnderMouse, False)


KINDS: dict[Role, type[Button]] = {"": Button, "main": MainButton, "plain": PlainButton}


def make_button(text: str, says: str, parent: QWidget, role: Role = "", *, name: str = "") -> QPushButton:
    """A button with what it does; `name`: what it is called where that is more than its text."""
    button = KINDS[role](text, parent)
    button.setProperty("role", role)
    button.setAccessibleName(name or text.removesuffix("…"))
    button.setAccessibleDescription(says)
    return button


INSET = 6
"""How far the words of a plain button stand in, pixels: its ring and what it keeps clear of them (`look.py`)."""


def outdented(row: QHBoxLayout) -> QHBoxLayout:
    """A row, empty yet, whose first plain button has its words on the edge that all else keeps to; its ring goes past
    it, so what the row is in must have room there.
    """
    row.addSpacing(-INSET)
    return row


def plain_button(text: str, says: str, parent: QWidget, *, name: str = "") -> QPushButton:
    """A button that reads as a link."""
    button = make_button(text, says, parent, "plain", name=name)
    ring_outside(button)
    return button
