"""The blocks of a floating bridge and of a tail: what they refuse, in one sentence."""

from typing import Any

import pytest

from geometry.job import Bridge, Floating, Job, NotAJob, Point, Saddle, Separate, Tail, Through
from tests.in_one import in_one


@in_one(
    ("given", "says"),
    [
        ({"length": 5}, "The floating bridge’s length"),
        ({"width": 80}, "The floating bridge’s width"),
        ({"feet": (16,)}, "has 1 feet given; give the lengths of two or three"),
        ({"feet": (10, 10, 10, 10)}, "has 4 feet given"),
        ({"length": 60, "feet": (30, 30)}, "leaves nothing between them"),
        ({"length": 60, "feet": (28, 10, 10)}, "leaves nothing between them"),
        ({"feet": (0.2, 10)}, "Foot 1 of the floating bridge"),
        ({"front_to_crown": -1}, "The feet’s front edge to the crown"),
        ({"height": (1, 10)}, "The floating bridge’s height"),
        ({"marks": (("mark.1", "mark.2"),)}, "Foot mark 1 needs 3 points"),
        ({"marks": (("mark.1", "mark.1", "mark.1"),)}, "Foot mark 1 needs 3 points that differ, and names 1"),
        ({"width": 10, "front_to_crown": 10.1}, "The crown lies 10.1 mm behind .* 10 mm wide"),
    ],
)
def test_a_floating_bridge_that_cannot_be(given: dict[str, Any], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        Floating(**given)


@in_one(
    ("given", "says"),
    [
        ({"behind": -40}, "so in front of the bridge; a tailpiece stands behind it"),
        ({"behind": 2}, "The tail behind the saddle"),
        ({"spread": 1}, "The outer strings’ spread at the tail"),
        ({"under": 100}, "The tail under the strings carried on"),
        ({"screws": ((14.0, 0.0), (300.0, 0.0))}, "Screw hole 2 of the tailpiece, behind the strings’ end, is 300 mm"),
        ({"screws": ((14.0, -300.0),)}, "Screw hole 1 of the tailpiece, beside its middle, is -300 mm"),
        ({"behind": 0}, "The tail behind the saddle is 0 mm, but must lie between 5 and 500 mm"),
        ({"screws": tuple((1.0, 1.0) for _ in range(13))}, "13 screw holes"),
        ({"screw": 20}, "The diameter of the tailpiece’s screw holes is 20 mm"),
        # derived: 3, 4, 5; holes of 5.1 mm would share 0.1 mm
        ({"screws": ((14.0, 0.0), (17.0, 4.0)), "screw": 5.1}, "Screw holes 1 and 2 of the tailpiece lie 5 mm apart"),
        ({"screws": ((14.0, 0.0), (20.0, 5.0), (14.0, 0.0))}, "Screw holes 1 and 3 of the tailpiece lie 0 mm apart"),
        ({"pin_hole": 50}, "The strap pin’s hole"),
    ],
)
def test_a_tail_that_cannot_be(given: dict[str, Any], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        Tail(**given)


def test_a_job_has_one_bridge() -> None:
    with pytest.raises(NotAJob, match="A job has one bridge"):
        Job(bridge=Bridge(), floating=Floating())


def test_a_crown_is_no_longer_than_its_bridge() -> None:
    with pytest.raises(NotAJob, match="is 120 mm long, on a floating bridge of 76 mm"):
        Job(floating=Floating(length=76), saddle=Saddle(slot_length=120))
    assert Job(floating=Floating(length=76), saddle=Saddle(slot_length=76)).floating is not None


def test_strings_go_through_the_body_or_to_a_tail() -> None:
    with pytest.raises(NotAJob, match=r"go through the body .* take out one of them"):
        Job(separate=Separate(through=Through()), tail=Tail())
    assert Job(separate=Separate(), tail=Tail()).tail is not None


def test_marks_name_points_of_the_job() -> None:
    with pytest.raises(NotAJob, match=r"The floating bridge names the point “mark.3”"):
        Job(points={"mark.1": Point(), "mark.2": Point()}, floating=Floating(marks=(("mark.1", "mark.2", "mark.3"),)))


@pytest.mark.parametrize(
    ("feet", "spans"),
    [
        ((), [(40.0, -40.0)]),
        ((16, 14), [(40.0, 24.0), (-26.0, -40.0)]),
        ((16, 12, 14), [(40.0, 24.0), (6.0, -6.0), (-26.0, -40.0)]),
    ],
)
def test_feet_stand_from_the_left(feet: tuple[float, ...], spans: list[tuple[float, float]]) -> None:
    assert list(Floating(length=80, feet=feet).spans) == spans
