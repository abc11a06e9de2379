"""An outline that covers: the smallest bridge of the family that hides the old footprint, the slot where it must be.

It grows at the wings, which move out alike, at the front and at the back. A belly, and wings that are stepped or
tapered, stand out as far as they did. A traced outline has no family to grow in, and a bridge whose slot is cut, or
that sits on the old front edge, is as it is.
"""

import numpy as np
from msgspec.structs import replace

from geometry.bridge.belly import STANDS_OUT, depth
from geometry.bridge.seat_bridge import FRONT_SHARE
from geometry.frame import Array, Points, following
from geometry.job import Bridge
from geometry.job.checks import NotAJob
from geometry.layout import XY, BridgePlan, Covering, Layout
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.uncovered import bare_areas, followed, polygon
from geometry.units import mm

DENSITY = 0.85e-3
"""g/mm³, of the hard woods that bridges are made of (common practice, no source)."""
STEP = 0.25
"""The old footprint is followed in steps of so many mm."""
NONE: XY = (0.0, 0.0)
ROUNDING = 1e-6
"""mm. What grows by less does not grow."""


def can_grow(bridge: Bridge) -> bool:
    """Whether the bridge has a family to grow in, and is not made or seated already."""
    return bridge.outline != "traced" and bridge.slot_front is None and bridge.seat != "old footprint"


def grown(bridge: Bridge, own: Points, margin: XY = NONE) -> Bridge:
    """The smallest bridge of the family that covers an outline (k,), seen in the bridge's own frame, by a margin
    (front to back and along the bridge, mm). What need not grow stays. Raises
    `NotAJob` where no bridge is so large.
    """
    length = max(mm(bridge.length), 2 * (float(np.abs(own.imag).max()) + margin[1]))
    stands = depth(bridge) if bridge.outline in STANDS_OUT else None
    longer = replace(bridge, length=length, belly_depth=stands) if _more(length, mm(bridge.length)) else bridge
    at = _along(own, longer)
    before, behind = _room(longer, at, margin)
    front = max(float((before - at.real).max()), 0.0)
    back = max(float((at.real - behind).max()), 0.0)
    if not _more(front + back, 0.0):
        return longer
    to_slot = FRONT_SHARE * mm(bridge.width) if bridge.front_to_slot is None else mm(bridge.front_to_slot)
    return replace(longer, width=mm(bridge.width) + front + back, belly_depth=stands, front_to_slot=to_slot + front)


def _more(one: float, other: float) -> bool:
    return one > other + ROUNDING


def _along(own: Points, bridge: Bridge) -> Points:
    """The outline in short steps, with its corners, and on either side of the places where the bridge has some."""
    ends = followed(bridge).imag
    beside = np.concatenate((ends - ROUNDING, ends + ROUNDING))
    pieces = []
    for start, stop in zip(own, following(own), strict=True):
        way = stop - start
        steps = np.arange(max(int(np.ceil(abs(way) / STEP)), 1)) * (STEP / max(abs(way), STEP))
        cuts = (beside - start.imag) / way.imag if way.imag else np.empty(0)
        pieces.append(start + way * np.concatenate((steps, cuts[(cuts > 0) & (cuts < 1)])))
    return np.concatenate(pieces)


def _room(bridge: Bridge, at: Points, margin: XY) -> tuple[Array, Array]:
    """From where to where behind the front edge there is room at places along the bridge, the margin taken off: it may
    lie so much farther to either side, too.
    """
    ring, beside = followed(bridge), np.array((-margin[1], 0.0, margin[1]))
    turn = int((ring.imag <= ring.imag.min() + ROUNDING).argmax()) + 1
    front, back = ring[:turn][::-1], ring[turn:]
    asked = at.imag[:, None] + beside
    return (
        np.interp(asked, front.imag, front.real).max(axis=1) + margin[0],
        np.interp(asked, back.imag, back.real).min(axis=1) - margin[0],
    )


def covering_of(bridge: Bridge, layout: Layout) -> Covering | None:
    """The outline that would cover the old footprint of a layout with its ±; None where the bridge does so already, or
    nothing is known of either.
    """
    follows, plan = layout.consequences, layout.bridge
    if plan is None or follows is None or follows.cover is None or follows.cover.value >= follows.cover.pm95:
        return None
    return find_covering(bridge, seen_from(plan, layout.old.outline), follows.footprint_pm95)


def seen_from(plan: BridgePlan, outline: tuple[XY, ...]) -> Points:
    """An outline (k,) in the bridge's own frame: from the middle of its front edge, to the back and to the left."""
    (lx, ly), (rx, ry) = plan.corners[:2]
    front = complex((lx + rx) / 2, (ly + ry) / 2)
    return np.asarray((np.array([complex(*at) for at in outline]) - front) * np.exp(-1j * plan.turn))


def find_covering(bridge: Bridge, own: Points, margin: XY = NONE) -> Covering | None:
    """The bridge that covers an outline (k,), seen in the bridge's own frame, beside the bridge as it is. None where
    it cannot grow, or not so far, or the outline goes round nothing.
    """
    if not can_grow(bridge) or polygon(own) is None:
        return None
    try:
        larger = grown(bridge, own, margin)
    except NotAJob:
        return None
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
