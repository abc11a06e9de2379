"""The short form of the proof's campaign: fewer bridges, and each promise held to as closely as so few can tell.

The long form is `python -m tests.campaign kinds`; what it found stands in docs/how-true.md.
"""

import pytest

from tests.campaign.bridges.proving import FAULTS, Fault, said_of, trial_of
from tests.campaign.counting import Share, share
from tests.campaign.test_how_true import at_least

COUNT, SEED = 24, 2027
NAMED_AT_LEAST: dict[Fault, float] = {
    "right": 0.93,
    "slipped": 0.85,
    "turned": 0.85,
    "swapped": 0.88,
    "small": 0.97,
    "along": 0.9,
    "across": 0.8,
    "misread": 0.97,
}
"""Our own aims, no source."""


def test_a_promise_that_is_broken_would_be_seen() -> None:
    # derived: at 85 % of 24, 20.4 are named on the mean with a standard deviation of 1.7
    assert at_least(Share(17, COUNT), 0.85)
    assert not at_least(Share(15, COUNT), 0.85)


@pytest.mark.parametrize("fault", FAULTS)
def test_each_fault_is_named(fault: Fault) -> None:
    trials = [trial for trial in (trial_of(fault, SEED, i) for i in range(COUNT)) if trial is not None]
    assert len(trials) == COUNT
    every = [said_of(trial) for trial in trials]
    assert at_least(share(one.named for one in every), NAMED_AT_LEAST[fault])
    assert at_least(share(not one.misled for one in every), 0.95)  # our own aim, no source
