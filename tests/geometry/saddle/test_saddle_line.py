"""The saddle line under the strings and its slot, held to numbers worked out by hand."""

import math

import pytest

from geometry.findings import Finding
from geometry.job import Saddle, SlotFront, Spread, String, Strings
from geometry.layout import Layout, SaddlePlan
from geometry.placed.place_everything import place_everything
from geometry.saddle.best_line import best_line
from geometry.saddle.string_plans import lay_line
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed

NOMINAL = 640.0 / math.hypot(1, 9 / 640)
"""Where the nominal places of `six` lie for scales of 640. derived: the outer strings run from 19 to 28 beside the
middle in 640.
"""


def laid_out(bass: float = 4.0, treble: float = 2.0, hand: str = "right", **blocks: object) -> Layout:
    extras = scales(640.0, 640.0)
    return lay_out(job(BOARD, hand, strings=six(bass=bass, treble=treble), **blocks), surveyed(BOARD, extras))


def saddle_of(layout: Layout) -> SaddlePlan:
    assert layout.saddle is not None
    return layout.saddle


def told(layout: Layout) -> dict[str, Finding]:
    return {finding.code: finding for finding in layout.findings}


@pytest.mark.parametrize(("hand", "left", "right"), [("right", 2.0, 4.0), ("left", 4.0, 2.0)])
def test_the_line_lies_the_compensation_past_the_nominal_places(hand: str, left: float, right: float) -> None:
    # derived: compensation that rises evenly from 2 at the treble to 4 at the bass, on strings evenly apart, is a line
    found = saddle_of(laid_out(hand=hand))
    (left_x, left_y), (right_x, right_y) = found.at_strings
    assert (left_y, right_y) == pytest.approx((28.0, -28.0))
    assert (left_x, right_x) == pytest.approx((NOMINAL + left, NOMINAL + right), abs=1e-4)
    assert found.slant == pytest.approx(2.0, abs=1e-4)
    assert found.longer == "bass"


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("shift", [2.0, -2.0])
def test_strings_that_are_shifted_take_the_saddle_with_them(hand: str, shift: float) -> None:
    """A shift is to the left, +y, whatever the hand; the outer strings then lie 28 to either side of it. derived: each
    outer path runs 9 outward in 640 as before, so the nominal places and what the line leans by stay as they were.
    """
    strings = Strings(
        list=tuple(String(name=str(i + 1)) for i in range(6)),
        nut=Spread(spread=38.0),
        saddle=Spread(spread=56.0),
        compensation=tuple(2.0 + 0.4 * i for i in range(6)),
        shift=shift,
    )
    layout = lay_out(job(BOARD, hand, strings=strings), surveyed(BOARD, scales(640.0, 640.0)))
    (left_x, left_y), (right_x, right_y) = saddle_of(layout).at_strings
    assert (left_y, right_y) == pytest.approx((28.0 + shift, -28.0 + shift))
    treble, bass = (left_x, right_x) if hand == "right" else (right_x, left_x)
    assert (treble, bass) == pytest.approx((NOMINAL + 2.0, NOMINAL + 4.0), abs=1e-4)
    assert sorted(string.nut_xy[1] for string in layout.strings)[::5] == pytest.approx([-19.0 + shift, 19.0 + shift])


@pytest.mark.parametrize("peak_at", [0.0, 0.25, 1.0])
def test_the_slots_front_lies_a_part_of_its_thickness_before_the_line(peak_at: float) -> None:
    # derived: the line leans by 2 in 56; its direction to the left is (−2, 56) / |…|, square to it toward the tail is
    # (56, 2) / |…|; the middle of the line lies at the mean of both sides, 3 past the nominal places
    found = saddle_of(laid_out(saddle=Saddle(thickness=4.0, peak_at=peak_at, slot_length=80.0)))
    long = math.hypot(2.0, 56.0)
    (ax, ay), (tx, ty) = (-2.0 / long, 56.0 / long), (56.0 / long, 2.0 / long)
    wanted = [
        (NOMINAL + 3.0 + along * ax + back * tx, along * ay + back * ty)
        for along, back in (
            (40.0, -4.0 * peak_at),
            (-40.0, -4.0 * peak_at),
            (-40.0, 4.0 - 4.0 * peak_at),
            (40.0, 4.0 - 4.0 * peak_at),
        )
    ]
    assert found.slot == pytest.approx(tuple(pytest.approx(at, abs=1e-4) for at in wanted))
    assert found.front == found.slot[:2]
    assert found.line == pytest.approx(
        tuple(pytest.approx((NOMINAL + 3.0 + way * ax, way * ay), abs=1e-4) for way in (40.0, -40.0))
    )


def test_a_slot_whose_length_is_not_given_runs_ten_past_the_outer_strings() -> None:
    # common practice, no source: 10 mm; derived: 56 + 2 × 10
    left, right = saddle_of(laid_out(bass=2.0)).front
    assert math.dist(left, right) == pytest.approx(76.0)


@pytest.mark.parametrize(("slant", "longer"), [(0.049, "neither"), (0.051, "bass"), (-0.051, "treble")])
def test_a_slant_that_no_hand_could_cut_is_none(slant: float, longer: str) -> None:
    # common practice, no source: 0.05 mm; derived: the slant is what the compensations at the ends differ by
    layout = laid_out(bass=3.0 + slant, treble=3.0)
    assert saddle_of(layout).longer == longer
    assert ("saddle.slant" in told(layout)) == (longer != "neither")


@pytest.mark.parametrize(("slant", "leans"), [(0.39, False), (0.41, True)])
def test_a_slot_leans_the_wrong_way_from_four_tenths_on(slant: float, leans: bool) -> None:
    # common practice, no source: 0.4 mm; the strings want 2 more at the bass, the slot gives `slant` more at the
    # treble. derived: over the outer strings, 56 apart, a slot of 76 leans 56 / 76 of what it leans over its length
    cut = SlotFront(left=9.0 + slant * 76 / 56, right=9.0)
    layout = laid_out(bridge=bridge(pins=None, slot_front=cut), saddle=Saddle(slot_length=76.0))
    assert ("slot.leans" in told(layout)) == leans
    assert saddle_of(layout).wrong_way == (("slot",) if leans else ())
    assert saddle_of(layout).left_over == pytest.approx((1 + slant / 2, -1 - slant / 2), abs=0.02)


@pytest.mark.parametrize(("left_over", "said"), [(0.049, False), (0.051, True)])
def test_what_a_cut_slot_leaves_over_is_said_where_a_hand_could_cut_it(left_over: float, said: bool) -> None:
    # common practice, no source: 0.05 mm; derived: a square slot stands midway, half the slant off at either string
    cut = SlotFront(left=9.0, right=9.0)
    layout = laid_out(bass=3.0 + 2 * left_over, treble=3.0, bridge=bridge(pins=None, slot_front=cut))
    assert ("slot.left_over" in told(layout)) == said
    assert [abs(over) for over in saddle_of(layout).left_over] == pytest.approx([left_over] * 2, abs=1e-4)


def known_to(sd: float) -> Layout:
    return lay_out(job(strings=six(bass=4.0, treble=2.0)), surveyed(BOARD, scales(640.0, 640.0), sd=sd))


def test_a_saddle_that_may_lie_fifty_off_has_no_place() -> None:
    """Common practice, no source: 50 mm; the ± is for the most part proportional to the readings' own."""
    near = max(saddle_of(known_to(10.0)).pm95)
    assert "saddle.lost" not in told(known_to(10.0 * 49.0 / near))
    assert "saddle.lost" in told(known_to(10.0 * 51.0 / near))


@pytest.mark.parametrize("steps", [(2.0, 8.0, 2.0, 8.0, 2.0, 8.0), (1.0, 7.0, 3.0, 3.0, 3.0, 3.0)])
@pytest.mark.parametrize("straight", [False, True])
def test_strings_beyond_the_saddles_room_are_held_alike_in_all_rows(steps: tuple[float, ...], straight: bool) -> None:
    """Some strings press against the saddle's front or back; the line of every row is the one of least pressure that
    `best_line` lays in the first.
    """
    strings = Strings(list=six(3.0, 3.0).list, nut=Spread(spread=38.0), saddle=Spread(spread=56.0), compensation=steps)
    placed = place_everything(job(strings=strings), surveyed(BOARD, scales(640.0, 640.0)))
    assert placed.saddle is not None
    strung, line = placed.saddle.strung, lay_line(placed.saddle.strung, Saddle(straight=straight))
    for row in (0, 3):
        broken = strung.break_point[row]
        best = best_line(broken.imag, broken.real, None, 3.0, 0.5, straight)
        assert abs(best.stays).max() > 0.1
        assert line.at[row] == pytest.approx(best.at, abs=1e-6)
        assert line.lean[row] == pytest.approx(best.slope, abs=1e-8)
