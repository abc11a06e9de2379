"""The best straight saddle line within a saddle's thickness."""

import numpy as np
import pytest
from scipy.optimize import minimize

from geometry.frame import Array
from geometry.saddle.best_line import TIE, best_line
from tests.in_one import in_one

Y = np.array([27.0, 16.0, 5.0, -5.0, -16.0, -27.0])
WANTED = np.array([1.7, 3.3, 1.8, 2.4, 3.5, 5.3])


def test_two_strings_get_the_line_through_both() -> None:
    found = best_line(np.array([20.0, -20.0]), np.array([630.0, 633.0]), None, 3.0, 0.5)
    assert found.line == pytest.approx([630.0, 633.0])
    assert found.slope == pytest.approx(-3.0 / 40)
    assert found.at == pytest.approx(631.5)


def test_a_saddle_thick_enough_takes_every_string_on_the_least_squares_line() -> None:
    found = best_line(Y, WANTED, None, 3.0, 0.5)
    slope, at = np.polyfit(Y, WANTED, 1)
    assert (found.slope, found.at) == pytest.approx((slope, at))
    assert found.stays.tolist() == [0.0] * 6
    assert found.break_x == pytest.approx(WANTED)


def test_the_peak_lies_where_the_string_wants_it() -> None:
    found = best_line(Y, WANTED, None, 3.0, 0.5)
    # derived: the second string wants 1.119 mm behind the line at 2.181, so 0.5 + 1.119/3
    assert found.peak[1] == pytest.approx(0.5 + (3.3 - found.line[1]) / 3.0)
    assert found.peak[1] == pytest.approx(0.873, abs=0.001)


@pytest.mark.parametrize(("thickness", "peak_at"), [(1.0, 0.5), (1.5, 0.2), (0.8, 1.0), (2.0, 0.0)])
@pytest.mark.parametrize("straight", [False, True])
def test_no_other_line_leaves_less_outside_the_saddle(thickness: float, peak_at: float, straight: bool) -> None:
    def left_outside(p: Array) -> float:
        off = WANTED - p[0] - (0.0 if straight else p[1]) * Y
        outside = off - np.clip(off, -peak_at * thickness, (1 - peak_at) * thickness)
        return float(outside @ outside)

    found = best_line(Y, WANTED, None, thickness, peak_at, straight)
    other = minimize(left_outside, [3.0, -0.05], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-14})
    assert float(found.stays @ found.stays) <= other.fun + 2e-4
    assert found.stays != pytest.approx(np.zeros(6), abs=1e-3)


def test_a_straight_saddle_has_no_slant_and_leaves_more() -> None:
    found = best_line(Y, WANTED, None, 2.0, 0.5, straight=True)
    assert found.slope == 0.0
    assert np.ptp(found.line) == 0.0
    assert found.stays.tolist() == pytest.approx((WANTED - found.break_x).tolist())
    assert np.abs(found.stays).max() > 0.5


def test_a_string_that_weighs_nothing_does_not_move_the_line() -> None:
    weights = np.array([1.0, 1.0, 1.0, 0.0])
    y, x = np.array([20.0, 5.0, -5.0, -20.0]), np.array([630.0, 630.75, 631.25, 640.0])
    found = best_line(y, x, weights, 1.0, 0.5)
    assert found.line[:3] == pytest.approx(x[:3])
    assert found.stays[3] == pytest.approx(640 - 632 - 0.5)


def test_one_string_gets_an_unslanted_line_through_it() -> None:
    found = best_line(np.array([3.0]), np.array([641.0]), None, 3.0, 0.4)
    assert (found.at, found.slope, float(found.peak[0])) == pytest.approx((641.0, 0.0, 0.4))


def test_strings_over_one_place_get_an_unslanted_line() -> None:
    found = best_line(np.array([3.0, 3.0]), np.array([640.0, 641.0]), None, 3.0, 0.5)
    assert (found.at, found.slope) == pytest.approx((640.5, 0.0))


def test_mirrored_strings_get_the_mirrored_line() -> None:
    there, here = best_line(Y, WANTED, None, 1.5, 0.3), best_line(-Y, WANTED, None, 1.5, 0.3)
    assert here.slope == pytest.approx(-there.slope)
    assert here.stays == pytest.approx(there.stays)


@in_one("seed", [*range(60), 96, 358, 620, 1077, 1155])
def test_the_sum_has_no_slope_where_it_is_least(seed: int) -> None:
    """derived: a convex sum is least where its slopes, Σ (outside + TIE × off) and the same times y, are nought. The
    last five seeds are jagged strings on which whole steps go to and fro for ever.
    """
    chance = np.random.default_rng(seed)
    count = int(chance.integers(3, 8))
    y, wanted = np.linspace(28.0, -28.0, count), 640.0 + chance.uniform(0.0, 4.0, count)
    thickness, peak = float(chance.uniform(0.5, 3.0)), float(chance.uniform(0.0, 1.0))
    found = best_line(y, wanted, None, thickness, peak)
    off = wanted - found.at - found.slope * y
    pulls = off - np.clip(off, -peak * thickness, (1 - peak) * thickness) + TIE * off
    assert pulls.sum() == pytest.approx(0.0, abs=1e-8)
    assert pulls @ y == pytest.approx(0.0, abs=1e-6)
