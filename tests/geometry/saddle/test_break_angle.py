"""The saddle's height, and what is said of it. The bounds themselves: common practice, no source."""

import math

import pytest

from geometry.saddle.break_angle import SaddleHeight, break_angle, saddle_height_findings


def codes(**heights: float) -> dict[str, str]:
    return {finding.code: finding.grade for finding in saddle_height_findings(SaddleHeight(**heights))}


def test_projection_is_what_stands_over_the_bridge() -> None:
    height = SaddleHeight(string_over_top=13.0, bridge=9.5, slot_depth=5.0)
    assert (height.projection, height.wood) == (3.5, 4.5)


def test_break_angle() -> None:
    # derived: as far down as back is half a right angle
    assert break_angle(5.0, 5.0) == pytest.approx(math.pi / 4)


def test_a_saddle_as_it_should_be_says_nothing() -> None:
    assert codes(string_over_top=13.0, bridge=9.5, slot_depth=5.5, behind=8.0) == {}


@pytest.mark.parametrize(
    ("heights", "code", "grade"),
    [
        ({"string_over_top": 9.0, "bridge": 9.5}, "saddle.none", "stop"),
        ({"string_over_top": 11.0, "bridge": 9.5}, "saddle.low", "look"),
        ({"string_over_top": 18.0, "bridge": 9.5}, "saddle.high", "look"),
        ({"string_over_top": 12.0, "bridge": 9.5, "behind": 20.0}, "saddle.shallow", "look"),
        ({"string_over_top": 16.0, "bridge": 9.5, "behind": 4.0}, "saddle.steep", "look"),
        ({"string_over_top": 15.5, "bridge": 9.5, "slot_depth": 3.0}, "saddle.leaning", "look"),
        ({"bridge": 6.5, "slot_depth": 5.0}, "wood.under", "look"),
        ({"bridge": 5.0, "slot_depth": 5.0}, "wood.under", "stop"),
    ],
)
def test_each_thing_that_is_wrong_is_said(heights: dict[str, float], code: str, grade: str) -> None:
    assert codes(**heights) == {code: grade}


def test_nothing_is_said_of_what_is_not_known() -> None:
    assert codes() == {}
    assert codes(behind=3.0, slot_depth=9.0) == {}


def test_the_side_is_named() -> None:
    found = saddle_height_findings(SaddleHeight(string_over_top=10.5, bridge=9.5), "treble")
    assert "at the treble side" in found[0].text
