"""The short form of `tests.campaign.bridges.posted`: the ± of new tuner posts hold the truth."""

from scipy.stats import binom

from tests.campaign.bridges.posted import found
from tests.campaign.counting import share
from tests.campaign.judging import Figure
from tests.campaign.test_how_true import CHANCE

COUNT, SEED = 60, 2038


def test_new_posts_lie_within_their_width() -> None:
    figures = found(COUNT, SEED).figures
    assert len(figures) == 4
    for name, stated in figures.items():
        held = share(figure.held for figure in stated)
        assert held.of == COUNT, name
        assert binom.cdf(held.count, held.of, 0.93) > CHANCE, name
        halved = share(Figure(figure.off, figure.pm / 2).held for figure in stated)
        assert binom.cdf(halved.count, halved.of, 0.93) < CHANCE, name
