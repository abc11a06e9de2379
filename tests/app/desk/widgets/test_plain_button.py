"""A button that reads as a link looks pressed while the pointer is over it, and no longer."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.desk.widgets.inputs.buttons import plain_button


def test_hidden_under_the_pointer_it_comes_back_as_it_was(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    note = QWidget(window)
    button = plain_button("Strike it out", "Takes the reading out of the fit", note)
    window.show()
    button.setAttribute(Qt.WidgetAttribute.WA_UnderMouse)  # as the pointer would
    note.hide()
    note.show()
    assert not button.underMouse()
