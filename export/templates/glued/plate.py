"""The plate under the top, seen from inside: mirrored, so that it can be laid on the plate as it is held or glued.

Its size is only a proposal: from a little before the bridge's front to a little behind its back, and a hand's breadth
of the outer pins to either side (common practice, no source).
"""

import math

from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Path
from export.errors import ExportError
from export.records import SCALES, Figure, Stamp
from export.templates import numbered_holes, parts, registration, turning_holes
from geometry.job import Job
from geometry.layout import BridgePlan, Layout

ABOVE = "Dashed: the bridge above."
BEFORE, BEHIND, BESIDE = 4.0, 12.0, 24.0
"""How far the plate reaches before the bridge, behind its wings' back, and beside the outer pin holes, mm."""
UNDER = 8.0
"""How far round the bridge braces are shown, so that they end before the words, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """The plate with its pin holes, the bridge above it dashed. Raises `ExportError` where there are no pin holes."""
    bridge = layout.bridge
    if layout.floating is not None:
        raise ExportError("The plate template is not for a bridge that is held by the strings")
    if bridge is None or not bridge.pins:
        lacks = "this one has none" if bridge is not None else "there is no bridge yet"
        raise ExportError(f"The plate template needs a bridge with pin holes; {lacks}")
    ring = plate_corners(bridge)
    box = around(ring)
    slots = [polyline(slot, closed=True) for slot in layout.saddle.slots] if layout.saddle else []
    turning = turning_holes.turning_holes(ring, bridge.turn) if job.sheets.turning else ()
    listed = (*numbered_holes.pins(job, layout), *numbered_holes.plain(job, turning, "to turn on"))
    lines = [
        Mark(shape=polyline(ring, closed=True), purpose="mark", of="plate"),
        Mark(shape=Path(bridge.outline, closed=True), purpose="hidden", of="bridge"),
        *[Mark(shape=path, purpose="hidden", of="slot") for path in slots],
    ]
    marks = [
        *lines,
        *parts.pin_holes(layout),
        *parts.under(layout, UNDER),
        *[Mark(shape=Circle(h.at, h.diameter / 2), purpose="before", of="old pin") for h in layout.old.pins],
        *_metal(layout),
        Mark(shape=Line((box.x0 - 8.0, 0.0), (box.x1 + 12.0, 0.0)), purpose="centre", of="neck"),
        *parts.sides(job, layout, box.x0 - 6.0),
        *registration.nut_arrow(job, (box.x0 - 62.0, 12.0)),
        *parts.seen_from((box.x0 - 62.0, -15.0), "SEEN FROM INSIDE", "bass and treble are mirrored"),
        *turning_holes.marks(turning),
        *numbered_holes.numbers(listed, lines),
    ]
    notes = (
        "Seen from inside: lay it printed side toward you on the plate’s inner face.",
        "The plate’s outline is only a proposal; look where the braces run before you cut.",
        f"{ABOVE} {SCALES}",
        numbered_holes.REAM,
    )
    figure = Figure(
        title="Plate",
        marks=tuple(marks),
        keep=(box.grown(3.0),),
        notes=notes,
        of_scales={f"{ABOVE} {SCALES}": ABOVE},
        mirror=True,
        seen="inside",
        kept=("plate",),
        loose=True,
        bored=listed,
    )
    return numbered_holes.with_tables(job, layout, figure)


def plate_corners(bridge: BridgePlan) -> tuple[XY, XY, XY, XY]:
    """The plate's corners, along the bridge: front left, front right, back right, back left."""
    cos, sin = math.cos(bridge.turn), math.sin(bridge.turn)
    own = [(x * cos + y * sin, y * cos - x * sin) for x, y in (*bridge.corners, *(pin.at for pin in bridge.pins))]
    corners, pins = own[:4], own[4:]
    front, back = min(x for x, _ in corners) - BEFORE, max(x for x, _ in corners) + BEHIND
    left, right = max(y for _, y in pins) + BESIDE, min(y for _, y in pins) - BESIDE

    def placed(x: float, y: float) -> XY:
        return x * cos - y * sin, x * sin + y * cos

    return placed(front, left), placed(front, right), placed(back, right), placed(back, left)


def _metal(layout: Layout) -> list[Mark]:
    """Metal as in the other templates, with its word beside it."""
    return [mark for mark in parts.old_work(layout) if mark.of.startswith("metal:")]
