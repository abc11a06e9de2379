"""The crown of a floating bridge as a solid: a circle through the outer strings, and forces at each string's break."""

import math
from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Board, Bridge, Floating, Saddle
from geometry.job.job import Hand
from geometry.layout import Layout, SaddleBlank
from geometry.solids import saddle_told
from geometry.tail.with_tail import BEHIND_SD, UNDER_SD
from geometry.work_out import lay_out
from tests.geometry.floating.floating_made import EXTRAS, FEET, TAIL, standing_job
from tests.geometry.made import BOARD, surveyed

HEIGHTS = {"height.bridge.left": 15.0, "height.bridge.right": 16.0}


def laid(heights: dict[str, float] = HEIGHTS, *, hand: Hand = "right", **given: Any) -> Layout:
    return lay_out(standing_job(hand=hand, **given), surveyed(BOARD | FEET | TAIL, EXTRAS | heights))


def crown(layout: Layout) -> SaddleBlank:
    assert layout.floating is not None
    assert layout.floating.heights is not None
    return layout.floating.heights


def test_the_heights_are_those_of_a_circle_through_the_outer_strings() -> None:
    """derived: the centre of a circle of 254 mm lies on the normal of the chord's middle; heights count from the chord,
    which the frets' plane is level with.
    """
    found = crown(laid(board=Board(radius=254.0)))
    middle = (found.strings[0].along + found.strings[-1].along) / 2
    half = (found.strings[0].along - found.strings[-1].along) / 2
    for string in found.strings:
        off = string.along - middle
        chord = 15.5 - 0.5 * off / half
        circle = math.sqrt(254.0**2 - off**2) - math.sqrt(254.0**2 - half**2)
        assert string.over_top[0] == pytest.approx(chord + circle, abs=1e-6)
    assert found.floor == "top"
    # derived: the sagitta of a chord of 2 half is half²/2R to the first order, 0.87 mm
    assert found.crown[0] == pytest.approx(half**2 / 508, rel=0.01)


def test_what_was_read_at_both_sides_carries_its_plus_or_minus() -> None:
    found = crown(laid())
    # derived: 1.96 × 0.1 at the outer strings, √½ of that midway between two that are read apart
    assert [found.strings[i].over_top[1] for i in (0, 4)] == pytest.approx([0.196, 0.196], abs=1e-3)
    assert found.strings[2].over_top[1] == pytest.approx(0.196 / math.sqrt(2), abs=2e-3)


def test_a_radius_that_is_not_sure_widens_the_middle() -> None:
    flat, rounded = crown(laid()), crown(laid(board=Board(radius=254.0)))
    assert rounded.strings[2].over_top[1] > flat.strings[2].over_top[1]
    assert rounded.strings[0].over_top[1] == pytest.approx(flat.strings[0].over_top[1])


def test_strings_break_over_it_as_the_tail_hangs_and_press_by_both_pulls() -> None:
    """derived: both parts of a string pull the crown with T, one level, one down by atan(under / behind)."""
    layout = laid()
    for one, string in zip(crown(layout).strings, layout.strings, strict=True):
        behind = 740.0 - string.break_point[0]
        turn = math.atan(9.0 / behind)
        assert one.degrees is not None
        assert one.degrees[0] == pytest.approx(math.degrees(turn), abs=1e-6)
        assert string.tension_n is not None
        pulls = string.tension_n * np.array([math.cos(turn) - 1, -math.sin(turn)])
        assert one.press == pytest.approx(float(np.hypot(*pulls)), rel=1e-6)


def test_the_breaks_plus_or_minus_follows_from_both_lengths() -> None:
    """Against differences: `under` by a hand's 0.5 mm, `behind` where it is typed by 0.3 mm."""
    tail = standing_job().tail
    assert tail is not None
    layout = lay_out(standing_job(tail=replace(tail, behind=90.0)), surveyed(BOARD | FEET, EXTRAS | HEIGHTS))
    one, string = crown(layout).strings[2], layout.strings[2]
    assert layout.tail is not None
    behind = layout.tail.strings[2].at[0] - string.break_point[0]

    def degrees(under: float, far: float) -> float:
        return math.degrees(math.atan(under / far))

    by_under = (degrees(9.01, behind) - degrees(8.99, behind)) / 0.02
    by_far = (degrees(9.0, behind + 0.01) - degrees(9.0, behind - 0.01)) / 0.02
    assert one.degrees is not None
    own = 1.96 * math.hypot(by_under * UNDER_SD, by_far * BEHIND_SD)
    # the survey's own share of so short a way is small beside a hand's
    assert one.degrees[1] == pytest.approx(own, rel=0.02)


def test_without_a_tail_or_its_drop_nothing_is_said_of_the_break() -> None:
    tail = standing_job().tail
    assert tail is not None
    for given in (None, replace(tail, under=None)):
        assert {(one.degrees, one.press) for one in crown(laid(tail=given)).strings} == {(None, None)}


@pytest.mark.parametrize("heights", [{}, {"height.bridge.left": 15.0}])
def test_a_height_on_one_side_alone_makes_none(heights: dict[str, float]) -> None:
    layout = laid(heights)
    assert layout.floating is not None
    assert layout.floating.heights is None


def test_a_depth_that_a_glued_bridge_left_in_the_job_is_not_a_crowns() -> None:
    found = crown(laid(saddle=Saddle(thickness=4.0, slot_depth=5.0)))
    assert found.floor == "top"
    assert all(one.whole is None and one.over_bridge is None for one in found.strings)
    assert found.profile[0][1] == pytest.approx(15.0, abs=0.3)


def test_the_other_hand_is_its_mirror_image() -> None:
    right, left = crown(laid()), crown(laid({"height.bridge.left": 16.0, "height.bridge.right": 15.0}, hand="left"))
    for one, other in zip(right.strings, left.strings, strict=True):
        assert (other.along, *other.over_top) == pytest.approx((one.along, *one.over_top), abs=0.02)


def test_it_is_told_in_a_crowns_own_words() -> None:
    layout = laid(board=Board(radius=254.0))
    (text,) = [finding.text for finding in layout.findings if finding.code == "floating.crown"]
    assert "rounded as the board is" in text
    told = " ".join(finding.text for finding in layout.findings)
    for word in ("slot", "glue", " pin ", "over the bridge’s top"):
        assert word not in told
    assert saddle_told.SEEN == 0.05
    assert not [finding for finding in laid().findings if finding.code == "floating.crown"]


def test_a_glued_bridge_has_no_crown_of_its_own() -> None:
    job = replace(standing_job(), floating=None, bridge=Bridge(pins=None, thickness=9.0))
    layout = lay_out(job, surveyed(BOARD | TAIL, EXTRAS | {"height.bridge.left": 12.0, "height.bridge.right": 12.5}))
    assert layout.floating is None
    assert layout.saddle_blank is not None
    # a glued bridge with a tail: the strings run on behind it, and break by the same lengths
    assert layout.tail is not None
    for one, hung in zip(layout.saddle_blank.strings, layout.tail.strings, strict=True):
        assert one.degrees is not None
        assert one.degrees[0] == hung.breaks


def test_a_bridge_without_feet_of_its_own_has_one_too() -> None:
    assert len(crown(laid(floating=Floating(length=80.0, width=10.0))).strings) == 5
