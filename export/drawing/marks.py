"""The one drawing model: a **Drawing** is a list of **marks**, each a shape with a purpose and what it stands for.

Geometry is in instrument millimetres in the neck frame (+x to the tail, +y to the left). Letter heights are in paper
millimetres. There are five shapes and no more; dimensions and hatches are flattened into them before any painter sees
them. A **purpose** says what the hand or the machine does with the mark; line type and width follow from it.

A `match` takes a shape's fields by their names: by their places costs ten times as much of these records. None of
them can hold itself, so the collector of garbage need not look at them (`gc=False`).
"""

from typing import Literal

import msgspec

from geometry.layout import XY as XY
from geometry.layout import Vertex as Vertex

Anchor = Literal["sb", "sm", "st", "mb", "mm", "mt", "eb", "em", "et"]
Tone = Literal["measured", "worked out", "before", "look", "quiet"]
"""The plan's second channel: what was measured, worked out, there before, or to be looked at again."""

Purpose = Literal[
    "cut",  # edge to cut out along: continuous thick
    "drill",  # hole to drill
    "route",  # slot to rout
    "mark",  # line or outline to mark: continuous, less thick
    "lay",  # line to lay the sheet on: continuous thin
    "centre",  # centre line: long-dash dot
    "hidden",  # what lies under or inside: dashed
    "before",  # as it was before: long-dash double-dot
    "metal",  # metal and its keep-out
    "dimension",  # dimension line and its number
    "note",  # words
    "register",  # sheet marks
    "kept",  # a placement that was kept: long-dash short-dash
    "measured",  # on the plan only: what was read
    "body",  # on the plan only: the instrument itself
]


class Line(msgspec.Struct, frozen=True, tag=True, gc=False):
    """A straight piece from `a` to `b`."""

    a: XY
    b: XY


class Arc(msgspec.Struct, frozen=True, tag=True, gc=False):
    """Part of a circle: `start` and `sweep` in radians, counter-clockwise positive."""

    centre: XY
    radius: float
    start: float
    sweep: float


class Circle(msgspec.Struct, frozen=True, tag=True, gc=False):
    """A whole circle."""

    centre: XY
    radius: float


class Path(msgspec.Struct, frozen=True, tag=True, gc=False):
    """A polyline of straight pieces and arcs; `closed` joins the last vertex to the first (by its bulge)."""

    vertices: tuple[Vertex, ...]
    closed: bool = False


class Text(msgspec.Struct, frozen=True, tag=True, gc=False):
    """Words: `height` is the capital letters' height in paper mm; `angle` in radians; `anchor` names the corner or
    middle of the words that stands on `at`: s(tart) m(iddle) e(nd) along the line, b(aseline) m(iddle) t(op) across it.
    """

    at: XY
    text: str
    height: float
    angle: float = 0.0
    anchor: Anchor = "sb"
    bold: bool = False


Shape = Line | Arc | Circle | Path | Text


class Mark(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """A shape with its purpose and what it stands for: `of` is "point:nut.left", "reading:r9", "saddle", "pin:3" or "".

    `filled` closed shapes are solid. `weight` multiplies the purpose's line width.
    """

    shape: Shape
    purpose: Purpose
    of: str = ""
    filled: bool = False
    weight: float = 1.0
    tone: Tone = "worked out"


class Drawing(msgspec.Struct, frozen=True, kw_only=True):
    """Marks in the order they are painted, and what the drawing is called."""

    title: str
    marks: tuple[Mark, ...]
