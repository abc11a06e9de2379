"""The layout of invented instruments, against figures worked out by hand."""

import math

import pytest

from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, Pins, Saddle, SlotFront, bridge, job, scales, six, surveyed


def codes(layout: Layout, grade: str) -> set[str]:
    return {finding.code for finding in layout.findings if finding.grade == grade}


@pytest.mark.parametrize(
    ("hand", "left", "right", "slant", "longer"),
    [("left", 637.4, 632.5, 4.9, "bass"), ("right", 634.1, 635.8, 1.7, "bass")],
)
def test_slanted_frets_give_each_hand_its_own_slant(
    hand: str, left: float, right: float, slant: float, longer: str
) -> None:
    # derived: nut square, fret 12 at 316.4 left and 315.6 right, so the nominal places are 632.8 and 631.2 along the
    # paths; compensation bass 4.6, treble 1.3. A path leans 0.014 over its length, which shortens it by 0.06 mm along
    # the centre line.
    made = job(hand=hand, strings=six(bass=4.6, treble=1.3))
    layout = lay_out(made, surveyed(BOARD, scales(632.8, 631.2)))
    assert layout.frets is not None
    assert layout.saddle is not None
    assert (layout.frets.nominal.left, layout.frets.nominal.right) == pytest.approx((632.8, 631.2), abs=1e-9)
    assert [x for x, _ in layout.saddle.at_strings] == pytest.approx([left, right], abs=0.08)
    assert layout.saddle.slant == pytest.approx(slant, abs=0.005)
    assert layout.saddle.longer == longer


def test_a_nut_that_was_moved_leaves_the_nominal_place_with_the_frets() -> None:
    # derived: nut 1 mm too near, frets 1 and 12 read 34.47 and 315.00: scale 632.0, nominal place 631.0 from the nut;
    # there the open string is 1200 log2(632/631) = 2.74 cents sharp of its fretted notes
    fitted = {"scale.left": 632.0, "shift.left": 1.0, "scale.right": 632.0, "shift.right": 1.0}
    layout = lay_out(job(), surveyed(BOARD, fitted))
    assert layout.frets is not None
    assert layout.frets.nominal.left == pytest.approx(631.0)
    assert layout.frets.open_cents[0] == pytest.approx(2.74, abs=0.005)
    assert "nut.moved" in codes(layout, "look")


CUT = SlotFront(left=6.5, right=9.0)


def cut_layout(seat: str) -> Layout:
    strings = six(bass=4.3, treble=1.0)
    made = job(strings=strings, saddle=Saddle(slot_length=56.0), bridge=bridge(slot_front=CUT, seat=seat, pins=None))
    return lay_out(made, surveyed(BOARD, scales(640.0, 640.0)))


def test_a_bridge_seated_with_its_slot_turns() -> None:
    # derived: a cut slot 9.0 and 6.5 mm behind the front over 56, wanted slant 3.3: atan(3.3/56) − atan(2.5/56) =
    # 0.816°, and the front corners of a 152 mm bridge differ by 2.17 mm
    plan = cut_layout("with slot").bridge
    assert plan is not None
    assert math.degrees(abs(plan.turn)) == pytest.approx(0.816, abs=0.0005)
    assert abs(plan.corners[0][0] - plan.corners[1][0]) == pytest.approx(2.17, abs=0.005)


def test_a_bridge_seated_square_leaves_the_slot_behind_and_says_so() -> None:
    # derived: (3.3 − 2.5) / 2 = 0.40 mm either way at the outer strings; 0.40 mm of 640 is 1.1 cents
    layout = cut_layout("square")
    assert layout.saddle is not None
    assert layout.saddle.left_over == pytest.approx((0.40, -0.40), abs=0.005)
    assert layout.saddle.left_over_cents == pytest.approx((1.08, -1.08), abs=0.02)
    assert "slot.left_over" in codes(layout, "look")


def test_a_slot_that_leans_the_wrong_way_for_the_hand_stops_the_job() -> None:
    made = job(
        hand="left",
        strings=six(bass=4.3, treble=1.0),
        saddle=Saddle(slot_length=56.0),
        bridge=bridge(slot_front=CUT, pins=None),
    )
    assert "slot.leans" in codes(lay_out(made, surveyed(BOARD, scales(640.0, 640.0))), "stop")


def test_pins_in_a_square_row_run_into_the_slot_at_the_bass() -> None:
    # derived: 6.5 behind the saddle line at the treble, slant 3.3, slot half-thickness 1.2, pin radius 2.5:
    # 6.5 − 3.3 − 1.2 − 2.5 = −0.5 mm of wood
    made = job(
        strings=six(bass=4.3, treble=1.0),
        saddle=Saddle(thickness=2.4),
        bridge=bridge(pins=Pins(behind_slot=5.3, row="bridge", diameter=5.0)),
    )
    layout = lay_out(made, surveyed(BOARD, scales(640.0, 640.0)))
    assert layout.bridge is not None
    assert layout.bridge.wood["between"] == pytest.approx(-0.5, abs=0.02)
    assert "wood.between" in codes(layout, "stop")


def test_one_fret_carries_its_uncertainty_to_the_saddle() -> None:
    # derived: fret 12 alone within 0.3 (rectangular): 2 × 0.3/√3 × 1.96 = 0.68 mm, 1.8 cents of 645 mm
    sd = 2 * 0.3 / math.sqrt(3)
    found = surveyed(BOARD, scales(645.0, 645.0), sd=sd)
    layout = lay_out(job(strings=six(bass=4.6, treble=1.3)), found)
    assert layout.saddle is not None
    assert layout.frets is not None
    assert layout.frets.nominal.left_pm95 == pytest.approx(0.68, abs=0.002)
    assert layout.saddle.cents95[0] == pytest.approx(1.8, abs=0.05)


@pytest.mark.parametrize("missing", ["points", "scale", "strings", "bridge"])
def test_a_job_that_stops_early_says_what_is_missing(missing: str) -> None:
    points = {} if missing == "points" else BOARD
    extras = {} if missing == "scale" else scales(640.0, 640.0)
    strings = None if missing == "strings" else six(bass=4.3, treble=1.0)
    layout = lay_out(job(strings=strings), surveyed(points, extras))
    expected = {"points": "neck", "scale": "frets"}.get(missing, missing)
    assert f"{expected}.missing" in codes(layout, "look")


def test_turning_the_hand_over_moves_no_measured_point() -> None:
    found = surveyed(BOARD, scales(640.0, 640.0))
    right, left = (lay_out(job(hand=hand, strings=six(bass=4.3, treble=1.0)), found) for hand in ("right", "left"))
    assert right.points == left.points
