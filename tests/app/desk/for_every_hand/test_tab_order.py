"""The tab key goes down a card as it is read, whatever was made first."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.desk.frame.desk import Desk
from tests.app.desk.conftest import OpenDesk, sample

ROW = 12
"""Pixels by which controls of one row may stand higher or lower; common practice, no source."""


def going_back(desk: Desk) -> list[str]:
    """The controls of the open card that stand higher than the one before them in the tab order."""
    found, widget = [], desk.card.nextInFocusChain()
    while widget is not None and widget is not desk.card:
        takes = widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible()
        if takes and desk.card.isAncestorOf(widget):
            found.append(widget)
        widget = widget.nextInFocusChain()
    tops = [(each, each.mapTo(desk, QPoint(0, 0)).y()) for each in found]
    assert len(tops) > 4
    return [_name(b) for (_, high), (b, low) in pairwise(tops) if low < high - ROW]


def _name(widget: QWidget) -> str:
    return widget.accessibleName()


@pytest.mark.parametrize("name", ["one-slip", "tie-bridge"])
def test_it_goes_down_a_card(open_desk: OpenDesk, name: str) -> None:
    desk = open_desk(sample(name))
    for card in ("Strings", "Bridge"):
        desk.cards.open(card)
        QApplication.processEvents()
        assert going_back(desk) == [], card


def test_it_goes_down_a_new_reading_of_every_kind(desk: Desk) -> None:
    desk.measure.add()
    adding = desk.measure.adding
    assert adding is not None
    for at in range(adding.kind.count()):
        adding.kind.setCurrentIndex(at)
        QApplication.processEvents()
        assert going_back(desk) == [], adding.kind.currentText()
