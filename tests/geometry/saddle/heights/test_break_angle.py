"""The saddle's height, and what is said of it. The bounds themselves: common practice, no source."""

import math

import pytest

from geometry.saddle.heights.break_angle import SaddleHeight, break_angle, saddle_height_findings
from tests.in_one import in_one


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


def degrees(angle: float) -> dict[str, float]:
    """A string 8 behind its peak that breaks so steeply, over a bridge of 9.5; the slot is deep enough."""
    return {"string_over_top": 9.5 + 8.0 * math.tan(math.radians(angle)), "bridge": 9.5, "behind": 8.0}


@in_one(
    ("heights", "found"),
    [
        ({"string_over_top": 9.51, "bridge": 9.5}, {"saddle.low": "look"}),
        ({"string_over_top": 9.49, "bridge": 9.5}, {"saddle.none": "stop"}),
        ({"string_over_top": 11.49, "bridge": 9.5}, {"saddle.low": "look"}),
        ({"string_over_top": 11.51, "bridge": 9.5}, {}),
        ({"string_over_top": 17.49, "bridge": 9.5}, {}),
        ({"string_over_top": 17.51, "bridge": 9.5}, {"saddle.high": "look"}),
        (degrees(11.9), {"saddle.low": "look", "saddle.shallow": "look"}),
        (degrees(44.9), {}),
        (degrees(45.1), {"saddle.high": "look", "saddle.steep": "look"}),
        # derived: 0.4 of the whole in the slot, 4 × 0.4 / 0.6 = 2.667 beside 4 over it
        ({"string_over_top": 13.5, "bridge": 9.5, "slot_depth": 2.66}, {"saddle.leaning": "look"}),
        ({"string_over_top": 13.5, "bridge": 9.5, "slot_depth": 2.68}, {}),
        ({"bridge": 9.5, "slot_depth": 7.51}, {"wood.under": "look"}),
        ({"bridge": 9.5, "slot_depth": 7.49}, {}),
        ({"bridge": 9.5, "slot_depth": 9.49}, {"wood.under": "look"}),
        ({"bridge": 9.5, "slot_depth": 9.51}, {"wood.under": "stop"}),
    ],
)
def test_both_sides_of_every_bound(heights: dict[str, float], found: dict[str, str]) -> None:
    assert codes(**heights) == found


@pytest.mark.parametrize("out", [0.3, 0.9, 4.0])
def test_the_angle_is_told_with_its_plus_minus(out: float) -> None:
    # derived: d atan(out / behind) = (behind d out − out d behind) / (out² + behind²), with 0.2 over the top, 0.1 of
    # the bridge's thickness and 0.3 behind (common practice, no source)
    height = SaddleHeight(string_over_top=9.5 + out, over_top_sd=0.2, bridge=9.5, behind=6.0)
    assert height.projection_sd == pytest.approx(math.hypot(0.2, 0.1))
    assert height.degrees is not None
    angle, sd = height.degrees
    assert angle == pytest.approx(math.degrees(math.atan(out / 6.0)))
    assert math.radians(sd) == pytest.approx(math.hypot(6.0 * math.hypot(0.2, 0.1), out * 0.3) / (out**2 + 36.0))


def test_a_saddle_below_the_bridge_has_no_angle() -> None:
    assert SaddleHeight(string_over_top=9.4, bridge=9.5, behind=6.0).degrees is None
