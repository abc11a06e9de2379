"""Where points lie until they are measured: as on any instrument, and alike on both sides of the middle."""

import itertools

import pytest

from geometry.advice.measuring_lists import Name, measuring_list
from geometry.advice.usual_places import ABOUT, about
from geometry.job.job import Hand

SCALE = 640.0
FOURS = ("old", "mark", "hole")
"""What has four corners, or holes: front left, front right, back right, back left."""


@pytest.mark.parametrize("name", FOURS)
def test_four_corners_are_a_rectangle_across_the_middle(name: str) -> None:
    (a, b, c, d) = (about(f"{name}.{n}", "right", SCALE) for n in (1, 2, 3, 4))
    assert (b, c) == ((a[0], -a[1]), (d[0], -d[1]))
    assert a[1] == d[1] > 0
    assert a[0] < d[0]


@pytest.mark.parametrize("family", ["nut", "fret12", "end", "foot", "tail"])
def test_a_pair_lies_alike_on_both_sides(family: str) -> None:
    (x, y), right = (about(f"{family}.{side}", "right", SCALE) for side in ("left", "right"))
    assert right == (x, -y)
    assert y > 0


def test_the_body_reaches_as_far_to_either_side() -> None:
    (x, y), right = (about(f"body.{n}", "right", SCALE) for n in (1, 2))
    assert right == (x, -y)


@pytest.mark.parametrize(("hand", "way"), [("right", 1), ("left", -1)])
def test_the_first_string_lies_at_the_treble(hand: Hand, way: int) -> None:
    """On the left of a right-handed instrument; the last at the other side."""
    first, last = about("pin.1", hand, SCALE), about("pin.6", hand, SCALE)
    assert first[1] * way > 0
    assert last == (first[0], -first[1])


def test_they_follow_each_other_along_the_neck() -> None:
    """derived: fret 12 is half of the scale on, fret 19 two thirds, and the bridge at its end."""
    x = {name: at[0] for name, at in ABOUT.items()}
    assert (x["nut"], x["fret12"]) == (0.0, 0.5)
    assert x["end"] == pytest.approx(1 - 2 ** (-19 / 12), abs=0.01)
    assert (x["old.1"] + x["old.4"]) / 2 == pytest.approx(1.0, abs=0.003)
    assert (x["mark.1"] + x["mark.4"]) / 2 == pytest.approx(1.0, abs=0.003)
    order = ("nut", "fret12", "end", "seam.1", "hole.1", "old.1", "mark.1", "old.4", "tail", "seam.2", "body.1")
    assert all(x[a] < x[b] for a, b in itertools.pairwise(order))
    assert x["old.1"] < x["pin"] < x["old.4"]
    assert about("seam.1", "right", SCALE) == (576.0, 0.0)
    assert x["end"] + 0.2 < x["seam.1"] < x["old.1"] - 0.05  # behind a sound hole, before the bridge
    assert about("seam.2", "right", SCALE)[1] == 0.0
    assert about("foot.left", "right", SCALE)[0] == about("mark.1", "right", SCALE)[0]


def test_the_board_grows_wider_and_its_strings_lie_on_it() -> None:
    y = {name: at[1] for name, at in ABOUT.items()}
    # derived: edges that are straight lie at fret 12 half of the scale on
    assert y["fret12"] == pytest.approx(y["nut"] + (y["end"] - y["nut"]) * 0.5 / 0.67, abs=0.5)
    assert y["nut"] < y["pin"] < y["end"] < y["foot"] < y["old.1"]


@pytest.mark.parametrize("name", ["whole top with old work", "neck and bridge"])
def test_what_the_lists_ask_for_has_its_place(name: Name) -> None:
    job = measuring_list(name, "right", 6)
    assert all(about(point, "right", SCALE)[0] >= 0 for point in job.points if not point.startswith(("head", "post")))
