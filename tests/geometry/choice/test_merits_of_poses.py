"""What a place of the bridge is worth, by distances and areas worked out here from where its holes and corners lie."""

import math

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.choice.merits_of_poses import Worth, _reach, _wood_left, goes_round, weigh
from geometry.choice.poses import Base, MovedBridges, Poses, find_base, move_all, slot_corners
from geometry.frame import Points
from geometry.job import Weights
from geometry.layout import BraceLine, Hole, Metal, OldPlan, Ray
from geometry.survey import survey
from geometry.units import mm
from tests.geometry.go_or_wait.test_what_if import sample

CENTRE = Ray(at=(0.0, 0.0), direction=(1.0, 0.0))
STILL = Poses(along=np.zeros(1), across=np.zeros(1), turn=np.zeros(1), goes=np.ones(1, dtype=bool))


def base_of(name: str = "leaning-neck") -> Base:
    found = find_base(sample(name), survey(sample(name)))
    assert found is not None
    assert found.bridge.pins is not None
    return found


BASE = base_of()
MOVED: MovedBridges = move_all(BASE, STILL)
assert MOVED.pins is not None
PINS: Points = MOVED.pins[0]
CORNERS: Points = slot_corners(BASE, MOVED)[0]
assert BASE.bridge.pins is not None
RADIUS = mm(BASE.bridge.pins.diameter) / 2


def worth(old: OldPlan, poses: Poses = STILL, seen: Ray = CENTRE) -> Worth:
    return weigh(BASE, old, seen, poses)


def test_what_a_place_costs() -> None:
    """derived: 2 × 3 + 3 × 5 + 5 × 700 / 100 + 7 × (6 − 2) + 11 × (3 − 1) + 13 × 17, where 3 mm of room are enough"""
    weights = Weights(tune=2.0, margins=3.0, scar=5.0, holes=7.0, clearance=11.0, looks=13.0)
    one = np.ones(1)
    found = Worth(
        cents=np.array([[-3.0, 2.0]]),
        away=one,
        uneven=5 * one,
        scar=700 * one,
        again=2 * one,
        room=one,
        askew=one,
        offset=one,
        wing=17 * one,
        wood=np.ones(1, dtype=bool),
    )
    assert found.cost(weights, holes=6).tolist() == [6 + 15 + 35 + 28 + 22 + 221]
    roomy = replace(found, room=4 * one)
    assert roomy.cost(weights, holes=6).tolist() == [6 + 15 + 35 + 28 + 221]
    assert found.worst_cents.tolist() == [3.0]


def test_room_at_a_brace() -> None:
    """derived: a brace 6 mm wide across the top, behind all; from its side to the nearest pin hole, or the slot"""
    behind = max(float(PINS.real.max()) + RADIUS, float(CORNERS.real.max()))
    for room in (-0.0, 1.5, 2.9):
        at = behind + room + 3.0
        brace = BraceLine(name="main", line=((at, -90.0), (at, 90.0)), width=6.0)
        assert worth(OldPlan(braces=(brace,))).room == pytest.approx([room], abs=1e-6)
    far = BraceLine(name="main", line=((behind + 20, -90.0), (behind + 20, 90.0)), width=6.0)
    assert worth(OldPlan(braces=(far,))).room.tolist() == [3.0]
    before = float(CORNERS.real.min()) - 1.25 - 3.0
    brace = BraceLine(name="main", line=((before, -90.0), (before, 90.0)), width=6.0)
    assert worth(OldPlan(braces=(brace,))).room == pytest.approx([1.25])


def test_room_at_metal_and_at_the_plates_edge() -> None:
    last = complex(PINS[PINS.real.argmax()])
    metal = Metal(name="metal.1", at=(last.real + 8.0, last.imag), keep_out=4.0)
    assert worth(OldPlan(metal=(metal,))).room == pytest.approx([8.0 - 4.0 - RADIUS], abs=0.01)
    for room in (2.0, 0.0, -1.0):
        back = float(PINS.real.max()) + RADIUS + room
        plate = ((back - 60.0, -90.0), (back, -90.0), (back, 90.0), (back - 60.0, 90.0))
        assert worth(OldPlan(plate=plate)).room == pytest.approx([room], abs=1e-6)
    beyond = float(PINS.real.max()) - 5.0  # the last hole lies outside: as far as it does, and its radius
    plate = ((beyond - 60.0, -90.0), (beyond, -90.0), (beyond, 90.0), (beyond - 60.0, 90.0))
    assert worth(OldPlan(plate=plate)).room == pytest.approx([-5.0 - RADIUS])
    assert worth(OldPlan()).room.tolist() == [3.0]


@pytest.mark.parametrize(("beside", "used"), [(0.0, 6), (0.499, 6), (0.501, 0)])
def test_holes_are_used_again_within_half_a_millimetre(beside: float, used: int) -> None:
    """common practice, no source (docs/numbers.md)"""
    holes = tuple(Hole(name=f"pin.{i}", at=(z.real + beside, z.imag), diameter=5.0) for i, z in enumerate(PINS, 1))
    assert worth(OldPlan(pins=holes)).again.tolist() == [used]
    assert worth(OldPlan(pins=holes[:2])).again.tolist() == [min(used, 2)]


def test_what_stays_uncovered_of_an_old_footprint() -> None:
    """derived: a strip 10 mm along and 40 across that begins 2 mm before the front, which is straight and square"""
    front = float(MOVED.front[0].real)
    strip = ((front - 2, -20.0), (front + 8, -20.0), (front + 8, 20.0), (front - 2, 20.0))
    assert worth(OldPlan(outline=strip)).scar == pytest.approx([2 * 40.0], abs=0.5)
    assert worth(OldPlan(outline=strip[:2])).scar.tolist() == [0.0]
    crossed = (strip[0], strip[2], strip[1], strip[3])
    assert worth(OldPlan(outline=crossed)).scar.tolist() == [0.0]


def test_how_a_bridge_stands_to_the_line_that_an_eye_goes_by() -> None:
    """derived: the wings stand askew by the bridge's length times the sine, and off by as much as its middle"""
    turned = Poses(along=np.zeros(1), across=np.zeros(1), turn=np.radians([1.0]), goes=np.ones(1, dtype=bool))
    seen = Ray(at=(0.0, 2.0), direction=(1.0, 0.0))
    straight, found = worth(OldPlan(), seen=seen), worth(OldPlan(), turned, seen)
    assert found.askew - straight.askew == pytest.approx(np.radians([1.0]))
    middle = move_all(BASE, turned).front[0].imag - 2.0
    assert found.offset == pytest.approx([middle])
    length = mm(BASE.bridge.length)
    assert found.wing == pytest.approx([length * abs(math.sin(found.askew[0])) + abs(middle)])


def test_how_far_a_place_is_from_where_the_strings_want_it() -> None:
    moved = Poses(along=np.array([3.0]), across=np.array([-4.0]), turn=np.zeros(1), goes=np.ones(1, dtype=bool))
    found = worth(OldPlan(), moved)
    assert found.away.tolist() == [5.0]
    # derived: 3 mm farther at nominal places of L are 1200 / ln 2 × 3 / L cents
    assert found.cents[0] == pytest.approx(1200 / math.log(2) * 3.0 / BASE.nominal, rel=1e-3)


def test_a_bridge_reaches_as_far_on_both_its_sides() -> None:
    back, front = _reach(BASE)
    half = mm(BASE.bridge.length) / 2
    for y in (0.0, 0.3 * half, 0.9 * half, 2 * half):
        there = np.array([y, -y])
        assert back.at(there)[0] == pytest.approx(back.at(there)[1], abs=1e-6)
        assert front.at(there).tolist() == pytest.approx([0.0, 0.0], abs=1e-6)
    assert back.at(np.array([0.95 * half])) == pytest.approx([mm(BASE.bridge.width)], abs=0.01)


def test_the_wood_that_is_left() -> None:
    """derived: from the slot's front, the pin holes' middles and the bridge's corners as they lie, in plane geometry of
    this test's own; the sample's bridge is straight in front and stands square to the neck
    """
    front, behind, between, at_ends = (float(part[0]) for part in _wood_left(BASE, MOVED))
    bridge, pins = BASE.bridge, BASE.bridge.pins
    assert pins is not None
    middle = MOVED.front[0]
    own = (PINS - middle) * MOVED.tailward[0].conj()
    slot = (CORNERS[:2] - middle).imag
    reach = mm(bridge.length) / 2 - max(np.abs(own.imag).max() + RADIUS, np.abs(slot).max())
    assert at_ends == pytest.approx(reach, abs=1e-6)
    assert front == pytest.approx((CORNERS[:2] - middle).real.min(), abs=1e-6)
    assert between == pytest.approx(mm(pins.behind_slot) - RADIUS, abs=1e-6)
    back, _ = _reach(BASE)
    assert behind == pytest.approx(float((back.at(own.imag) - own.real).min()) - RADIUS, abs=1e-6)
    assert behind > 0


def test_at_the_ends_the_outer_pin_holes_count_where_they_reach_farther_than_the_slot() -> None:
    """derived: half the bridge's length less the outermost hole's middle and half its width, from one hole to the other
    across; with a slot of half that reach the holes, with one that ends past them the slot
    """
    own = (PINS - MOVED.front[0]) * MOVED.tailward[0].conj()
    holes, half = float(np.abs(own.imag).max()) + RADIUS, mm(BASE.bridge.length) / 2
    for slot, reach in ((holes / 2, holes), (holes + 3.0, holes + 3.0)):
        base = replace(BASE, seated=replace(BASE.seated, slot=replace(BASE.seated.slot, length=2 * slot)))
        at_ends = float(_wood_left(base, MOVED)[3][0])
        assert at_ends == pytest.approx(half - reach, abs=0.05)  # slot and bridge turn by a little about each other


def test_a_slot_as_long_as_its_bridge_leaves_no_wood_at_the_ends() -> None:
    bare = replace(
        BASE,
        bridge=replace(BASE.bridge, length=2 * float(np.abs(CORNERS[:2].imag - MOVED.front[0].imag).max()), pins=None),
    )
    assert float(_wood_left(bare, replace(MOVED, pins=None))[3][0]) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("outline", "round_"),
    [
        ((), False),
        (((0.0, 0.0), (9.0, 0.0)), False),
        (((0.0, 0.0), (9.0, 0.0), (9.0, 9.0)), True),
        (((0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)), False),
    ],
)
def test_which_outline_goes_round_wood(outline: tuple[tuple[float, float], ...], round_: bool) -> None:
    """Three corners do; a bow that crosses itself does not."""
    assert goes_round(outline) == round_
