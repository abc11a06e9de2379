"""The ± of slanted frets on invented instruments, in short; the long form is run by hand."""

from functools import lru_cache

import pytest

from tests.campaign.counting import Share, share
from tests.campaign.slanted import READ, Tally, try_all

COUNT, SEED = 60, 7
LEAST = 0.86
"""What 60 that hold in 95 of 100 go under once in 500 (derived: the binomial distribution)."""


@lru_cache(maxsize=1)
def tally() -> Tally:
    return try_all(COUNT, SEED)


def held(case: str, figure: str) -> Share:
    return share(one.held for one in tally().tried if (one.case, one.figure) == (case, figure))


@pytest.mark.parametrize("case", READ)
@pytest.mark.parametrize(
    "figure", ["slant of the nut", "slant of the nominal places", "nominal place, left", "nominal place, right"]
)
def test_the_pm_holds(case: str, figure: str) -> None:
    found = held(case, figure)
    assert found.of == COUNT
    assert found.value >= LEAST


@pytest.mark.parametrize("case", READ)
def test_what_is_true_is_seldom_called_other_than_declared(case: str) -> None:
    # derived: 1 in 200 for each of three
    assert tally().called[case].value <= 0.1


def test_it_would_show_that_a_pm_is_too_narrow() -> None:
    narrow = share(abs(one.off) <= 0.4 * one.pm95 for one in tally().tried if one.case == "both sides")
    assert narrow.value < LEAST
