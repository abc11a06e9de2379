"""A double click presses a button twice, or not at all where its first press fell on what stood there before."""

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.strings.strings_card import StringsCard
from app.desk.widgets.inputs.buttons import make_button

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


PRESS, RELEASE = QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonRelease
AGAIN = QEvent.Type.MouseButtonDblClick


def send(button: QPushButton, *events: tuple[QEvent.Type, int]) -> None:
    """Send what the mouse does, each with its time in ms, as the platform tells it."""
    at = QPointF(button.rect().center())
    for kind, when in events:
        event = QMouseEvent(kind, at, button.mapToGlobal(at), LEFT, LEFT, NONE)
        event.setTimestamp(when)
        QApplication.sendEvent(button, event)


@pytest.mark.parametrize("role", ["", "main", "plain"])
def test_both_presses_on_one_button_count(qtbot: QtBot, role: str) -> None:
    """However long what the first does takes: their own times count."""
    window = QWidget()
    qtbot.addWidget(window)
    button = make_button("One more", "Adds one", window, role)  # type: ignore[arg-type]  # one of its words
    pressed: list[str] = []
    button.clicked.connect(lambda: pressed.append("one more"))
    window.show()
    send(button, (PRESS, 5000), (RELEASE, 5050), (AGAIN, 5200), (RELEASE, 5250))
    assert len(pressed) == 2
    send(button, (AGAIN, 9000), (RELEASE, 9050))  # its first press fell elsewhere
    assert len(pressed) == 2


def test_the_second_press_takes_no_string_away(strings: StringsCard) -> None:
    """The button that leads on from Measure lies over the one that removes a string, on the card that it opens."""
    job = strings.document.job
    send(strings.remove_button, (AGAIN, 5200), (RELEASE, 5250))
    assert strings.document.job is job
    QTest.mouseClick(strings.remove_button, LEFT)
    assert strings.document.job is not job
