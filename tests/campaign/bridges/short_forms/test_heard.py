"""The short form of the campaign of trial saddles: does the saddle's ± hold, are slots that may be cut near enough?"""

from functools import lru_cache

import pytest

from geometry.go_or_wait.verdicts import HEARD
from tests.campaign.bridges.heard import OnTrial, ready, tried
from tests.campaign.counting import share
from tests.campaign.test_how_true import HELD_AS_GIVEN, at_least

COUNT, SEED = 60, 2026


@lru_cache
def found() -> list[OnTrial]:
    return tried(SEED, COUNT)


@pytest.mark.parametrize("side", [0, 1])
def test_the_saddles_pm_holds_its_true_place(side: int) -> None:
    assert at_least(share(one.places[side].held for one in found()), HELD_AS_GIVEN[0])


def test_slots_that_may_be_cut_are_near_enough() -> None:
    """And some that may not be would be farther off than any ear is left."""
    assert ready(found()).of
    assert at_least(ready(found()), HELD_AS_GIVEN[0])
    assert max(one.cents for one in found() if not one.go) > HEARD


def test_a_pm_too_narrow_would_be_seen() -> None:
    figures = [one.places[0] for one in found()]
    assert sum(abs(figure.off) > 0.3 * figure.pm for figure in figures) > 0.3 * len(figures)
