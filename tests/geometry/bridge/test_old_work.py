"""The old work: what shows, and metal in the way."""

import pytest
from msgspec.structs import replace

from geometry.job import Old, OldMetal, OldPin
from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed

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
