"""A reading that would hold a loose point: from where it is seen best along the way it can move.

Derived: a distance holds what moves at less than 60 degrees to it; a board's corner is found so much more easily that a
tenth less of the movement is held from it as willingly.
"""

import cmath
import math

import pytest

from geometry.survey.judge.loose_points import _held_by

FAR = {"a": -100 + 0j, "b": 0 - 200j}


def held(known: dict[str, complex], direction: complex, name: str = "p", *, both_ways: bool = False) -> str:
    """What would hold a point at the origin."""
    return _held_by(name, 0j, direction, known, both_ways, "right")


def seen_at(degrees: float, far: float = 100.0) -> complex:
    """A place from which a point at the origin is seen at so many degrees to +x."""
    return -cmath.rect(far, math.radians(degrees))


@pytest.mark.parametrize("known", [{}, {"a": -100 + 0j}, {"a": -100 + 0j, "b": 0.9 + 0j}])
def test_with_fewer_than_two_points_to_see_it_from_any_two_are_asked_for(known: dict[str, complex]) -> None:
    """One within a millimetre lies on it, and tells no way."""
    assert held(known, 1 + 0j) == "Measure to “p” from two points that are known."


def test_a_point_little_more_than_a_millimetre_off_serves() -> None:
    assert held({"a": -100 + 0j, "b": -1.1j}, 1j) == "Measure from “b” to “p”."


@pytest.mark.parametrize("direction", [1 + 0j, -1 + 0j])
def test_it_is_measured_from_where_it_moves_to_or_from(direction: complex) -> None:
    assert held(FAR, direction) == "Measure from “a” to “p”."
    assert held(FAR, direction * 1j) == "Measure from “b” to “p”."


@pytest.mark.parametrize(
    ("degrees", "says"),
    [
        (52.0, "Measure from “a” to “p”."),
        (59.0, "Measure from “a” to “p”."),
        (61.0, "Lay the straightedge from “a” to “b” and read how far “p” lies off it."),
        (80.0, "Lay the straightedge from “a” to “b” and read how far “p” lies off it."),
    ],
)
def test_what_moves_nearly_square_to_all_is_read_off_a_straightedge(degrees: float, says: str) -> None:
    known = {"a": seen_at(degrees), "b": seen_at(degrees + 0.5 if degrees > 60 else 89.0, 900.0)}
    assert held(known, 1 + 0j) == says


def test_the_straightedge_goes_to_the_farthest() -> None:
    known = {"a": seen_at(80.0), "b": seen_at(85.0, 300.0), "c": seen_at(-85.0, 700.0), "d": seen_at(88.0, 500.0)}
    assert held(known, 1 + 0j).startswith("Lay the straightedge from “a” to “c”")


@pytest.mark.parametrize(("corner", "other", "first"), [(0.85, 0.93, True), (0.83, 0.945, False), (0.93, 0.95, True)])
@pytest.mark.parametrize("name", ["nut.left", "end.right"])
def test_a_corner_of_the_board_comes_before_a_point_that_is_little_better(
    corner: float, other: float, first: bool, name: str
) -> None:
    known = {"seam.1": seen_at(math.degrees(math.acos(other))), name: seen_at(-math.degrees(math.acos(corner)))}
    assert held(known, 1 + 0j).startswith("Measure from seam 1") != first


def test_what_moves_both_ways_is_measured_from_two_that_see_it_crosswise() -> None:
    known = {"a": -100 + 0j, "b": seen_at(20.0), "c": seen_at(80.0)}
    assert held(known, 1 + 0j, both_ways=True) == "Measure to “p” from “a” and from “c”."


def test_a_hole_is_measured_to_both_rims_and_from_no_other_hole() -> None:
    known = {"pin.2": -100 + 0j, "a": seen_at(30.0), "b": seen_at(70.0)}
    text = held(known, 1 + 0j, "pin.1")
    assert text.startswith("Measure from “a” to the near and the far rim of ")
    only_holes = {"pin.2": -100 + 0j, "pin.3": seen_at(70.0)}
    assert "to the near and the far rim of" in held(only_holes, 1 + 0j, "pin.1")
    square = {"a": seen_at(61.0), "b": seen_at(80.0)}
    assert held(square, 1 + 0j, "pin.1").startswith("Lay the straightedge from “a” to “b”")
