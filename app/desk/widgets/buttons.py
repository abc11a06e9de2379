"""The desk's buttons, all made here: each says what it does to those who don't see it."""

from typing import Literal

from PySide6.QtWidgets import QPushButton, QWidget

Role = Literal["", "main", "plain"]
"""An outlined button, the card's main one, or one that reads as a link."""


def make_button(text: str, says: str, parent: QWidget, role: Role = "", *, name: str = "") -> QPushButton:
    """A button with what it does; `name`: what it is called where that is more than its text."""
    button = QPushButton(text, parent)
    button.setProperty("role", role)
    button.setAccessibleName(name or text.removesuffix("…"))
    button.setAccessibleDescription(says)
    return button


def plain_button(text: str, says: str, parent: QWidget, *, name: str = "") -> QPushButton:
    """A button that reads as a link."""
    return make_button(text, says, parent, "plain", name=name)
