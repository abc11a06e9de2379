"""The short form of `tests.campaign.bridges.clear`: what is said to be clear beyond its ± is clear."""

from scipy.stats import binom

from tests.campaign.bridges.clear import AIM, gaps_by_sort, gaps_of, said_clear, with_old_work
from tests.campaign.counting import share
from tests.campaign.judging import Figure
from tests.campaign.test_how_true import CHANCE

COUNT, SEED = 60, 2026


def test_what_is_said_to_be_clear_is_clear() -> None:
    case = with_old_work()
    found = gaps_by_sort([gaps_of(case, SEED, index) for index in range(COUNT)])
    assert {"cover", "inside", "to a pin hole", "to the slot", "offset"} <= set(found)
    for sort, gaps in found.items():
        wrong, held = share(map(said_clear, gaps)), share(gap.held for gap in gaps)
        assert binom.sf(wrong.count - 1, wrong.of, AIM) > CHANCE, sort
        assert binom.cdf(held.count, held.of, 0.93) > CHANCE, sort


def test_gaps_that_are_said_too_wide_would_be_counted() -> None:
    far = [
        {"pin.1 to slot": Figure(1.0, 0.5)},
        {"pin.1 to slot": Figure(-1.0, 0.5)},
        {"pin.1 to slot": Figure(0.1, 0.5)},
    ]
    (gaps,) = gaps_by_sort(far).values()
    assert [said_clear(gap) for gap in gaps] == [True, False, False]
    assert [gap.held for gap in gaps] == [False, False, True]
