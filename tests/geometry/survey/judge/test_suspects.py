"""From where on a residual is not believed, against scipy's distributions and by hand."""

import math
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.stats import chi2, norm, t

from geometry.job import Job, Reading
from geometry.survey.adjust.adjustment import come_to_rest, describe
from geometry.survey.adjust.datum import Fixed
from geometry.survey.adjust.network import network_of
from geometry.survey.judge import suspects
from geometry.survey.judge.suspects import (
    CLIPPED,
    Suspects,
    _most,
    agrees,
    beyond_belief,
    chi_square,
    exchanged,
    find_suspects,
    squares_if_exchanged,
)
from geometry.survey.rows.row import BELIEVABLE, Row
from geometry.survey.rows.rows_of_readings import rows_of
from tests.in_one import in_one


@in_one("count", [1, 3, 12, 40, 200])
@in_one("dof", [8, 9, 12, 20, 60, 400])
def test_beyond_belief_is_students_t_shared_out(count: int, dof: int) -> None:
    """3 % of jobs, either way, shared out among all (docs/numbers.md); the series is good to its fourth term"""
    wanted = max(float(t.isf(0.03 / 2 / count, dof)), float(norm.isf(0.0005)))
    assert beyond_belief(count, dof) == pytest.approx(wanted, rel=0.012 if count > 12 and dof < 10 else 0.004)


@in_one("count", [1, 12, 200])
@in_one("dof", [1, 2, 5, 40])
def test_the_series_has_the_printed_terms(count: int, dof: int) -> None:
    """M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 1964, 26.7.5, to its third term."""
    x = float(norm.isf(0.03 / 2 / count))
    terms = (
        x,
        (x**3 + x) / (4 * dof),
        (5 * x**5 + 16 * x**3 + 3 * x) / (96 * dof**2),
        (3 * x**7 + 19 * x**5 + 17 * x**3 - 15 * x) / (384 * dof**3),
    )
    assert beyond_belief(count, dof) == pytest.approx(max(sum(terms), float(norm.isf(0.0005))), rel=1e-9)


@pytest.mark.parametrize("dof", [1, 2, 3, 5, 10, 30, 100])
def test_the_chance_limit_of_all_together(dof: int) -> None:
    """so far out Wilson and Hilferty's is 3 % too large at one degree of freedom, and better the more there are"""
    assert chi_square(dof) == pytest.approx(float(chi2.isf(0.001, dof)), rel=0.035 if dof < 4 else 0.015)


def most(*w: float, more: float = 0.0, dof: int = 2) -> float:
    """For residuals of so many standard deviations; `more`: what others, tied to them, add to the squares."""
    return _most(np.array(w), sum(one**2 for one in w) + more, dof)


def test_how_far_the_largest_may_reach_goes_by_the_others() -> None:
    """derived: the mean of eight readings 1.8 times as uncertain as said and of the others' squares, known from as many
    as there are but one (docs/numbers.md)
    """
    assert most(5.0) == BELIEVABLE
    # nothing but the largest: 8 × 1.8 over 8 + 1
    assert most(5.0, 0.0, 0.0) == pytest.approx(beyond_belief(3, 9) * math.sqrt(8 * 1.8 / 9))
    # others add what they have: 2 × 0.9² + 4 to it
    assert most(5.0, 0.9, 0.9, more=4.0) == pytest.approx(beyond_belief(3, 9) * math.sqrt((8 * 1.8 + 1.62 + 4) / 9))
    # so many good ones that nothing is left of the doubt beforehand: never finer than said
    assert most(5.0, 0.1, 0.1, dof=40) == pytest.approx(beyond_belief(3, 47))
    assert most(5.0, 0.0, dof=0) == pytest.approx(beyond_belief(2, 8) * math.sqrt(8 * 1.8 / 8))


def test_one_more_that_stands_out_counts_for_little() -> None:
    """derived: the second largest counts for three standard deviations at most, or for as many of the middle one's"""
    small = (0.1, 0.1, 0.1)
    clipped = beyond_belief(5, 9) * math.sqrt((8 * 1.8 + CLIPPED**2 + 3 * 0.1**2) / 9)
    assert most(7.0, 6.0, *small) == pytest.approx(clipped)
    whole = beyond_belief(5, 9) * math.sqrt((8 * 1.8 + 2.9**2 + 3 * 0.1**2) / 9)
    assert most(7.0, 2.9, *small) == pytest.approx(whole)
    # the middle one's 1 is 0.6745 of a standard deviation (half of a normal distribution lies within that)
    deviation = 1.0 / float(norm.isf(0.25))
    coarse = (8 * 1.8 + (3 * deviation) ** 2 + 3 * 1.0**2) / 9
    assert most(9.0, 8.0, 1.0, 1.0, 1.0) == pytest.approx(beyond_belief(5, 9) * math.sqrt(coarse))


@pytest.mark.parametrize(
    ("swaps", "group", "error", "swap"),
    [
        ([(1, 3)], (), 0.0, (1, 3)),
        ([(1, 3), (3, 0)], (1, 3, 0), 3.0, ()),
        ([(3, 0), (2, 0), (1, 3)], (3, 0, 2, 1), 0.5, ()),
        ([], (), 0.0, ()),
    ],
)
def test_an_exchange_that_explains_all_or_one_of_several(
    monkeypatch: pytest.MonkeyPatch,
    swaps: list[tuple[int, int]],
    group: tuple[int, ...],
    error: float,
    swap: tuple[int, ...],
) -> None:
    """derived: of values 10, 12, 10.5 and 15 those of the exchanges lie 3, 5 and 0.5 mm apart;
    each reading stands in the group once, as it is met
    """
    two = Suspects(named=(1, 3), errors=(2.0, 3.0), coarse=1.5)
    monkeypatch.setattr(suspects, "snoop", lambda _: two)
    monkeypatch.setattr(suspects, "_explaining", lambda _: [])
    monkeypatch.setattr(suspects, "find_swaps", lambda _: swaps)
    values = SimpleNamespace(net=SimpleNamespace(value=np.array([10.0, 12.0, 10.5, 15.0])))
    found = find_suspects(values)  # type: ignore[arg-type]  # the values are all that is asked for
    assert (found.group, found.swap, found.coarse) == (group, swap, 1.5)
    assert found.group_error == pytest.approx(error)


def test_what_an_exchange_leaves_is_what_a_fit_of_the_exchanged_values_leaves() -> None:
    """Heights and frets make straight equations, in which the formula is exact."""
    values = {1: 36.4, 3: 103.5, 5: 163.1, 7: 216.9, 9: 264.2, 12: 325.2}
    readings = tuple(
        Reading(
            id=f"f{k}{on}", kind="fret", fret=k, on=on, value=v + (0.7 if on == "left" else 0.0), sigma=0.1 + 0.01 * k
        )
        for on in ("left", "right")
        for k, v in values.items()
    )
    net = network_of(rows_of(Job(readings=readings)))
    still = np.arange(0)
    done = describe(net, come_to_rest(net, np.zeros(net.p), still).x, Fixed({}))
    left = squares_if_exchanged(done)
    for i, j in ((0, 1), (0, 5), (2, 9), (3, 4), (7, 11)):
        again = exchanged(net, i, j)
        there = describe(again, come_to_rest(again, done.x, still).x, Fixed({}))
        assert left[i, j] == pytest.approx(there.squares, rel=1e-6)
    assert left[4, 4] == pytest.approx(done.squares)


@pytest.mark.parametrize(("off", "believed"), [(0.0, True), (1.0, True), (4.0, False)])
def test_two_points_go_where_their_distances_put_them(off: float, believed: bool) -> None:
    """derived: two readings `off` apart leave half of it each, checked by a half: √½ of it in standard deviations"""
    rows = [Row(f"r{n}", "distance", ("a", "b"), 100.0 + off * n, 0.5) for n in (0, 1)]
    assert agrees(network_of(rows), np.array([0.0, 0.0, 95.0, 0.0])) == believed
