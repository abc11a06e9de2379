"""Where a floating bridge stands, by plane geometry of this file's own."""

import math
from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Floating, Point, Saddle
from geometry.work_out import lay_out
from tests.geometry.floating.floating_made import EXTRAS, FEET, TAIL, laid, standing_job, told
from tests.geometry.made import BOARD, surveyed


def line_of(layout) -> tuple[complex, complex]:  # type: ignore[no-untyped-def]
    """The crown's middle between the outer strings, and the way along it to the left: least squares over the break
    points, and half the outer ones' y.
    """
    x, y = np.array([string.break_point for string in layout.strings]).T
    lean, at = np.polyfit(y, x, 1)
    middle = (y.max() + y.min()) / 2
    return complex(at + lean * middle, middle), complex(lean, 1.0) / math.hypot(lean, 1.0)


def test_the_feet_stand_before_and_behind_the_crown() -> None:
    """derived: front and back edge half the width from the crown's middle line, the ends half the length from its
    middle; the crown's own line is of the peaks, in the middle of its thickness.
    """
    layout = laid(standing_job())
    middle, left = line_of(layout)
    back = -1j * left
    corners = [middle + left * y + back * x for x, y in ((-5.0, 40.0), (-5.0, -40.0), (5.0, -40.0), (5.0, 40.0))]
    assert layout.bridge is not None
    for found, at in zip(layout.bridge.corners, corners, strict=True):
        assert found == pytest.approx((at.real, at.imag), abs=1e-3)


def test_each_foot_has_its_own_place() -> None:
    """derived: 16 mm in from the left end, 14 from the right, 12 midway"""
    layout = laid(standing_job())
    middle, left = line_of(layout)
    assert layout.floating is not None
    spans = {"treble": (40.0, 24.0), "middle": (6.0, -6.0), "bass": (-26.0, -40.0)}
    for foot in layout.floating.feet:
        high, low = spans[foot.name]
        own = [(complex(*corner) - middle) / left for corner in foot.corners]
        assert [at.real for at in own] == pytest.approx([high, low, low, high], abs=1e-3)


def test_where_the_crown_sits_in_the_feet_is_kept() -> None:
    """derived: the strings stay; a crown 2 mm behind the front moves the feet back by 3 of the usual 5"""
    usual, own = laid(standing_job()), laid(standing_job(floating=Floating(length=80.0, width=10.0, front_to_crown=2)))
    assert usual.bridge is not None
    assert own.bridge is not None
    assert own.bridge.corners[0][0] - usual.bridge.corners[0][0] == pytest.approx(3.0, abs=2e-3)


def test_a_ridge_off_the_middle_moves_the_bridge_under_the_strings() -> None:
    """derived: a ridge at the front of 4 mm is 2 mm before the crown's middle: the bridge stands 2 mm farther back"""
    usual = laid(standing_job(saddle=Saddle(thickness=4.0, straight=True)))
    front = laid(standing_job(saddle=Saddle(thickness=4.0, straight=True, peak_at=0.0)))
    assert usual.saddle is not None
    assert front.saddle is not None
    assert usual.bridge is not None
    assert front.bridge is not None
    line = front.saddle.at_strings[0][0] - usual.saddle.at_strings[0][0]
    assert front.bridge.corners[0][0] - usual.bridge.corners[0][0] == pytest.approx(2.0 + line, abs=1e-6)


def test_one_piece_stands_all_along() -> None:
    layout = laid(standing_job(floating=Floating(length=80.0, width=10.0)))
    assert layout.floating is not None
    (foot,) = layout.floating.feet
    assert foot.name == "whole"
    assert layout.bridge is not None
    for found, at in zip(foot.corners, layout.bridge.corners, strict=True):
        assert found == pytest.approx(at)


EDGE = {f"body.{k}": (620 + 140 * math.cos(k * math.pi / 6), 140 * math.sin(k * math.pi / 6)) for k in range(1, 13)}


def test_a_foot_past_the_edge_of_the_top_stops() -> None:
    points = BOARD | FEET | TAIL
    on = laid(standing_job(), points | EDGE)
    assert "floating.edge" not in told(on)
    off = laid(standing_job(floating=Floating(length=280.0, width=10.0)), points | EDGE)
    stops = [finding for finding in off.findings if finding.code == "floating.edge"]
    assert [finding.grade for finding in stops] == ["stop"]
    assert "past the edge of the top" in stops[0].text


def test_a_foot_over_the_sound_hole_stops() -> None:
    """derived: a hole of 20 by 40 mm over the right foot alone, whose middle lies 33 mm to the right"""
    hole = {"soundhole.1": (620.0, -15.0), "soundhole.2": (620.0, -55.0), "soundhole.3": (700.0, -55.0)}
    hole["soundhole.4"] = (700.0, -15.0)
    layout = laid(standing_job(), BOARD | FEET | TAIL | hole)
    (stop,) = [finding for finding in layout.findings if finding.code == "floating.hole"]
    assert stop.text.startswith("The bass foot would stand over the sound hole, with 100 % of it.")


def test_without_its_points_nothing_is_said_of_edge_or_hole() -> None:
    assert not {"floating.edge", "floating.hole"} & set(told(laid(standing_job())))


@pytest.mark.parametrize(
    ("height", "says"),
    [(20.0, "too high"), (8.0, "too low"), (None, "")],
)
def test_its_height_is_held_against_what_the_strings_ask_for(height: float | None, says: str) -> None:
    job = standing_job(floating=Floating(length=80.0, width=10.0, height=height))
    heights = {"height.bridge.left": 13.0, "height.bridge.right": 13.5}
    layout = lay_out(job, surveyed(BOARD | FEET | TAIL, EXTRAS | heights))
    found = [finding for finding in layout.findings if finding.code == "floating.height"]
    assert len(found) == (2 if height is not None else 0)
    assert all(says in finding.text and finding.grade == "look" for finding in found)


def test_a_bridge_as_high_as_the_strings_ask_is_good() -> None:
    job = standing_job(floating=Floating(length=80.0, width=10.0, height=(13.0, 13.5)))
    heights = {"height.bridge.left": 13.0, "height.bridge.right": 13.5}
    layout = lay_out(job, surveyed(BOARD | FEET | TAIL, EXTRAS | heights))
    found = [finding for finding in layout.findings if finding.code == "floating.height"]
    assert [finding.grade for finding in found] == ["good", "good"]
    (asked,) = (finding.text for finding in layout.findings if finding.code == "saddle.height")
    # derived: a height measured to 0.3 mm, 1.96 times; what the strings ask for has the ± it is told with elsewhere
    assert "is high enough: 13.5 ±0.6 mm over the top, and the strings ask for " in found[0].text
    wide = found[0].text.partition("ask for ")[2].rstrip(".")
    assert f"{wide} over the top" in asked


def test_marks_of_old_feet_tell_where_it_stood() -> None:
    """derived: the ring’s middle lies at x 650.5, y 31; beside it, the line through the middles of the outer feet’s far
    ends, which is where the strings want it
    """
    ring = {"mark.1": (646.0, 38.0), "mark.2": (646.0, 24.0), "mark.3": (655.0, 24.0), "mark.4": (655.0, 38.0)}
    job = standing_job(points=standing_job().points | {name: Point() for name in ring})
    assert job.floating is not None
    job = replace(job, floating=replace(job.floating, marks=(tuple(ring),)))
    layout = laid(job, BOARD | FEET | TAIL | ring)
    assert layout.floating is not None
    left, right = layout.floating.feet[0].corners, layout.floating.feet[-1].corners
    ends = sorted((one[1] + other[1], one[0] + other[0]) for one, other in ((left[0], left[3]), (right[1], right[2])))
    beside = np.interp(2 * 31.0, *np.transpose(ends)) / 2
    (finding,) = [finding for finding in layout.findings if finding.code == "floating.marks"]
    assert finding.values["move.1"] == pytest.approx(beside - 650.5, abs=1e-6)
    assert "floating.marks_wait" in told(laid(job))


def test_one_string_tells_nothing_of_a_turn() -> None:
    """derived: a line through one break point has any slope"""
    strings = standing_job().strings
    assert strings is not None
    one = replace(strings, list=strings.list[:1], compensation=(2.0,))
    assert "may be turned" in told(laid(standing_job()))["floating.window"]
    assert "may be turned" not in told(laid(standing_job(strings=one)))["floating.window"]


@pytest.mark.parametrize(
    ("given", "code", "grade", "says"),
    [
        ({"feet": (1.0, 1.0, 1.0)}, "floating.foot", "stop", "3 feet of the bridge are as short as 1.0 mm"),
        ({"feet": (16.0, 1.9)}, "floating.foot", "stop", "no bridge stands on under 2.0 mm"),
        ({"feet": (16.0, 2.0)}, "floating.foot", "look", "A foot of the bridge is 2.0 mm long, and few are under 4.0"),
        ({"feet": (16.0, 3.9)}, "floating.foot", "look", "few are under 4.0 mm"),
        ({"feet": (16.0, 4.0)}, "floating.foot", None, ""),
        ({"feet": (16.0, 3.96)}, "floating.foot", None, ""),  # derived: reads as 4.0 mm
        ({"width": 2.9}, "floating.width", "look", "The bridge is 2.9 mm wide at its feet"),
        ({"width": 3.0}, "floating.width", None, ""),
        ({"length": 221.0}, "floating.length", "look", "The bridge is 221.0 mm long"),
        ({"length": 220.0}, "floating.length", None, ""),
    ],
)
def test_feet_and_sizes_of_no_usual_kind(given: dict[str, Any], code: str, grade: str | None, says: str) -> None:
    """common practice, no source: docs/numbers.md has the bounds"""
    layout = laid(standing_job(floating=Floating(**{"length": 80.0, "width": 10.0, **given})))
    found = [finding for finding in layout.findings if finding.code == code]
    assert [finding.grade for finding in found] == ([grade] if grade else [])
    assert all(says in finding.text for finding in found)


@pytest.mark.parametrize(
    ("foot", "grade"), [("5/64 in", "look"), ("1/16 in", "stop"), ("5/32 in", None), ("9/64 in", "look")]
)
def test_a_foot_in_inches_is_not_called_under_its_own_length(foot: str, grade: str | None) -> None:
    """derived: 2 mm are 5.04 and 4 mm 10.08 sixty-fourths of an inch, so that 5/64 and 5/32 in fall short by 0.02 and
    0.03 mm, and read as the limits themselves
    """
    job = standing_job(unit="in", floating=Floating(length=80.0, width=10.0, feet=(16.0, foot)))
    found = [finding for finding in laid(job).findings if finding.code == "floating.foot"]
    assert [finding.grade for finding in found] == ([grade] if grade else [])
