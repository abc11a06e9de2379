"""Lines and frames in the plane."""

import numpy as np
import pytest

from geometry.frame import best_line, bisector, crossing, into


def test_best_line_through_two_points_is_the_line_through_them() -> None:
    at, way = best_line(np.array([[0 + 0j, 3 + 4j]]), np.array([1 + 0j]))
    assert at[0] == pytest.approx(1.5 + 2j)
    assert way[0] == pytest.approx(0.6 + 0.8j)


def test_best_line_points_the_way_it_is_told() -> None:
    _, way = best_line(np.array([[0 + 0j, 3 + 4j]]), np.array([-1 + 0j]))
    assert way[0] == pytest.approx(-0.6 - 0.8j)


def test_best_line_agrees_with_the_singular_vector_of_a_general_library() -> None:
    # numpy.linalg.svd of the centred points gives the total least squares direction
    points = np.array([0 + 0.3j, 100 - 0.2j, 250 + 4.1j, 400 + 6.2j])
    _, way = best_line(points[None], np.array([1 + 0j]))
    off = points - points.mean()
    _, _, rows = np.linalg.svd(np.stack((off.real, off.imag), axis=1))
    major = complex(*rows[0])
    assert way[0] == pytest.approx(major if major.real > 0 else -major)


def test_bisector_of_parallel_lines_runs_between_them() -> None:
    # derived: y = 22 and y = −22
    at, way = bisector(np.array([0 + 22j]), np.array([1 + 0j]), np.array([5 - 22j]), np.array([1 + 0j]))
    assert at[0].imag == pytest.approx(0)
    assert way[0] == pytest.approx(1)


def test_bisector_of_a_tapered_board_is_its_axis() -> None:
    # derived: edges through (0, ±21) and (400, ±28) are symmetric to y = 0
    ends = np.array([400 + 28j]) - 21j, np.array([400 - 28j]) + 21j
    at, way = bisector(np.array([21j]), ends[0] / abs(ends[0]), np.array([400 - 28j]), ends[1] / abs(ends[1]))
    assert at[0].imag == pytest.approx(0)
    assert way[0] == pytest.approx(1)


def test_crossing_lies_on_both_lines() -> None:
    # derived: y = x meets x = 3 at (3, 3)
    met = crossing(np.array([0j]), np.array([1 + 1j]), np.array([3 + 9j]), np.array([1j]))
    assert met[0] == pytest.approx(3 + 3j)


def test_a_frame_is_entered_by_shift_and_turn() -> None:
    # derived: seen from (1, 1) looking along +y, the point (0, 3) lies 2 ahead and 1 to the left
    seen = into(np.array([[0 + 3j]]), np.array([1 + 1j]), np.array([1j]))
    assert seen[0, 0] == pytest.approx(2 + 1j)
