"""The check distances, each held to a number worked out by hand, and from where on one is worth a rule."""

import math

import pytest

from geometry.job import Pins, Spread, String, Strings
from geometry.layout import Check, Layout
from geometry.saddle.heights.top_fall import TILT
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed

ALONG = 1 / math.hypot(1, 9 / 640)
"""How far a place on an outer string's path of `six` is along the centre line, each mm: it runs 9 outward in 640."""
TWELFTH, SLOT = 320 * ALONG, 640 * ALONG + 3.0 - 1.5
"""Fret 12, and the slot's front: 3 of compensation, half of its thickness of 3 before the line."""
FRONT = SLOT - 0.38 * 26
"""The bridge's front: 0.38 of its width of 26 before the slot's (common practice, no source)."""
EDGE = math.hypot(1, 6 / 440)
"""The edge lines run 6 outward in 440: so much longer is what is read along them."""


def laid_out(hand: str = "right", nut: float = 38.0) -> Layout:
    strings = Strings(
        list=tuple(String(name=str(i + 1)) for i in range(6)),
        nut=Spread(spread=nut),
        saddle=Spread(spread=56.0),
        compensation=(3.0,) * 6,
    )
    made = job(BOARD, hand, strings=strings, bridge=bridge(outline="straight"))
    return lay_out(made, surveyed(BOARD, scales(640.0, 640.0)))


def checks(layout: Layout) -> dict[str, Check]:
    return {check.code: check for check in layout.checks}


def edge(x: float) -> float:
    """Half the board's width at x, carried on: 22 at the nut, 28 at 440."""
    return 22.0 + 6.0 * x / 440.0


@pytest.mark.parametrize("hand", ["right", "left"])
def test_every_check_distance_is_that_of_plane_geometry(hand: str) -> None:
    margin = {"nut": 3.0, "fret12": edge(TWELFTH), "end": 28.0}
    string = {"nut": 0.0, "fret12": 19.0 + 9.0 * TWELFTH / (SLOT + 1.5), "end": 19.0 + 9.0 * 440.0 / (SLOT + 1.5)}
    wanted = {
        "fret12.slot": (SLOT - TWELFTH) * EDGE,
        "fret12.bridge": (FRONT - TWELFTH) * EDGE,
        "end.slot": (SLOT - 440.0) * EDGE,
        "end.bridge": (FRONT - 440.0) * EDGE,
        "nut.corner": math.hypot(FRONT, 22.0 + 76.0),
        "end.corner": math.hypot(FRONT - 440.0, 28.0 + 76.0),
        **{f"margin.{place}": wide - string[place] for place, wide in margin.items()},
    }
    found = checks(laid_out(hand))
    for side in ("treble", "bass"):
        for code, distance in wanted.items():
            assert found[f"{code}.{side}"].distance == pytest.approx(distance, abs=1e-3), code
    assert len(found) == 2 * len(wanted)


@pytest.mark.parametrize(("hand", "sign"), [("right", 1.0), ("left", -1.0)])
def test_treble_is_on_the_left_of_a_right_handed_instrument(hand: str, sign: float) -> None:
    found = checks(laid_out(hand))
    assert found["end.bridge.treble"].from_xy == pytest.approx((440.0, 28.0 * sign))
    assert found["end.bridge.treble"].to_xy == pytest.approx((FRONT, edge(FRONT) * sign))
    assert found["nut.corner.treble"].from_xy == pytest.approx((0.0, 22.0 * sign))
    assert found["nut.corner.treble"].to_xy == pytest.approx((FRONT, -76.0 * sign))
    assert found["nut.corner.treble"].to == "bridge front, bass corner"
    assert found["margin.nut.bass"].to_xy == pytest.approx((0.0, -22.0 * sign))


@pytest.mark.parametrize(("margin", "told"), [(0.09, False), (0.11, True)])
def test_a_margin_is_a_check_where_a_rule_can_read_it(margin: float, told: bool) -> None:
    # common practice, no source: 0.1 mm; derived: the nut is 44 wide
    found = checks(laid_out(nut=44.0 - 2 * margin))
    assert ("margin.nut.bass" in found) == ("margin.nut.treble" in found) == told


def test_a_check_over_the_top_carries_what_the_top_may_lean() -> None:
    """The nut's corner and the bridge's own lie in the board's plane; from the board's end the rule lies on the top.
    derived: a length that may be 1 / cos 1.5° as long, rectangular, so a sigma of the difference over √3; points known
    to 0.1 make the same ± for both but for that.
    """
    found = checks(laid_out())
    for code in ("end.slot.bass", "end.bridge.treble", "end.corner.bass"):
        check = found[code]
        leaning = 1.96 * check.distance * (1 / math.cos(TILT) - 1) / math.sqrt(3)
        assert check.pm95 > leaning
    plain = checks(laid_out())["nut.corner.bass"]
    # derived: along the way the corner is held by the datum, what is left is the scale's 0.1
    assert plain.pm95 == pytest.approx(1.96 * 0.1, rel=0.01)


def test_without_a_bridge_the_slot_alone_is_checked() -> None:
    made = job(strings=six(bass=3.0, treble=3.0))
    codes = {check.code for check in lay_out(made, surveyed(BOARD, scales(640.0, 640.0))).checks}
    assert not any("bridge" in code or "corner" in code for code in codes)
    assert {"fret12.slot.bass", "end.slot.treble"} < codes


def test_pins_change_no_check() -> None:
    made = job(strings=six(bass=3.0, treble=3.0), bridge=bridge(outline="straight", pins=Pins(behind_slot=8.0)))
    assert lay_out(made, surveyed(BOARD, scales(640.0, 640.0))).checks == laid_out().checks
