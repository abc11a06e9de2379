"""What speaks for each pose: tune, margins, scar, old holes, clearance, looks, and the wood round the slot.

All in the adjusted state; the place that is then taken carries its ± in the layout as any other does.
"""

from typing import TYPE_CHECKING

import msgspec
import numpy as np
from numpy.typing import NDArray

from geometry.bridge.wood_left import WOOD
from geometry.choice.poses import Base, MovedBridges, Poses, Truths, move_all, slot_corners
from geometry.frame import Array, Points, cross
from geometry.job.place_choice import Weights
from geometry.job.sides import SIDES
from geometry.layout import XY, Hole, OldPlan, Ray, Where
from geometry.old_work.gaps.uncovered import followed, shape
from geometry.spacing import CENTS
from geometry.units import mm

if TYPE_CHECKING:
    from shapely import Geometry

Shapes = NDArray[np.object_]
USED_AGAIN = 0.5
"""A new pin hole whose centre lies nearer to an old one's than this, mm, uses it again: the reamer follows the old one
(common practice, no source)."""
ROOM = 3.0
"""Room at braces and at the plate's edge beyond which more is of no use, mm (common practice, no source)."""
HUNDRED = 100.0
"""mm²: what a scar is weighed by."""
ALONG = 401
"""At so many places along the bridge its front and back are known for the wood behind the holes."""


class Worth(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Of each pose (n,): `cents` out at the outer strings, left first (n, 2); `away` how far the bridge lies from where
    the strings want it, mm; `uneven` mm by which the outer strings' margins differ at the board's end, or at fret 12;
    `scar` mm² uncovered; `again` old pin holes used again; `room` mm of the least room at braces, plate and metal,
    `ROOM` where nothing is near; `askew` radians against the seam and `offset` mm of the bridge's middle from it,
    `wing` mm by which the wings stand askew and off; `wood` whether enough is left of it.
    """

    cents: Array
    away: Array
    uneven: Array
    scar: Array
    again: Array
    room: Array
    askew: Array
    offset: Array
    wing: Array
    wood: Truths

    @property
    def worst_cents(self) -> Array:
        """The worse of the two outer strings, without its sign."""
        return np.asarray(np.abs(self.cents).max(axis=1))

    def taken(self, which: object) -> "Worth":
        """That of some poses."""
        return Worth(**{name: getattr(self, name)[which] for name in self.__struct_fields__})

    def cost(self, weights: Weights, holes: int) -> Array:
        """What a pose costs under these weights; `holes` old pin holes could be used again."""
        return np.asarray(
            weights.tune * self.worst_cents
            + weights.margins * self.uneven
            + weights.scar * self.scar / HUNDRED
            + weights.holes * (holes - self.again)
            + weights.clearance * np.maximum(ROOM - self.room, 0.0)
            + weights.looks * self.wing
        )


def weigh(base: Base, old: OldPlan, seen: Ray, poses: Poses) -> Worth:
    """What speaks for each pose against this old work; `seen` is the line that an eye goes by: the seam, or the neck
    centre line where none was read.
    """
    bridges = move_all(base, poses)
    off = bridges.given - bridges.wanted
    askew, offset = _looks(bridges, seen)
    length = mm(base.bridge.length)
    return Worth(
        cents=CENTS / base.nominal * off,
        away=np.hypot(poses.along, poses.across),
        uneven=_uneven(base, bridges),
        scar=_scar(base, bridges, old),
        again=_again(bridges, old),
        room=_room(base, bridges, old),
        askew=askew,
        offset=offset,
        wing=length * np.abs(np.sin(askew)) + np.abs(offset),
        wood=_wood(base, bridges),
    )


def _looks(bridges: MovedBridges, seen: Ray) -> tuple[Array, Array]:
    """The bridge's angle to the line (n,) and the offset of its front's middle from it, + to the left."""
    at, way = complex(*seen.at), complex(*seen.direction)
    return np.angle(bridges.tailward * np.conj(way)), cross(np.array(way), bridges.front - at)


def _uneven(base: Base, bridges: MovedBridges) -> Array:
    places = [place for place, _ in base.where]
    last: Where = "board end" if "board end" in places else "fret 12"
    left, right = (base.where.index((last, side)) for side in SIDES)
    return np.asarray(np.abs(bridges.margins[:, left] - bridges.margins[:, right]))


def goes_round(outline: tuple[XY, ...]) -> bool:
    """Whether an outline goes round a piece of wood, so that there is a scar to hide."""
    if len(outline) < 3:
        return False
    import shapely  # a tenth of a second that a start-up need not pay

    return bool(shapely.Polygon(outline).is_valid)


def read_pins(old: OldPlan) -> tuple[Hole, ...]:
    """The old pin holes that were read, not assumed."""
    return tuple(hole for hole in old.pins if not hole.assumed)


def _scar(base: Base, bridges: MovedBridges, old: OldPlan) -> Array:
    """mm² of the old footprint that stay uncovered."""
    if not goes_round(old.outline):
        return np.zeros(len(bridges.front))
    import shapely

    footprint = shapely.Polygon(old.outline)
    outlines = bridges.placed(followed(base.bridge))
    return np.asarray(shapely.area(shapely.difference(footprint, _polygons(outlines))), dtype=np.float64)


def _polygons(outlines: Points) -> Shapes:
    import shapely

    return np.asarray(shapely.polygons(np.stack((outlines.real, outlines.imag), axis=-1)), dtype=np.object_)


def _again(bridges: MovedBridges, old: OldPlan) -> Array:
    """How many old pin holes a new one uses again."""
    if bridges.pins is None or not read_pins(old):
        return np.zeros(len(bridges.front))
    holes = np.array([complex(*hole.at) for hole in read_pins(old)])
    apart = np.abs(bridges.pins[:, :, None] - holes).min(axis=1)
    return np.asarray((apart < USED_AGAIN).sum(axis=1), dtype=np.float64)


def _room(base: Base, bridges: MovedBridges, old: OldPlan) -> Array:
    """The least room, mm: slot and pin holes at braces and metal's keep-out, pin holes within the plate's edge. Less
    than 0 is how deep a pin hole runs in, or the slot's overlap shared out along its length.
    """
    import shapely

    least = np.full(len(bridges.front), ROOM)
    avoid: list[Geometry] = [shapely.LineString(brace.line).buffer(brace.width / 2) for brace in old.braces]
    avoid += [shapely.Point(metal.at).buffer(metal.keep_out) for metal in old.metal]
    pins, radius = bridges.pins, mm(base.bridge.pins.diameter) / 2 if base.bridge.pins else 0.0
    if avoid:
        kept = shapely.union_all(avoid)
        slots = _polygons(slot_corners(base, bridges))
        over = shapely.area(shapely.intersection(kept, slots)) / base.seated.slot.length
        least = np.minimum(least, np.where(over > 0, -over, shapely.distance(kept, slots)))
        if pins is not None:
            spots = _spots(pins)
            deep = np.where(shapely.contains(kept, spots), shapely.distance(shapely.boundary(kept), spots), 0.0)
            least = np.minimum(least, (shapely.distance(kept, spots) - deep).min(axis=1) - radius)
    if pins is not None and len(old.plate) > 2 and (plate := shapely.Polygon(old.plate)).is_valid:
        spots = _spots(pins)
        inside = np.where(shapely.contains(plate, spots), 1.0, -1.0) * shapely.distance(plate.exterior, spots)
        least = np.minimum(least, inside.min(axis=1) - radius)
    return np.asarray(least)


def _spots(points: Points) -> Shapes:
    import shapely

    return np.asarray(shapely.points(points.real, points.imag), dtype=np.object_)


def _wood(base: Base, bridges: MovedBridges) -> Truths:
    """Whether as much wood as is usual stays in front of the slot, behind it or the pin holes, between both, and at the
    bridge's ends, or as much as there is where the strings want the bridge, if that is less.
    """
    still = move_all(base, Poses(along=np.zeros(1), across=np.zeros(1), turn=np.zeros(1), goes=np.zeros(1, dtype=bool)))
    enough = np.ones(len(bridges.front), dtype=bool)
    leasts = (*(WOOD[place][0] for place in ("front", "behind", "between")), 0.0)
    for least, left, usual in zip(leasts, _wood_left(base, bridges), _wood_left(base, still), strict=True):
        enough &= left >= min(least, float(usual[0])) - 1e-6
    return enough


def _wood_left(base: Base, bridges: MovedBridges) -> tuple[Array, Array, Array, Array]:
    """Wood in front of the slot, behind the pin holes or, without any, the slot, between slot and pin holes, and from
    these to the bridge's ends, (n,) mm.
    """
    back, front = _reach(base)
    half, thick = base.seated.slot.length / 2, base.seated.slot.thickness
    square, way = -1j * bridges.leftward, bridges.leftward
    ends = np.stack((bridges.slot + way * half, bridges.slot - way * half), axis=1)
    own, wing = bridges.own(ends), mm(base.bridge.length) / 2
    in_front = np.asarray((own.real - front.at(own.imag)).min(axis=1))
    at_ends = np.asarray(wing - np.abs(own.imag).max(axis=1))
    if bridges.pins is None or base.bridge.pins is None:
        last = bridges.own(ends + (square * thick)[:, None])
        behind = np.asarray((back.at(last.imag) - last.real).min(axis=1))
        return in_front, behind, np.full(len(behind), np.inf), at_ends
    radius, pins = mm(base.bridge.pins.diameter) / 2, bridges.own(bridges.pins)
    behind = np.asarray((back.at(pins.imag) - pins.real).min(axis=1) - radius)
    past = ((bridges.pins - bridges.slot[:, None]) * np.conj(square)[:, None]).real - thick
    at_ends = np.minimum(at_ends, wing - np.abs(pins.imag).max(axis=1) - radius)
    return in_front, behind, np.asarray(past.min(axis=1) - radius), at_ends


def _reach(base: Base) -> "tuple[Edge, Edge]":
    """How far back and how far forward the bridge reaches at places along it."""
    import shapely

    wood = shape(base.bridge)
    low, high = wood.bounds[1] + 1e-6, wood.bounds[3] - 1e-6
    y = np.linspace(low, high, ALONG)
    cuts = shapely.intersection(wood, shapely.linestrings([[(-1000.0, at), (1000.0, at)] for at in y]))
    bounds = shapely.bounds(cuts)
    return Edge(y, bounds[:, 2]), Edge(y, bounds[:, 0])


class Edge(msgspec.Struct, frozen=True, eq=False):
    """An edge of the bridge by places along it; beyond its ends as at them."""

    y: Array
    x: Array

    def at(self, y: Array) -> Array:
        """How far it reaches at places along the bridge."""
        return np.interp(y, self.y, self.x)
