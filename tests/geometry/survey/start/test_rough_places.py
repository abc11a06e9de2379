"""Where the search for places begins: the first two points lie on one line from 0, as far apart as was read."""

import pytest

from geometry.survey.rows.row import Row
from geometry.survey.start.rough_places import provisional_places
from geometry.survey.start.search_input import search_input


def begun(*distances: tuple[str, str, float], attempt: int = 0) -> tuple[str, str, float]:
    """The two points that the search began with, and how far apart it put them."""
    rows = [Row(f"r{n}", "distance", (a, b), value, 0.3) for n, (a, b, value) in enumerate(distances)]
    names = list(dict.fromkeys(name for a, b, _ in distances for name in (a, b)))
    at = provisional_places(search_input(rows, names, [], {}, {}), attempt=attempt).at
    first, second = list(at)[:2]
    assert at[first] == 0
    return first, second, abs(at[second])


@pytest.mark.parametrize(("attempt", "first"), [(0, "bc"), (1, "ac"), (2, "ab"), (3, "bc")])
def test_of_distances_whose_ends_have_as_much_in_common_the_longest_begins(attempt: int, first: str) -> None:
    long = {"ab": 300.0, "bc": 500.0, "ac": 400.0}
    sides = [(ends[0], ends[1], value) for ends, value in long.items()]
    assert begun(*sides, attempt=attempt) == (first[0], first[1], long[first])


def test_the_distance_whose_ends_have_most_in_common_begins() -> None:
    # derived: a and b are both tied to c and to d; of any other two ends one alone is tied to what both are
    sides = [("a", "c", 400.0), ("b", "c", 500.0), ("a", "d", 400.0), ("b", "d", 500.0)]
    assert begun(*sides, ("a", "b", 300.0)) == ("a", "b", 300.0)


def test_ends_with_many_ties_but_none_in_common_do_not_begin() -> None:
    # derived: m and n are tied to two points each, but to none alike
    tails = [("m", "p", 200.0), ("m", "q", 200.0), ("n", "s", 200.0), ("n", "t", 200.0)]
    assert begun(*tails, ("m", "n", 900.0), ("a", "b", 300.0), ("b", "c", 300.5), ("a", "c", 300.0))[:2] == ("b", "c")
