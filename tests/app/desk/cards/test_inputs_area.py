"""What the inputs of a card scroll to: what takes the focus in them, and nothing as their window comes back."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication, QDialog, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.inputs_area import InputsArea


@pytest.fixture
def area(qtbot: QtBot) -> Iterator[InputsArea]:
    """Twenty lines, of which five are in sight; the first has the focus."""
    window = QWidget()
    qtbot.addWidget(window)
    area, inside = InputsArea(window), QWidget()
    column = QVBoxLayout(inside)
    for _ in range(20):
        line = QLineEdit(inside)
        line.setMinimumHeight(30)
        column.addWidget(line)
    area.setWidget(inside)
    area.setWidgetResizable(True)
    area.setFixedHeight(200)
    QVBoxLayout(window).addWidget(area)
    with qtbot.waitExposed(window):
        window.show()
    window.activateWindow()
    lines(area)[0].setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is lines(area)[0])
    yield area
    window.close()


def lines(area: InputsArea) -> list[QLineEdit]:
    return area.findChildren(QLineEdit)


def test_what_takes_the_focus_comes_into_sight(area: InputsArea, qtbot: QtBot) -> None:
    lines(area)[15].setFocus()
    qtbot.waitUntil(lambda: not lines(area)[15].visibleRegion().isEmpty())
    assert area.verticalScrollBar().value() > 100  # derived: 15 lines of 30 px lie above it, and 200 px are in sight


def test_a_dialog_that_closes_leaves_the_card_as_it_was_scrolled(area: InputsArea, qtbot: QtBot) -> None:
    bar = area.verticalScrollBar()
    bar.setValue(bar.maximum())
    dialog = QDialog(area.window())
    qtbot.addWidget(dialog)
    typed = QLineEdit(dialog)
    dialog.open()
    typed.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is typed)
    dialog.reject()
    area.window().activateWindow()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is lines(area)[0])
    assert not area._wait.isActive()  # nothing is to be scrolled to
    for _ in range(5):
        QApplication.processEvents()
    assert bar.value() == bar.maximum()
