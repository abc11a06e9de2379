"""Locating dowels: two holes that hold the bridge to its place while the glue sets, clear of old holes and metal.

Without them a bridge slides on wet glue. They stand in the slot, where the saddle hides them, as far apart as can be.
"""

import math

from export.drawing.straight import halfway
from geometry.layout import XY, Hole, Layout
from geometry.units import INCH, Unit

RODS: dict[Unit, tuple[float, ...]] = {
    "mm": (2.5, 2.0, 1.5, 1.0),
    "cm": (2.5, 2.0, 1.5, 1.0),
    "in": tuple(count / 64 * INCH for count in (6, 4, 3)),
}
"""Rods that dowels are cut from, mm: the widest that the slot takes (common practice, no source)."""
INSET, CLEAR, STEP = 4.0, 1.0, 1.0
"""From the slot's end to the first place tried, wood left to another hole, and from place to place, mm (common
practice, no source)."""


def dowels(layout: Layout, unit: Unit) -> tuple[Hole, ...]:
    """Two holes on the slot's middle line, one from each end, of several slots on the outermost ones'; none where no
    two places are clear. They are as wide as a rod that is sold in a shop of the job's `unit`.
    """
    if layout.saddle is None or layout.floating is not None or layout.separate is not None:
        return ()
    slots = sorted(layout.saddle.slots, key=lambda slot: -slot[0][1])
    (left, beyond), (before, right) = ((halfway(fl, bl), halfway(fr, br)) for fl, fr, br, bl in (slots[0], slots[-1]))
    wide = math.dist(slots[0][0], slots[0][3])
    diameter = next((rod for rod in RODS[unit] if rod <= wide + 1e-6), wide)
    found = [_first_clear(layout, a, b, diameter) for a, b in ((left, beyond), (right, before))]
    if any(at is None for at in found):
        return ()
    return tuple(
        Hole(name=name, at=at, diameter=diameter) for name, at in zip(("left", "right"), found, strict=True) if at
    )


def _first_clear(layout: Layout, a: XY, b: XY, diameter: float) -> XY | None:
    """The first clear place from `a` toward the middle of a-b."""
    length = math.dist(a, b)
    along = INSET
    while along < 0.4 * length:
        at = (a[0] + along / length * (b[0] - a[0]), a[1] + along / length * (b[1] - a[1]))
        if is_clear(layout, at, diameter / 2):
            return at
        along += STEP
    return None


def is_clear(layout: Layout, at: XY, radius: float) -> bool:
    """Whether a hole stays clear of old holes, of the new pin holes, and of metal's keep-out."""
    pins = layout.bridge.pins if layout.bridge else ()
    holes = [(hole.at, hole.diameter / 2 + CLEAR) for hole in (*layout.old.pins, *layout.old.holes, *pins)]
    holes += [(metal.at, metal.keep_out) for metal in layout.old.metal]
    return all(math.dist(at, centre) >= radius + keep for centre, keep in holes)
