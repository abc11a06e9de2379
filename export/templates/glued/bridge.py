"""The bridge by itself: its outline, the slot to rout, pin holes and locating dowels to drill; and the finish clearing.

Both are drawn as they lie on the top. The clearing is the footprint drawn in by a **ledge** that the finish keeps, so
that the bridge's edge sits on finish and hides the cut.
"""

import math
from typing import NamedTuple

from export.drawing.dimension import arrow, cross, dimension
from export.drawing.flatten import Box, around, path_points
from export.drawing.marks import XY, Circle, Line, Mark, Path, Text
from export.drawing.straight import direction, foot
from export.drawing.typeface import width
from export.errors import ExportError
from export.plan.bridge.bridgework import saddle_lines
from export.plan.bridge.old_work_drawn import on_the_top
from export.records import SCALES, SCALES_FIRST, Figure, Stamp
from export.templates import numbered_holes, parts, registration, turning_holes
from export.templates.glued import bridge_sizes
from export.templates.glued.dowels import dowels
from export.templates.numbered_holes import REAM, with_tables
from geometry.job import Job
from geometry.layout import BridgePlan, Layout, SaddlePlan
from geometry.units import named, said, show

BRIDGE, CLEARING = "Bridge", "Finish clearing"
"""What both templates are called, wherever they are named."""
SCORE = "Score the finish only, never the wood."
IN_WING = 20.0
"""How much of a wing's tip its letter and arrow take, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """Outline, slot, pin holes and dowels. Raises `ExportError` where there is no bridge."""
    bridge = _bridge_of(layout, "bridge")
    back = max(x for x, _, _ in bridge.outline)
    front = min(x for x, _, _ in bridge.outline)
    located = dowels(layout, job.unit)
    outline = path_points(Path(bridge.outline, closed=True), 0.01)
    turning = turning_holes.turning_holes(outline, bridge.turn) if job.sheets.turning else ()
    listed = (
        *numbered_holes.pins(job, layout),
        *numbered_holes.slot(job, layout),
        *numbered_holes.plain(job, located, "dowel"),
        *numbered_holes.plain(job, turning, "to turn on"),
    )
    work = parts.bridge_work(layout)
    marks = [
        *work,
        *(dowel for hole in located for dowel in _dowel(hole.at, hole.diameter)),
        *turning_holes.marks(turning),
        *numbered_holes.numbers(listed, work),
        *_sizes(job, layout, bridge),
        *([] if turning else _widths(job, bridge)),
        *parts.seen_from((front - 77.0, -15.0), "OUTSIDE", "seen from above"),
        *parts.sides(job, layout, front - 19.0),
        *registration.nut_arrow(job, (front - 77.0, 10.0)),
        Mark(shape=Line((front - 8.0, 0.0), (back + 10.0, 0.0)), purpose="centre", of="neck"),
    ]
    notes = [
        SCALES,
        f"Numbers in {named(job.unit)}; at the slot: from the bridge’s front to the slot’s front.",
    ]
    if len(layout.saddle.slots if layout.saddle else ()) > 1:
        notes.append("Each slot has its own slant and its own number: do not carry one on into the next.")
    if bridge.tie is not None:
        notes.append("Dashed through the tie block: its holes; they are drilled by the tie-block template.")
    if bridge.pins:
        notes.append(REAM)
    if located:
        notes.append("Dowels stand in the slot, clear of old holes and metal; draw them when the glue has set.")
    else:
        notes.append("No two places in the slot are clear of old holes and metal: locate the bridge without dowels.")
    figure = Figure(
        title=BRIDGE,
        marks=tuple(marks),
        keep=(_box(bridge),),
        notes=tuple(notes),
        seen="outside",
        kept=("bridge",),
        loose=True,
        bored=listed,
    )
    return with_tables(job, layout, figure, bridge_sizes.table(job, layout, bridge))


def draw_clearing(job: Job, layout: Layout, stamp: Stamp) -> Figure:
    """The finish to take off: the footprint drawn in by the stamp's ledge. Raises `ExportError`."""
    from export.machine.offset import offset

    bridge = _bridge_of(layout, "clearing")
    outline = Path(bridge.outline, closed=True)
    inner = offset(outline, -stamp.ledge, "finish clearing")
    front = min(x for x, _, _ in bridge.outline)
    back = max(x for x, _, _ in bridge.outline)
    pins = numbered_holes.pins(job, layout)
    lines = [
        Mark(shape=inner, purpose="cut", of="clearing"),
        Mark(shape=outline, purpose="hidden", of="bridge"),
        *(saddle_lines(layout.saddle, parts.PAST_SLOT) if layout.saddle else []),
    ]
    marks = [
        *lines,
        *(mark for mark in on_the_top(layout.old, parts.AREA_HATCH) if mark.of == "bare"),
        *parts.pin_holes(layout),
        *numbered_holes.numbers(pins, lines),
        *parts.sides(job, layout, front - 6.0),
        *_own_sides(job, layout, bridge),
        *registration.nut_arrow(job, (front - 66.0, 10.0)),
        Mark(shape=Line((front - 8.0, 0.0), (back + 10.0, 0.0)), purpose="centre", of="neck"),
    ]
    by = "pin holes" if bridge.pins else "saddle line"
    notes = (
        f"Cut out on the thick line, stick on by {by} and centre line.",
        f"The bridge’s edge stands {said(stamp.ledge, job.unit)} outside it (dashed): that ledge keeps its finish.",
        f"{SCORE} {SCALES_FIRST}",
    )
    figure = Figure(
        title=CLEARING,
        marks=tuple(marks),
        keep=(_box(bridge),),
        notes=notes,
        of_scales={f"{SCORE} {SCALES_FIRST}": SCORE},
        seen="outside",
        kept=("clearing",),
        loose=True,
        bored=tuple(pins),
    )
    return with_tables(job, layout, figure)


def _own_sides(job: Job, layout: Layout, bridge: BridgePlan) -> list[Mark]:
    """B and T in the wings and an arrow to the tail, inside the mask, so that it keeps its sides when it is cut out."""
    fl, fr, br, bl = bridge.corners
    marks = []
    for side, front, back, other in (("left", fl, bl, fr), ("right", fr, br, fl)):
        wing = _Wing(front, direction(front, back), direction(front, other), math.dist(front, back))
        low, high = _free(wing, layout)
        letter = Text(
            wing.at((low + high) / 2, 6.5), job.bass_or_treble(side)[0].upper(), 5.0, bridge.turn, "mm", bold=True
        )
        marks.append(Mark(shape=letter, purpose="note", of="clearing"))
        if side == "left":
            a, b = (wing.at(low + share * (high - low), 13.0) for share in (0.1, 0.9))
            word = Text(wing.at((low + high) / 2, 14.5), "tail", 2.1, bridge.turn, "mt")
            marks += [*arrow(a, b, "note", of="clearing"), Mark(shape=word, purpose="note", of="clearing")]
    return marks


class _Wing(NamedTuple):
    """A wing's front corner, the ways to its back and to the other wing (unit vectors), and how deep it is, mm."""

    corner: XY
    to_back: XY
    inward: XY
    depth: float

    def at(self, back: float, inward: float) -> XY:
        """The place so far behind the front and in from the tip."""
        (x, y), (bx, by), (ix, iy) = self.corner, self.to_back, self.inward
        return x + back * bx + inward * ix, y + back * by + inward * iy


def _free(wing: _Wing, layout: Layout) -> tuple[float, float]:
    """From where to where behind the front the wing is free: beside the saddle line, where that reaches into it."""
    lines = [mark.shape for mark in saddle_lines(layout.saddle, parts.PAST_SLOT)] if layout.saddle else []
    for tip in (tip for line in lines if isinstance(line, Line) for tip in (line.a, line.b)):
        x, y = tip[0] - wing.corner[0], tip[1] - wing.corner[1]
        if x * wing.inward[0] + y * wing.inward[1] < IN_WING:
            back = x * wing.to_back[0] + y * wing.to_back[1]
            return max((0.0, back - 1.0), (back + 1.0, wing.depth), key=lambda part: part[1] - part[0])
    return 0.0, wing.depth


def _bridge_of(layout: Layout, name: str) -> BridgePlan:
    if layout.floating is not None:
        raise ExportError(
            f"The {name} template is not for a bridge that is held by the strings; take “Bridge’s place” and “Crown”"
        )
    if layout.bridge is None:
        raise ExportError(f"The {name} template needs a bridge; choose one on the Bridge card")
    return layout.bridge


def _box(bridge: BridgePlan) -> Box:
    return around([(x, y) for x, y, _ in bridge.outline]).grown(3.0)


def _dowel(at: XY, diameter: float) -> list[Mark]:
    return [
        Mark(shape=Circle(at, diameter / 2), purpose="drill", of="dowel"),
        *cross(at, diameter / 2 + 1.2, "centre", turn=math.pi / 4, of="dowel", weight=0.75),
    ]


def _widths(job: Job, bridge: BridgePlan) -> list[Mark]:
    """Width at the wings, and with the belly."""
    fl, fr, br, bl = bridge.corners
    wing, whole = math.dist(fr, br), bridge_sizes.with_belly(bridge)
    marks = dimension(fr, br, show(wing, job.unit), off=-9.0, height=2.5, of="field:bridge.width")
    if whole > wing + bridge_sizes.SEEN:
        square = direction(fl, bl)
        low = bridge_sizes.before(bridge)
        near, far = ((fl[0] + deep * square[0], fl[1] + deep * square[1]) for deep in (low, low + whole))
        marks += dimension(near, far, show(whole, job.unit), off=9.0, height=2.5, of="field:bridge.belly_depth")
    return marks


def _sizes(job: Job, layout: Layout, bridge: BridgePlan) -> list[Mark]:
    """Length, and bridge front to slot front at the slot's two ends, or at those of each slot."""

    def says(length: float) -> str:
        return f"{show(length, job.unit)}"

    fl, fr, _br, _bl = bridge.corners
    marks = dimension(fr, fl, says(math.dist(fr, fl)), off=12.0, height=2.5, of="field:bridge.length")
    if layout.saddle is None:
        return marks
    for at, outward in _slot_ends(layout.saddle, fl, fr):
        on_front = foot(fl, fr, at)
        number = says(math.dist(on_front, at))
        marks.append(Mark(shape=Line(on_front, at), purpose="dimension", of="slot"))
        if width(number, 2.2, bold=True) < math.dist(on_front, at) - 2.5:
            middle = ((on_front[0] + at[0]) / 2, (on_front[1] + at[1]) / 2 + 0.9 * outward)
            text = Text(middle, number, 2.2, bridge.turn, "mb" if outward > 0 else "mt", bold=True)
        else:
            text = Text((on_front[0] - 1.6, on_front[1]), number, 2.2, bridge.turn, "em", bold=True)
        marks.append(Mark(shape=text, purpose="dimension", of="slot"))
    return marks


def _slot_ends(saddle: SaddlePlan, fl: XY, fr: XY) -> list[tuple[XY, float]]:
    """The ends of the slots' front edges, and to which side their numbers stand: outside at the outermost ends, where a
    slot's own numbers stand within; inside between two slots. A slot that is parallel to the front has one number.
    """
    if len(saddle.slots) == 1:
        return list(zip(saddle.front, (1.0, -1.0), strict=True))
    found = []
    for slot in saddle.slots:
        left, right = slot[0], slot[1]
        if abs(math.dist(foot(fl, fr, left), left) - math.dist(foot(fl, fr, right), right)) < bridge_sizes.SEEN:
            found.append((((left[0] + right[0]) / 2, (left[1] + right[1]) / 2), 1.0))
        else:
            found += [(left, 1.0 if left in saddle.front else -1.0), (right, -1.0 if right in saddle.front else 1.0)]
    return found
