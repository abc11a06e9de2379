"""Points round something: their order, and sides that cross."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.rings import Sides, numbered, sides_that_cross

SQUARE = (0j, 10 + 0j, 10 + 10j, 10j)


def test_numbers_go_by_size_and_other_names_are_left_out() -> None:
    names = ("body.10", "seam.1", "body.2", "body.middle", "bodywork.1", "body.1")
    assert numbered(names, "body") == ["body.1", "body.2", "body.10"]


@pytest.mark.parametrize(
    ("order", "crossed"),
    [
        ((0, 1, 2, 3), None),
        ((3, 2, 1, 0), None),
        ((0, 2, 1, 3), Sides(0, 2)),  # derived: the sides left first, 0 to 2 and 1 to 3, are the two diagonals
        ((0, 1, 3, 2), Sides(1, 3)),
        ((0, 1), None),
        ((), None),
    ],
)
def test_a_square_whose_corners_are_taken_in_another_order(order: tuple[int, ...], crossed: Sides | None) -> None:
    assert sides_that_cross(np.array([SQUARE[i] for i in order], dtype=complex)) == crossed


def test_a_side_that_ends_on_another_touches_it_only() -> None:
    assert sides_that_cross(np.array([0j, 10 + 0j, 5 + 5j, 5 + 0j, 2 + 5j])) is None


@given(st.lists(st.complex_numbers(max_magnitude=100.0), min_size=3, max_size=9))
def test_rings_that_go_round_once_by_a_library_of_shapes_have_no_crossed_sides(ring: list[complex]) -> None:
    if shapely.Polygon([(z.real, z.imag) for z in ring]).is_valid:
        assert sides_that_cross(np.array(ring)) is None


@given(st.permutations(range(7)))
def test_corners_of_a_round_taken_in_any_order_cross_by_a_library_of_shapes_alike(order: list[int]) -> None:
    ring = np.exp(2j * np.pi * np.array(order) / 7)
    good = shapely.Polygon([(z.real, z.imag) for z in ring.tolist()]).is_valid
    assert (sides_that_cross(ring) is None) == good
