"""Who is accused, on small fits: what is snooped, what explains all, who is as likely; on both sides of each limit."""

import math

import numpy as np
import pytest

from geometry.survey.judge import suspects
from geometry.survey.judge.suspects import (
    AS_SAID,
    Suspects,
    _as_likely,
    _explaining,
    _least_first,
    _wider,
    beyond_belief,
    exchanges,
    find_suspects,
    snoop,
)
from geometry.survey.result import Array
from tests.geometry.survey.judge.small_fit import a_fit


def checked_by_each_other(alike: float, *others: float) -> Array:
    """Two readings whose residuals correlate by `alike` (derived: c_01 / √(c_00 c_11)), and others checked so well."""
    control = np.diag([0.5, 0.5, *others])
    control[0, 1] = control[1, 0] = -0.5 * alike
    return control


@pytest.mark.parametrize(("alike", "named", "group"), [(0.975, (0,), ()), (0.985, (), (1, 0)), (1.0, (), (0, 1))])
def test_two_that_go_as_one_are_not_told_apart(alike: float, named: tuple[int, ...], group: tuple[int, ...]) -> None:
    """0.98 (the module's own): at 0.975 the second is explained once the first is out, by what is left of it:
    v₁ − c₀₁ v₀ / c₀₀ = 0 (derived). Of two that are not told apart the less slip is first: 9 × 0.985 / 0.5 mm.
    """
    found = snoop(a_fit(checked_by_each_other(alike, 0.5), [9.0, -9.0 * alike, 0.1], dof=9))
    assert (found.named, found.group) == (named, group)
    assert [*found.errors, found.group_error] == pytest.approx([-18.0, 0.0] if named else [9.0 * alike / 0.5])


@pytest.mark.parametrize(("fitted", "error"), [(3, -18.0), (0, 18.0)])
def test_a_zero_is_wrong_the_other_way_from_its_readings(fitted: int, error: float) -> None:
    """9 standard deviations left of what is checked by a half: an error of 18 mm (derived); a zero says 0 for it."""
    found = snoop(a_fit(np.diag([0.5, 0.5, 0.5]), [9.0, 0.1, 0.1], fitted=fitted, dof=9))
    assert (found.named, found.errors) == ((0,), (error,))


def test_the_size_of_an_error_is_in_millimetres() -> None:
    found = snoop(a_fit(np.diag([0.5, 0.5, 0.5]), [-9.0, 0.1, 0.1], sigma=0.3, dof=9))
    assert found.errors == pytest.approx((18.0 * 0.3,))


def test_nobody_is_accused_of_what_cannot_be_doubted() -> None:
    assert snoop(a_fit(np.diag([0.5, 0.5]), [9.0, 9.0], doubted=0)).named == ()
    assert snoop(a_fit(np.diag([0.5, 0.5]), [0.1, 90.0], doubted=1)).named == ()


@pytest.mark.parametrize(("control", "named"), [(0.9e-5, ()), (1.05e-5, (1,)), (2e-5, (1,))])
def test_what_hardly_anything_checks_is_not_accused(control: float, named: tuple[int, ...]) -> None:
    """Ten times a millionth (common practice, no source)."""
    assert snoop(a_fit(np.diag([0.5, control, 0.5]), [0.1, 90 * control**0.5, 0.1], dof=9)).named == named


@pytest.mark.parametrize("dof", [0, 1, 2, 6])
@pytest.mark.parametrize(("near", "found"), [(0.999, [0, 1]), (1.001, [])])
def test_what_explains_all_leaves_nothing_beyond_belief(dof: int, near: float, found: list[int]) -> None:
    """Without either of two readings of one length the other one is at rest (derived); the third one stays as it is.
    As well known as from eight redundant readings beforehand and those that are left, less the one taken out.
    """
    most = beyond_belief(3, AS_SAID + {0: 0, 1: 0, 2: 1, 6: 5}[dof])
    fit = a_fit(checked_by_each_other(1.0, 0.5), [9.0, -9.0, near * most * 0.5**0.5], dof=dof)
    assert sorted(_explaining(fit)) == found


def test_only_what_may_be_doubted_must_be_explained() -> None:
    """What is laid down, as where a point is held, is no reading; nor is what nothing checks."""
    far = [9.0, -9.0, 40.0]
    assert sorted(_explaining(a_fit(checked_by_each_other(1.0, 0.5), far, doubted=2))) == [0, 1]
    for control, found in ((0.9e-5, [0, 1]), (1.05e-5, [])):
        fit = a_fit(checked_by_each_other(1.0, control), [9.0, -9.0, 40.0 * control**0.5])
        assert sorted(_explaining(fit)) == found


def test_only_what_is_out_beyond_belief_explains_anything() -> None:
    """3.29 standard deviations: the two-sided 0.1 %."""
    for w, found in ((3.28, []), (3.30, [0, 1])):
        fit = a_fit(checked_by_each_other(1.0, 0.5), [w * 0.5**0.5, -w * 0.5**0.5, 0.0])
        assert sorted(_explaining(fit)) == found


def test_of_many_the_twelve_worst_are_tried() -> None:
    """Twenty readings of one length that share one error: each of them explains it (derived: with c = −r all rest)."""
    m = 20
    control = np.full((m, m), -0.5) + np.eye(m)
    assert len(_explaining(a_fit(control, [9.0, *[-9.0] * (m - 1)]))) == 12


@pytest.mark.parametrize(("other", "group"), [(18.9, ()), (19.1, (1, 0)), (24.9, (0, 1))])
def test_a_reading_is_as_likely_whose_squares_differ_by_less_than_six(
    monkeypatch: pytest.MonkeyPatch, other: float, group: tuple[int, ...]
) -> None:
    """Twenty to one: exp(6 / 2) (derived in the module); the first leaves 25. Slips of w √½ / ½, or √(2 w²), mm
    (derived): the less comes first where they differ by a tenth.
    """
    monkeypatch.setattr(suspects, "_explaining", lambda _: [0, 1])
    fit = a_fit(np.diag([0.5, 0.5, 0.5]), [5 * 0.5**0.5, (other * 0.5) ** 0.5, 9.0])
    named = Suspects(named=(0,), errors=(3.0,), coarse=1.4, wider=1.6)
    found = _as_likely(fit, named)
    assert found.group == group
    if group:
        assert (found.named, found.coarse, found.wider) == ((), 1.4, 1.6)
        assert found.group_error == pytest.approx((2 * (25.0 if group[0] == 0 else other)) ** 0.5)
    else:
        assert found is named


def test_who_does_not_explain_all_keeps_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    fit = a_fit(np.diag([0.5, 0.5, 0.5]), [5.0, 5.0, 5.0])
    monkeypatch.setattr(suspects, "_explaining", lambda _: [1, 2])
    assert _as_likely(fit, Suspects(named=(0,))).named == (0,)
    assert _as_likely(fit, Suspects(named=(0, 1))).named == (0, 1)


def test_of_a_group_the_least_slip_comes_first() -> None:
    """To a tenth of a millimetre; what is as large stays in the order in which it was read."""
    assert _least_first([3, 0, 1, 2], np.array([2.02, 1.98, 0.3, 5.0])) == (2, 0, 1, 3)
    assert _least_first([0, 1], np.array([2.04, 1.96])) == (0, 1)
    assert _least_first([0, 1], np.array([2.06, 1.94])) == (1, 0)


@pytest.mark.parametrize(("squares", "dof", "wider"), [(0.0, 3, 1.0), (12.0, 4, math.sqrt(2)), (5.0, 5, 1.0)])
def test_within_chance_what_is_said_counts_as_four_readings(squares: float, dof: int, wider: float) -> None:
    """(4 + the sum of squares) over (4 + the redundant readings), never under 1 (derived)."""
    assert _wider(squares, dof, 1.0) == pytest.approx(wider)


def swapped(monkeypatch: pytest.MonkeyPatch, left: Array, w: list[float]) -> list[tuple[int, int]]:
    monkeypatch.setattr(suspects, "squares_if_exchanged", lambda _: left)
    monkeypatch.setattr(suspects, "_form", lambda row: row)
    fit = a_fit(0.5 * np.eye(len(w)), [one * 0.5**0.5 for one in w])
    fit.net.rows = [0] * (len(w) - 1) + [1]
    fit.squares = 40.0
    return exchanges(fit)


def test_an_exchange_leaves_a_fourth_and_is_between_readings_of_one_kind(monkeypatch: pytest.MonkeyPatch) -> None:
    """A fourth of 40 is 10; the last reading is of another kind; the worse one is named first."""
    left = np.full((4, 4), 40.0)
    left[0, 1], left[1, 2], left[0, 3], left[0, 2] = 9.9, 5.0, 1.0, 10.1
    assert swapped(monkeypatch, left, [2.0, 3.0, 3.0, 9.0]) == [(1, 2), (1, 0)]


def test_four_exchanges_are_tried_the_best_first(monkeypatch: pytest.MonkeyPatch) -> None:
    left = np.full((5, 5), 40.0)
    left[0, 1], left[0, 2], left[0, 3], left[1, 2], left[1, 3] = 5.0, 4.0, 3.0, 2.0, 1.0
    assert swapped(monkeypatch, left, [9.0, 8.0, 7.0, 6.0, 1.0]) == [(1, 3), (1, 2), (0, 3), (0, 2)]


def test_one_slip_that_explains_all_is_not_taken_for_an_exchange(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nor are exchanges asked for where fewer than two readings are out."""
    two = Suspects(named=(0,), group=(1,))
    monkeypatch.setattr(suspects, "snoop", lambda _: two)
    monkeypatch.setattr(suspects, "_explaining", lambda _: [0])
    monkeypatch.setattr(suspects, "find_swaps", lambda _: [(0, 1)])
    fit = a_fit(np.eye(2), [0.0, 0.0])
    assert find_suspects(fit) is two
    monkeypatch.setattr(suspects, "_explaining", lambda _: [])
    assert find_suspects(fit).swap == (0, 1)
    one = Suspects(named=(0,))
    monkeypatch.setattr(suspects, "snoop", lambda _: one)
    assert find_suspects(fit) is one
