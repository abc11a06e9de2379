"""Bounds of saddle and bridge: a slot too short, a bridge on the board, or far from where the old one was."""

import math
from collections.abc import Iterator

from geometry.findings import Finding, look
from geometry.job import Bridge, Job, Saddle
from geometry.job.fretting import SCALES
from geometry.layout import BridgePlan, FretPlan, Neck, OldPlan, SaddlePlan
from geometry.outline import depth
from geometry.units import mm, said

SLANT = 60.0
"""mm. No saddle stands farther on one side than on the other by more, slanted frets or not (common practice, no
source)."""
FAR = 10.0
"""mm. A bridge is hardly ever set anew farther from where it was, along the strings (common practice, no source)."""
ASIDE = 30.0
"""mm. An old bridge stood hardly farther beside the neck's middle (common practice, no source)."""
SLOT_PAST = 1.0
"""mm. The saddle reaches at least so far past the outer strings (common practice, no source)."""
LENGTHS, WIDTHS = (50.0, 230.0), (8.0, 60.0)
"""mm. Bridges of fretted instruments are as long and as wide as this (common practice, no source)."""
THICKEST_SADDLE = 6.5
"""mm. Hardly a saddle is thicker (common practice, no source)."""
DEPTHS = (2.0, 15.0)
"""mm. A slot is cut as deep as this (common practice, no source)."""
BELLY = 30.0
"""mm. No belly stands out farther (common practice, no source)."""
HOLES, OLD_HOLES = (3.0, 8.0), (2.0, 12.0)
"""mm. Pin holes are as wide as this, and old, worn ones (common practice, no source)."""
UNLIKE = 6.0
"""mm. Opposite sides of an old footprint, and its diagonals, differ by no more (common practice, no source)."""
HOLE_OUTSIDE = 5.0
"""mm. An old pin hole lies no farther outside the old footprint (common practice, no source)."""


def saddle_findings(job: Job, saddle: SaddlePlan, neck: Neck) -> tuple[Finding, ...]:
    """A slot that is too short for the strings, a saddle thicker than any, edges that cross before it."""
    return (
        *_nowhere(job, saddle),
        *_short_slot(job, saddle),
        *_thick(job, job.saddle or Saddle()),
        *_crossed(saddle, neck),
    )


def bridge_findings(job: Job, neck: Neck, frets: FretPlan, bridge: BridgePlan, old: OldPlan) -> tuple[Finding, ...]:
    """A bridge of no usual size, one that lies on the board, and one that lies far from where the old one was."""
    size = () if job.bridge is None else _size(job, job.bridge)
    return (*size, *_on_board(job, neck, frets, bridge), *_far(job, bridge, old), *_old(job, old))


def _nowhere(job: Job, saddle: SaddlePlan) -> Iterator[Finding]:
    """A saddle that lies where none can: readings that contradict each other may carry it anywhere."""
    far = max(abs(at[0]) for at in saddle.at_strings)
    if saddle.slant > SLANT:
        what = f"stand {said(saddle.slant, job.unit)} farther on the {saddle.longer} side"
    elif not SCALES[0] <= far <= SCALES[1]:
        what = f"lie {said(far, job.unit)} from the nut"
    else:
        return
    yield Finding(
        grade="stop",
        code="saddle.nowhere",
        text=f"The saddle would {what}, as none does: some reading is far out. Look at the board's readings and at the "
        "frets, and mend what does not go with the others.",
        values={"slant": saddle.slant, "far": far},
        where="saddle",
    )


def _short_slot(job: Job, saddle: SaddlePlan) -> Iterator[Finding]:
    """Strings that break beyond the slot's ends, or next to them."""
    front = [complex(*at) for at in saddle.front]
    middle, way = sum(front) / 2, (front[0] - front[1]) / max(abs(front[0] - front[1]), 1e-9)
    half = abs(front[0] - front[1]) / 2
    reach = max(abs(((complex(*at) - middle) * way.conjugate()).real) for at in saddle.at_strings)
    left = half - reach
    if left >= SLOT_PAST:
        return
    beyond = left < 0
    how = f"runs {said(-left, job.unit)} beyond the slot's end" if beyond else "runs at the slot's very end"
    yield Finding(
        grade="stop" if beyond else "look",
        code="slot.short",
        text=f"An outer string {how}: make the slot longer, or the spread at the saddle smaller.",
        values={"mm": left},
        where="field:saddle.slot_length",
    )


def _thick(job: Job, saddle: Saddle) -> Iterator[Finding]:
    thick = mm(saddle.thickness)
    if saddle.slot_depth is not None and not DEPTHS[0] <= (depth := mm(saddle.slot_depth)) <= DEPTHS[1]:
        yield _odd_size(job, "The slot", "deep", depth, DEPTHS, "saddle.slot_depth")
    if thick > THICKEST_SADDLE:
        yield Finding(
            grade="look",
            code="saddle.thick",
            text=f"The saddle is {said(thick, job.unit)} thick, and hardly one is thicker than "
            f"{said(THICKEST_SADDLE, job.unit)}: look at the unit and the decimal point.",
            values={"mm": thick},
            where="field:saddle.thickness",
        )


def _crossed(saddle: SaddlePlan, neck: Neck) -> Iterator[Finding]:
    """Edge lines that meet before the saddle."""
    x = max(at[0] for at in saddle.at_strings)
    left, right = (
        ray.at[1] + (x - ray.at[0]) * ray.direction[1] / max(ray.direction[0], 1e-6)
        for ray in (neck.left_edge, neck.right_edge)
    )
    if left <= right:
        yield Finding(
            grade="stop",
            code="neck.edges_cross",
            text="The board's edges, carried on, cross before the saddle: look at the widths at the nut and at the "
            "board's end, and which side each reading names.",
            values={"mm": left - right},
            where="point:end.left",
        )


def _size(job: Job, bridge: Bridge) -> Iterator[Finding]:
    for what, value, usual, field in (
        ("long", mm(bridge.length), LENGTHS, "length"),
        ("wide", mm(bridge.width), WIDTHS, "width"),
    ):
        if not usual[0] <= value <= usual[1]:
            yield _odd_size(job, "The bridge", what, value, usual, f"bridge.{field}")
    if (belly := depth(bridge)) > BELLY:
        yield _odd_size(job, "The bridge's belly", "deep", belly, (0.0, BELLY), "bridge.belly_depth")
    if bridge.pins is not None and not HOLES[0] <= (hole := mm(bridge.pins.diameter)) <= HOLES[1]:
        yield _odd_size(job, "Each pin hole", "wide", hole, HOLES, "bridge.pins.diameter")


def _odd_size(job: Job, who: str, what: str, value: float, usual: tuple[float, float], field: str) -> Finding:
    return look(
        field.replace(".pins.", ".hole_"),
        f"{who} is {said(value, job.unit)} {what}; hardly one is under {said(usual[0], job.unit)} or over "
        f"{said(usual[1], job.unit)}. Look at the unit and the decimal point.",
        f"field:{field}",
        mm=value,
    )


def _on_board(job: Job, neck: Neck, frets: FretPlan, bridge: BridgePlan) -> Iterator[Finding]:
    """A bridge whose front edge lies before the board's end, or where that was not read before the last fret."""
    read = max((reading.fret or 0 for reading in job.readings if reading.kind == "fret" and reading.taken), default=0)
    last = next((line for line in frets.lines if line.fret == read), None)
    ends = neck.end if neck.end is not None else (last.left, last.right) if last is not None else None
    if ends is None:
        return
    (front_left, front_right, *_), (end_left, end_right) = bridge.corners, ends
    sides = (min(front_left[1], end_left[1]), max(front_right[1], end_right[1]))
    room = min(_x(front_left, front_right, y) - _x(end_left, end_right, y) for y in sides)
    if room < 0:
        what, end = ("board", "board's end") if neck.end is not None else ("frets", "last fret that was read")
        yield Finding(
            grade="stop",
            code="bridge.on_board",
            text=f"The bridge would lie on the {what}: its front edge lies {said(-room, job.unit)} before the "
            f"{end}. Look at the frets, at the board's length, at the unit of each, and at the bridge's own sizes.",
            values={"mm": room},
            where="bridge",
        )


def _x(one: tuple[float, float], other: tuple[float, float], y: float) -> float:
    """Where the line through two points lies at y."""
    apart = one[1] - other[1]
    return one[0] if abs(apart) < 1e-6 else other[0] + (one[0] - other[0]) * (y - other[1]) / apart


def _far(job: Job, bridge: BridgePlan, old: OldPlan) -> Iterator[Finding]:
    """The new place against the old, along the strings: by the front edges, the back edges or the pin holes, whichever
    are nearest to each other, for the new bridge may be wider than the old.
    """
    moves = []
    if len(old.outline) > 2:
        x = sorted(at[0] for at in old.outline)
        new = sorted(corner[0] for corner in bridge.corners)
        moves += [(sum(new[:2]) - sum(x[:2])) / 2, (sum(new[2:]) - sum(x[-2:])) / 2]
    if old.pins and bridge.pins:
        holes, pins = ([hole.at[0] for hole in row] for row in (bridge.pins, old.pins))
        moves.append(sum(holes) / len(holes) - sum(pins) / len(pins))
    moved = min(moves, key=abs, default=0.0)
    if abs(moved) <= FAR:
        return
    way = "farther from the nut than" if moved > 0 else "nearer to the nut than"
    yield Finding(
        grade="look",
        code="bridge.far",
        text=f"The new place lies {said(abs(moved), job.unit)} {way} the old one. Look again before you cut, drill or "
        "glue: count the frets, look at their unit and spacing, at the strings' compensation and at the old bridge.",
        values={"mm": moved},
        where="bridge",
        large=True,
    )


def _old(job: Job, old: OldPlan) -> Iterator[Finding]:
    """An old footprint that is no bridge's, or stood beside the neck; holes outside it, or of no hole's size."""
    for hole in old.pins:
        if not OLD_HOLES[0] <= hole.diameter <= OLD_HOLES[1]:
            yield _odd_size(job, f"The old hole {hole.name}", "wide", hole.diameter, OLD_HOLES, "old.pins")
            break
    corners = [complex(*at) for at in old.outline]
    if len(corners) < 3:
        return
    aside = sum(corners).imag / len(corners)
    if abs(aside) > ASIDE:
        side = job.bass_or_treble("left" if aside > 0 else "right")
        yield _about_old(
            "old.aside",
            f"The old footprint lies {said(abs(aside), job.unit)} to the {side} of the neck's middle: look at the "
            "sides of its readings.",
            aside,
        )
    unlike = _unlike(corners)
    if unlike > UNLIKE:
        yield _about_old(
            "old.askew",
            f"The old footprint is no bridge's: two of its sides that lie opposite, or its diagonals, differ by "
            f"{said(unlike, job.unit)}. Look at the readings to its corners, and at their order.",
            unlike,
        )
    outside, name = max(((_outside(complex(*hole.at), corners), hole.name) for hole in old.pins), default=(0.0, ""))
    if outside > HOLE_OUTSIDE:
        yield _about_old(
            "old.hole_outside",
            f"The old hole {name} lies {said(outside, job.unit)} outside the old footprint: look at its readings.",
            outside,
        )


def _about_old(code: str, text: str, value: float) -> Finding:
    return Finding(grade="look", code=code, text=text, values={"mm": value}, where="field:old.outline")


def _unlike(corners: list[complex]) -> float:
    """By how much the opposite sides and the diagonals of four corners differ at most, mm; 0 for any other number."""
    if len(corners) != 4:
        return 0.0
    a, b, c, d = corners
    return max(abs(abs(b - a) - abs(d - c)), abs(abs(c - b) - abs(a - d)), abs(abs(c - a) - abs(d - b)))


def _outside(spot: complex, corners: list[complex]) -> float:
    """How far a spot lies outside the corners joined in their order, mm; 0 within."""
    within, near = False, math.inf
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        side = b - a
        part = ((spot - a) * side.conjugate()).real / max(abs(side) ** 2, 1e-9)
        near = min(near, abs(spot - a - side * min(max(part, 0.0), 1.0)))
        if (a.imag > spot.imag) != (b.imag > spot.imag):
            within ^= spot.real < a.real + (spot.imag - a.imag) * side.real / side.imag
    return 0.0 if within else near
