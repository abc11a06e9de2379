"""What a misreading looks like, and how far a residual may reach: on both sides of each limit."""

import math

import numpy as np
import pytest
from scipy import stats

from geometry.job import Job, Reading
from geometry.survey.judge.complaint import _slip
from geometry.survey.judge.suspects import _most, beyond_belief, chi_square
from geometry.units import Unit
from tests.in_one import in_one


def slip(value: float, truth: float, unit: Unit = "mm") -> str:
    taken = Reading(id="r", kind="distance", of=("a", "b"), value=value)
    return _slip(Job(unit=unit), taken, value - truth)


@in_one(
    ("truth", "says"),
    [
        # derived: 2 % off ten times, or a tenth
        (400.0 / 10 / 0.981, "one place too far right"),
        (400.0 / 10 / 0.979, "Read it again"),
        (400.0 / 10 / 1.019, "one place too far right"),
        (400.0 / 10 / 1.021, "Read it again"),
        (400.0 * 10 / 0.981, "one place too far left"),
        (400.0 * 10 / 0.979, "Read it again"),
        (400.0 * 10 / 1.019, "one place too far left"),
        (400.0 * 10 / 1.021, "Read it again"),
        # derived: 2 % of what was read off 25.4 times as much, of what is true off a part of 25.4
        (400.0 * 0.981 / 25.4, "Its unit"),
        (400.0 * 0.979 / 25.4, "Read it again"),
        (400.0 * 1.019 / 25.4, "Its unit"),
        (400.0 * 1.021 / 25.4, "Read it again"),
        (400.0 * 25.4 / 0.981, "Its unit"),
        (400.0 * 25.4 / 0.979, "Read it again"),
        (400.0 * 25.4 / 1.019, "Its unit"),
        (400.0 * 25.4 / 1.021, "Read it again"),
        # derived: 6 % off a centimetre
        (400.0 - 9.41, "near a whole centimetre"),
        (400.0 - 9.39, "Read it again"),
        (400.0 + 10.59, "near a whole centimetre"),
        (400.0 + 10.61, "Read it again"),
        (400.0 - 25.4, "Read it again"),
        (-40.0, "Read it again"),
    ],
)
def test_a_slip_is_told_by_what_was_read_and_what_is_true(truth: float, says: str) -> None:
    assert says in slip(400.0, truth).split(".")[0]  # each goes on to say that it be read again


@pytest.mark.parametrize(
    ("off", "says"),
    [(23.9, "an inch"), (23.8, "Read it again"), (-26.9, "an inch"), (-27.0, "Read it again"), (10.0, "Read it again")],
)
def test_who_counts_inches_slips_by_an_inch(off: float, says: str) -> None:
    # derived: 6 % off 25.4 is 23.876 to 26.924
    assert says in slip(400.0, 400.0 - off, "in")


@pytest.mark.parametrize(
    ("truth", "says"),
    [(-9.1, "lies to the right"), (-8.9, "Read it"), (-10.9, "lies to the right"), (-11.1, "Read it")],
)
@pytest.mark.parametrize("side", ["left", "right"])
def test_a_side_is_exchanged_within_a_tenth(truth: float, says: str, side: str) -> None:
    taken = Reading(id="r", kind="off", of=("p",), from_=("a", "b"), side=side, value=10.0)  # type: ignore[arg-type]  # a side
    wanted = says if side == "left" else says.replace("right", "left")
    assert wanted in _slip(Job(), taken, 10.0 - truth)


@pytest.mark.parametrize("count", [10, 40])
@pytest.mark.parametrize("dof", [9, 20, 60])
def test_beyond_belief_is_students_t(count: int, dof: int) -> None:
    """Against SciPy's own quantile: three in a hundred jobs, shared out among both signs of all residuals."""
    wanted = float(stats.t.ppf(1 - 0.03 / (2 * count), dof))
    assert beyond_belief(count, dof) == pytest.approx(max(wanted, 3.2905), rel=0.01)


def test_a_few_residuals_are_believed_as_far_as_one() -> None:
    # derived: of a single one among many known well, three in a hundred lie beyond 2.17; less than 3.29 never counts
    assert beyond_belief(1, 1000) == 3.2905267314919255
    assert _most(np.array([50.0]), 2500.0, 30) == 3.2905267314919255


@pytest.mark.parametrize(
    ("w", "rest"),
    [
        # derived: the largest left out, ten of 1 are left
        ([9.0] + [1.0] * 10, 10.0),
        # derived: the second counts for 3 of the middle deviation, which is 1 / 0.67449: 19.79 of 64
        ([9.0, 8.0] + [1.0] * 9, 9.0 + (3 / 0.6744897501960817) ** 2),
        # derived: the middle deviation is not taken under 1, so that it counts for 9 of 64
        ([9.0, 8.0] + [0.5] * 9, 9.0 * 0.25 + 9.0),
    ],
)
def test_how_coarsely_all_was_read_follows_from_the_others(w: list[float], rest: float) -> None:
    # derived: their squares with 8 × 1.8 expected beforehand, over 8 and the redundant readings less one
    squares, dof = sum(one * one for one in w), 20
    coarse = math.sqrt(max(1.0, (8 * 1.8 + rest) / (8 + dof - 1)))
    assert _most(np.array(w), squares, dof) == pytest.approx(beyond_belief(len(w), 8 + dof - 1) * coarse)


def test_readings_finer_than_said_are_taken_as_said() -> None:
    # derived: (14.4 + 0.1) / 27 is under 1
    assert _most(np.array([0.1] * 11), 0.11, 20) == beyond_belief(11, 27)
    assert _most(np.array([3.0] * 11), 99.0, 5) > 1.5 * beyond_belief(11, 12)


@pytest.mark.parametrize("dof", [3, 9, 30, 100])
def test_beyond_what_a_sum_of_squares_is_coarse(dof: int) -> None:
    # scipy's chi-square distribution; derived: the formula's own error is under 2 % from three on
    assert chi_square(dof) == pytest.approx(stats.chi2.ppf(0.999, dof), rel=0.02)
