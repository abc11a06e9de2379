"""A double click presses a button twice, or not at all where its first press fell on what stood there before."""

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.strings.strings_card import StringsCard
from app.desk.widgets.inputs.buttons import make_button

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


@pytest.mark.parametrize("role", ["", "main", "plain"])
def test_both_presses_on_one_button_count(qtbot: QtBot, role: str) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    button = make_button("One more", "Adds one", window, role)  # type: ignore[arg-type]  # one of its words
    pressed: list[str] = []
    button.clicked.connect(lambda: pressed.append("one more"))
    window.show()
    QTest.mouseClick(button, LEFT)
    QTest.mouseDClick(button, LEFT)
    QTest.mouseRelease(button, LEFT)
    assert len(pressed) == 2


def test_the_second_press_takes_no_string_away(strings: StringsCard) -> None:
    """The button that leads on from Measure lies over the one that removes a string, on the card that it opens."""
    remove, job = strings.remove_button, strings.document.job
    at = QPointF(remove.rect().center())
    for kind in (QEvent.Type.MouseButtonDblClick, QEvent.Type.MouseButtonRelease):
        QApplication.sendEvent(remove, QMouseEvent(kind, at, remove.mapToGlobal(at), LEFT, LEFT, NONE))
    assert strings.document.job is job
    QTest.mouseClick(remove, LEFT)
    assert strings.document.job is not job
