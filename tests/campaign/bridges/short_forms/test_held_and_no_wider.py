"""What is read round a glued bridge and drilled by measure: each ± holds the truth, half of it does not."""

from collections.abc import Callable

import pytest
from scipy.stats import binom

from tests.campaign.bridges import drilled, glued, posted
from tests.campaign.counting import Found, share
from tests.campaign.judging import Figure
from tests.campaign.test_how_true import CHANCE

COUNT = 60


@pytest.mark.parametrize(
    ("tried", "seed", "count"),
    [(glued.found, 2032, 12), (drilled.found, 2031, 8), (posted.found, 2038, 4)],
    ids=["glued", "drilled", "posted"],
)
def test_all_figures_lie_within_their_width(tried: Callable[[int, int], Found], seed: int, count: int) -> None:
    figures = tried(COUNT, seed).figures
    assert len(figures) == count
    for name, stated in figures.items():
        held = share(figure.held for figure in stated)
        assert held.of == COUNT, name
        assert binom.cdf(held.count, held.of, 0.93) > CHANCE, name
        halved = share(Figure(figure.off, figure.pm / 2).held for figure in stated)
        assert binom.cdf(halved.count, halved.of, 0.93) < CHANCE / 10, name
