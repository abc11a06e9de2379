"""The Measure card with its first reading in hand."""

import pytest

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.frame.desk import Desk
from tests.app.desk.conftest import OpenDesk, sample


@pytest.fixture
def desk(open_desk: OpenDesk) -> Desk:
    """A window of its own for each test: a new one costs no more here than one that is brought back to where it began,
    and rows that were chosen by keys leave no trace in it.
    """
    return open_desk(sample("leaning-neck"))


@pytest.fixture
def card(desk: Desk) -> MeasureCard:
    desk.measure.table.go(0)
    desk.measure.table.setFocus()
    return desk.measure
