"""Escape closes every dialog, from whatever in it has the focus."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QWidget

from app.desk.frame.desk import Desk
from tests.app.desk.conftest import press


@pytest.mark.parametrize("name", ["About the job…"])
def test_escape_closes_the_dialog(desk: Desk, name: str) -> None:
    action = desk.menu_actions.get(name)
    assert action is not None, sorted(desk.menu_actions)
    action.trigger()
    opened = [d for d in desk.frame.findChildren(QDialog) if d.isVisible()]
    assert len(opened) == 1
    inside = [w for w in opened[0].findChildren(QWidget) if w.focusPolicy() & Qt.FocusPolicy.TabFocus and w.isVisible()]
    assert inside
    for widget in inside:
        opened[0].show()
        widget.setFocus()
        press(widget, Qt.Key.Key_Escape)
        assert not opened[0].isVisible(), type(widget).__name__
