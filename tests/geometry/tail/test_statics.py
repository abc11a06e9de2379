"""The statics of strings that run to a tail, against vectors in space and against halving."""

import math

import numpy as np
import pytest

from geometry.tail.statics import balanced, down, drops, push, sideways

PULL = np.array([60.0, 52.0, 46.0, 58.0, 61.0])
START = np.array([[12.0, 6.0, 0.0, -6.0, -12.0]])
SADDLE = np.array([[21.0, 10.5, 0.3, -10.5, -21.0]])
OFFSETS = np.array([[18.0, 9.0, 0.0, -9.0, -18.0]])
ALONG, BEHIND = np.full((1, 5), 640.0), np.full((1, 5), 80.0)
UNDER = 9.0


def vectors(middle: float, under: float) -> np.ndarray:
    """What the strings push the saddle with, x, y and z: the sum of both unit vectors at the saddle times the pull.

    The string before the saddle lies level; behind it it runs on at the same level but for `under`.
    """
    before = np.column_stack((-ALONG[0], START[0] - SADDLE[0], np.zeros(5)))
    behind = np.column_stack((BEHIND[0], middle + OFFSETS[0] - SADDLE[0], np.full(5, -under)))
    unit = [ways / np.linalg.norm(ways, axis=1)[:, None] for ways in (before, behind)]
    return np.asarray((PULL[:, None] * (unit[0] + unit[1])).sum(axis=0))


def pushed(middle: float, under: float) -> float:
    ways = sideways(START, SADDLE, np.array([[middle]]) + OFFSETS, BEHIND, ALONG)
    return float(push(PULL, *ways, drops(under, BEHIND))[0])


@pytest.mark.parametrize("middle", [-6.0, 0.0, 0.2, 5.0])
def test_the_push_is_that_of_vectors_in_space(middle: float) -> None:
    """The drop is counted along the neck, the string turned sideways: they part by a part of both angles' squares."""
    assert pushed(middle, 0.0) == pytest.approx(vectors(middle, 0.0)[1], abs=1e-9)
    assert pushed(middle, UNDER) == pytest.approx(vectors(middle, UNDER)[1], abs=0.02)


def test_what_presses_down_is_too() -> None:
    assert down(PULL, drops(UNDER, BEHIND[0])) == pytest.approx(-vectors(0.0, UNDER)[2], rel=0.01)


def test_a_string_over_a_bend_presses_by_both_halves() -> None:
    """derived: pulled on both sides by T, a string bent by d pushes with 2 T sin(d / 2) along the bend's bisector, of
    which T sin d stands square to its first part.
    """
    bend = math.atan2(UNDER, 80.0)
    whole = 2 * 60.0 * math.sin(bend / 2)
    assert down(np.array([60.0]), np.array([bend])) == pytest.approx(whole * math.cos(bend / 2), rel=1e-12)


def test_the_balance_is_the_one_found_by_halving() -> None:
    low, high = -40.0, 40.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if pushed(middle, UNDER) < 0 else (low, middle)
    found = balanced(PULL, START, SADDLE, OFFSETS, BEHIND, ALONG, drops(UNDER, BEHIND), np.zeros(1))
    assert float(found[0]) == pytest.approx((low + high) / 2, abs=1e-6)


def test_even_strings_balance_on_their_middle() -> None:
    """derived: by symmetry"""
    even = np.array([[21.0, 10.5, 0.0, -10.5, -21.0]])
    pull = np.array([60.0, 50.0, 40.0, 50.0, 60.0])
    found = balanced(pull, START, even, OFFSETS, BEHIND, ALONG, drops(UNDER, BEHIND), np.full(1, 3.0))
    assert float(found[0]) == pytest.approx(0.0, abs=1e-9)


def test_one_string_runs_straight_on() -> None:
    """derived: in the plane, a single string pushes nothing sideways where it does not turn"""
    start, saddle, one = np.array([[0.0]]), np.array([[8.0]]), np.array([[80.0]])
    args = (np.array([[0.0]]), one, np.array([[640.0]]), np.zeros((1, 1)), np.zeros(1))
    assert float(balanced(np.array([60.0]), start, saddle, *args)[0]) == pytest.approx(9.0, abs=1e-9)


def test_a_tail_to_the_left_pushes_to_the_left() -> None:
    assert pushed(5.0, UNDER) > 0 > pushed(-5.0, UNDER)
