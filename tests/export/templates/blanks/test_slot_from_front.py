"""A nut's slot as it is seen from the front: its round bottom as deep as it goes in."""

import math

import pytest

from export.drawing.marks import Line, Path
from export.templates.blanks.nut_drawn import _slot_from_front
from export.templates.blanks.solid_views import View
from geometry.layout import NutSlot

VIEW = View(corner=(0.0, 0.0), scale=1.0)


def drawn(width: float | None, bottom: float | None, top: float = 8.0) -> Path | Line:
    slot = NutSlot(string="3", along=(20.0, 0.1), width=width)
    mark = _slot_from_front(VIEW, slot, 20.0, bottom, top)
    assert mark.of == "string:3"
    assert isinstance(mark.shape, Path | Line)
    assert (mark.purpose == "mark") is isinstance(mark.shape, Path)
    return mark.shape


def test_a_deep_slot_has_straight_sides_and_half_a_circle() -> None:
    """derived: 1 mm wide, so that its sides end half a mm over its bottom; half a circle has a bulge of 1"""
    shape = drawn(1.0, 6.0)
    assert isinstance(shape, Path)
    assert shape.vertices == ((19.5, 8.0, 0.0), (19.5, 6.5, 1.0), (20.5, 6.5, 0.0), (20.5, 8.0, 0.0))


@pytest.mark.parametrize("deep", [0.5, 0.3, 0.1, 0.01])
def test_of_a_shallow_slot_only_a_part_of_the_circle_is_there(deep: float) -> None:
    """derived: a chord of a circle of half a mm, so far over its lowest place; the bulge of an arc is its height over
    half its chord
    """
    shape = drawn(1.0, 8.0 - deep)
    assert isinstance(shape, Path)
    (left, y, bulge), (right, other, last) = shape.vertices
    assert (y, other, last) == (8.0, 8.0, 0.0)
    half = math.sqrt(0.5**2 - (0.5 - deep) ** 2)
    assert (left, right) == pytest.approx((20.0 - half, 20.0 + half))
    assert bulge == pytest.approx(deep / half)


@pytest.mark.parametrize(
    ("width", "bottom", "start"), [(None, 6.0, 6.0), (1.0, None, 0.0), (1.0, 8.0, 8.0), (1.0, 9.0, 8.0)]
)
def test_of_what_is_not_known_or_not_there_only_the_middle(
    width: float | None, bottom: float | None, start: float
) -> None:
    shape = drawn(width, bottom)
    assert isinstance(shape, Line)
    assert (shape.a, shape.b) == ((20.0, start), (20.0, 8.0))
