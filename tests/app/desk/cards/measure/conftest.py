"""The Measure card with its first reading in hand."""

import pytest

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.frame.desk import Desk


@pytest.fixture
def card(desk: Desk) -> MeasureCard:
    desk.measure.table.go(0)
    desk.measure.table.setFocus()
    return desk.measure
