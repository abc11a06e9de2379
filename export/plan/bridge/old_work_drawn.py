"""What was there before, as the plan and the templates draw it: old footprint, holes, slot, edge of the finish and
marked areas as former lines, metal, and what lies under the top as hidden lines.

A hole that nobody read is **assumed**: it is crossed out.
"""

import cmath
import math
from itertools import pairwise

import msgspec

from export.drawing.clip import clip_line
from export.drawing.dimension import cross, hatch
from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Circle, Line, Mark, Tone
from geometry.layout import BraceLine, Hole, Metal, OldArea, OldPlan

THIN = 0.6
"""An area's outline and hatch are thinner than the footprint, by this factor."""
STEEPEST = 0.2
"""Where a brace bends so sharply that its edges would run far out they are cut short: the least cosine of half the bend
(no source)."""


def footprint(outline: tuple[XY, ...], tone: Tone = "worked out") -> list[Mark]:
    """The old footprint; none where fewer than three of its corners are known."""
    if len(outline) < 3:
        return []
    return [Mark(shape=polyline(outline, closed=True), purpose="before", of="old", tone=tone)]


def old_hole(hole: Hole, of: str, tone: Tone = "worked out") -> list[Mark]:
    """An old hole as wide as it is; an assumed one is crossed out."""
    marks = [Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="before", of=of, tone=tone)]
    if hole.assumed:
        lines = cross(hole.at, 0.7 * hole.diameter, "before", turn=math.pi / 4, of=of, weight=0.8)
        marks += [msgspec.structs.replace(line, tone=tone) for line in lines]
    return marks


def metal_marks(metal: Metal, half: float, tone: Tone = "worked out") -> list[Mark]:
    """Metal as a solid square, `half` its side in mm, with its keep-out round it."""
    (x, y), of = metal.at, f"metal:{metal.name}"
    square = [(x + i * half, y + j * half) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    marks = [Mark(shape=polyline(square, closed=True), purpose="metal", of=of, filled=True, tone=tone)]
    if metal.keep_out > 0:
        marks.append(Mark(shape=Circle(metal.at, metal.keep_out), purpose="metal", of=of, tone=tone))
    return marks


def on_the_top(old: OldPlan, gap: float, tone: Tone = "worked out") -> list[Mark]:
    """Old slot, edge of the finish, and marked areas, hatched with lines `gap` mm apart."""
    marks = [mark for area in old.areas for mark in _area(area, gap, tone)]
    for ring, of in ((old.bare, "bare"), (old.slot, "old slot")):
        if len(ring) > 2:
            marks.append(Mark(shape=polyline(ring, closed=True), purpose="before", of=of, tone=tone))
    return marks


def _area(area: OldArea, gap: float, tone: Tone) -> list[Mark]:
    of = f"area:{area.name}"
    lines = hatch(area.outline, gap, -math.pi / 4)
    return [
        Mark(shape=polyline(area.outline, closed=True), purpose="before", of=of, tone=tone, weight=THIN),
        *(Mark(shape=line, purpose="dimension", of=of, tone=tone, weight=THIN) for line in lines),
    ]


def under_the_top(old: OldPlan, tone: Tone = "worked out", within: Box | None = None) -> list[Mark]:
    """The plate's outline and both edges of each brace, dashed; of braces only what lies `within` a box."""
    marks = []
    if len(old.plate) > 2:
        marks.append(Mark(shape=polyline(old.plate, closed=True), purpose="hidden", of="old plate", tone=tone))
    for brace in old.braces:
        of = f"brace:{brace.name}"
        for edge in edges(brace):
            pieces = _pieces(edge, within) if within is not None else [polyline(edge)]
            marks += [Mark(shape=piece, purpose="hidden", of=of, tone=tone) for piece in pieces]
    return marks


def _pieces(edge: list[XY], within: Box) -> list[Line]:
    clipped = [clip_line(a, b, within) for a, b in pairwise(edge)]
    return [Line(*piece) for piece in clipped if piece]


def edges(brace: BraceLine) -> tuple[list[XY], list[XY]]:
    """A brace's two edges, half its width off its middle line on either side; bends are mitred."""
    z = [complex(*at) for at in brace.line]
    ways = [(b - a) / abs(b - a) for a, b in pairwise(z) if b != a]
    if not ways:
        return [], []
    before, after = [ways[0], *ways], [*ways, ways[-1]]
    off = []
    for one, other in zip(before, after, strict=True):
        bend = cmath.phase(other / one) / 2
        off.append(1j * one * cmath.exp(1j * bend) / max(math.cos(bend), STEEPEST) * brace.width / 2)
    spots = [at for at, last in zip(z, [None, *z], strict=False) if at != last]
    left = [at + by for at, by in zip(spots, off, strict=True)]
    right = [at - by for at, by in zip(spots, off, strict=True)]
    return [(at.real, at.imag) for at in left], [(at.real, at.imag) for at in right]
