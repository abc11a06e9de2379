"""What misfits say, on four distances whose geometry is plain: two along the neck, two across it."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.stats import chi2, multivariate_normal, norm

from geometry.frame import Array
from geometry.proof.fitting import Fit, fit
from geometry.proof.places import Spans

OWN = 0.2
"""How finely each distance is read, one standard deviation, mm (made up)."""
LENGTHS = np.array((400.0, 400.0, 60.0, 60.0))
MOVES = np.array(((1.0, 0.0, 70.0), (1.0, 0.0, -70.0), (0.0, 1.0, 30.0), (0.0, -1.0, 30.0)))
SPANS = Spans(
    pairs=(("a", "b"),) * 4,
    length=LENGTHS,
    slopes=np.zeros((0, 4)),
    extra=np.zeros(4),
    moves=MOVES,
    scale=LENGTHS,
    swapped=LENGTHS + np.array((6.0, -6.0, 3.0, -3.0)),
)
COV = OWN**2 * np.eye(4)
LAID: Array = COV + (MOVES * np.square((0.15, 0.15, math.radians(0.05)))) @ MOVES.T
"""A sheet is laid to within 0.15 mm and 0.05 degrees (common practice, no source: docs/numbers.md)."""


def found(*misfit: float) -> Fit:
    off = np.array(misfit)
    return fit(SPANS, off, off - (SPANS.swapped - LENGTHS), COV)


def test_each_distance_has_its_band() -> None:
    """derived: of four, each may go beyond its band in half of 4 % shared out, either way"""
    band = norm.ppf(1 - 0.02 / 4 / 2) * np.sqrt(np.diag(LAID))
    assert found(0, 0, 0, 0).band == pytest.approx(band)
    # alone at its band the first is no surprise to all four together
    assert chi2.sf(band[0] ** 2 * np.linalg.inv(LAID)[0, 0], 4) > 0.02
    assert found(band[0] * 0.999, 0, 0, 0).cause == "good"
    assert found(band[0] * 1.001, 0, 0, 0).cause != "good"
    assert found(-band[0] * 1.001, 0, 0, 0).cause != "good"


def test_all_together_have_theirs() -> None:
    """derived: each within its own band, the four are not good where chance leaves so much in 2 of 100 at most"""
    way = np.array((1.0, -1.0, 1.0, 1.0))
    least = math.sqrt(chi2.isf(0.02, 4) / float(way @ np.linalg.solve(LAID, way)))
    assert (least * 1.001 < found(0, 0, 0, 0).band).all()
    assert found(*(0.999 * least * way)).cause == "good"
    assert found(*(1.001 * least * way)).cause != "good"


def likelihoods(misfit: Array) -> dict[tuple[str, int | None], tuple[float, float]]:
    """Of each fault with its usual size (docs/numbers.md): how likely the misfits are, and how rarely chance leaves as
    much beside it; of misreadings each counts for a quarter.
    """
    turn = math.radians(1.5)
    alone = [10.0**2 * np.outer(one, one) for one in np.eye(4)]
    wider: dict[tuple[str, int | None], tuple[Array, Array, float]] = {
        ("slipped", None): (misfit, (MOVES * np.square((3.0, 3.0, turn))) @ MOVES.T, 1.0),
        ("scale", None): (misfit, 0.01**2 * np.outer(LENGTHS, LENGTHS), 1.0),
        ("swapped", None): (misfit - (SPANS.swapped - LENGTHS), np.zeros((4, 4)), 1.0),
    }
    wider |= {("reading", row): (misfit, alone[row], 0.25) for row in range(4)}
    return {
        fault: (
            part * float(multivariate_normal.pdf(off, cov=LAID + more)),
            float(chi2.sf(off @ np.linalg.solve(LAID + more, off), 4)),
        )
        for fault, (off, more, part) in wider.items()
    }


CASES: dict[str, tuple[float, float, float, float]] = {
    "along": (3.0, 3.0, 0.0, 0.0),
    "turned": (2.0, -2.0, 0.86, 0.86),
    "larger": (4.0, 4.0, 0.6, 0.6),
    "smaller": (-6.0, -6.0, -0.9, -0.9),
    "over": (6.0, -6.0, 3.0, -3.0),
    "one": (0.0, 9.0, 0.0, 0.0),
    "another": (0.0, 0.0, 0.0, -2.0),
    "nothing explains it": (9.0, -20.0, 14.0, 30.0),
    "slightly": (0.9, 0.8, 0.1, 0.0),
}


@pytest.mark.parametrize("case", CASES)
def test_the_likeliest_fault_is_named_and_the_next_where_it_is_near(case: str) -> None:
    misfit = np.array(CASES[case])
    ranked = sorted(likelihoods(misfit).items(), key=lambda one: -one[1][0])
    (cause, row), (likely, chance) = ranked[0]
    other, (less, _) = next((fault, how) for fault, how in ranked if fault[0] != cause)
    wanted: tuple[Any, ...] = (cause, other[0] if likely < 3 * less else None, row)
    seen = found(*misfit)
    assert (seen.cause, seen.also, seen.row) == (wanted if chance >= 0.001 else ("unclear", None, None))


def test_the_cases_are_of_each_kind() -> None:
    seen = {case: found(*misfit) for case, misfit in CASES.items()}
    assert {one.cause for one in seen.values()} == {"slipped", "scale", "swapped", "reading", "unclear"}
    assert {one.also is None for one in seen.values()} == {True, False}


@pytest.mark.parametrize("by", [0.05, 0.2, 0.5, 0.8, 0.95])
def test_the_second_is_named_within_three_times_as_likely(by: float) -> None:
    """Between a sheet that is larger and one that slipped along and across: where it changes from one to the other."""
    misfit = by * np.array((4.0, 4.0, 0.6, 0.6)) + (1 - by) * np.array((3.0, 3.0, -0.6, 0.6))
    ranked = sorted(likelihoods(misfit).items(), key=lambda one: -one[1][0])
    (cause, _), (likely, _) = ranked[0]
    other, (less, _) = next((fault, how) for fault, how in ranked if fault[0] != cause)
    assert (found(*misfit).cause, found(*misfit).also) == (cause, other[0] if likely < 3 * less else None)


def test_where_the_bridge_is() -> None:
    """derived: least squares by the readings' own weights; what was misread or printed larger is left out"""
    slipped = found(*(MOVES @ (2.0, -1.0, 0.01)))
    assert slipped.cause == "slipped"
    assert slipped.pose == pytest.approx((2.0, -1.0, 0.01), rel=1e-4)
    misread = found(*(MOVES @ (0.3, 0.1, 0.0) + (0.0, 9.0, 0.0, 0.0)))
    assert (misread.cause, misread.row) == ("reading", 1)
    assert misread.pose == pytest.approx((0.3, 0.1, 0.0), abs=0.001)
    over = found(*(SPANS.swapped - LENGTHS + MOVES @ (0.2, 0.0, 0.0)))
    assert over.cause == "swapped"
    assert over.pose == pytest.approx((0.2, 0.0, 0.0), abs=0.001)
    assert slipped.gain @ slipped.misfit == pytest.approx(slipped.pose)
    assert (slipped.size, over.size) == (0.0, 0.0)


def test_how_much_larger_a_sheet_is() -> None:
    """derived: with the bridge held to a tenth of a usual slip, the size takes what is common to all distances"""
    misfit = 0.012 * LENGTHS
    larger = found(*misfit)
    assert larger.cause == "scale"
    moves = np.column_stack((MOVES, LENGTHS))
    held = np.diag(1 / np.square((0.3, 0.3, math.radians(0.15), 0.1)))
    wanted = np.linalg.solve(held + moves.T @ moves / OWN**2, moves.T @ misfit / OWN**2)
    assert (*larger.pose, larger.size) == pytest.approx(wanted)
