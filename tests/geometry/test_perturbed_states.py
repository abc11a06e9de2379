"""How an uncertain survey is carried through: derivatives, ±, and whether a gross error would show."""

import msgspec
import numpy as np
import pytest

from geometry.perturbed_states import PerturbedStates, perturb
from geometry.survey.result import Surveyed
from tests.geometry.made import BOARD, surveyed

FOUND = surveyed(BOARD, {"scale.left": 640.0}, sd=0.1)


def moved(found: Surveyed = FOUND, own: tuple[str, ...] = ()) -> PerturbedStates:
    return perturb(found, ("nut.left", "end.left"), ("scale.left",), own)


def test_the_first_row_is_the_state_and_the_others_move_one_unknown_each() -> None:
    rows = moved().rows
    assert rows.shape == (11, 9)
    assert rows[0].tolist() == FOUND.state.tolist()
    assert np.count_nonzero(rows[1:] - rows[0], axis=1).tolist() == [1] * 10


def test_a_sum_of_unknowns_has_their_coefficients_for_derivatives() -> None:
    seen = moved()
    scale = seen.unknown("scale.left")
    assert scale is not None
    value = 3.0 * seen.point("nut.left").real - 2.0 * scale
    assert seen.gradient(value) == pytest.approx([3.0, 0.0, 0.0, 0.0, -2.0])


def test_independent_parts_add_up_in_squares() -> None:
    # derived: 0.1 sqrt(3² + 2²) = 0.36056 (JCGM 100:2008, 5.1.2), and 1.96 times that
    seen = moved()
    scale = seen.unknown("scale.left")
    assert scale is not None
    value = 3.0 * seen.point("nut.left").real - 2.0 * scale
    assert float(seen.sd(value)) == pytest.approx(0.36056, abs=1e-5)
    assert float(seen.pm95(value)) == pytest.approx(0.70668, abs=1e-5)


def test_what_moves_together_cancels_in_a_difference() -> None:
    # derived: of a wholly common error of 0.1 nothing is left in the difference, and twice as much in the sum
    common = msgspec.structs.replace(FOUND, cov=np.full((9, 9), 0.01))
    seen = moved(common)
    a, b = seen.point("nut.left").real, seen.point("end.left").real
    assert float(seen.sd(b - a)) == pytest.approx(0.0, abs=1e-9)
    assert float(seen.sd(a + b)) == pytest.approx(0.2)


def test_a_point_that_is_not_moved_has_no_part_in_it() -> None:
    seen = moved()
    assert float(seen.sd(seen.point("nut.right").real)) == 0.0


def test_its_own_unknowns_start_at_nothing_and_spread_by_one() -> None:
    seen = moved(own=("a", "b"))
    found = seen.unknown("b")
    assert found is not None
    assert found[0] == 0.0
    assert float(seen.sd(0.4 * found)) == pytest.approx(0.4)  # derived: 0.4 × 1


def test_names_that_are_not_solved_are_passed_over() -> None:
    states = perturb(FOUND, ("nut.left", "seam.1"), ("scale.right",))
    assert states.spread.shape == (2, 2)
    assert states.unknown("scale.right") is None
    assert not states.has("nut.left", "seam.1")


def test_several_values_at_once_have_each_their_own() -> None:
    seen = moved()
    nut = seen.point("nut.left")
    values = np.stack((nut.real, 2 * nut.imag), axis=1)
    assert seen.sd(values).tolist() == pytest.approx([0.1, 0.2])
    assert seen.covariance(values).tolist() == [pytest.approx([0.01, 0.0], abs=1e-12), pytest.approx([0.0, 0.04])]


def test_a_value_is_checked_unless_a_reading_that_moves_it_hides_its_errors() -> None:
    # each unknown is held by two readings of its own; those of nut.left's x are the first two
    hidden = FOUND.redundancy.copy()
    hidden[1] = 0.0
    seen = moved(msgspec.structs.replace(FOUND, redundancy=hidden))
    assert not seen.checked(seen.point("nut.left").real)
    assert seen.checked(seen.point("nut.left").imag)
    assert seen.checked(0.09 * seen.point("nut.left").real)  # moved by 0.045 mm a mm: not worth a check


def test_a_reading_hides_what_its_own_coarseness_hides() -> None:
    # derived: at a redundancy of 0.05 an error shows from 4.13 × sigma / √0.05 on: 2.6 mm for 0.14, and 3.7 for 0.2
    weak = FOUND.redundancy.copy()
    weak[:2] = 0.05
    coarse = tuple(msgspec.structs.replace(fit, sigma=0.2) for fit in FOUND.fits)
    assert moved(msgspec.structs.replace(FOUND, redundancy=weak)).checked(moved().point("nut.left").real)
    seen = moved(msgspec.structs.replace(FOUND, redundancy=weak, fits=coarse))
    assert not seen.checked(seen.point("nut.left").real)


def test_how_far_two_points_lie_apart() -> None:
    assert moved().apart("nut.left", "nut.right") == pytest.approx(44.0)


def test_points_moved_afterwards_count_as_if_moved_from_the_start() -> None:
    # checked against states in which all of them are moved at once, with a covariance that ties them together
    mixed = np.random.default_rng(5).normal(size=(9, 9))
    tied = msgspec.structs.replace(FOUND, cov=mixed @ mixed.T / 100)
    seen, whole = moved(tied), perturb(tied, BOARD, ("scale.left",))
    wider = seen.with_points(BOARD)
    late = np.abs(wider.states.point("end.right") - wider.lifted(seen.point("nut.left") * 1.5))
    at_once = np.abs(whole.point("end.right") - whole.point("nut.left") * 1.5)
    assert late[0] == at_once[0]
    assert float(wider.states.sd(late)) == pytest.approx(float(whole.sd(at_once)), rel=1e-9)
    assert float(wider.states.pm95(late)) == pytest.approx(float(whole.pm95(at_once)), rel=1e-9)
    assert wider.states.checked(late) == whole.checked(at_once)


def test_points_that_were_moved_already_are_not_moved_twice() -> None:
    seen = moved()
    wider = seen.with_points(("nut.left",))
    assert wider.more == 0
    assert wider.states.rows.tolist() == seen.rows.tolist()


def test_how_far_two_points_lie_apart_is_that_of_the_state_itself() -> None:
    seen = moved()
    a, b = seen.points(("nut.left", "end.left"))[0].tolist()
    assert seen.apart("nut.left", "end.left") == abs(a - b)
    assert seen.apart("end.left", "nut.left") == abs(a - b)
