"""Steps where the equations are singular, and when the steps end: by plain linear algebra (derived)."""

from collections.abc import Callable

import numpy as np
import pytest

from geometry.survey.adjust.adjustment import _anchors
from geometry.survey.adjust.least_squares import Normal, _sparse_step, _step, settle
from geometry.survey.adjust.network import network_of
from geometry.survey.adjust.sparse import Sparse, gathered, pattern_of
from geometry.survey.result import Array
from geometry.survey.rows.row import Row


def thin(matrix: Array) -> Sparse:
    """A full matrix (2, 2), or (3, 3) block by block, as a nearly empty one: one row that uses all unknowns."""
    p = len(matrix)
    pattern = pattern_of(np.arange(p)[None, :], np.ones((1, p), dtype=bool), p)
    return gathered(pattern, matrix[None])


def test_unknowns_that_no_equation_holds_take_no_step() -> None:
    """derived: the least of all steps that solve the equations, by the pseudo-inverse"""
    slopes = np.array([[1.0, 1.0, 0.0]])  # only the sum of the first two is known
    matrix, pull = slopes.T @ slopes, slopes.T @ np.array([2.0])
    step = _step(Normal(1.0, matrix, pull), 0.0)
    assert step == pytest.approx(np.linalg.pinv(matrix) @ pull, abs=1e-9)
    assert step[2] == 0


@pytest.mark.parametrize("damping", [1e-3, 0.5, 4.0])
def test_a_damped_step_is_the_damped_equations_solved(damping: float) -> None:
    matrix, pull = np.array([[4.0, 1.0], [1.0, 3.0]]), np.array([1.0, -2.0])
    wanted = np.linalg.solve(matrix + damping * np.diag(np.diag(matrix)), pull)
    assert _step(Normal(1.0, matrix, pull), damping) == pytest.approx(wanted)
    assert _step(Normal(1.0, thin(matrix), pull), damping) == pytest.approx(wanted)


def test_a_large_network_that_is_loose_in_some_direction_is_damped_as_little_as_does() -> None:
    """derived: singular undamped; by the next damping, a millionth, the equations have one answer"""
    matrix, pull = np.array([[1.0, 1.0], [1.0, 1.0]]), np.array([2.0, 2.0])
    with pytest.raises(RuntimeError):
        thin(matrix).solve(pull)
    wanted = np.linalg.solve(matrix + 1e-6 * np.eye(2), pull)
    assert _sparse_step(thin(matrix), pull, 0.0) == pytest.approx(wanted, rel=1e-6)
    assert wanted == pytest.approx([1.0, 1.0], rel=1e-5)


def test_an_unknown_that_nothing_touches_stays_in_a_large_network() -> None:
    matrix, pull = np.diag([2.0, 0.0]), np.array([4.0, 0.0])
    assert _sparse_step(thin(matrix), pull, 0.0) == pytest.approx([2.0, 0.0])


def test_equations_that_are_no_numbers_take_no_step() -> None:
    broken = thin(np.full((2, 2), np.nan))
    assert _sparse_step(broken, np.array([1.0, 1.0]), 0.0).tolist() == [0.0, 0.0]


def straight(at: float) -> Callable[[Array], Normal]:
    """One unknown that is wanted at a place, with a sigma of 1."""

    def model(x: Array) -> Normal:
        miss = at - x
        return Normal(float(miss @ miss), np.eye(1), miss)

    return model


@pytest.mark.parametrize(("start", "rounds", "rests"), [(0.9e-5, 1, True), (1.1e-5, 1, False), (1.1e-5, 2, True)])
def test_it_rests_where_a_step_gains_a_ten_thousand_millionth_or_less(start: float, rounds: int, rests: bool) -> None:
    """derived: the gain is the square of the way to go, 1e-10 at 1e-5 standard deviations"""
    assert settle(straight(0.0), np.array([start]), steps=rounds).resting is rests


def test_a_step_that_makes_it_worse_is_taken_back_and_tried_shorter() -> None:
    """derived: atan's own Newton steps run away from beyond 1.39; damped ones come to its only root"""

    def model(x: Array) -> Normal:
        slope, miss = 1 / (1 + x**2), -np.arctan(x)
        return Normal(float(miss @ miss), np.diag(slope * slope), slope * miss)

    undamped = np.array([3.0])
    undamped = undamped - np.arctan(undamped) * (1 + undamped**2)
    assert abs(undamped[0]) > 3.0
    done = settle(model, np.array([3.0]))
    assert done.resting
    assert done.x == pytest.approx([0.0], abs=1e-5)


def test_an_unknown_that_is_not_there_has_no_column() -> None:
    net = network_of([Row("r", "none", (), 1.0, 0.1, extras=(("scale.left", 1.0),))])
    assert (net.column("scale.left"), net.column("scale.right")) == (0, -1)


@pytest.mark.parametrize(
    ("b", "c", "held"),
    # of three points a, b and c: both columns of a, and of the farthest the one across the way to it
    [
        (50 + 9j, 90 + 40j, 5),
        (50 + 9j, -90 + 40j, 5),
        (50 + 9j, 40 + 90j, 4),
        (50 + 9j, 40 - 90j, 4),
        (300 + 9j, 40 + 90j, 3),
        (9 - 300j, 40 + 90j, 2),
    ],
)
def test_a_large_figure_is_held_at_one_point_and_by_the_way_to_the_farthest(b: complex, c: complex, held: int) -> None:
    at = {"a": 500 + 700j, "b": 500 + 700j + b, "c": 500 + 700j + c}
    net = network_of([Row(f"{p}{q}", "distance", (p, q), 100.0, 0.3) for p, q in (("a", "b"), ("a", "c"), ("b", "c"))])
    x = np.array([at[name] for name in net.points]).view(float)
    assert net.points == ("a", "b", "c")
    assert _anchors(net, x).tolist() == [0, 1, held]
