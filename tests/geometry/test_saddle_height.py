"""The saddle's height at both ends, in the layout."""

import pytest

from geometry.findings import Finding
from geometry.job import Pins, Saddle
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed


def told(over_top: dict[str, float], **blocks: object) -> dict[str, Finding]:
    """What is said with these heights of the strings over the top at [left, right]."""
    heights = {f"height.bridge.{side}": value for side, value in over_top.items()}
    blocks = {"bridge": bridge(thickness=9.0), **blocks}
    made = job(BOARD, "right", strings=six(bass=4.0, treble=2.0), **blocks)
    found = lay_out(made, surveyed(BOARD, scales(640.0, 640.0) | heights)).findings
    return {f.code: f for f in found if f.code.startswith(("saddle.", "wood.under")) and f.code != "saddle.slant"}


def test_a_saddle_of_three_millimetres_is_what_one_expects() -> None:
    # derived: 12 over the top less 9 of bridge; pins 1.5 + 5.5 behind: atan(3/7) = 23 degrees
    assert told({"left": 12.0, "right": 12.0}) == {}


def test_heights_that_nobody_read_say_nothing() -> None:
    assert told({}) == {}


@pytest.mark.parametrize(
    ("left", "right", "side"),
    [(10.5, 12.0, "treble"), (12.0, 10.5, "bass")],
)
def test_the_side_that_is_low_is_named(left: float, right: float, side: str) -> None:
    found = told({"left": left, "right": right})["saddle.low"]
    assert f"over the bridge at the {side} side" in found.text
    assert found.values["projection"] == pytest.approx(1.5)


def test_strings_below_the_bridge_stop_the_work() -> None:
    assert told({"left": 8.5, "right": 12.0})["saddle.none"].grade == "stop"


def test_pins_far_behind_leave_a_shallow_break() -> None:
    # derived: the hole 1.5 + 20 behind the saddle's peak, atan(3/21.5) = 8 degrees
    found = told({"left": 12.0}, bridge=bridge(thickness=9.0, pins=Pins(behind_slot=20.0), width=60.0))
    assert found["saddle.shallow"].values["degrees"] == pytest.approx(8.0, abs=0.3)


def test_a_deep_slot_leaves_thin_wood() -> None:
    # derived: 9 of bridge less 7.5 of slot
    found = told({}, saddle=Saddle(slot_depth=7.5))
    assert found["wood.under"].values["wood"] == pytest.approx(1.5)


def test_what_is_said_of_both_sides_alike_is_said_once() -> None:
    assert set(told({"left": 10.9, "right": 10.9}, bridge=bridge(thickness=9.0, pins=None))) == {"saddle.low"}
