"""What lies on which side, said by the person or by the points' names."""

import pytest

from geometry.job import Job, Point, SideHint
from geometry.survey.rows.row import Row
from geometry.survey.rows.which_side import Turn, turns
from tests.in_one import in_one

PLACES = {"a": 0j, "b": 10 + 0j}


@pytest.mark.parametrize(
    ("at", "left", "right", "ahead", "behind"),
    [
        # left of a line to the tail is +y, ahead of its first point is +x; a point on the line is on either side
        (5 + 1j, True, False, True, False),
        (5 - 1j, False, True, True, False),
        (-5 + 0j, True, True, False, True),
        (0 + 3j, True, False, True, True),
        (5 + 0j, True, True, True, False),
    ],
)
def test_a_turn_agrees_with_places(at: complex, left: bool, right: bool, ahead: bool, behind: bool) -> None:
    placed = PLACES | {"p": at}
    assert Turn("a", "b", "p", 1).agrees(placed) == left
    assert Turn("a", "b", "p", -1).agrees(placed) == right
    assert Turn("a", "b", "p", 1, ahead=True).agrees(placed) == ahead
    assert Turn("a", "b", "p", -1, ahead=True).agrees(placed) == behind


def test_a_turn_is_of_the_line_where_it_lies() -> None:
    # derived: from (3, 1) up to (3, 9), left is −x
    placed = {"a": 3 + 1j, "b": 3 + 9j, "p": 2 + 5j, "q": 4 + 5j}
    assert Turn("a", "b", "p", 1).agrees(placed)
    assert not Turn("a", "b", "q", 1).agrees(placed)
    assert Turn("a", "b", "q", 1, ahead=True).agrees(placed)


ALL = [f"{station}.{side}" for station in ("nut", "fret12", "end") for side in ("left", "right")]


@in_one(
    ("name", "signs"),
    [
        # from the left to the right corner of a station the tail lies to the left of the line: +1. What is surely
        # beyond the board's end is beyond fret 12 and the nut too; what may lie anywhere is beyond the nut only
        ("seam.1", {"nut": 1, "fret12": 1, "end": 1}),
        ("old.2", {"nut": 1, "fret12": 1, "end": 1}),
        ("pin.3", {"nut": 1, "fret12": 1, "end": 1}),
        ("metal.1", {"nut": 1, "fret12": 1, "end": 1}),
        ("trial.1", {"nut": 1, "fret12": 1, "end": 1}),
        ("edge.1", {"nut": 1}),
        ("my own", {"nut": 1}),
        ("post.1", {}),
        ("head.1", {}),
        ("headslot.1.1", {}),
        ("screw.1", {}),
        ("thread.1", {}),
        ("fret12.left", {"nut": 1, "end": -1}),
        ("nut.left", {"fret12": -1, "end": -1}),
        ("end.right", {"nut": 1, "fret12": 1}),
    ],
)
def test_what_a_name_says_of_its_place_along_the_neck(name: str, signs: dict[str, int]) -> None:
    found = [turn for turn in turns(Job(), dict.fromkeys([*ALL, name])) if turn.p == name]
    assert {turn.a.split(".")[0]: turn.sign for turn in found} == signs
    assert all((turn.a, turn.b) == (f"{turn.a.split('.')[0]}.left", turn.a.replace("left", "right")) for turn in found)
    assert not any(turn.said or turn.ahead for turn in found)


def test_stations_lie_in_their_order() -> None:
    placed = {
        name: complex(x, y)
        for x, station in ((0, "nut"), (320, "fret12"), (440, "end"))
        for y, name in ((22, f"{station}.left"), (-22, f"{station}.right"))
    }
    assert all(turn.agrees(placed) for turn in turns(Job(), placed))
    swapped = placed | {"end.left": -440 + 22j}
    assert not all(turn.agrees(swapped) for turn in turns(Job(), swapped))


def test_what_the_person_said_comes_first_and_needs_all_points() -> None:
    said = SideHint(of=("nut.left", "end.left"), is_="right")
    job = Job(points={**dict.fromkeys(ALL, Point()), "seam.1": Point(side=(said,))})
    first, *rest = turns(job, [*ALL, "seam.1"])
    assert first == Turn("nut.left", "end.left", "seam.1", -1, said=True)
    assert not any(turn.said for turn in rest)
    assert not any(turn.said for turn in turns(job, ["nut.left", "seam.1"]))


@pytest.mark.parametrize(
    ("row", "found"),
    [
        (Row("r", "laid", ("p", "a", "a", "b"), 0.0, 0.1, 1j), True),
        (Row("r", "laid", ("p", "a", "a", "b"), 0.1, 0.1, 1j), False),  # off the straightedge
        (Row("r", "laid", ("p", "a", "a", "b"), 0.0, 0.1, 1), False),  # along it
        (Row("r", "laid", ("p", "q", "a", "b"), 0.0, 0.1, 1j), False),  # across it
        (Row("r", "distance", ("p", "a", "a", "b"), 0.0, 0.1, 1j), False),
    ],
)
def test_a_point_in_line_lies_ahead_of_where_the_straightedge_begins(row: Row, found: bool) -> None:
    wanted = (Turn("a", "b", "p", 1, ahead=True),) if found else ()
    assert turns(Job(), ("a", "b", "p", "q"), (row,)) == wanted
