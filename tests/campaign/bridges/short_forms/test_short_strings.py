"""The short form of the campaign of strings that start at a fret: the ± of where they break holds."""

from functools import lru_cache

import pytest

from tests.campaign.bridges.short_strings import NAMES, found
from tests.campaign.counting import Found, share
from tests.campaign.test_how_true import HELD_AS_GIVEN, at_least

COUNT, SEED = 60, 2033


@lru_cache(maxsize=1)
def tried() -> Found:
    return found(COUNT, SEED)


@pytest.mark.parametrize("name", NAMES)
def test_the_pm_of_where_it_breaks_holds(name: str) -> None:
    figures = tried().figures[f"where the string breaks that is given {name}"]
    assert len(figures) == COUNT
    assert at_least(share(figure.held for figure in figures), HELD_AS_GIVEN[0])


def test_a_pm_too_narrow_would_be_seen() -> None:
    for figures in tried().figures.values():
        assert not at_least(share(abs(figure.off) <= 0.4 * figure.pm for figure in figures), HELD_AS_GIVEN[0])
