"""What a workshop needs to know of a bridge in numbers: its own sizes, the slot's, the pin holes'."""

import math
from itertools import pairwise

from export.drawing.flatten import path_points
from export.drawing.marks import XY, Path
from export.drills import either
from export.hole_table import Table
from export.templates.numbered_holes import pin_drill, slot_depth
from geometry import words
from geometry.job import Job
from geometry.job.told_by_rule import by_rule_alone
from geometry.layout import BridgePlan, Layout, SaddlePlan, TiePlan
from geometry.units import show, show_size

SEEN = 0.05
"""What differs by less (mm) is alike on every sheet."""


def table(job: Job, layout: Layout, bridge: BridgePlan) -> Table:
    """The sizes, a line each, in the job's unit."""
    fl, fr, _br, bl = bridge.corners
    rows = [("length", _said(job, math.dist(fl, fr))), ("width at the wings", _said(job, math.dist(fl, bl)))]
    whole = with_belly(bridge)
    if whole > math.dist(fl, bl) + SEEN:
        kind = job.bridge.outline if job.bridge is not None else "straight"
        rows.append(("width with the belly" if kind.endswith("belly") else "width in all", _said(job, whole)))
    if layout.saddle is not None:
        rows += _slots(job, layout.saddle)
    if bridge.pins:
        rows += _pins(job, bridge)
    if bridge.tie is not None:
        rows += _tie(job, bridge.tie)
    return Table(title=f"Sizes, {job.unit}", rows=tuple(rows), sides="ss")


def _said(job: Job, length: float) -> str:
    return show(length, job.unit)


def _fine(job: Job, length: float) -> str:
    return show(length, job.unit, 2 if job.unit == "in" and not by_rule_alone(job) else 1)


def _size(job: Job, length: float) -> str:
    """What a tool makes to its own size: 64ths of an inch stand as they were typed."""
    return show_size(length, job.unit) if job.unit == "in" else _fine(job, length)


def with_belly(bridge: BridgePlan) -> float:
    """From the foremost place to the farthest at the back, square to the front, mm."""
    own = _along(bridge)
    return max(own) - min(own)


def before(bridge: BridgePlan) -> float:
    """How far the foremost place lies behind the front left corner, mm: less than 0 on a reversed belly."""
    (x, y), cos, sin = bridge.corners[0], math.cos(bridge.turn), math.sin(bridge.turn)
    return min(_along(bridge)) - (x * cos + y * sin)


def _along(bridge: BridgePlan) -> list[float]:
    cos, sin = math.cos(bridge.turn), math.sin(bridge.turn)
    return [x * cos + y * sin for x, y in path_points(Path(bridge.outline, closed=True), 0.001)]


def _slots(job: Job, saddle: SaddlePlan) -> list[tuple[str, str]]:
    """The slot, or each of several by its strings; of a stepped saddle the steps as well."""
    deep = slot_depth(job)
    depth = "by your saddle" if deep is None else _size(job, deep)
    if len(saddle.slots) == 1:
        size, lean = _slot("slot", job, *saddle.slot)
        return [size, ("slot, depth", depth), lean, *_steps(job, saddle)]
    rows = []
    for number, piece in enumerate(saddle.pieces, 1):
        rows += _slot(f"slot {number}", job, *piece.slot, of=words.strings(piece.strings))
    return [*rows, ("slots, depth", depth)]


def _steps(job: Job, saddle: SaddlePlan) -> list[tuple[str, str]]:
    """How far behind the saddle's front each step is filed."""
    deep = math.dist(saddle.slot[0], saddle.slot[3])
    return [
        (f"step under {words.strings(step.strings)}", f"crest {_fine(job, step.peak * deep)} behind the saddle’s front")
        for step in saddle.steps
    ]


def _tie(job: Job, tie: TiePlan) -> list[tuple[str, str]]:
    return [
        ("tie block, length by depth", f"{_said(job, tie.left - tie.right)} by {_said(job, tie.back_x - tie.front_x)}"),
        ("tie block, bridge’s front to its face", _said(job, tie.front_x)),
        ("tie block, height over the bridge’s bottom", _size(job, tie.height)),
    ]


def _slot(name: str, job: Job, fl: XY, fr: XY, _br: XY, bl: XY, of: str = "") -> list[tuple[str, str]]:
    size = f"{_said(job, math.dist(fl, fr))} by {_size(job, math.dist(fl, bl))}"
    turned = 90.0 - abs(slot_lean(fl, fr))
    farther = "" if turned > 89.95 else f", {_farther(job, fl, fr)} end to the tail"
    return [
        (f"{name}, length by width", f"{size}, {of}" if of else size),
        (f"{name} to the neck’s centre line", f"{turned:.1f}°{farther}"),
    ]


def slot_lean(left: XY, right: XY) -> float:
    """How far a slot leans from square to the neck centre line, in degrees, its left end to the tail positive."""
    return math.degrees(math.atan2(left[0] - right[0], left[1] - right[1]))


def _farther(job: Job, left: XY, right: XY) -> str:
    return job.bass_or_treble("left" if left[0] > right[0] else "right")


def _pins(job: Job, bridge: BridgePlan) -> list[tuple[str, str]]:
    sizes = sorted({round(pin.diameter, 2): pin.diameter for pin in bridge.pins}.values())
    places = [pin.at for pin in bridge.pins]
    rows = [
        (f"pin holes, {_size(job, size)}", f"drill {either(pin_drill(job, size), job.unit)}, then ream")
        for size in sizes
    ]
    if len(places) > 1:
        gaps = [math.dist(a, b) for a, b in pairwise(places)]
        low, high = _fine(job, min(gaps)), _fine(job, max(gaps))
        apart = low if low == high else f"{low} to {high}"
        rows.append(("pin to pin, middle to middle", apart))
        rows.append(("outer pins, middle to middle", _said(job, math.dist(places[0], places[-1]))))
    return rows
