"""The nut-slot strip: to be cut out and stuck on the nut, with each string's slot at its thickness."""

import math
from typing import Literal

from export.drawing.flatten import polyline
from export.drawing.marks import Line, Mark, Text
from export.drawing.typeface import width
from export.errors import ExportError
from export.records import Figure, Stamp
from geometry.job import Job
from geometry.layout import Layout, StringPlan
from geometry.units import show

DEEP = 14.0
"""How deep the strip is, along the strings, mm."""
LETTERS, CLEAR = 2.4, 0.8
"""Height of the labels, and the room between two of them, mm."""
LEAST_SEEN = 0.05
"""A compensation of the nut under this (mm) is not worth a word."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """The strip, its front on the nut's front. Raises `ExportError` where nut or strings are missing."""
    neck = layout.neck
    if neck is None or not layout.strings:
        raise ExportError("The nut-slot strip needs the nut's corners and the strings; fill in the Strings card")
    left, right = neck.nut
    ring = [left, (left[0] - DEEP, left[1]), (right[0] - DEEP, right[1]), right]
    marks = [Mark(shape=polyline(ring, closed=True), purpose="cut", of="strip")]
    for string in layout.strings:
        marks += _slot(string)
    marks += _names(layout)
    marks += _gaps(job, layout)
    for side, (x, y) in (("left", left), ("right", right)):
        sign = 1.0 if side == "left" else -1.0
        across: Literal["mb", "mt"] = "mb" if sign > 0 else "mt"
        name = job.bass_or_treble(side).upper()
        text = Text((x - DEEP / 2, y + sign * 3.0), name, 4.0, 0.0, across, bold=True)
        marks.append(Mark(shape=text, purpose="note"))
    marks.append(Mark(shape=Text((3.0, 0.0), "this edge on the nut's front", 2.1, -math.pi / 2, "mb"), purpose="note"))
    notes: tuple[str, ...] = (
        "Cut out, stick on the nut with its long edge on the nut's front, and file between each pair of lines.",
        f"Numbers in {job.unit}, from the bass edge of the nut to each slot's middle.",
        "Lay a rule on both scales before you use the sheet.",
    )
    if any(abs(string.nut_compensation) > LEAST_SEEN for string in layout.strings):
        notes += (
            "A compensated nut: each string leaves it where its two lines begin, behind the front edge or before it.",
        )
    return Figure(title="Nut slots", marks=tuple(marks), notes=notes, kept=("strip",), loose=True)


def _slot(string: StringPlan) -> list[Mark]:
    """A slot's two edges a string's thickness apart, or one line where the thickness is not known."""
    (x, y), half = string.nut_xy, (string.diameter or 0.0) / 2
    offs = (half, -half) if half > 0.05 else (0.0,)
    lines = [Line((x, y + off), (x - DEEP, y + off)) for off in offs]
    return [Mark(shape=line, purpose="mark", of=f"string:{string.name}", weight=0.6) for line in lines]


def _names(layout: Layout) -> list[Mark]:
    """The strings' names behind the strip, those of a pair beside each other."""
    wide = max(width(string.name, LETTERS, bold=True) for string in layout.strings) + CLEAR
    columns = _columns([string.nut_xy[1] for string in layout.strings])
    return [
        Mark(
            shape=Text((x - DEEP - 1.6 - column * wide, y), string.name, LETTERS, 0.0, "em", bold=True),
            purpose="note",
            of=f"string:{string.name}",
        )
        for string, column in zip(layout.strings, columns, strict=True)
        for x, y in [string.nut_xy]
    ]


def _columns(places: list[float]) -> list[int]:
    """In which column beside the strip each label stands, so that none lies on another; `places` are their y, mm."""
    last: dict[int, float] = {}
    found = []
    for y in places:
        column = next(n for n in range(len(places)) if n not in last or abs(y - last[n]) >= LETTERS + CLEAR)
        last[column] = y
        found.append(column)
    return found


def _gaps(job: Job, layout: Layout) -> list[Mark]:
    """From the bass edge of the nut to each slot's middle, written beside the strip."""
    neck = layout.neck
    assert neck is not None
    bass = neck.nut[0 if job.bass == "left" else 1]
    marks = []
    said = [show(abs(string.nut_xy[1] - bass[1]), job.unit) for string in layout.strings]
    wide = max(width(says, LETTERS) for says in said) + 2 * CLEAR
    columns = _columns([string.nut_xy[1] for string in layout.strings])
    for string, says, column in zip(layout.strings, said, columns, strict=True):
        x, y = string.nut_xy
        end = x + 10.0 + column * wide
        marks.append(Mark(shape=Line((x + 7.0, y), (end, y)), purpose="dimension", of=f"string:{string.name}"))
        marks.append(Mark(shape=Text((end + 1.5, y), says, LETTERS, 0.0, "sm"), purpose="dimension"))
    return marks
