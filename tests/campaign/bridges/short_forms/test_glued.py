"""The short form of `tests.campaign.bridges.glued`: distances to check, pin holes and margins lie within their ±."""

from scipy.stats import binom

from tests.campaign.bridges.glued import found
from tests.campaign.counting import share
from tests.campaign.judging import Figure
from tests.campaign.test_how_true import CHANCE

COUNT, SEED = 60, 2032


def test_what_is_checked_and_drilled_lies_within_its_width() -> None:
    figures = found(COUNT, SEED).figures
    assert len(figures) == 12
    for name, stated in figures.items():
        held = share(figure.held for figure in stated)
        assert held.of == COUNT, name
        assert binom.cdf(held.count, held.of, 0.93) > CHANCE, name
        halved = share(Figure(figure.off, figure.pm / 2).held for figure in stated)
        assert binom.cdf(halved.count, halved.of, 0.93) < CHANCE, name
