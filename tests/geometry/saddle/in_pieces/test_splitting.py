"""Where a saddle is best parted, against every way tried by other methods; how thick one must be to carry all."""

from itertools import combinations, pairwise

import numpy as np
import pytest
from scipy.optimize import linprog, minimize

from geometry.frame import Array
from geometry.job import Saddle, String, Strings
from geometry.saddle.best_line import TIE
from geometry.saddle.choice_of_saddle import _by_steps
from geometry.saddle.in_pieces.splitting import best_splits, lay_under, runs, thickness_needed, ways, weights_for
from geometry.spacing import CENTS

SCALE = 640.0


def places(seed: int, count: int) -> tuple[Array, Array]:
    """Invented strings side by side, and where they want to break: steps of up to 5 mm."""
    chance = np.random.default_rng(seed)
    y = np.linspace(28.0, -28.0, count) + chance.uniform(-1.0, 1.0, count)
    return y, SCALE + np.sort(chance.uniform(0.0, 3.0, count)) + chance.uniform(0.0, 2.0, count)


def left_over(y: Array, wanted: Array, thick: float) -> Array:
    """What stays outside a straight saddle of that thickness, peaking in its middle, by a search of another kind: the
    same sum of squares (outside the room, and a thousandth of it all) brought down without knowing its slopes.
    """
    if len(y) == 1:
        return np.zeros(1)
    lean, at = np.polyfit(y, wanted, 1)

    def outside(line: Array) -> Array:
        off = wanted - line[0] - line[1] * y
        return np.asarray(off - np.clip(off, -thick / 2, thick / 2))

    def cost(line: Array) -> float:
        off = wanted - line[0] - line[1] * y
        return float((outside(line) ** 2).sum() + TIE * (off**2).sum())

    found = minimize(cost, [at, lean], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-14, "maxiter": 4000})
    return np.asarray(outside(found.x))


@pytest.mark.parametrize(("pieces", "thick"), [(2, 1.0), (2, 2.0), (3, 0.6)])
@pytest.mark.parametrize("seed", range(4))
def test_no_other_way_leaves_the_worst_string_less(seed: int, pieces: int, thick: float) -> None:
    y, wanted = places(seed, 7)
    lay = lay_under(y, wanted, thick, 0.5, straight=False)
    every = list(combinations(range(1, 7), pieces - 1))
    found = best_splits(y, wanted, np.full(7, SCALE), every, lay)

    def worst(way: tuple[int, ...]) -> float:
        ends = pairwise((0, *way, 7))
        return max(float(np.abs(left_over(y[a:b], wanted[a:b], thick)).max()) for a, b in ends) * CENTS / SCALE

    assert worst(found) == pytest.approx(min(map(worst, every)), abs=5e-3)  # cents: nobody hears a hundredth


@pytest.mark.parametrize("seed", range(6))
def test_where_all_fit_the_lines_lie_nearest_to_what_is_wanted(seed: int) -> None:
    """A saddle so thick that any split carries all: then the least sum of squares about straight lines decides."""
    y, wanted = places(seed, 8)
    every = list(combinations(range(1, 8), 2))

    def squares(way: tuple[int, ...]) -> float:
        total = 0.0
        for a, b in pairwise((0, *way, 8)):
            fit = np.polyval(np.polyfit(y[a:b], wanted[a:b], 1), y[a:b]) if b - a > 1 else wanted[a:b]
            total += float(((wanted[a:b] - fit) ** 2).sum())
        return total

    found = best_splits(y, wanted, np.full(8, SCALE), every, lay_under(y, wanted, 14.0, 0.5, straight=False))
    assert found == min(every, key=squares)


@pytest.mark.parametrize("seed", range(5))
def test_the_thickness_that_carries_all_is_the_least(seed: int) -> None:
    """Against a linear programme: the least t with at + lean y ≤ wanted ≤ at + lean y + t."""
    y, wanted = places(seed, 6)
    ones = np.ones(6)
    above = np.column_stack((ones, y, np.zeros(6)))
    below = np.column_stack((-ones, -y, -ones))
    solved = linprog(
        [0, 0, 1], A_ub=np.vstack((above, below)), b_ub=np.concatenate((wanted, -wanted)), bounds=[(None, None)] * 3
    )
    assert thickness_needed(y, wanted, straight=False) == pytest.approx(solved.fun, abs=1e-6)
    assert thickness_needed(y, wanted, straight=True) == pytest.approx(np.ptp(wanted))


def test_one_string_needs_no_thickness() -> None:
    assert thickness_needed(np.zeros(1), np.full(1, SCALE), straight=False) == 0.0


def test_a_saddle_of_that_thickness_leaves_nothing_over_and_a_thinner_one_does() -> None:
    y, wanted = places(3, 6)
    least = thickness_needed(y, wanted, straight=False)
    for thick, leaves in ((1.02 * least, False), (0.9 * least, True)):
        stays = lay_under(y, wanted, thick, 0.5, straight=False)(slice(0, 6)).stays
        assert (np.abs(stays).max() > 0.01) == leaves


def test_courses_are_not_parted_while_another_way_is_open() -> None:
    assert ways(6, 2, [2, 4], lambda _: True) == [(2,), (4,)]
    assert ways(6, 3, [2, 4], lambda _: True) == [(2, 4)]
    assert ways(4, 3, [2], lambda _: True) == [(1, 2), (1, 3), (2, 3)]  # two courses cannot make three pieces


def test_short_pieces_are_not_made_while_another_way_is_open() -> None:
    assert ways(4, 2, [1, 2, 3], lambda parts: min(b - a for a, b in parts) > 1) == [(2,)]
    assert ways(4, 2, [1, 2, 3], lambda _: False) == [(1,), (2,), (3,)]


def test_runs() -> None:
    assert runs((2, 5), 6) == ((0, 2), (2, 5), (5, 6))


def test_a_string_that_starts_at_a_fret_pays_by_its_own_length() -> None:
    """Against every way, each straight saddle found by another search: seven strings, the last from fret 7 on, which is
    640 / 2^(7/12) mm long and pays half as much again for a millimetre; by lengths from the nut another way is taken.
    """
    y = np.linspace(28.0, -28.0, 7)
    wanted = SCALE + np.array([0.5, 5.8, 3.2, 4.6, 3.2, 3.7, 0.2])
    own = np.array([SCALE] * 6 + [SCALE / 2 ** (7 / 12)])
    lay, every = lay_under(y, wanted, 1.0, 0.5, straight=False), [(at,) for at in range(1, 7)]

    def worst(way: tuple[int, ...], lengths: Array) -> float:
        ends = pairwise((0, *way, 7))
        return max(float((np.abs(left_over(y[a:b], wanted[a:b], 1.0)) * CENTS / lengths[a:b]).max()) for a, b in ends)

    found, alike = best_splits(y, wanted, own, every, lay), best_splits(y, wanted, np.full(7, SCALE), every, lay)
    assert found != alike
    assert worst(found, own) == pytest.approx(min(worst(way, own) for way in every), abs=5e-3)
    assert worst(alike, own) > worst(found, own) + 0.01


def test_a_drone_tells_a_slant_only_where_no_other_string_does() -> None:
    # derived: a line through two strings that ask for something, whatever a third between them wants
    y, wanted = np.array([20.0, 0.0, -20.0]), np.array([641.0, 649.0, 643.0])
    hushed = weights_for(np.array([True, False, True]))
    line = lay_under(y, wanted, 30.0, 0.5, straight=False, weights=hushed)(slice(0, 3))
    assert (line.at, line.slope) == pytest.approx((642.0, -0.05), abs=1e-6)
    # with one other string alone it leans through both; alone it lies where the drone wants it
    pair = lay_under(y, wanted, 30.0, 0.5, straight=False, weights=hushed)(slice(0, 2))
    assert (pair.at, pair.slope) == pytest.approx((649.0, -0.4), abs=1e-6)
    alone = lay_under(y, wanted, 30.0, 0.5, straight=False, weights=hushed)(slice(1, 2))
    assert alone.at == pytest.approx(649.0)
    assert weights_for(np.array([True, True])) is None


@pytest.mark.parametrize(("off", "left"), [(1.0, 0.0), (-1.0, 0.0), (4.0, 3.0), (-4.0, -2.0)])
def test_a_step_takes_up_no_more_than_lies_before_and_behind_the_peak(off: float, left: float) -> None:
    """Derived: of 3 mm that peak two thirds from the front, 2 mm lie before the peak and 1 mm behind it."""
    strings = Strings(list=tuple(String(name=str(at)) for at in range(1, 4)))
    saddle = Saddle(thickness=3.0, peak_at=2 / 3)
    assert _by_steps(strings, saddle, np.array([0.0, off, 0.0])) == pytest.approx([0.0, left, 0.0])
