"""The bridge: how it is seated, the wood it leaves, and what is said of it."""

import math
from typing import Literal

import msgspec
import numpy as np
import pytest

from geometry.bridge.seat_bridge import across
from geometry.findings import Finding
from geometry.job import Board, Moved, NotAJob, Old, Pins, Saddle, SlotFront
from geometry.layout import Layout
from geometry.placed.place_everything import place_everything
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed

ASKEW: dict[str, XY] = {
    "old.1": (632.0, 76.0),
    "old.2": (628.0, -76.0),
    "old.3": (654.0, -76.7),
    "old.4": (658.0, 75.3),
}


def laid_out(hand: str = "right", points: dict[str, XY] = BOARD, bass: float = 4.3, **blocks: object) -> Layout:
    made = job(points, hand, strings=six(bass=bass, treble=1.0), **blocks)
    return lay_out(made, surveyed(points, scales(640.0, 640.0)))


def told(layout: Layout) -> dict[str, Finding]:
    return {finding.code: finding for finding in layout.findings}


@pytest.mark.parametrize("hand", ["right", "left"])
def test_on_the_old_footprint_the_front_runs_with_its_side_nearest_the_nut(hand: str) -> None:
    old = Old(outline=("old.3", "old.4", "old.1", "old.2"))
    layout = laid_out(hand, BOARD | ASKEW, bridge=bridge(seat="old footprint"), old=old)
    assert layout.bridge is not None
    (lx, ly), (rx, ry), *_ = layout.bridge.corners
    assert (lx - rx) / (ly - ry) == pytest.approx(4.0 / 152.0)
    assert ((lx + rx) / 2, (ly + ry) / 2) == pytest.approx((630.0, 0.0))
    assert "seat.no_footprint" not in told(layout)


@pytest.mark.parametrize("corners", [("old.1", "old.2", "old.3"), ("old.4", "old.1", "old.2")])
def test_three_corners_of_an_old_footprint_are_enough(corners: tuple[str, ...]) -> None:
    layout = laid_out("right", BOARD | ASKEW, bridge=bridge(seat="old footprint"), old=Old(outline=corners))
    assert layout.bridge is not None
    (lx, ly), (rx, ry), *_ = layout.bridge.corners
    assert (lx - rx) / (ly - ry) == pytest.approx(4.0 / 152.0)
    assert "seat.no_footprint" not in told(layout)
    two = laid_out("right", BOARD | ASKEW, bridge=bridge(seat="old footprint"), old=Old(outline=corners[:2]))
    assert "seat.no_footprint" in told(two)


@pytest.mark.parametrize(("along", "across", "turn"), [(2.0, 0.0, 0.0), (0.0, 3.0, 0.0), (1.5, -2.0, 0.0)])
@pytest.mark.parametrize("cut", [None, SlotFront(left=8.0, right=9.0)])
def test_from_an_old_footprint_a_bridge_is_moved_both_ways(
    along: float, across: float, turn: float, cut: SlotFront | None
) -> None:
    """To the tail and to the left, by so much as is asked."""
    old = Old(outline=("old.1", "old.2", "old.3", "old.4"))
    there, moved = (
        laid_out("right", BOARD | ASKEW, bridge=bridge(seat="old footprint", slot_front=cut, moved=by), old=old).bridge
        for by in (None, Moved(along=along, across=across, turn=turn))
    )
    assert there is not None
    assert moved is not None
    for (x, y), (to_x, to_y) in zip(there.corners, moved.corners, strict=True):
        assert (to_x - x, to_y - y) == pytest.approx((along, across), abs=1e-6)


@pytest.mark.parametrize("cut", [None, SlotFront(left=8.0, right=9.0)])
@pytest.mark.parametrize("slot", ["stays", "goes along"])
def test_a_bridge_that_goes_across_from_an_old_footprint_takes_its_slot_so_far_and_no_farther(
    cut: SlotFront | None, slot: Literal["stays", "goes along"]
) -> None:
    """Across, the strings go with it, and with them a slot that is still to be cut: once, not twice."""
    old = Old(outline=("old.1", "old.2", "old.3", "old.4"))
    there, moved = (
        laid_out("right", BOARD | ASKEW, bridge=bridge(seat="old footprint", slot_front=cut, moved=by), old=old).saddle
        for by in (None, Moved(across=2.0, slot=slot))
    )
    assert there is not None
    assert moved is not None
    assert [now[1] - then[1] for then, now in zip(there.front, moved.front, strict=True)] == pytest.approx(
        [2.0, 2.0], abs=0.02
    )


def test_who_seats_the_bridge_square_needs_no_footprint() -> None:
    assert "seat.no_footprint" not in told(laid_out(bridge=bridge(seat="square")))


def test_a_cut_slot_goes_with_the_bridge_onto_the_old_footprint() -> None:
    # derived: the slot's ends 8 and 10 behind the front on 56; the front leans 4 in 152 the other way
    cut = bridge(seat="old footprint", slot_front=SlotFront(left=8.0, right=10.0), pins=None)
    layout = laid_out(points=BOARD | ASKEW, bridge=cut, old=Old(outline=tuple(ASKEW)), saddle=Saddle(slot_length=56.0))
    assert layout.saddle is not None
    (lx, ly), (rx, ry) = layout.saddle.front
    lean = math.atan2(2.0, 56.0) - math.atan2(4.0, 152.0)
    assert math.atan2(rx - lx, ly - ry) == pytest.approx(lean)
    assert "slot.left_over" in told(layout)


@pytest.mark.parametrize("outline", [(), ("old.1", "old.2"), ("old.1", "old.2", "old.3", "lost")])
def test_a_footprint_that_is_not_held_leaves_the_bridge_square_and_says_so(outline: tuple[str, ...]) -> None:
    points = BOARD | ASKEW
    made = job(points | {"lost": (0.0, 0.0)}, strings=six(bass=4.3, treble=1.0), bridge=bridge(seat="old footprint"))
    made = type(made)(points=made.points, strings=made.strings, bridge=made.bridge, old=Old(outline=outline))
    layout = lay_out(made, surveyed(points, scales(640.0, 640.0)))
    assert layout.bridge is not None
    assert layout.bridge.turn == pytest.approx(0.0, abs=1e-12)
    assert told(layout)["seat.no_footprint"].grade == "look"


@pytest.mark.parametrize(("hand", "farther"), [("right", "bass"), ("left", "bass")])
def test_a_bridge_that_turns_for_its_slot_says_which_end_is_farther(hand: str, farther: str) -> None:
    # derived: a slot cut square in the bridge must turn by the strings' own slant, 3.3 in 56, which is 8.9 over 152
    square = bridge(seat="with slot", slot_front=SlotFront(left=9.0, right=9.0), pins=None)
    found = told(laid_out(hand, bridge=square))["bridge.turned"]
    assert found.text.startswith(f"The bridge stands turned: its {farther} end lies 8.9 mm farther")
    assert abs(found.values["degrees"]) == pytest.approx(math.degrees(math.atan(3.3 / 56)), abs=0.01)


def test_a_square_bridge_does_not_turn() -> None:
    assert "bridge.turned" not in told(laid_out(bridge=bridge()))


@pytest.mark.parametrize(
    ("outline", "traced", "said"),
    [
        ("straight", (), False),
        ("traced", (), True),
        ("traced", ((0.0, 76.0), (0.0, -76.0), (26.0, -76.0), (26.0, 76.0)), False),
    ],
)
def test_an_outline_to_be_traced_that_is_not_traced_yet_is_said(
    outline: Literal["straight", "traced"], traced: tuple[XY, ...], said: bool
) -> None:
    found = told(laid_out(bridge=bridge(outline=outline, traced=traced)))
    assert ("bridge.untraced" in found) == said


def test_wood_behind_the_slot_is_named_so_where_there_are_no_holes() -> None:
    # derived: the slot's front 25 behind the bridge's, 3 thick, in 29.5: 1.5 left
    narrow = bridge(outline="straight", width=29.5, pins=None, slot_front=SlotFront(left=25.0, right=25.0))
    found = told(laid_out(bass=1.0, bridge=narrow))["wood.behind"]
    assert found.text.startswith("Only 1.5 mm of wood stays behind the slot")


def test_square_pins_of_a_slanted_slot_start_from_the_treble_string() -> None:
    layout = laid_out(bridge=bridge(pins=Pins(behind_slot=6.0, row="bridge")))
    assert layout.bridge is not None
    xs = [pin.at[0] for pin in layout.bridge.pins]
    assert xs == pytest.approx([xs[0]] * 6, abs=1e-9)
    # derived: the slot's back lies half its thickness of 3 behind the line at treble, 641, and is lifted by the lean
    assert xs[0] == pytest.approx(641.0 - 0.06 + 1.5 * math.hypot(1, 3.3 / 56) + 6.0, abs=0.02)


def test_a_belly_deeper_than_it_is_wide_is_refused() -> None:
    with pytest.raises(NotAJob, match="a belly stands out by"):
        bridge(length=30.0, belly_depth=20.0)


def test_the_opposite_slant_is_that_of_the_other_hand_on_these_frets() -> None:
    # derived: slanted frets, nominal places 632.8 and 631.2; compensation bass 4.6, treble 1.3: right-handed 634.1 and
    # 635.8, left-handed 637.4 and 632.5, which are not mirror images
    made = [job(hand=hand, strings=six(bass=4.6, treble=1.3)) for hand in ("right", "left")]
    right, left = (lay_out(one, surveyed(BOARD, scales(632.8, 631.2))).saddle for one in made)
    assert right is not None
    assert left is not None
    assert [x for x, _ in right.opposite] == pytest.approx([637.4, 632.5], abs=0.08)
    assert [x for x, _ in right.opposite] == pytest.approx([x for x, _ in left.at_strings], abs=0.01)
    assert [x for x, _ in left.opposite] == pytest.approx([x for x, _ in right.at_strings], abs=0.01)


@pytest.mark.parametrize(
    ("slot_length", "length", "said"),
    [
        # derived: half of 200 less half of 152
        (200.0, 152.0, "The slot runs 24.0 mm past the bridge’s end"),
        # derived: the outer holes 28.4 from the middle where the spread of 56 has widened to 56.8, 2.5 of radius, on 20
        (10.0, 40.0, "The pin holes run 10."),
    ],
)
def test_a_slot_or_holes_past_the_bridges_end_stop_the_work(slot_length: float, length: float, said: str) -> None:
    layout = laid_out(bridge=bridge(length=length, outline="straight"), saddle=Saddle(slot_length=slot_length))
    found = told(layout)["bridge.short"]
    assert found.grade == "stop"
    assert found.text.startswith(said)


def test_a_slot_as_long_as_the_bridge_does_not_stop_the_work() -> None:
    assert "bridge.short" not in told(laid_out(bridge=bridge(), saddle=Saddle(slot_length=152.0)))


def test_corners_and_pin_holes_carry_their_plus_minus() -> None:
    layout = laid_out(bridge=bridge())
    assert layout.bridge is not None
    assert layout.saddle is not None
    found = layout.bridge
    assert (len(found.corners_pm95), len(found.pins_pm95)) == (4, 6)
    assert found.front_pm95 == (found.corners_pm95[0][0], found.corners_pm95[1][0])
    # derived: the pin row lies along the slot, so a sheet puts an outer hole along the neck about as well as the saddle
    for pin, saddle in zip((found.pins_pm95[0], found.pins_pm95[-1]), layout.saddle.by_sheet.pm95, strict=True):
        assert pin[0] == pytest.approx(saddle, rel=0.25)
    assert all(0.0 < y < x for x, y in found.pins_pm95)


def test_a_centre_line_by_half_the_board_is_known_less_well_across() -> None:
    # derived: each edge from nut to fret 12 is known to turn by 0.1 √2 / 320, both together by 1/√2 of that; carried
    # on to the pin holes 650 out it is 0.1 × 650 / 320 × 1.96 = 0.40 from the nut alone
    points = BOARD | {"fret12.left": (320.0, 26.364), "fret12.right": (320.0, -26.364)}
    whole = laid_out(points=points, bridge=bridge()).bridge
    half = laid_out(points=points, bridge=bridge(), board=Board(centre="nut to fret 12")).bridge
    assert whole is not None
    assert half is not None
    assert max(y for _, y in whole.pins_pm95) < 0.1
    assert 0.2 < min(y for _, y in half.pins_pm95) < 0.6


@pytest.mark.parametrize("seat", ["square", "with slot"])
def test_the_other_hand_has_the_mirrored_plus_minus(seat: str) -> None:
    here = laid_out("right", bridge=bridge(seat=seat)).bridge
    there = laid_out("left", bridge=bridge(seat=seat)).bridge
    assert here is not None
    assert there is not None
    for one, other in zip(here.pins_pm95, there.pins_pm95, strict=True):
        assert one == pytest.approx(other, rel=1e-6)
    mirrored = tuple(there.corners_pm95[i] for i in (1, 0, 3, 2))
    for one, other in zip(here.corners_pm95, mirrored, strict=True):
        assert one == pytest.approx(other, rel=1e-6)


def wood(width: float = 26.0, front: float = 9.0, behind_slot: float = 5.6, diameter: float = 5.0) -> Layout:
    """A straight bridge, square as its cut slot is, under six strings that all want the same."""
    pins = Pins(behind_slot=behind_slot, diameter=diameter)
    cut = SlotFront(left=front, right=front)
    made = bridge(outline="straight", width=width, pins=pins, slot_front=cut)
    return laid_out(bass=1.0, bridge=made)


def test_the_wood_left_is_counted_from_the_holes_rims() -> None:
    # derived: in 26 the slot's front lies 9 back, it is 3 thick, hole centres 5.6 behind it, radius 2.5: 9 in front,
    # 5.6 − 2.5 between, 26 − 9 − 3 − 5.6 − 2.5 behind. The nominal places lie 640 cos atan(9 / 640) from the nut, the
    # saddle line 1 past them and the row half of 3 and 5.6 past that; the strings run from 38 in all to 56 at the
    # saddle line, and six holes leave five gaps
    found = wood().bridge
    assert found is not None
    at = 640.0 / math.hypot(1, 9 / 640) + 1.0
    apart = (38.0 + 18.0 * (at + 1.5 + 5.6) / at) / 5
    assert found.wood == pytest.approx({"front": 9.0, "between": 3.1, "behind": 5.9, "holes": apart - 5.0}, abs=1e-6)


@pytest.mark.parametrize(
    ("place", "enough", "little"),
    [
        # common practice, no source: 3 mm in front and behind, 1.5 between slot and holes, 2 from hole to hole
        ("front", {"front": 3.01}, {"front": 2.99}),
        ("between", {"behind_slot": 2.5 + 1.51}, {"behind_slot": 2.5 + 1.49}),
        ("behind", {"width": 20.1 + 3.01}, {"width": 20.1 + 2.99}),  # derived: 9 + 3 + 5.6 + 2.5 = 20.1
        # derived: holes lie 11.240 apart, see above
        ("holes", {"diameter": 11.240 - 2.01, "width": 40.0}, {"diameter": 11.240 - 1.99, "width": 40.0}),
    ],
)
def test_wood_is_thin_under_what_is_usual(place: str, enough: dict[str, float], little: dict[str, float]) -> None:
    assert f"wood.{place}" not in told(wood(**enough))
    assert told(wood(**little))[f"wood.{place}"].grade == "look"


@pytest.mark.parametrize(("left", "grade"), [(0.02, "look"), (0.0, "stop")])
def test_no_wood_at_all_stops_the_work(left: float, grade: str) -> None:
    assert told(wood(width=20.1 + left))["wood.behind"].grade == grade


@pytest.mark.parametrize(("turned", "said"), [(1.99, False), (2.01, True)])
def test_a_bridge_is_said_to_be_turned_from_two_millimetres_on(turned: float, said: bool) -> None:
    # common practice, no source: 2 mm; derived: a slot cut square in a bridge seated with it turns it by the strings'
    # slant, which is `turned` over the bridge's 152 where it is turned / 152 × 56 over the strings' 56
    square = bridge(seat="with slot", slot_front=SlotFront(left=9.0, right=9.0), pins=None)
    angle = math.asin(turned / 152.0)
    layout = laid_out(bass=1.0 + 56.0 * math.tan(angle), bridge=square)
    assert ("bridge.turned" in told(layout)) == said


@pytest.mark.parametrize(("past", "said"), [(0.49, False), (0.51, True)])
def test_a_slot_may_reach_half_a_millimetre_past_the_bridges_end(past: float, said: bool) -> None:
    # common practice, no source: 0.5 mm; derived: half the slot is 76 + past from the middle, the bridge's end 76
    layout = laid_out(bass=1.0, bridge=bridge(pins=None), saddle=Saddle(slot_length=152.0 + 2 * past))
    assert ("bridge.short" in told(layout)) == said


def test_the_one_hole_with_the_least_wood_is_named() -> None:
    # a slot that leans in a square bridge whose pins stand in a row with the slot: the bass hole comes nearest the back
    cut = SlotFront(left=9.0, right=12.3)
    made = bridge(outline="straight", width=24.0, pins=Pins(behind_slot=5.6), slot_front=cut)
    found = told(laid_out(bridge=made))["wood.behind"]
    assert "stays behind the hole of string 6;" in found.text


def test_places_across_are_told_from_the_middle_between_the_edges() -> None:
    # derived: edges that run 10 and 2 to the left in 440, from 22 and −20: their middle runs from 1, 6 in 440
    found = place_everything(job(), surveyed(BOARD, {})).neck
    assert found is not None
    rows = len(found.frame.edge)
    frame = msgspec.structs.replace(
        found.frame,
        edge=np.array([[22j, 440.0 - 18.0j]] * rows),
        edge_way=np.array([[440.0 + 10j, 440.0 + 2j]] * rows) / 440.0,
    )
    seen = across(frame, np.array([[600.0 + 5j, -3j]] * rows))
    assert seen[0].tolist() == pytest.approx([5.0 - 1.0 - 6.0 * 600.0 / 440.0, -4.0])
