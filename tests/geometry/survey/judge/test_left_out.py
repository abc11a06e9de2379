"""Which readings are left out, and how, where they are accused: on small fits.

A row r left out changes unknown i by (δ − c)_ir / c_rr × its residual, with c the control matrix (derived: the module's
G C⁻¹ v with G = δ − c).
"""

from typing import Any

import numpy as np
import pytest

from geometry.survey.adjust.datum import Fixed
from geometry.survey.judge import without_accused
from geometry.survey.judge.suspects import Suspects
from geometry.survey.judge.without_accused import _left_out, alternatives
from geometry.survey.result import Array
from tests.geometry.survey.judge.small_fit import a_fit

ANEW = 99.0
"""Stands for what a fit that is worked out anew says."""


@pytest.fixture(autouse=True)
def anew(monkeypatch: pytest.MonkeyPatch) -> None:
    def again(done: Any, *_: object) -> tuple[Array, Array]:
        return np.full(len(done.gain), ANEW), np.zeros((len(done.gain), 0))

    monkeypatch.setattr(without_accused, "_anew", again)


HALVES = np.array([[0.5, -0.5, 0.0], [-0.5, 0.5, 0.0], [0.0, 0.0, 0.5]])
"""Two readings of one length, and one that half checks an unknown that is no point's."""


@pytest.mark.parametrize(
    ("off", "change"), [(5.0, 5.0), (-5.0, -5.0), (4.9, 4.9), (5.1, ANEW), (-5.1, ANEW), (5.9, ANEW)]
)
def test_what_moves_a_point_by_more_than_5_mm_is_fitted_anew(off: float, change: float) -> None:
    """5 mm: common practice, no source. Without the first the unknowns go where the second one says (derived)."""
    (found,) = _left_out(a_fit(HALVES, [off, -off, 0.0]), [(0,)])
    assert found.change[1] == pytest.approx(change)


def test_what_is_no_point_may_change_by_more() -> None:
    """A rule's zero is worked out exactly, however far off; so is what is held where it is."""
    (found,) = _left_out(a_fit(HALVES, [0.0, 0.0, 8.0]), [(2,)])
    assert found.change.tolist() == pytest.approx([0.0, 0.0, 8.0])
    (found,) = _left_out(a_fit(HALVES, [8.0, -8.0, 0.0], datum=Fixed({})), [(0,)])
    assert found.change.tolist() == pytest.approx([8.0, 8.0, 0.0])


@pytest.mark.parametrize(("least", "found"), [(0.9e-3, 0), (1.1e-3, 1), (2e-3, 1)])
def test_two_that_hold_nothing_but_each_other_are_not_left_out_together(least: float, found: int) -> None:
    """Their part of the control matrix has the eigenvalues 1 and `least` (derived: sum and difference); a thousandth is
    a limit without a source.
    """
    both = np.array([[1 + least, 1 - least], [1 - least, 1 + least]]) / 2
    assert len(list(_left_out(a_fit(both, [0.0, 0.0]), [(0, 1)]))) == found


@pytest.mark.parametrize(("alone", "found"), [(0.9e-6, 0), (1.1e-6, 1)])
def test_one_that_nothing_checks_is_not_left_out(alone: float, found: int) -> None:
    """A millionth: a thousandth of a thousandth."""
    assert len(list(_left_out(a_fit(np.array([[alone]]), [0.0]), [(0,)]))) == found


def seen_of(w: list[float], control: float = 0.5, accused: tuple[int, ...] = (0,)) -> list[str]:
    """The readings that are looked at, in their order, where each is out by so many standard deviations."""
    done = a_fit(control * np.eye(len(w)), [one * control**0.5 for one in w])
    return ["".join(one.ids) for one in alternatives(done, done.net, Suspects(named=accused), ())]


def test_the_twelve_that_are_farthest_out_are_looked_at() -> None:
    """Besides those that are accused; of either sign, the worst first."""
    w = [4.0 + k if k % 2 else -4.0 - k for k in range(15)]
    assert seen_of(w) == ["r0", *(f"r{k}" for k in range(14, 2, -1))]


@pytest.mark.parametrize(("w", "seen"), [(3.28, False), (3.30, True), (-3.30, True)])
def test_only_what_is_beyond_belief_is_looked_at(w: float, seen: bool) -> None:
    """The normal distribution's two-sided 0.1 % point is 3.2905; and nothing is, where nothing is accused."""
    assert seen_of([9.0, w]) == ["r0", *(["r1"] if seen else [])]
    assert seen_of([9.0, w], accused=()) == []


@pytest.mark.parametrize(("control", "seen"), [(0.9e-5, False), (1.05e-5, True), (2e-5, True)])
def test_what_hardly_anything_checks_is_not_looked_at(control: float, seen: bool) -> None:
    """Ten times what rounding leaves of a control of nothing (1e-6: common practice, no source)."""
    assert seen_of([9.0, 5.0], control) == ["r0", *(["r1"] if seen else [])]
