"""The short form of the campaign of saddles that travel: fewer instruments, each promise held to as closely as so few
can tell. The long form is `python -m tests.campaign kinds`; what it found stands in docs/how-true.md.
"""

from functools import lru_cache

import pytest

from tests.campaign.bridges.reaching import Reached, statements, trial_of
from tests.campaign.counting import Share, share
from tests.campaign.test_how_true import at_least

COUNT, SEED = 60, 2031
HELD, TRUE = 0.93, 0.95
"""Our own aims, no source."""


@lru_cache
def trials() -> tuple[Reached, ...]:
    return tuple(trial for trial in (trial_of(SEED, i) for i in range(COUNT)) if trial is not None)


def test_all_instruments_get_their_base() -> None:
    assert len(trials()) == COUNT


@pytest.mark.parametrize("string", [0, -1])
def test_the_pm_of_an_outer_strings_place_holds(string: int) -> None:
    assert at_least(share(trial.places[string].held for trial in trials()), HELD)


def test_the_pm_of_a_bases_corner_holds() -> None:
    assert at_least(share(trial.along[0].held for trial in trials()), HELD)
    read = [trial for trial in trials() if trial.how != "square"]  # across that one lies by typed widths alone
    assert at_least(share(trial.across[0].held for trial in read), HELD)


@pytest.mark.parametrize("what", ["reached", "out"])
def test_what_is_said_of_reach_is_true(what: str) -> None:
    found = statements(trials())[what]
    assert found.of > 0
    assert at_least(found, TRUE)


def test_a_promise_that_is_broken_would_be_seen() -> None:
    # derived: at 93 % of 60, 55.8 on the mean with a standard deviation of 2.0
    assert at_least(Share(51, COUNT), HELD)
    assert not at_least(Share(46, COUNT), HELD)
