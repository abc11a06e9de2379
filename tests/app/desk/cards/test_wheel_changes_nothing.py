"""The wheel scrolls a card: whatever lies under the pointer, in focus or not, it changes nothing of the job."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QAbstractSlider, QApplication, QComboBox, QScrollArea, QScrollBar, QWidget

from app.desk.widgets.fold import FoldHead
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import sample

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


@pytest.mark.parametrize("name", ["one-slip", "floating-five", "slanted-separate"])
def test_the_wheel_over_all_that_can_be_operated_changes_nothing(lend_desk: LendDesk, name: str) -> None:
    desk = lend_desk(sample(name))
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
