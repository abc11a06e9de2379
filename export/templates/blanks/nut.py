"""The nut-slot strip: to be cut out and stuck on the nut, with each string's slot at its thickness.

It keeps its sides when it is cut out: B, T and an arrow to the tail stand inside it, between the strings.
"""

import math
from itertools import pairwise
from statistics import fmean
from typing import Literal

from export.drawing.dimension import arrow
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Line, Mark, Text
from export.errors import ExportError
from export.records import SCALES, Figure, Stamp
from geometry import words
from geometry.job import Job
from geometry.layout import Layout, StringPlan
from geometry.units import named, show

DEEP = 14.0
"""How deep the strip is, along the strings, mm."""
LETTERS, CLEAR = 2.4, 1.2
"""Height of the labels, and the room between two of them, mm."""
BAR = 0.6
"""Lines closer than this (mm) run into one bar on paper: such a slot gets its middle line (a line is 0.2 mm wide)."""
OWN_LETTERS, OWN_LEAST, OWN_ROOM = 2.6, 1.6, 4.0
"""Height of the letters inside the strip, the least they are drawn at, and the room they are given where a gap has it,
mm.
"""
LEADER, MOVED = 4.0, 0.01
"""How far a leader runs from the slot's line to its label, and from what on a label is moved, mm."""
LEAST_SEEN = 0.05
"""A compensation of the nut under this (mm) is not worth a word."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """The strip, its front on the nut's front. Raises `ExportError` where nut or strings are missing."""
    neck = layout.neck
    strings = _at_nut(layout)
    if neck is None or not strings:
        raise ExportError("The nut-slot strip needs the nut’s corners and the strings; fill in the Strings card")
    left, right = neck.nut
    ring = [left, (left[0] - DEEP, left[1]), (right[0] - DEEP, right[1]), right]
    marks = [Mark(shape=polyline(ring, closed=True), purpose="cut", of="strip")]
    for string in strings:
        marks += _slot(string)
    marks += [*_own_sides(job, layout), *_names(layout), *_gaps(job, layout)]
    for side, (x, y) in (("left", left), ("right", right)):
        sign = 1.0 if side == "left" else -1.0
        across: Literal["mb", "mt"] = "mb" if sign > 0 else "mt"
        name = job.bass_or_treble(side).upper()
        text = Text((x - DEEP / 2, y + sign * 3.0), name, 4.0, 0.0, across, bold=True)
        marks.append(Mark(shape=text, purpose="note"))
    marks.append(_front_edge(left, right))
    notes: tuple[str, ...] = (
        "Cut out, stick on the nut with its long edge on the nut’s front, and file between each pair of lines; "
        "a single line is a slot’s middle.",
        f"Numbers in {named(job.unit)}, from the bass edge of the nut to each slot’s middle.",
        SCALES,
    )
    if any(abs(string.nut_compensation) > LEAST_SEEN for string in _at_nut(layout)):
        notes += (
            "A compensated nut: each string leaves it where its two lines begin, behind the front edge or before it.",
        )
    elsewhere = [string for string in layout.strings if string.starts_at]
    if elsewhere:
        told = words.joined([f"{words.string(one.name)} at fret {one.starts_at}" for one in elsewhere])
        notes += (f"Not on this nut, but on {'its' if len(elsewhere) == 1 else 'their'} own: {told}.",)
    return Figure(title="Nut slots", marks=tuple(marks), notes=notes, kept=("strip",), loose=True)


def _front_edge(left: XY, right: XY) -> Mark:
    """What the front edge is laid on, along it."""
    ahead = (right[1] - left[1], left[0] - right[0])
    share = -3.0 / math.hypot(*ahead)
    at = ((left[0] + right[0]) / 2 + share * ahead[0], (left[1] + right[1]) / 2 + share * ahead[1])
    angle = math.atan2(right[1] - left[1], right[0] - left[0])
    return Mark(shape=Text(at, "this edge on the nut’s front", 2.1, angle, "mb"), purpose="note")


def _at_nut(layout: Layout) -> list[StringPlan]:
    """The strings that begin at the nut."""
    return [string for string in layout.strings if not string.starts_at]


def _slot(string: StringPlan) -> list[Mark]:
    """A slot's two edges a string's thickness apart; its middle where they would merge or are not known."""
    (x, y), half, of = string.nut_xy, (string.diameter or 0.0) / 2, f"string:{string.name}"
    if 2 * half < BAR:
        return [Mark(shape=Line((x, y), (x - DEEP, y)), purpose="centre", of=of)]
    lines = [Line((x, y + off), (x - DEEP, y + off)) for off in (half, -half)]
    return [Mark(shape=line, purpose="mark", of=of, weight=0.6) for line in lines]


def _own_sides(job: Job, layout: Layout) -> list[Mark]:
    """B and T between the strings or the strip's ends, an arrow to the tail in a gap near the middle."""
    assert layout.neck is not None
    (left_x, left), (right_x, right) = layout.neck.nut
    x = (left_x + right_x - DEEP) / 2
    rows = sorted([left, *(string.nut_xy[1] for string in _at_nut(layout)), right], reverse=True)
    thick = max(string.diameter or 0.0 for string in _at_nut(layout))
    gaps = [(upper - lower - thick - 0.8, (upper + lower) / 2) for upper, lower in pairwise(rows)]
    marks = []
    for side, ordered in (("left", gaps), ("right", gaps[::-1])):
        fits = (next((gap for gap in ordered if gap[0] >= wanted), None) for wanted in (OWN_ROOM, OWN_LETTERS))
        room, y = next(filter(None, fits), max(gaps))
        height = max(OWN_LEAST, min(OWN_LETTERS, room))
        text = Text((x, y), job.bass_or_treble(side)[0].upper(), height, 0.0, "mm", bold=True)
        marks.append(Mark(shape=text, purpose="note", of="strip"))
    middle = (left + right) / 2
    taken = [mark.shape.at[1] for mark in marks if isinstance(mark.shape, Text)]
    free = [gap for gap in gaps[1:-1] if gap[1] not in taken] or gaps
    wide = [gap for gap in free if gap[0] >= OWN_LEAST] or [max(free)]
    room, y = min(wide, key=lambda gap: abs(gap[1] - middle))
    word = Text((x + 0.6, y), "tail", max(OWN_LEAST, min(2.1, room)), 0.0, "sm")
    return [
        *marks,
        *arrow((x - 5.5, y), (x - 0.4, y), "note", of="strip"),
        Mark(shape=word, purpose="note", of="strip"),
    ]


def _names(layout: Layout) -> list[Mark]:
    """The strings' names behind the strip, each by itself, with a leader to its slot."""
    marks = []
    strings = _at_nut(layout)
    for string, y in zip(strings, _spread([string.nut_xy[1] for string in strings]), strict=True):
        (x, own), of = (string.nut_xy[0] - DEEP, string.nut_xy[1]), f"string:{string.name}"
        if abs(y - own) > MOVED:
            marks.append(Mark(shape=Line((x - 1.0, own), (x - LEADER, y)), purpose="dimension", of=of))
        text = Text((x - LEADER - 1.0, y), string.name, LETTERS, 0.0, "em", bold=True)
        marks.append(Mark(shape=text, purpose="note", of=of))
    return marks


def _spread(places: list[float]) -> list[float]:
    """Where labels stand so that none lies on another, each as near to its place (y, mm) as that allows.

    Labels that would touch stand together about the mean of their places (pooling of adjacent violators).
    """
    step = LETTERS + CLEAR
    order = sorted(range(len(places)), key=lambda i: places[i])
    pools: list[list[float]] = []
    for rank, i in enumerate(order):
        pools.append([places[i] - rank * step])
        while len(pools) > 1 and fmean(pools[-2]) > fmean(pools[-1]):
            last = pools.pop()
            pools[-1] += last
    flat = [fmean(pool) for pool in pools for _ in pool]
    stands = {i: at + rank * step for rank, (i, at) in enumerate(zip(order, flat, strict=True))}
    return [stands[i] for i in range(len(places))]


def _gaps(job: Job, layout: Layout) -> list[Mark]:
    """From the bass edge of the nut to each slot's middle, written beside the strip."""
    neck = layout.neck
    assert neck is not None
    bass = neck.nut[0 if job.bass == "left" else 1]
    marks = []
    strings = _at_nut(layout)
    for string, y in zip(strings, _spread([string.nut_xy[1] for string in strings]), strict=True):
        (x, own), of = string.nut_xy, f"string:{string.name}"
        says = show(abs(own - bass[1]), job.unit)
        far = x + 8.0 + LEADER
        bent = polyline([(x + 7.0, own), (x + 8.0, own), (far - 1.0, y), (far, y)])
        leader = bent if abs(y - own) > MOVED else Line((x + 7.0, own), (far, own))
        marks.append(Mark(shape=leader, purpose="dimension", of=of))
        marks.append(Mark(shape=Text((far + 1.0, y), says, LETTERS, 0.0, "sm"), purpose="dimension", of=of))
    return marks
