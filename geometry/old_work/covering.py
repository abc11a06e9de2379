"""An outline that covers: the smallest bridge of the family that hides the old footprint, the slot where it must be.

It grows at the wings, which move out alike, at the front and at the back. A belly, and wings that are stepped or
tapered, stand out as far as they did. A traced outline has no family to grow in, and a bridge whose slot is cut, or
that sits on the old front edge, is as it is.
"""

import numpy as np
from msgspec.structs import replace

from geometry.bridge.belly import STANDS_OUT, depth
from geometry.bridge.seat_bridge import FRONT_SHARE
from geometry.frame import Array, Points
from geometry.job import Bridge
from geometry.layout import XY, Covering
from geometry.old_work import nearest
from geometry.old_work.uncovered import bare_areas, followed, polygon
from geometry.units import mm

DENSITY = 0.85e-3
"""g/mm³, of the hard woods that bridges are made of (common practice, no source)."""
STEP = 0.25
"""The old footprint is followed in steps of so many mm."""
STEEPEST = 1.0
"""A margin square to the edge asks for more along the bridge, up to this slope of the edge."""
NONE: XY = (0.0, 0.0)
ROUNDING = 1e-6
"""mm. What grows by less does not grow."""


def can_grow(bridge: Bridge) -> bool:
    """Whether the bridge has a family to grow in, and is not made or seated already."""
    return bridge.outline != "traced" and bridge.slot_front is None and bridge.seat != "old footprint"


def grown(bridge: Bridge, own: Points, margin: XY = NONE) -> Bridge:
    """The smallest bridge of the family that covers an outline (k,), seen in the bridge's own frame, by a margin
    (front to back and along the bridge, mm). What need not grow stays.
    """
    at = _along(own)
    length = max(mm(bridge.length), 2 * (float(np.abs(at.imag).max()) + margin[1]))
    stands = depth(bridge) if bridge.outline in STANDS_OUT else None
    longer = replace(bridge, length=length, belly_depth=stands) if _more(length, mm(bridge.length)) else bridge
    before, behind = _room(longer, at, margin)
    front = max(float((before - at.real).max()), 0.0)
    back = max(float((at.real - behind).max()), 0.0)
    if not _more(front + back, 0.0):
        return longer
    to_slot = FRONT_SHARE * mm(bridge.width) if bridge.front_to_slot is None else mm(bridge.front_to_slot)
    return replace(longer, width=mm(bridge.width) + front + back, belly_depth=stands, front_to_slot=to_slot + front)


def _more(one: float, other: float) -> bool:
    return one > other + ROUNDING


def _along(own: Points) -> Points:
    """The outline in short steps, with its corners."""
    after = np.roll(own, -1)
    steps = [max(int(np.ceil(abs(stop - start) / STEP)), 1) for start, stop in zip(own, after, strict=True)]
    pieces = [
        start + (stop - start) * np.arange(count) / count for start, stop, count in zip(own, after, steps, strict=True)
    ]
    return np.concatenate(pieces)


def _room(bridge: Bridge, at: Points, margin: XY) -> tuple[Array, Array]:
    """From where to where behind the front edge there is room at places along the bridge, the margin taken off."""
    ring, room = followed(bridge), []
    turn = int((ring.imag <= ring.imag.min() + ROUNDING).argmax()) + 1
    for edge, inward in ((ring[:turn][::-1], 1.0), (ring[turn:], -1.0)):
        lies, near = (np.interp(at.imag + off, edge.imag, edge.real) for off in (0.0, STEP))
        slope = np.clip((near - lies) / STEP, -STEEPEST, STEEPEST)
        room.append(lies + inward * (margin[0] + np.abs(slope) * margin[1]))
    return room[0], room[1]


def find_covering(bridge: Bridge, own: Points, margin: XY = NONE) -> Covering | None:
    """The bridge that covers an outline (k,), seen in the bridge's own frame, beside the bridge as it is. None where
    it cannot grow, or the outline goes round nothing.
    """
    if not can_grow(bridge) or polygon(own) is None:
        return None
    larger = grown(bridge, own, margin)
    front = front_of(larger, bridge)
    areas = [nearest.area(followed(one)) for one in (larger, bridge)]
    thick = [mm(one) for one in bridge.thicknesses if one is not None]
    volume = (areas[0] - areas[1]) * sum(thick) / len(thick) if thick else None
    return Covering(
        length=mm(larger.length),
        width=mm(larger.width),
        front=front,
        margin=margin,
        grown=_sides(larger, bridge, front),
        area=areas[0],
        usual_area=areas[1],
        uncovered=float(bare_areas(own[None] + front, larger)[0]),
        usual_uncovered=float(bare_areas(own[None], bridge)[0]),
        volume=volume,
        weight=None if volume is None else volume * DENSITY,
    )


def front_of(larger: Bridge, bridge: Bridge) -> float:
    """How much nearer to the nut the front edge of the larger bridge lies, the slots in one place."""
    one, other = (
        FRONT_SHARE * mm(it.width) if it.front_to_slot is None else mm(it.front_to_slot) for it in (larger, bridge)
    )
    return one - other


def _sides(larger: Bridge, bridge: Bridge, front: float) -> tuple[str, ...]:
    back = mm(larger.width) - mm(bridge.width) - front
    grew = {"front": front, "back": back, "wings": mm(larger.length) - mm(bridge.length)}
    return tuple(side for side, by in grew.items() if by > ROUNDING)
