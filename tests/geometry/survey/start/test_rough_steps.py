"""The steps of the search for first places, each by itself: what a point's rough place is, what it costs to lie on
another, which of two crossings is taken, how a sheet is laid, where a point goes that too little is known of.
"""

import cmath
import math

import pytest

from geometry.survey.rows.loci import circle, line
from geometry.survey.rows.row import Row
from geometry.survey.start.rough_places import RATHER_NOT, Choice, _cell, _Search, _unlike, rough_place
from geometry.survey.start.search_input import search_input
from tests.in_one import in_one


def search(
    *rows: Row,
    names: str = "abcdp",
    near: dict[str, complex] | None = None,
    usual: dict[str, complex] | None = None,
    flipped: str = "",
    attempt: int = 0,
    **at: complex,
) -> _Search:
    """A search for points of one letter, of which some have their places."""
    found = _Search(search_input(rows, [*names], [], near or {}, usual or {}), frozenset(flipped), attempt)
    for name, z in at.items():
        found.put(name, z)
    return found


def distance(a: str, b: str, value: float) -> Row:
    return Row(f"{a}{b}", "distance", (a, b), value, 0.3)


def sheet(**places: complex) -> list[Row]:
    """Points as they were read off one sheet."""
    return [
        Row(f"{name}.{lean}", "at", (name,), value, 0.3, lean=lean, extras=(("sheet.x", 1.0),))
        for name, z in places.items()
        for lean, value in ((1 + 0j, z.real), (1j, z.imag))
    ]


@pytest.mark.parametrize("turn", [1, 1j, cmath.exp(0.3j)])
def test_a_rough_place_is_carried_with_the_nut(turn: complex) -> None:
    """derived: from the nut's middle, ahead is square to the nut, left of ahead is where its left corner lies."""
    at = {"nut.left": 100 + 22j * turn, "nut.right": 100 - 20j * turn, "q": 0j}
    assert rough_place({"p": 300 + 5j}, at, "p") == pytest.approx(100 + 1j * turn + (300 + 5j) * turn)
    assert rough_place({}, at, "p") is None


@pytest.mark.parametrize("apart", [0.9, 1.1])
def test_a_nut_whose_corners_lie_on_each_other_tells_no_way(apart: float) -> None:
    at = {"nut.left": 1j * apart, "nut.right": 0j, "q": 500 + 0j}
    assert (rough_place({"p": 300 + 0j}, at, "p") is None) == (apart < 1.0)


def test_a_nut_alone_tells_nothing_yet() -> None:
    """The search puts the first two points on a line from 0, whichever way the nut lies."""
    assert rough_place({"p": 300 + 0j}, {"nut.left": 44j, "nut.right": 0j}, "p") is None


@pytest.mark.parametrize("turn", [1, 1j, cmath.exp(2.5j)])
def test_without_a_nut_it_is_carried_with_the_points_that_have_both(turn: complex) -> None:
    near = {"a": 10 + 10j, "b": 50 + 10j, "c": 30 + 40j, "p": 80 - 5j}
    at = {name: 7 - 3j + turn * z for name, z in near.items() if name != "p"} | {"d": 0j}
    assert rough_place(near, at, "p") == pytest.approx(7 - 3j + turn * near["p"])
    # its own place, and one point alone, tell nothing
    assert rough_place(near, {"a": 0j, "p": 5j, "d": 9j}, "p") is None


@pytest.mark.parametrize("size", [0.9, 1.1])
def test_points_that_lie_on_each_other_tell_no_way(size: float) -> None:
    """derived: two points `near` 2 apart and `at` s apart turn it by 2 × 1 × s / 2 = s mm²."""
    found = rough_place({"a": -1 + 0j, "b": 1 + 0j, "p": 5j}, {"a": -size / 2, "b": size / 2 + 0j}, "p")
    assert (found is None) == (size < 1.0)


@in_one("way", [1, -1, 1j, -1j, cmath.exp(0.8j), cmath.exp(-2.3j)])
@in_one("start", [0j, 0.95 + 0.95j, -3.05 - 7.95j])
def test_what_lies_on_another_point_is_rather_not_taken(start: complex, way: complex) -> None:
    """Within a millimetre, wherever the squares meet in which points are looked up."""
    found = search(a=start, b=500 + 0j)
    assert found._taken(start + 0.97 * way) == RATHER_NOT
    assert found._taken(start + 1.03 * way) == 0.0


def test_a_place_without_end_is_looked_up_somewhere() -> None:
    assert _cell(complex(math.inf, 0)) == (0, 0)
    assert [_cell(z) for z in (0.5 + 0.5j, -0.5 + 1.5j, 2 - 0.1j)] == [(0, 0), (-1, 1), (2, -1)]


@pytest.mark.parametrize(
    ("off", "here", "settled"),
    # a rough place that is less than half as far from one settles it; the nearer one is taken all the same
    [
        (20.0, 10 + 0j, True),
        (36.0, 10 + 0j, True),
        (37.5, 10 + 0j, False),
        (62.0, 90 + 0j, False),
        (80.0, 90 + 0j, True),
    ],
)
def test_of_two_crossings_the_one_nearer_to_its_rough_place(off: float, here: complex, settled: bool) -> None:
    rows = (distance("a", "p", 10.0), distance("b", "p", 10.0))
    near = {"a": 0j, "b": 0 + 100j, "p": off + 0j}
    found = search(*rows, near=near, a=0j, b=100j)
    assert found._choose("p", 90 + 0j, 10 + 0j) == here
    other = 100 + 0j - here
    assert found.open == ([] if settled else [Choice("p", here, other, rows)])


def test_a_flipped_point_is_taken_the_other_way_round() -> None:
    rows = (distance("a", "p", 10.0), distance("c", "p", 10.0))
    found = search(*rows, flipped="p", a=0j, b=100j)
    assert found._choose("p", 10 + 0j, 90 + 0j) == 90 + 0j
    # the other end of the second reading has no place yet, so it left nothing open
    assert found.open == [Choice("p", 90 + 0j, 10 + 0j, rows[:1])]


def test_one_crossing_is_no_choice() -> None:
    found = search(flipped="p", a=0j)
    assert found._choose("p", 10 + 0j) == 10 + 0j
    assert found.open == []


@pytest.mark.parametrize("usual", [{}, {"a": 0j, "b": 100j, "p": 85 + 0j}])
def test_where_a_point_usually_lies_settles_nothing(usual: dict[str, complex]) -> None:
    found = search(usual=usual, a=0j, b=100j)
    assert found._choose("p", 10 + 0j, 90 + 0j) == (90 + 0j if usual else 10 + 0j)
    assert len(found.open) == 1


@pytest.mark.parametrize("turn", [1, 1j, cmath.exp(-0.7j)])
def test_a_sheet_is_laid_on_two_of_its_points(turn: complex) -> None:
    rows = sheet(a=5 + 5j, b=65 + 5j, c=5 + 85j, d=105 + 5j)
    found = search(*rows, a=0j, d=104 * turn)
    # derived: turned as a to d, the farthest two, with its own size
    assert found.at["b"] == pytest.approx(60 * turn)
    assert found.at["c"] == pytest.approx(80j * turn)


@pytest.mark.parametrize(
    ("read", "lies", "laid"), [(0.9, 50, False), (1.1, 50, True), (50, 0.9, False), (50, 1.1, True)]
)
def test_a_sheet_is_not_laid_on_points_on_each_other(read: float, lies: float, laid: bool) -> None:
    found = search(*sheet(a=0j, b=read + 0j, c=40j), a=0j, b=lies + 0j)
    assert ("c" in found.at) == laid


def test_a_figure_without_distances_begins_with_a_sheet_away_from_the_others() -> None:
    found = search(*sheet(a=5 + 5j, b=65 + 5j), c=0j, d=1j)
    assert found._begin()
    # derived: so many times 1500 mm to the side as there are points
    assert (found.at["a"], found.at["b"]) == (5 + 3005j, 65 + 3005j)


def test_a_figure_of_straightedges_begins_with_one_of_them() -> None:
    """derived: the straightedge is taken to be 100 mm longer than the most that was read along it, or to its end."""
    row = Row("r", "laid", ("p", "a", "a", "b"), 250.0, 0.3)
    longer = Row("s", "laid", ("c", "a", "a", "b"), 310.0, 0.3)
    found = search(row, longer, names="abcp")
    assert found._begin()
    assert (found.at, found.soft) == ({"a": 0j, "b": 410 + 0j}, {"a", "b"})


def test_a_figure_begins_where_the_others_are_not() -> None:
    found = search(distance("a", "b", 300.0), c=0j, d=50 + 0j, p=60 + 0j)
    assert found._begin()
    assert (found.at["a"], found.at["b"]) == (4500j, 300 + 4500j)


def test_nothing_is_begun_while_a_point_may_be_placed() -> None:
    assert not search(distance("a", "p", 10.0), distance("b", "c", 10.0), a=0j)._begin()
    assert not search(a=0j)._begin()


@pytest.mark.parametrize("attempt", [0, 1, 3])
def test_a_point_of_which_nothing_is_known_goes_beside_the_others(attempt: int) -> None:
    """derived: 150 mm from their middle, to the tail; each further attempt a golden angle on, 2.39996 rad."""
    found = search(attempt=attempt, names="abp", a=0j, b=100 + 40j)
    found._guess()
    assert found.at["p"] == pytest.approx(50 + 20j + 150 * cmath.exp(2.39996323j * attempt))
    assert found.soft == {"p"}


def test_a_point_on_a_line_goes_where_that_is_nearest() -> None:
    """Square onto the line from where it would go else: 150 mm ahead of the middle, or its rough place."""
    found = search(names="abp", a=0j, b=100 + 40j)
    found.loci["p"] = [line(0j, 1j, 1.0)]
    found._guess()
    assert found.at["p"] == pytest.approx(200 + 0j)
    rough = search(names="abp", near={"a": 0j, "b": 100 + 40j, "p": 30 + 9j}, a=0j, b=100 + 40j)
    rough.loci["p"] = [line(0j, 1j, 1.0)]
    rough._guess()
    assert rough.at["p"] == pytest.approx(30 + 0j)


def test_a_point_on_a_circle_goes_to_its_rough_place_side() -> None:
    near = {"a": 0j, "b": 100 + 0j, "p": 30 + 40j}
    found = search(distance("a", "p", 25.0), names="abp", near=near, a=0j, b=100 + 0j)
    found._guess()
    assert found.at["p"] == pytest.approx(15 + 20j)


def test_a_point_on_a_circle_goes_well_off_the_line_to_the_others() -> None:
    """Square to the way to the middle of the others it is best seen; 16 places round the circle are tried."""
    found = search(distance("a", "p", 200.0), names="abp", a=0j, b=100 + 0j)
    found._guess()
    z = found.at["p"]
    assert abs(z) == pytest.approx(200.0)
    assert abs(z.real) <= 200 * math.sin(math.pi / 16)


@pytest.mark.parametrize(("long", "known"), [(0.9, False), (1.1, True)])
@pytest.mark.parametrize("side", ["left", "right"])
def test_the_tail_lies_the_way_an_edge_of_the_board_tells(side: str, long: float, known: bool) -> None:
    found = search()
    found.at = {f"nut.{side}": 5j, f"end.{side}": 5j - 1j * long}
    assert found._tailward() == pytest.approx(-1j if known else 1)


def test_circles_round_one_point_are_tried_after_others() -> None:
    """With more than five loci; of circles round one point, or of parallel lines, the first stands for all."""
    round_one = [circle(0j, 10.0 + k, 1.0) for k in range(4)]
    beside = [circle(50 + 0j, 45.0, 1.0), line(3j, 1j, 1.0)]
    parallel = [line(4j, 1j, 1.0)]
    assert _unlike([*round_one, *beside[:1]]) == [*round_one, *beside[:1]]
    assert _unlike([*round_one, *beside, *parallel]) == [round_one[0], *beside, *round_one[1:], *parallel]
