"""What is loose: both sides of how badly a point may be held, and of what is rounding."""

from itertools import pairwise

import numpy as np
import pytest

from geometry.survey.adjust.looseness import FREE, inverse, is_covariance, loose_points, movable_points, worst_variance
from geometry.survey.adjust.network import network_of
from geometry.survey.rows.row import Row

MANY = 400
NAMES = [f"p{i}" for i in range(MANY)]
NET = network_of([Row(f"r{i}", "distance", (a, b), 10.0, 0.3) for i, (a, b) in enumerate(pairwise(NAMES))])
X = np.array([[10.0 * (i % 20), 10.0 * (i // 20)] for i in range(MANY)]).ravel()
"""Points on a lattice, so many that one of them hardly moves the frame of all."""


@pytest.mark.parametrize(("sd", "loose"), [(9.8, False), (10.2, True)])
@pytest.mark.parametrize("way", [0.0, 0.5, 2.0])
def test_a_point_held_to_no_better_than_ten_millimetres_is_loose(sd: float, loose: bool, way: float) -> None:
    # common practice, no source: 10 mm, in its worst direction; another point that is held badly has all looked at
    cov = np.eye(2 * MANY) * 1e-6
    u = np.array([np.cos(way), np.sin(way)])
    cov[10:12, 10:12] += sd**2 * np.outer(u, u)
    cov[600:602, 600:602] += 5.0**2 * np.eye(2)
    found = loose_points(NET, X, cov, np.zeros((2 * MANY, 0)))
    assert found == ({NET.points[5]} if loose else frozenset())


def test_beside_a_point_that_moves_freely_one_that_is_held_too_weakly_is_still_named() -> None:
    # common practice, no source: 10 mm; two are held to 12 mm, one before and one behind the one that moves
    cov, free = np.eye(2 * MANY) * 1e-6, np.zeros((2 * MANY, 1))
    cov[10:12, 10:12] = cov[600:602, 600:602] = 12.0**2 * np.eye(2)
    free[40, 0] = 1.0
    assert loose_points(NET, X, cov, free) == {NET.points[5], NET.points[20], NET.points[300]}


def test_the_worst_direction_is_the_longer_axis_of_the_ellipse() -> None:
    # derived: axes 5 and 2 turned by 30 degrees
    u = np.array([np.cos(np.pi / 6), np.sin(np.pi / 6)])
    cov = 25.0 * np.outer(u, u) + 4.0 * (np.eye(2) - np.outer(u, u))
    assert worst_variance(cov, np.array([0])).tolist() == pytest.approx([25.0])


@pytest.mark.parametrize(("size", "moves"), [(0.9e-4, False), (1.1e-4, True)])
def test_a_point_that_takes_next_to_no_part_in_a_free_movement_is_still(size: float, moves: bool) -> None:
    free = np.zeros((2 * MANY, 1))
    free[7, 0], free[20, 0] = 1.0, size
    assert movable_points(NET, free) == {NET.points[3], *([NET.points[10]] if moves else [])}


@pytest.mark.parametrize(("variance", "held"), [(0.9 * 0.01 / FREE, True), (1.1 * 0.01 / FREE, False), (-1.0, False)])
def test_an_inverse_is_sure_while_nothing_in_it_is_nearly_free(variance: float, held: bool) -> None:
    assert is_covariance(np.diag([1.0, variance])) == held


def test_what_is_free_is_left_out_of_the_inverse() -> None:
    # derived: (x + y) / √2 is held with a weight of 8, x − y not at all
    matrix = np.array([[4.0, 4.0], [4.0, 4.0]])
    found, free = inverse(matrix)
    assert found == pytest.approx(np.full((2, 2), 1 / 16))
    assert abs(free[:, 0]) == pytest.approx([0.5**0.5] * 2)
    assert free[0, 0] == pytest.approx(-free[1, 0])


def test_what_is_held_is_inverted_as_it_is() -> None:
    found, free = inverse(np.array([[4.0, 1.0], [1.0, 3.0]]))
    assert found == pytest.approx(np.array([[3.0, -1.0], [-1.0, 4.0]]) / 11)
    assert free.shape == (2, 0)
