"""The wheel scrolls a card: whatever lies under the pointer, in focus or not, it changes nothing of the job."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QAbstractSlider, QApplication, QComboBox, QScrollArea, QScrollBar, QWidget

from app.desk.frame.desk import Desk
from app.desk.widgets.fold import FoldHead
from tests.app.desk.conftest import OpenDesk, sample

CARDS = ("Measure", "Old work", "Strings", "Bridge", "Headstock", "Sheets")


def turned(over: QWidget) -> QWheelEvent:
    """A notch of the wheel over a widget's middle."""
    middle = QPointF(over.rect().center())
    none = Qt.KeyboardModifier.NoModifier
    return QWheelEvent(
        middle,
        QPointF(over.mapToGlobal(middle.toPoint())),
        QPoint(),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        none,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )


def test_the_wheel_over_all_that_can_be_operated_changes_nothing(
    open_desk: OpenDesk, subtests: pytest.Subtests
) -> None:
    desk = open_desk(sample("one-slip"))
    for name in ("one-slip", "floating-five", "slanted-separate"):
        desk.document.start(sample(name))
        with subtests.test(name):
            _turns_over_all(desk)


def _turns_over_all(desk: Desk) -> None:
    before, tried = desk.document.job, 0
    for card in CARDS:
        desk.cards.open(card)
        for head in desk.card.findChildren(FoldHead):
            head.setChecked(True)
        QApplication.processEvents()
        for one in desk.card.findChildren(QWidget):
            scrolls = isinstance(one, QScrollBar | QScrollArea)
            if scrolls or not one.isVisibleTo(desk.card) or one.focusPolicy() == Qt.FocusPolicy.NoFocus:
                continue
            for focused in (False, True):
                if focused:
                    one.setFocus()
                QApplication.sendEvent(one, turned(one))
                assert desk.document.job == before, (card, type(one).__name__, one.accessibleName())
            tried += isinstance(one, QAbstractSlider | QComboBox)
    assert tried >= 10
