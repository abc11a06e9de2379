"""What all plots share: round ticks, lines cut at the ground's edge, words kept apart."""

import pytest

from export.drawing.flatten import Box
from export.plots.axes import Axes, apart, figure, round_levels, steps

AXES = Axes(Box(10.0, 10.0, 30.0, 20.0), (0.0, 20.0), (-5.0, 5.0))


@pytest.mark.parametrize(
    ("reach", "most", "wanted"),
    [
        (2.3, 4, (0.0, 1.0, 2.0, 3.0)),
        (2.0, 2, (0.0, 1.0, 2.0)),
        (0.62, 2, (0.0, 0.5, 1.0)),
        (41.0, 4, (0.0, 20.0, 40.0, 60.0)),
        (0.0, 4, (0.0, 1.0)),
    ],
)
def test_steps_are_round_and_few(reach: float, most: int, wanted: tuple[float, ...]) -> None:
    assert steps(reach, most) == pytest.approx(wanted)


def test_levels_hold_nought_and_both_ends() -> None:
    assert round_levels(-2.0, 28.0) == (-10.0, 0.0, 10.0, 20.0, 30.0)
    assert round_levels(-4.0, 4.0) == (-4.0, -2.0, 0.0, 2.0, 4.0)


@pytest.mark.parametrize(
    ("value", "step", "sign", "wanted"),
    [
        (5.0, 5.0, True, "+5"),
        (-0.5, 0.5, True, "−0.5"),
        (0.0, 5.0, True, "0"),
        (0.05, 0.05, False, "0.05"),
        (20, 10, False, "20"),
    ],
)
def test_ticks_are_no_finer_than_their_steps(value: float, step: float, sign: bool, wanted: str) -> None:
    assert figure(value, step, sign=sign) == wanted


def test_a_place_on_the_paper() -> None:
    assert AXES.at(0.0, 0.0) == (10.0, 15.0)
    assert AXES.at(20.0, 5.0) == (30.0, 20.0)


def test_a_line_is_cut_where_it_leaves_the_ground_and_comes_back() -> None:
    """derived: from 0 to 10 in ten frets it leaves at 5, half way; back down it comes in half way."""
    (first, second) = AXES.runs([(0, 0), (10, 10), (20, 0)])
    assert first == [pytest.approx((10.0, 15.0)), pytest.approx((15.0, 20.0))]
    assert second == [pytest.approx((25.0, 20.0)), pytest.approx((30.0, 15.0))]
    assert AXES.runs([(0, 8), (10, 9)]) == []
    assert AXES.runs([(0, 1), (10, 1), (20, 1)]) == [[(10.0, 16.0), (20.0, 16.0), (30.0, 16.0)]]


def test_words_that_would_lie_over_each_other_are_pushed_apart() -> None:
    """derived: around the middle of what they want, as far as the edges let them"""
    assert apart([5.0, 5.0, 5.6], 2.0, 0.0, 20.0) == pytest.approx([3.2, 5.2, 7.2])
    assert apart([1.0, 5.0, 6.0, 12.0], 2.0, 0.0, 20.0) == pytest.approx([1.0, 4.5, 6.5, 12.0])
    assert apart([9.5, 9.0], 2.0, 0.0, 10.0) == [10.0, 8.0]
    assert apart([0.5, 0.4], 2.0, 0.0, 10.0) == [2.0, 0.0]
    assert apart([], 2.0, 0.0, 10.0) == []
