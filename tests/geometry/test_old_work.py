"""The old work: what shows, and metal in the way."""

import pytest

from geometry.job import Old, OldMetal, OldPin
from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed

FOOTPRINT = ("old.1", "old.2", "old.3", "old.4")


def laid_out(front: float, metal: XY = (650.0, -66.0), seat: str = "square") -> Layout:
    corners: dict[str, XY] = {
        "old.1": (front, 76.0),
        "old.2": (front, -76.0),
        "old.3": (front + 26.0, -76.0),
        "old.4": (front + 26.0, 76.0),
        "metal.1": metal,
        "pin.1": (front + 18.0, 20.0),
    }
    points = BOARD | corners
    old = Old(outline=FOOTPRINT, pins={"pin.1": OldPin(diameter=5.2)}, metal={"metal.1": OldMetal(keep_out=6.0)})
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


def test_metal_under_the_wing_is_said_to_be_clear() -> None:
    assert grades(laid_out(front=628.0))["metal.clear"] == "good"


def test_old_holes_keep_their_size() -> None:
    (hole,) = laid_out(front=628.0).old.pins
    assert (hole.name, hole.diameter) == ("pin.1", 5.2)
    assert hole.at == pytest.approx((646.0, 20.0))
