"""Dimensions, arrows, crosses and hatches, flattened into plain shapes once, before any painter sees them.

`scale` is paper mm per drawing mm: arrowheads and gaps keep their size on the paper at any enlargement.
"""

import math

import numpy as np

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Line, Mark, Purpose, Shape, Text

ARROW = 3.2
"""An arrowhead's length in paper mm; a third as wide (ISO 129-1:2018 leaves the size open)."""


def arrowhead(tip: XY, toward: float, length: float) -> Shape:
    """A solid arrowhead whose tip is at `tip`, pointing in direction `toward` (radians)."""
    back = [(tip[0] - length * math.cos(toward + s), tip[1] - length * math.sin(toward + s)) for s in (0.16, -0.16)]
    return polyline([tip, *back], closed=True)


def arrow(a: XY, b: XY, purpose: Purpose, *, scale: float = 1.0, both: bool = False, of: str = "") -> list[Mark]:
    """A line from `a` to `b` with a head at `b`, or at both ends."""
    toward = math.atan2(b[1] - a[1], b[0] - a[0])
    length = min(ARROW / scale, math.dist(a, b) / 3)
    heads = [arrowhead(b, toward, length)] + ([arrowhead(a, toward + math.pi, length)] if both else [])
    stop = (b[0] - length * math.cos(toward), b[1] - length * math.sin(toward))
    start = (a[0] + length * math.cos(toward), a[1] + length * math.sin(toward)) if both else a
    return [
        Mark(shape=Line(start, stop), purpose=purpose, of=of),
        *(Mark(shape=head, purpose=purpose, of=of, filled=True) for head in heads),
    ]


def dimension(
    a: XY,
    b: XY,
    words: str,
    *,
    off: float,
    height: float,
    scale: float = 1.0,
    extended: tuple[bool, bool] = (True, True),
    share: float = 0.5,
    within: bool = False,
    of: str = "",
) -> list[Mark]:
    """The distance from `a` to `b`, its line `off` mm to the left of a→b, words on its outer side at a `share` of it,
    or `within`, between it and what it measures.

    Extension lines, at `a` and at `b` where `extended` says so, start a little off the points and reach a little past
    the line; an end on an edge that is drawn anyway needs none.
    """
    toward = math.atan2(b[1] - a[1], b[0] - a[0])
    left = (-math.sin(toward), math.cos(toward))
    side = math.copysign(1.0, off)

    def stand(p: XY, by: float) -> XY:
        return p[0] + left[0] * by, p[1] + left[1] * by

    marks = arrow(stand(a, off), stand(b, off), "dimension", scale=scale, both=True, of=of)
    if abs(off) > 2.5 / scale:
        gap, past = 0.8 * side / scale, 1.5 * side / scale
        ends = [Line(stand(p, gap), stand(p, off + past)) for p, wanted in zip((a, b), extended, strict=True) if wanted]
        marks += [Mark(shape=end, purpose="dimension", of=of, weight=0.8) for end in ends]
    along = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
    clear = max(1.2, 0.55 * height) * side / scale  # letters reach above and below their capitals
    above = (side > 0) != within
    place = stand(along, off - clear if within else off + clear)
    text = Text(place, words, height, toward, "mb" if above else "mt", bold=True)
    return [*marks, Mark(shape=text, purpose="dimension", of=of)]


def tips(a: XY, b: XY, off: float) -> tuple[XY, XY]:
    """Where a dimension's arrows from `a` to `b` have their tips, its line `off` mm to the left of a→b."""
    toward = math.atan2(b[1] - a[1], b[0] - a[0])
    x, y = -math.sin(toward) * off, math.cos(toward) * off
    return (a[0] + x, a[1] + y), (b[0] + x, b[1] + y)


def off_line(at: XY, a: XY, b: XY) -> float:
    """How far a place lies off the straight line through `a` and `b`, mm."""
    ux, uy = b[0] - a[0], b[1] - a[1]
    return abs(ux * (at[1] - a[1]) - uy * (at[0] - a[0])) / math.hypot(ux, uy)


def cross(at: XY, arm: float, purpose: Purpose, *, turn: float = 0.0, of: str = "", weight: float = 1.0) -> list[Mark]:
    """Two lines that cross at a point."""
    marks = []
    for angle in (turn, turn + math.pi / 2):
        dx, dy = arm * math.cos(angle), arm * math.sin(angle)
        line = Line((at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy))
        marks.append(Mark(shape=line, purpose=purpose, of=of, weight=weight))
    return marks


def hatch(ring: tuple[XY, ...], gap: float, angle: float = math.pi / 4) -> list[Line]:
    """Parallel lines `gap` apart inside a closed ring (even-odd), at an angle to x."""
    a = np.array([complex(*corner) for corner in ring]) * np.exp(-1j * angle)
    b = np.concatenate((a[1:], a[:1]))
    y = gap * np.arange(math.ceil(a.imag.min() / gap), math.floor(a.imag.max() / gap) + 1)[:, None]
    crossed = (a.imag <= y) != (b.imag <= y)
    rise = np.where(a.imag == b.imag, 1.0, b.imag - a.imag)
    x = np.sort(np.where(crossed, a.real + (y - a.imag) * (b.real - a.real) / rise, np.nan), axis=1)
    start, stop = x[:, : len(ring) // 2 * 2 : 2], x[:, 1::2]
    long = stop - start > 0.05  # never where either is lacking
    first, last = (((along + 1j * y) * np.exp(1j * angle))[long].tolist() for along in (start, stop))
    return [Line((p.real, p.imag), (q.real, q.imag)) for p, q in zip(first, last, strict=True)]
