"""Dialogs that a window opens again and again: made once for each look, then kept and shown anew.

They are not destroyed when they are closed: Qt and Python own the parts of a dialog together, and one taken down while
Python still lets go of some of them has brought the program down.
"""

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtWidgets import QDialog, QWidget

from app.desk.widgets.look import Look

Dialog = TypeVar("Dialog", bound=QDialog)


def kept_dialog(kind: type[Dialog], title: str, look: Look, window: QWidget, make: Callable[[], Dialog]) -> Dialog:
    """The window's dialog of that title in that look; it is made where there is none yet."""
    name = f"{title}, {hash(look)}"
    for child in window.children():
        if isinstance(child, kind) and child.objectName() == name:
            return child
    made = make()
    made.setObjectName(name)
    return made
