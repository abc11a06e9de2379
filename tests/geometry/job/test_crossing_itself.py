"""Which closed outlines cross themselves: each tried from every corner, both ways round, and with its axes changed."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from geometry.job.crossing_itself import Place, crosses_itself
from tests.in_one import in_one

COMB = ((0, 0), (30, 0), (30, 10), (20, 10), (20, 5), (10, 5), (10, 10), (0, 10))
PLAIN: dict[str, tuple[Place, ...]] = {
    "a square": ((0, 0), (10, 0), (10, 10), (0, 10)),
    "one so small that products of its sides are nearly nothing": ((0, 0), (0.1, 0), (0.1, 0.1), (0, 0.1)),
    "a corner within a straight side": ((0, 0), (5, 0), (10, 0), (10, 10), (0, 10)),
    "two teeth that end on one line": COMB,
    "a bay whose end points at the far side": ((0, 0), (20, 0), (20, 20), (10, 20), (10, 1), (9, 1), (9, 20), (0, 20)),
}
CROSSED: dict[str, tuple[Place, ...]] = {
    "a bow": ((0, 0), (10, 10), (10, 0), (0, 10)),
    "a small one": ((0, 0), (0.1, 0.1), (0.1, 0), (0, 0.1)),
    "a corner that touches a side": ((0, 0), (10, 0), (10, 10), (5, 0), (0, 10)),
    "a corner that touches the end of a side": ((0, 0), (10, 0), (20, 10), (10, 0), (0, 10)),
    "a spike": ((0, 0), (10, 0), (5, 0), (5, 10)),
    "a short spike": ((0, 0), (0.5, 0), (0.2, 0), (0.2, 10)),
    "a corner twice": ((0, 0), (0, 0), (10, 0), (10, 10)),
    "two sides on each other": ((0, 0), (10, 0), (10, 10), (8, 10), (8, 0), (2, 0), (2, 10), (0, 10)),
}


@in_one("name", [*PLAIN, *CROSSED])
def test_an_outline(name: str) -> None:
    outline = (PLAIN | CROSSED)[name]
    turned = tuple((y, x) for x, y in outline)
    for at in range(len(outline)):
        for one in (outline, outline[::-1], turned, tuple((-x, -y) for x, y in turned)):
            assert crosses_itself((*one[at:], *one[:at])) == (name in CROSSED)


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), min_size=3, max_size=9))
def test_what_crosses_itself_is_what_its_sides_tell_two_by_two(points: list[tuple[int, int]]) -> None:
    """Each pair of sides by itself, and the area inside: a corner named twice makes a side of no length."""
    found = crosses_itself([(float(x), float(y)) for x, y in points])
    assert found == (len(set(points)) < len(points) or _two_meet(points))
    assert found or Polygon(points).is_valid


def _two_meet(points: list[tuple[int, int]]) -> bool:
    ends = [*zip(points, points[1:] + points[:1], strict=True)]
    for (i, one), (k, other) in combinations(enumerate(ends), 2):
        shared = {*one} & {*other} if k - i in (1, len(ends) - 1) else set[tuple[int, int]]()
        meet = LineString(one).intersection(LineString(other))
        if meet != Point(*shared) if len(shared) == 1 else not meet.is_empty:
            return True
    return False


@pytest.mark.parametrize("last", [1.9, 2.1])
def test_a_line_of_many_sides_one_above_the_other(last: float) -> None:
    """A saw whose last tip stands before or beyond the tip below it (derived: that stands two steps lower)."""
    saw: list[Place] = [(24.0 * (number % 2), 0.1 * number) for number in range(1998)]
    saw[-1] = (24.0, 0.1 * (1997 - last))
    assert crosses_itself([*saw, (30.0, 200.0), (30.0, 0.0)]) == (last > 2.0)
