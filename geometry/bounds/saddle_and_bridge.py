"""Bounds of saddle and bridge: a saddle where none can be, a slot too short, a bridge on the board."""

import math
from collections.abc import Iterator

from geometry import words
from geometry.bridge.belly import depth
from geometry.findings import Finding, look
from geometry.job import Bridge, Floating, Job, Saddle
from geometry.job.bridges.how_held import how_held
from geometry.job.neck.fretting import SCALES
from geometry.layout import BridgePlan, FretPlan, Neck, SaddlePiece, SaddlePlan
from geometry.units import mm, said, told_alike

SLANT = 60.0
"""mm. No saddle stands farther on one side than on the other by more, slanted frets or not (common practice, no
source)."""
SLOT_PAST = 1.0
"""mm. The saddle reaches at least this far past the outer strings (common practice, no source)."""
LENGTHS, WIDTHS = (50.0, 230.0), (8.0, 60.0)
"""mm. Bridges of fretted instruments are as long and as wide as this (common practice, no source)."""
STANDING_LENGTHS, STANDING_WIDTHS = (40.0, 220.0), (3.0, 30.0)
"""mm. Bridges that only stand are as long, and as wide at their feet, as this (common practice, no source)."""
FOOT, NO_FOOT = 4.0, 2.0
"""mm. Few feet are shorter than the first; on less than the second no bridge stands (common practice, no source)."""
THICKEST_SADDLE = 6.5
"""mm. Few saddles are thicker (common practice, no source)."""
DEPTHS = (2.0, 15.0)
"""mm. A slot is cut as deep as this (common practice, no source)."""
BELLY = 30.0
"""mm. No belly stands out farther (common practice, no source)."""
HOLES = (3.0, 8.0)
"""mm. Pin holes are as wide as this (common practice, no source)."""


def saddle_findings(job: Job, saddle: SaddlePlan, neck: Neck) -> tuple[Finding, ...]:
    """A slot that is too short for the strings, a saddle thicker than any, edges that cross before it."""
    return (
        *_nowhere(job, saddle),
        *_short_slot(job, saddle),
        *_thick(job, job.saddle or Saddle()),
        *_crossed(job, saddle, neck),
    )


def bridge_findings(job: Job, neck: Neck, frets: FretPlan, bridge: BridgePlan) -> tuple[Finding, ...]:
    """A bridge of no usual size, and one that lies on the board."""
    size = () if job.bridge is None else _size(job, job.bridge)
    return (*size, *_on_board(job, neck, frets, bridge))


def standing_findings(job: Job, neck: Neck, frets: FretPlan, bridge: BridgePlan) -> tuple[Finding, ...]:
    """A bridge that only stands on the top, of no usual size, or that would stand on the board."""
    size = () if job.floating is None else (*_standing_size(job, job.floating), *_feet(job, job.floating))
    return (*size, *_on_board(job, neck, frets, bridge))


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
        text=f"The {how_held(job).ridge} would {what}, as on no instrument: some reading is far out. Look at the "
        "readings of the board and of the frets, and mend those that do not agree with the others.",
        values={"slant": saddle.slant, "far": far},
        where="saddle",
    )


def _short_slot(job: Job, saddle: SaddlePlan) -> Iterator[Finding]:
    """Strings that break beyond the slot's ends, or next to them."""
    left, piece = min(((_past(piece), piece) for piece in saddle.pieces), key=lambda one: one[0])
    if left >= SLOT_PAST:
        return
    if len(saddle.pieces) > 1:
        yield _short_piece(job, left, piece)
        return
    beyond = left < 0
    seat = how_held(job).seat
    how = f"runs {said(-left, job.unit)} beyond the {seat}’s end" if beyond else f"runs at the {seat}’s very end"
    yield Finding(
        grade="stop" if beyond else "look",
        code="slot.short",
        text=f"An outer string {how}: make the {seat} longer, or the spread there smaller.",
        values={"mm": left},
        where="field:saddle.slot_length",
    )


def _past(piece: SaddlePiece) -> float:
    """How far a piece's slot reaches past its outermost strings, mm."""
    front = [complex(*at) for at in piece.front]
    middle, way = sum(front) / 2, (front[0] - front[1]) / max(abs(front[0] - front[1]), 1e-9)
    reach = max(abs(((complex(*at) - middle) * way.conjugate()).real) for at in piece.at_strings)
    return abs(front[0] - front[1]) / 2 - reach


def _short_piece(job: Job, left: float, piece: SaddlePiece) -> Finding:
    """A piece of a saddle that is shorter than its strings lie apart, or barely longer."""
    of = words.strings(piece.strings)
    it = "it" if len(piece.strings) == 1 else "them"
    short = left < 0
    how = f"is {said(-left, job.unit)} too short for {it}" if short else f"ends {said(left, job.unit)} past {it}"
    return Finding(
        grade="stop" if short else "look",
        code="slot.short",
        text=f"The saddle’s piece under {of} {how}, and {said(SLOT_PAST, job.unit)} is the least: make the slots "
        "longer, leave less wood between two of them, or part the saddle elsewhere.",
        values={"mm": left},
        where="field:saddle.made",
    )


def _thick(job: Job, saddle: Saddle) -> Iterator[Finding]:
    thick = mm(saddle.thickness)
    if saddle.slot_depth is not None:
        yield from odd_size(job, "The slot", "deep", mm(saddle.slot_depth), DEPTHS, "saddle.slot_depth")
    if not _is_usual(job, thick, (0.0, THICKEST_SADDLE)):
        yield Finding(
            grade="look",
            code="saddle.thick",
            text=f"The {how_held(job).ridge} is {said(thick, job.unit)} thick, and few are thicker than "
            f"{said(THICKEST_SADDLE, job.unit)}: look at the unit and the decimal point.",
            values={"mm": thick},
            where="field:saddle.thickness",
        )


def _crossed(job: Job, saddle: SaddlePlan, neck: Neck) -> Iterator[Finding]:
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
            text=f"The board’s edges, carried on, cross before the {how_held(job).ridge}: look at the "
            "widths at the nut and at the board’s end, and which side each reading names.",
            values={"mm": left - right},
            where="point:end.left",
        )


def _size(job: Job, bridge: Bridge) -> Iterator[Finding]:
    for what, value, usual, field in (
        ("long", mm(bridge.length), LENGTHS, "length"),
        ("wide", mm(bridge.width), WIDTHS, "width"),
    ):
        yield from odd_size(job, "The bridge", what, value, usual, f"bridge.{field}")
    yield from odd_size(job, "The bridge’s belly", "deep", depth(bridge), (0.0, BELLY), "bridge.belly_depth")
    if bridge.pins is not None:
        yield from odd_size(job, "Each pin hole", "wide", mm(bridge.pins.diameter), HOLES, "bridge.pins.diameter")


def _standing_size(job: Job, floating: Floating) -> Iterator[Finding]:
    long, wide = mm(floating.length), mm(floating.width)
    yield from odd_size(job, "The bridge", "long", long, STANDING_LENGTHS, "floating.length")
    yield from odd_size(job, "The bridge", "wide at its feet", wide, STANDING_WIDTHS, "floating.width")


def _feet(job: Job, floating: Floating) -> Iterator[Finding]:
    """Feet that hardly any bridge, or none, could stand on."""
    short = [mm(foot) for foot in floating.feet if not _is_usual(job, mm(foot), (FOOT, math.inf))]
    if not short:
        return
    least, none = min(short), not _is_usual(job, min(short), (NO_FOOT, math.inf))
    long = said(least, job.unit)
    who = (
        f"A foot of the bridge is {long} long"
        if len(short) == 1
        else f"{len(short)} feet of the bridge are as short as {long}"
    )
    than = f"no bridge stands on under {said(NO_FOOT, job.unit)}" if none else f"few are under {said(FOOT, job.unit)}"
    yield Finding(
        grade="stop" if none else "look",
        code="floating.foot",
        text=f"{who}, and {than}. Look at the feet’s lengths, the unit and the decimal point.",
        values={"mm": least},
        where="field:floating.feet",
    )


def _is_usual(job: Job, value: float, usual: tuple[float, float]) -> bool:
    """Whether a size lies within limits, mm, or reads as one of them does: 5/32 in is not called under 5/32 in."""
    if usual[0] <= value <= usual[1]:
        return True
    return told_alike(value, usual[0] if value < usual[0] else usual[1], job.unit)


def odd_size(job: Job, who: str, what: str, value: float, usual: tuple[float, float], field: str) -> Iterator[Finding]:
    """What is said of a size (mm) that is not within what is usual, typed in a `field`; nothing of one that is."""
    if _is_usual(job, value, usual):
        return
    yield look(
        field.replace(".pins.", ".hole_"),
        f"{who} is {said(value, job.unit)} {what}; few are under {said(usual[0], job.unit)} or over "
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
        what, end = ("board", "board’s end") if neck.end is not None else ("frets", "last fret that was read")
        yield Finding(
            grade="stop",
            code="bridge.on_board",
            text=f"The bridge would lie on the {what}: its front edge lies {said(-room, job.unit)} before the "
            f"{end}. Look at the frets, at the board’s length, at the unit of each, and at the bridge’s own sizes.",
            values={"mm": room},
            where="bridge",
        )


def _x(one: tuple[float, float], other: tuple[float, float], y: float) -> float:
    """Where the line through two points lies at y."""
    apart = one[1] - other[1]
    return one[0] if abs(apart) < 1e-6 else other[0] + (one[0] - other[0]) * (y - other[1]) / apart
