"""The old work: what shows, and metal in the way."""

import math

import numpy as np
import pytest
from msgspec.structs import replace
from shapely import Polygon

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.findings import Finding
from geometry.job import Job, Old, OldMetal, OldPin
from geometry.layout import Consequences, Gap, Layout, Metal, OldPlan
from geometry.old_work.inside import metal as metal_of
from geometry.saddle.saddle_line import Slot
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, Pins, bridge, job, scales, six, surveyed

FOOTPRINT = ("old.1", "old.2", "old.3", "old.4")


def laid_out(front: float, metal: XY = (650.0, -66.0), seat: str = "square", keep_out: float = 6.0) -> Layout:
    corners: dict[str, XY] = {
        "old.1": (front, 76.0),
        "old.2": (front, -76.0),
        "old.3": (front + 26.0, -76.0),
        "old.4": (front + 26.0, 76.0),
        "metal.1": metal,
        "pin.1": (front + 18.0, 20.0),
    }
    points = BOARD | corners
    old = Old(outline=FOOTPRINT, pins={"pin.1": OldPin(diameter=5.2)}, metal={"metal.1": OldMetal(keep_out=keep_out)})
    made = job(points, strings=six(bass=3.0, treble=3.0), bridge=bridge(seat=seat, outline="straight"), old=old)
    return lay_out(made, surveyed(points, scales(640.0, 640.0)))


def grades(layout: Layout) -> dict[str, str]:
    return {finding.code: finding.grade for finding in layout.findings}


def test_what_the_new_bridge_leaves_bare_in_front_is_measured() -> None:
    # derived: both are square, 152 × 26; the new front lies `new` mm back, so the bare strip is new − 628 wide
    layout = laid_out(front=628.0)
    assert layout.bridge is not None
    new = layout.bridge.corners[0][0]
    assert new > 628.0
    assert layout.old.scar_widths == pytest.approx({"front": new - 628.0}, abs=1e-6)


def test_a_bridge_seated_on_the_old_footprint_leaves_no_scar() -> None:
    layout = laid_out(front=630.0, seat="old footprint")
    assert layout.bridge is not None
    assert layout.bridge.corners[0] == pytest.approx((630.0, 76.0), abs=1e-9)
    assert layout.old.scar_widths == {}
    # both are 152 by 26 mm, so that the edges of the two are one, and the ± of the old corners can show
    assert grades(layout)["scar.may_show"] == "look"


def test_a_bridge_that_is_larger_all_round_surely_covers_the_old_footprint() -> None:
    # derived: the footprint lies 1 mm inside the front, 1 inside each wing
    layout = footprint((632.0, 75.0), (632.0, -75.0), (650.0, -75.0), (650.0, 75.0))
    assert layout.bridge is not None
    assert layout.consequences is not None
    assert layout.consequences.cover is not None
    assert layout.consequences.cover.value == pytest.approx(min(1.0, 632.0 - layout.bridge.corners[0][0]), abs=1e-6)
    assert grades(layout)["scar"] == "good"


def test_metal_near_the_slot_stops_the_work() -> None:
    assert grades(laid_out(front=628.0, metal=(646.0, 10.0)))["metal.in_the_way"] == "stop"


def test_metal_in_the_slot_stops_the_work_whatever_is_to_be_kept_clear() -> None:
    slot = laid_out(front=628.0).saddle
    assert slot is not None
    middle = sum(complex(*corner) for corner in slot.slot) / 4
    found = laid_out(front=628.0, metal=(middle.real, middle.imag), keep_out=0.0)
    assert grades(found)["metal.in_the_way"] == "stop"


def test_metal_under_the_wing_is_said_to_be_clear() -> None:
    assert grades(laid_out(front=628.0))["metal.clear"] == "good"


def test_old_holes_keep_their_size() -> None:
    (hole,) = laid_out(front=628.0).old.pins
    assert (hole.name, hole.diameter) == ("pin.1", 5.2)
    assert hole.at == pytest.approx((646.0, 20.0))


def footprint(*corners: XY, **changes: object) -> Layout:
    """A footprint with these corners under a bridge whose front is at 630 or so, 152 × 26 with a belly of 10.9."""
    named = {f"old.{i}": at for i, at in enumerate(corners, 1)}
    points = BOARD | named
    made = job(points, strings=six(bass=3.0, treble=3.0), bridge=bridge(**changes), old=Old(outline=tuple(named)))
    return lay_out(made, surveyed(points, scales(640.0, 640.0)))


def test_a_bridge_in_the_midst_of_a_larger_footprint_leaves_a_ring_in_two_halves() -> None:
    layout = footprint((620.0, 90.0), (620.0, -90.0), (680.0, -90.0), (680.0, 90.0))
    assert len(layout.old.scar) == 2
    assert set(layout.old.scar_widths) == {"front", "back", "left wing", "right wing"}
    assert layout.old.scar_widths["left wing"] == pytest.approx(14.0)  # derived: 90 − 76
    for ring in layout.old.scar:
        assert len({y > 1e-6 for _, y in ring if abs(y) > 1e-6}) == 1


def test_a_ring_loses_nothing_where_its_halves_meet() -> None:
    # derived: 60 by 180 round a bridge of 152 by 26 leaves 6848 mm² bare
    layout = footprint((620.0, 90.0), (620.0, -90.0), (680.0, -90.0), (680.0, 90.0), outline="straight")
    assert sum(Polygon(ring).area for ring in layout.old.scar) == pytest.approx(60 * 180 - 152 * 26)
    assert layout.bridge is not None
    front = layout.bridge.corners[0][0]
    assert layout.old.scar_widths == pytest.approx(
        {"front": front - 620.0, "back": 654.0 - front, "left wing": 14.0, "right wing": 14.0}
    )


def test_what_is_bare_lies_where_the_old_corners_do() -> None:
    corners = ((620.0, 90.0), (620.0, -90.0), (680.0, -90.0), (680.0, 90.0))
    layout = footprint(*corners, seat="with slot")
    drawn = [at for ring in layout.old.scar for at in ring]
    for corner in corners:
        assert min(math.dist(at, corner) for at in drawn) < 1e-9


@pytest.mark.parametrize(("bare", "shows"), [(0.19, False), (0.21, True)])
def test_a_scar_is_said_from_a_fifth_of_a_millimetre_on(bare: float, shows: bool) -> None:
    # common practice, no source: 0.2 mm
    front = footprint((640.0, 5.0), (640.0, -5.0), (645.0, 0.0)).bridge
    assert front is not None
    x = front.corners[0][0]
    layout = footprint((x - bare, 70.0), (x - bare, -70.0), (x + 20.0, -70.0), (x + 20.0, 70.0))
    assert ("front" in layout.old.scar_widths) == shows


@pytest.mark.parametrize(("wide", "drawn"), [(0.9, False), (1.1, True)])
def test_a_piece_is_drawn_from_half_a_square_millimetre_on(wide: float, drawn: bool) -> None:
    # common practice, no source: 0.5 mm²; derived: a strip 0.5 deep and so wide
    front = footprint((640.0, 5.0), (640.0, -5.0), (645.0, 0.0)).bridge
    assert front is not None
    x = front.corners[0][0]
    layout = footprint((x - 0.5, wide / 2), (x - 0.5, -wide / 2), (x + 9.0, -wide / 2), (x + 9.0, wide / 2))
    assert bool(layout.old.scar) == drawn


def test_what_shows_behind_a_belly_is_measured_from_the_belly() -> None:
    # derived: the old back 4 mm behind the belly's crown, in a strip 10 wide in its middle
    layout = footprint((640.0, 5.0), (640.0, -5.0), (690.0, -5.0), (690.0, 5.0))
    assert layout.bridge is not None
    crown = layout.bridge.corners[0][0] + 26.0 + 0.42 * 26.0
    assert layout.old.scar_widths == pytest.approx({"back": 690.0 - crown}, abs=0.3)


@pytest.mark.parametrize("order", [(0, 2, 1, 3), (0, 1)])
def test_corners_that_go_round_nothing_are_said(order: tuple[int, ...]) -> None:
    square = ((630.0, 76.0), (630.0, -76.0), (656.0, -76.0), (656.0, 76.0))
    layout = footprint(*(square[i] for i in order))
    assert grades(layout)["old.crossed"] == "look"
    assert "scar" not in grades(layout)


def test_metal_that_was_only_measured_is_kept_clear_of_all_the_same() -> None:
    points: dict[str, XY] = BOARD | {"metal.7": (641.0, 10.0)}
    made = job(points, strings=six(bass=3.0, treble=3.0), bridge=bridge())
    layout = lay_out(made, surveyed(points, scales(640.0, 640.0)))
    assert grades(layout)["metal.in_the_way"] == "stop"
    assert layout.old.metal[0].keep_out == 6.0  # common practice, no source


def test_holes_whose_rims_were_read_need_no_old_block() -> None:
    points: dict[str, XY] = BOARD | {"pin.1": (655.0, 20.0)}
    found = surveyed(points, scales(640.0, 640.0))
    report = replace(found.report, diameters={"pin.1": 5.4})
    layout = lay_out(job(points), replace(found, report=report))
    assert [(hole.name, hole.diameter) for hole in layout.old.pins] == [("pin.1", 5.4)]


FRONT = math.sqrt(640**2 / (1 + (9 / 640) ** 2)) + 3.0 - 1.5
"""The slot's front edge under `six(3, 3)`. derived: the outer strings run from 19 to 28 beside the middle at 640 along,
so their nominal places lie 640 cos atan(9 / 640) from the nut; 3 of compensation, half of the slot's thickness of 3
before it. All strings want the same, so the slot stands square, from `FRONT` to `FRONT` + 3 and 28 + 10 to either side.
"""


def metal(at: XY, keep_out: float = 6.0, **changes: object) -> Finding:
    """What is said of metal at a place near a slot in a bridge without pins."""
    points = BOARD | {"metal.1": at}
    old = Old(metal={"metal.1": OldMetal(keep_out=keep_out)})
    made = job(points, strings=six(bass=3.0, treble=3.0), bridge=bridge(**({"pins": None} | changes)), old=old)
    found = lay_out(made, surveyed(points, scales(640.0, 640.0))).findings
    return next(one for one in found if one.code.startswith("metal."))


@pytest.mark.parametrize(
    ("at", "room"),
    [
        ((FRONT - 8.0, 0.0), 8.0),
        ((FRONT + 3.0 + 8.0, 0.0), 8.0),  # from the back edge, not from the front
        ((FRONT + 1.0, 38.0 + 8.0), 8.0),
        ((FRONT + 1.0, -38.0 - 8.0), 8.0),
        ((FRONT - 3.0, 38.0 + 4.0), 5.0),  # derived: 3, 4, 5 from the front left corner
        ((FRONT + 3.0 + 3.0, -38.0 - 4.0), 5.0),
        ((FRONT + 0.5, 37.0), -0.5),  # inside it: less than nought by how far in it lies
        ((FRONT + 2.9, -37.0), -0.1),
    ],
)
def test_metals_room_is_to_the_slots_nearest_edge(at: XY, room: float) -> None:
    assert metal(at).values["room"] == pytest.approx(room, abs=1e-6)


def test_metals_room_is_to_a_pin_holes_rim_where_that_is_nearer() -> None:
    # derived: six alike strings have one row of holes 5.5 behind the slot; the first lies where its path from (0, 19)
    # to (FRONT + 1.5, 28) crosses the row, and metal 9 behind its centre is 9 − 2.5 from the rim of a 5 mm hole
    row = FRONT + 3.0 + 5.5
    hole = (row, 19.0 + 9.0 * row / (FRONT + 1.5))
    found = metal((hole[0] + 9.0, hole[1]), pins=Pins())
    assert found.values["room"] == pytest.approx(6.5, abs=1e-6)
    assert found.code == "metal.clear"


@pytest.mark.parametrize(("room", "code"), [(5.99, "metal.in_the_way"), (6.01, "metal.near"), (8.0, "metal.clear")])
def test_metal_is_in_the_way_from_its_keep_out_on_and_near_within_its_own_pm(room: float, code: str) -> None:
    assert metal((FRONT + 3.0 + room, 0.0), keep_out=6.0).code == code


@pytest.mark.parametrize(("beside", "code"), [(-0.01, "metal.in_the_way"), (0.01, "metal.near"), (2.0, "metal.clear")])
def test_metal_that_needs_no_room_is_in_the_way_only_in_the_slot(beside: float, code: str) -> None:
    assert metal((FRONT + 1.0, 38.0 + beside), keep_out=0.0).code == code


@pytest.mark.parametrize(
    ("slot", "pin", "code", "room"),
    [
        # derived: 7.0 − 2.2 is less than 6.5 − 0.4 and than the 6 that is to be kept clear; 5.9 is in the way by itself
        ((7.0, 2.2), (6.5, 0.4), "metal.near", 7.0),
        ((7.0, 0.4), (6.5, 0.4), "metal.clear", 6.5),
        ((7.0, 2.2), (5.9, 0.4), "metal.in_the_way", 5.9),
    ],
)
def test_the_gap_that_tells_is_the_least_with_its_pm(slot: XY, pin: XY, code: str, room: float) -> None:
    gaps = tuple(
        Gap(new=new, old="metal:bolt", mm=mm, pm95=pm95, new_xy=(0.0, 0.0), old_xy=(0.0, 0.0))
        for new, (mm, pm95) in (("slot", slot), ("pin:1", pin))
    )
    plan = OldPlan(metal=(Metal(name="bolt", at=(0.0, 0.0), keep_out=6.0),))
    straight = Slot(middle=np.array([9 + 0j]), leftward=np.array([1j]), length=70.0, thickness=3.0, peak=1.5)
    seated = SeatedBridge(front=np.zeros(1, dtype=complex), tailward=np.ones(1, dtype=complex), slot=straight)
    (found,) = metal_of.findings(Job(), plan, bridge(), seated, Consequences(gaps=gaps))
    assert (found.code, found.values["room"]) == (code, room)


@pytest.mark.parametrize(
    ("back", "left", "under"),
    [
        (0.1, 70.0, True),
        (-0.1, 70.0, False),
        (25.9, -70.0, True),
        (26.1, -70.0, False),
        (5.0, 75.9, True),
        (5.0, 76.1, False),
        (5.0, -75.9, True),
        (5.0, -76.1, False),
    ],
)
def test_metal_is_said_to_be_under_the_bridge_where_it_is(back: float, left: float, under: bool) -> None:
    # derived: the bridge's front lies 0.38 × 26 before the slot's, and it is 152 by 26
    said = metal((FRONT - 0.38 * 26.0 + back, left)).text
    assert said.startswith("Metal 1 lies under the bridge") == under


@pytest.mark.parametrize(("deepest", "missed"), [(0.0, 0.0), (0.25, 0.25), (0.5, 0.5), (0.75, 0.25), (1.0, 0.0)])
def test_what_a_traced_bridge_shows_is_measured_at_each_millimetre(deepest: float, missed: float) -> None:
    """derived: its front falls back by 8 from the corners to one place, on the longer side of it by 8 in 76 mm and what
    that place lies off the middle; the footprint lies 2 before it all along, from 60 to -60, and is measured from there
    """
    hollow = ((0.0, 76.0), (8.0, deepest), (0.0, -76.0), (26.0, -76.0), (26.0, 76.0))
    usual = footprint((640.0, 9.0), (640.0, -9.0), (645.0, 0.0), outline="traced", traced=hollow)
    assert usual.bridge is not None
    front = usual.bridge.corners[0][0]
    corners = ((front - 2.0, 60.0), (front - 2.0, -60.0), (front + 20.0, -60.0), (front + 20.0, 60.0))
    widths = footprint(*corners, outline="traced", traced=hollow).old.scar_widths
    beside = 76.0 + deepest if deepest <= 0.5 else 76.0 - deepest
    assert widths["front"] == pytest.approx(10.0 - 8.0 * missed / beside, abs=1e-6)
