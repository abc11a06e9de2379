"""The short form of the campaign of saddles in pieces: does each piece's ± hold its true place, are the cents true?"""

from functools import lru_cache

import pytest

from tests.campaign.bridges.parted import TOLD, WAYS, Parted, Ways, tried
from tests.campaign.counting import share
from tests.campaign.test_how_true import HELD_AS_GIVEN, at_least

COUNT, SEED = 30, 2026


@lru_cache
def found(made: Ways) -> list[Parted]:
    return tried(made, SEED, COUNT)


@pytest.mark.parametrize("made", WAYS)
def test_each_pieces_pm_holds_its_true_place(made: Ways) -> None:
    assert at_least(share(record.places[0].held for record in found(made)), HELD_AS_GIVEN[0])


@pytest.mark.parametrize("made", WAYS)
def test_what_is_left_in_cents_is_told_as_it_is(made: Ways) -> None:
    for record in found(made):
        told, true = record.cents
        assert told == pytest.approx(true, abs=TOLD)


def test_some_thin_saddles_leave_something() -> None:
    assert max(record.cents[1] for record in found("one")) > 0.5


def test_a_pm_too_narrow_would_be_seen() -> None:
    narrow = [figure for record in found("two") for figure in record.places if abs(figure.off) > 0.3 * figure.pm]
    assert len(narrow) > 0.3 * sum(len(record.places) for record in found("two"))
