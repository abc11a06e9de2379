"""Dialogs that a window opens again and again: made once, then kept and shown anew.

They are not destroyed when they are closed: Qt and Python own the parts of a dialog together, and one taken down while
Python still lets go of some of them has brought the program down.
"""

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtWidgets import QDialog, QWidget

Dialog = TypeVar("Dialog", bound=QDialog)


def kept_dialog(kind: type[Dialog], title: str, window: QWidget, make: Callable[[], Dialog]) -> Dialog:
    """The window's dialog of that title; it is made where there is none yet."""
    for child in window.children():
        if isinstance(child, kind) and child.objectName() == title:
            return child
    made = make()
    made.setObjectName(title)
    return made
