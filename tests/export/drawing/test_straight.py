"""Straight lines on a drawing: directions, crossings, and lines carried on."""

import pytest

from export.drawing.marks import Line
from export.drawing.straight import carried_on, cross, crossing, direction


def test_a_direction_has_length_one_and_one_place_has_none() -> None:
    assert direction((1.0, 1.0), (4.0, 5.0)) == (0.6, 0.8)  # derived: 3, 4, 5
    assert direction((2.0, 2.0), (2.0, 2.0)) == (0.0, 0.0)


def test_the_vector_product_is_positive_to_the_left() -> None:
    assert cross((1.0, 0.0), (0.0, 2.0)) == 2.0
    assert cross((1.0, 0.0), (0.0, -2.0)) == -2.0


def test_lines_cross_where_both_run() -> None:
    # derived: y = x and y = 4 meet at x = 4
    found = crossing((0.0, 0.0), direction((0.0, 0.0), (1.0, 1.0)), (9.0, 4.0), (1.0, 0.0))
    assert found == pytest.approx((4.0, 4.0))


def test_lines_that_hardly_open_cross_nowhere() -> None:
    assert crossing((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 0.0)) is None
    nearly = direction((0.0, 0.0), (1.0, 1e-7))
    assert crossing((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), nearly) is not None
    assert crossing((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), nearly, parallel=1e-6) is None


def test_a_line_is_carried_on_at_both_ends() -> None:
    assert carried_on((0.0, 0.0), (3.0, 4.0), 5.0) == Line((-3.0, -4.0), (6.0, 8.0))  # derived: 3, 4, 5
