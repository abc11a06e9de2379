"""What a new bridge does to all sorts of old work: each gap against plain geometry, each finding on both its sides."""

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import Brace, Bridge, Old, OldHole, OldMetal, OldPin, OldSlot, Pins
from geometry.layout import XY, Consequences, Gap, Layout
from geometry.old_work.footprint.covering import covering_of
from tests.geometry.made import BOARD
from tests.geometry.old_work.everything import OLD, PLACES, laid, made, told

CLEAR = 1.959963984540054 * 0.1


def pin_places() -> list[XY]:
    """Where the new pin holes lie, whatever is old."""
    bridge = laid(BOARD, Old()).bridge
    assert bridge is not None
    return [pin.at for pin in bridge.pins]


def with_hole(at: XY, diameter: float = 5.0, **changes: Any) -> Layout:
    return laid(BOARD | {"pin.1": at}, Old(pins={"pin.1": OldPin(diameter=diameter)}), **changes)


def codes(layout: Layout) -> dict[str, str]:
    return {finding.code: finding.grade for finding in layout.findings}


def least(found: Consequences, new: str, old: str) -> Gap:
    return min((gap for gap in found.gaps if gap.old == old and gap.new.startswith(new)), key=lambda gap: gap.mm)


@pytest.mark.parametrize(("off", "cut"), [(4.0, True), (4.99, True), (5.01, False), (8.0, False)])
def test_the_wall_between_two_round_holes(off: float, cut: bool) -> None:
    # derived: the distance of the middles less both radii, 2.5 each
    x, y = pin_places()[2]
    (fate,) = told(with_hole((x + off, y))).holes
    wall = next(gap for gap in fate.walls if gap.new == "pin:3")
    assert wall.mm == pytest.approx(off - 5.0, abs=1e-9)
    assert ("pin:3" in fate.cut_by) == cut
    assert wall.pm95 > CLEAR  # the old hole's own place, and the new one's on top


def test_a_new_hole_that_cuts_an_old_one_by_a_millimetre_does_not_pass_without_a_word() -> None:
    x, y = pin_places()[2]
    layout = with_hole((x + 4.0, y))
    (said,) = [finding for finding in layout.findings if finding.code == "old.cut"]
    assert said.grade == "look"
    assert "Plug it first" in said.text
    assert said.values["mm"] == pytest.approx(-1.0)


def test_a_wall_thinner_than_its_pm_is_looked_at_and_a_thicker_one_is_not() -> None:
    x, y = pin_places()[2]
    (fate,) = told(with_hole((x + 9.0, y))).holes
    pm95 = fate.walls[0].pm95
    assert codes(with_hole((x + 5.0 + pm95 * 0.9, y)))["old.thin_wall"] == "look"
    assert "old.thin_wall" not in codes(with_hole((x + 5.0 + pm95 * 1.1, y)))


def test_an_old_hole_that_a_new_one_takes_away_needs_no_plug() -> None:
    x, y = pin_places()[2]
    (fate,) = told(with_hole((x + 0.2, y), diameter=3.0, pins=Pins(diameter=6.0))).holes
    # derived: 0.2 + 1.5 lies within 3.0 by 1.3, beyond every ± here
    assert (fate.used_by, fate.plug, fate.cut_by) == ("pin:3", None, ())
    assert told(with_hole((x + 1.6, y), diameter=3.0, pins=Pins(diameter=6.0))).holes[0].used_by == ""


@pytest.mark.parametrize(
    ("at", "under"), [((640.0, 60.0), "covered"), ((640.0, 75.0), "opened"), ((640.0, 79.0), "bare")]
)
def test_a_hole_is_under_the_bridge_across_its_edge_or_beside_it(at: XY, under: str) -> None:
    # derived: the bridge's wings end 76 beside the middle, the hole's radius is 2.5
    layout = with_hole(at)
    (fate,) = told(layout).holes
    assert fate.under == under
    expected = min(76.0 - at[1] - 2.5, fate.inside.value) if under == "covered" else 76.0 - at[1] - 2.5
    assert fate.inside.value == pytest.approx(expected, abs=1e-9)
    assert ("old.shows" in codes(layout)) == (under != "covered")


def test_the_old_slot_is_told_like_a_hole() -> None:
    found = told(laid())
    slot = next(hole for hole in found.holes if hole.kind == "slot")
    assert slot.under == "covered"
    assert slot.plug is None  # it takes a strip
    apart = told(laid(PLACES | {"slot.1": (690.0, 30.0), "slot.2": (690.0, -30.0)})).holes[-1]
    assert apart.under == "bare"
    assert apart.cut_by == ()


def test_two_slots_side_by_side_leave_what_lies_between_them() -> None:
    # derived: the new slot stands square, its front at 640.8 or so; an old one of 2 mm that lies 10 before it
    slot = laid(BOARD, Old()).saddle
    assert slot is not None
    front = slot.front[0][0]
    places = BOARD | {"slot.1": (front - 10.0, 20.0), "slot.2": (front - 10.0, -20.0)}
    (fate,) = told(laid(places, Old(slot=OldSlot(of=("slot.1", "slot.2"), width=2.0)))).holes
    wall = next(gap for gap in fate.walls if gap.new == "slot")
    assert wall.mm == pytest.approx(10.0 - 1.0)
    crossing = BOARD | {"slot.1": (front - 10.0, 5.0), "slot.2": (front + 12.0, 5.0)}
    (cut,) = told(laid(crossing, Old(slot=OldSlot(of=("slot.1", "slot.2"), width=2.0)))).holes
    assert "slot" in cut.cut_by


def braced(off: float, width: float = 6.0, **changes: Any) -> Layout:
    """A brace along the neck, `off` to the left of the new hole of string 6's place."""
    _, y = max(pin_places(), key=lambda at: at[1])
    places = BOARD | {"b.1": (500.0, y + off), "b.2": (800.0, y + off)}
    return laid(places, Old(braces={"long": Brace(of=("b.1", "b.2"), width=width)}), **changes)


@pytest.mark.parametrize(("gap", "grade"), [(-0.3, "stop"), (0.05, "look"), (3.0, "good")])
def test_a_pin_hole_clears_a_brace_nearly_clears_it_or_runs_into_it(gap: float, grade: str) -> None:
    # derived: from the hole's middle less its radius of 2.5 and half the brace's 6
    layout = braced(gap + 5.5)
    assert least(told(layout), "pin", "brace:long").mm == pytest.approx(gap, abs=1e-9)
    assert codes(layout)["brace.pin"] == grade


def test_a_bent_brace_is_followed_past_its_first_piece() -> None:
    """derived: its second piece runs along the neck 6.5 beside a hole, or across it 10 before the slot, 6 wide"""
    x, y = max(pin_places(), key=lambda at: at[1])
    saddle = laid(BOARD, Old()).saddle
    assert saddle is not None
    front, end = max(saddle.front, key=lambda at: at[1])
    for new, points, wanted, at in (
        ("pin", ((480.0, 95.0), (500.0, y + 6.5), (800.0, y + 6.5)), 1.0, (x, y + 6.5)),
        ("slot", ((500.0, 90.0), (front - 10.0, 60.0), (front - 10.0, -60.0)), 7.0, (front - 10.0, end)),
    ):
        places = BOARD | {f"b.{i}": point for i, point in enumerate(points)}
        found = least(
            told(laid(places, Old(braces={"bent": Brace(of=("b.0", "b.1", "b.2"), width=6.0)}))), new, "brace:bent"
        )
        assert found.mm == pytest.approx(wanted, abs=1e-9)
        assert found.old_xy == pytest.approx(at, abs=1e-9)


def test_a_slot_over_a_brace_matters_where_it_goes_through_the_bridge() -> None:
    over = braced(-10.0)
    assert codes(over)["brace.slot"] == "look"
    assert least(told(over), "slot", "brace:long").mm < 0
    from geometry.job import Saddle
    from geometry.work_out import lay_out
    from tests.geometry.made import bridge, job, scales, six, surveyed

    def deep(slot: float) -> Layout:
        places = BOARD | {"b.1": (500.0, 0.0), "b.2": (800.0, 0.0)}
        old = Old(braces={"long": Brace(of=("b.1", "b.2"))})
        saddle = Saddle(slot_depth=slot)
        made = job(places, strings=six(bass=3.0, treble=3.0), bridge=bridge(thickness=9.0), saddle=saddle, old=old)
        return lay_out(made, surveyed(places, scales(640.0, 640.0)))

    assert "brace.slot" not in codes(deep(6.0))
    assert codes(deep(9.0))["brace.slot"] == "stop"


@pytest.mark.parametrize(("inside", "grade"), [(-0.3, "stop"), (0.05, "look"), (4.0, "good")])
def test_a_pin_hole_must_go_through_the_plate(inside: float, grade: str) -> None:
    # derived: the plate's back edge lies `inside` behind the rim (2.5) of the holes, which stand in a row
    row = max(x for x, _ in pin_places()) + 2.5 + inside
    plate = {"p.1": (600.0, 80.0), "p.2": (600.0, -80.0), "p.3": (row, -80.0), "p.4": (row, 80.0)}
    layout = laid(BOARD | plate, Old(plate=tuple(plate)))
    assert least(told(layout), "pin", "plate").mm == pytest.approx(inside, abs=1e-9)
    assert codes(layout)["plate.pin"] == grade


def test_the_gap_to_metal_has_its_pm() -> None:
    layout = laid()
    gaps = [gap for gap in told(layout).gaps if gap.old == "metal:metal.1"]
    assert len(gaps) == 7
    assert all(gap.pm95 > CLEAR for gap in gaps)
    assert least(told(layout), "", "metal:metal.1").mm == pytest.approx(min(gap.mm for gap in gaps))
    assert "metal.in_the_way" not in codes(laid(old=replace(OLD, metal={"metal.1": OldMetal(keep_out=1.0)})))


def test_plugs_are_grouped_by_size_and_lie_with_the_tops_grain() -> None:
    found = told(laid())
    # common practice, no source: plug cutters of 6 and 8 mm; a hole is drilled out by 0.2 at the least
    assert {plugs.diameter: len(plugs.holes) for plugs in found.plugs} == {6.0: 7}
    wide = told(laid(old=replace(OLD, holes={"screw": OldHole(diameter=5.9)})))
    assert {plugs.diameter: plugs.holes for plugs in wide.plugs}[8.0] == ("screw",)
    assert {plugs.grain for plugs in wide.plugs} == {"face"}
    huge = told(laid(old=replace(OLD, holes={"screw": OldHole(diameter=30.0)})))
    assert next(hole for hole in huge.holes if hole.hole == "screw").plug is None


def test_holes_of_the_row_that_nobody_read_are_assumed_between_those_that_were() -> None:
    holes = [hole for hole in told(laid()).holes if hole.kind == "pin"]
    assert [hole.assumed for hole in holes] == [False, True, True, True, True, False]
    # derived: the ± halfway between two independent places is that of either, over √2, but for the bridge's own
    assert min(hole.inside.pm95 for hole in holes) > CLEAR / math.sqrt(2)


def test_wing_tips_to_the_bodys_edges() -> None:
    square = {
        f"body.{n}": at for n, at in enumerate([(500.0, 200.0), (500.0, -190.0), (800.0, -190.0), (800.0, 200.0)], 1)
    }
    found = told(laid(BOARD | square, Old()))
    # derived: the edges lie 200 and 190 beside the middle, the wings' tips 76
    assert {wing.side: round(wing.to_edge.value, 6) for wing in found.wings} == {"left": 124.0, "right": 114.0}
    assert all(wing.to_edge.pm95 > 0 for wing in found.wings)


def test_the_bridge_against_the_seam_and_the_bodys_long_axis() -> None:
    turn = math.radians(1.0)
    body = [complex(x, y) for x, y in ((-250, 180), (-250, -180), (250, -180), (250, 180), (0, 150), (0, -150))]
    order = (0, 5, 1, 2, 4, 3)
    ring = [body[k] for k in (0, 4, 3, 2, 5, 1)]
    assert len(order) == len(ring)
    placed = {f"body.{n}": z * complex(math.cos(turn), math.sin(turn)) + 650 + 3j for n, z in enumerate(ring, 1)}
    places = BOARD | {name: (z.real, z.imag) for name, z in placed.items()}
    places |= {"seam.1": (500.0, 2.0), "seam.2": (800.0, 2.0)}
    seen = {one.against: one for one in told(laid(places, Old(), outline="straight")).seen}
    # derived: the seam lies 2 to the left and along the neck, so the bridge's middle lies 2 to its right
    assert seen["seam"].offset.value == pytest.approx(-2.0)
    assert seen["seam"].turn.value == pytest.approx(0.0, abs=1e-9)
    # derived: the body is a mirror image about its own axis, which was turned by a degree
    assert seen["body"].turn.value == pytest.approx(-turn)
    bridge = laid(places, Old(), outline="straight").bridge
    assert bridge is not None
    middle = sum(complex(*corner) for corner in bridge.corners) / 4
    off = (middle - (650 + 3j)) * complex(math.cos(turn), -math.sin(turn))
    assert seen["body"].offset.value == pytest.approx(off.imag, abs=1e-6)


def test_without_anything_to_compare_with_nothing_follows() -> None:
    assert laid(BOARD, Old()).consequences is None


MIRROR = {"left": "right", "right": "left", "left wing": "right wing", "right wing": "left wing"}


def flat(layout: Layout, bridge: Bridge) -> dict[str, tuple[float, ...]]:
    """All that follows, in numbers by name."""
    found = told(layout)
    numbers: dict[str, tuple[float, ...]] = {}
    for name in ("cover", "scar_area", "finish_clear", "finish_save"):
        amount = getattr(found, name)
        if amount is not None:
            numbers[name] = (amount.value, amount.pm95)
    numbers |= {f"scar {side.side}": (side.widest.value, side.widest.pm95) for side in found.scar_sides}
    numbers |= {f"area {area.name}": (area.area.value, area.area.pm95) for area in found.areas}
    gaps = [*found.gaps, *(gap for hole in found.holes for gap in hole.walls)]
    numbers |= {f"{gap.new} {gap.old}": (gap.mm, gap.pm95) for gap in gaps}
    numbers |= {f"inside {hole.hole}": (hole.inside.value, hole.inside.pm95) for hole in found.holes}
    numbers |= {f"wing {wing.side}": (wing.to_edge.value, wing.to_edge.pm95) for wing in found.wings}
    for seen in found.seen:
        numbers[f"turned {seen.against}"] = (seen.turn.value, seen.offset.value)
        numbers[f"turned ± {seen.against}"] = (seen.turn.pm95, seen.offset.pm95)
    cover = covering_of(bridge, layout)
    if cover is not None:
        numbers["covering"] = (cover.length, cover.width, cover.front, cover.area, cover.uncovered, *cover.margin)
    return numbers


BRIDGES = st.fixed_dictionaries(
    {
        "outline": st.sampled_from(
            ["straight", "belly", "reversed belly", "stepped wings", "tapered wings", "pyramid"]
        ),
        "length": st.floats(120.0, 180.0),
        "width": st.floats(20.0, 40.0),
        "seat": st.sampled_from(["square", "with slot", "old footprint"]),
    }
)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(BRIDGES, st.lists(st.floats(-3.0, 3.0), min_size=2 * len(PLACES), max_size=2 * len(PLACES)))
def test_a_mirrored_job_mirrors_every_answer(changes: dict[str, Any], moves: list[float]) -> None:
    places = {name: (x + moves[2 * n], y + moves[2 * n + 1]) for n, (name, (x, y)) in enumerate(PLACES.items())}
    there = {swapped(name): (x, -y) for name, (x, y) in places.items()}
    bridge = made(**changes).bridge
    assert bridge is not None
    one, other = flat(laid(places, **changes), bridge), flat(laid(there, hand="left", **changes), bridge)
    assert {swapped(name) for name in one} == set(other)
    for name, values in one.items():
        sign = -1.0 if name.startswith("turned ") and "±" not in name else 1.0
        assert other[swapped(name)] == pytest.approx([sign * value for value in values], rel=1e-5, abs=1e-5), name


def swapped(name: str) -> str:
    parts = name.split(" ", 1)
    if parts[0] in ("scar", "wing") and len(parts) > 1:
        return f"{parts[0]} {MIRROR.get(parts[1], parts[1])}"
    return ".".join(MIRROR.get(part, part) for part in name.split("."))


def test_a_hole_outside_the_top_is_said_in_one_sentence() -> None:
    # derived: the body's points reach 196 beside the middle; a body's edge may curve out 20 farther
    far, near = (laid(PLACES | {"screw": (660.0, y)}) for y in (240.0, 205.0))
    (said,) = [finding for finding in far.findings if finding.code == "old.off_top"]
    assert said.text.startswith("Outside the body’s outline: the old hole “screw”.")
    assert "old.off_top" not in codes(near)


@pytest.mark.parametrize(("count", "told"), [(2, False), (3, True)])
def test_three_points_of_a_body_tell_what_lies_outside_it_and_two_do_not(count: int, told: bool) -> None:
    # derived: a triangle over all that is old; the screw lies 240 beside the middle, where it is 40 wide or less
    body = {"body.1": (400.0, 250.0), "body.2": (1400.0, 0.0), "body.3": (400.0, -250.0)}
    places = {name: at for name, at in PLACES.items() if not name.startswith("body.")} | {"screw": (1300.0, 240.0)}
    found = laid(places | dict(list(body.items())[:count]))
    assert ("old.off_top" in codes(found)) == told


@pytest.mark.parametrize(("corners", "known"), [(2, False), (3, True)])
def test_three_corners_make_a_footprint_and_two_do_not(corners: int, known: bool) -> None:
    """derived: the new front edge is square to the board's line, and so is how far it lies from the old corners"""
    names = ("old.1", "old.2", "old.3")[:corners]
    layout = laid(old=replace(OLD, outline=names), outline="straight")
    found = told(layout)
    assert (found.moves is not None, found.cover is not None) == (known, known)
    assert (found.footprint_pm95 != (0.0, 0.0)) == known
    if found.moves is not None and layout.bridge is not None:
        (front, _), *_ = layout.bridge.corners
        (left, one), (right, other), _ = (PLACES[name] for name in names)
        found_by = [amount.value for amount in (found.moves.left, found.moves.right, found.moves.across)]
        assert found_by == pytest.approx([front - left, front - right, -(one + other) / 2], abs=1e-6)


@pytest.mark.parametrize(("count", "known"), [(2, False), (3, True)])
def test_three_points_of_the_body_make_an_edge_for_the_wings_and_two_do_not(count: int, known: bool) -> None:
    """derived: a triangle round the bridge is met along the bridge on both sides; two points are one line"""
    body = {"body.1": (400.0, 300.0), "body.2": (900.0, 290.0), "body.3": (600.0, -400.0)}
    others = {name: at for name, at in PLACES.items() if not name.startswith("body.")}
    wings = told(laid(others | dict(list(body.items())[:count]))).wings
    assert bool(wings) is known
    if known:
        (bridge,) = (wing for wing in wings if wing.side == "left")
        rise = (290.0 - 300.0) / (900.0 - 400.0)
        assert bridge.edge_xy[1] == pytest.approx(300.0 + rise * (bridge.edge_xy[0] - 400.0), abs=1e-6)


def test_holes_between_two_that_nobody_spoke_of_are_asked_for_until_their_number_is_said() -> None:
    two = replace(OLD, row=None)
    # derived: from (648, −27) to (650, 26) it is √(2² + 53²) = 53.04
    (asked,) = (found for found in laid(old=two).findings if found.code == "old.row")
    assert asked.grade == "look"
    assert asked.values == {"mm": pytest.approx(53.04, abs=0.005)}
    assert asked.text.startswith("Between old pin hole 1 and old pin hole 6 no hole was read")
    for said in (2, 6):
        assert "old.row" not in codes(laid(old=replace(OLD, row=said)))


@pytest.mark.parametrize(("apart", "asked"), [(19.9, False), (20.1, True)])
def test_two_holes_that_may_be_neighbours_are_no_row_with_a_gap(apart: float, asked: bool) -> None:
    """20 mm: common practice, no source."""
    near = PLACES | {"pin.1": (650.0, 0.0), "pin.6": (650.0, apart)}
    assert ("old.row" in codes(laid(near, replace(OLD, row=None)))) == asked


def test_holes_that_are_assumed_are_told_as_one() -> None:
    """derived: a row 60 mm farther from the nut than where it was lies behind any bridge that is 26 mm wide"""
    behind = PLACES | {"pin.1": (708.0, -27.0), "pin.6": (710.0, 26.0)}
    (shows,) = (found for found in laid(behind).findings if found.code == "old.shows")
    assert "old pin hole 1, old pin hole 6" in shows.text
    assert "4 assumed holes between those that were read" in shows.text
