"""What lies under the pointer: the mark nearest to a place, points before lines, lines before grounds."""

import math
from collections.abc import Container

from export.drawing.flatten import arc_ends, pieces
from export.drawing.marks import XY, Arc, Circle, Drawing, Line, Mark, Path, Text

_FIRST = ("point", "reading", "pin", "metal")


def pick(drawing: Drawing, xy: XY, reach: float, only: Container[str] | None = None) -> Mark | None:
    """The mark that stands for something and lies within `reach` mm of `xy`; None where there is none.

    Points, readings, pins and metal come before all else; of the rest the nearest, and of two as near the later
    drawn. `only`: what marks may stand for; None: anything.
    """
    best: tuple[int, float, int] | None = None
    found: Mark | None = None
    for order, mark in enumerate(drawing.marks):
        if not mark.of or (only is not None and mark.of not in only):
            continue
        away = distance(mark, xy)
        if away <= reach:
            rank = (0 if mark.of.partition(":")[0] in _FIRST else 1, away, -order)
            if best is None or rank < best:
                best, found = rank, mark
    return found


def distance(mark: Mark, xy: XY) -> float:
    """How far a place is from a mark's line; 0 inside a filled circle."""
    shape = mark.shape
    match shape:
        case Line():
            return _from_line(shape.a, shape.b, xy)
        case Circle():
            off = math.dist(shape.centre, xy) - shape.radius
            return max(off, 0.0) if mark.filled else abs(off)
        case Arc():
            return _from_arc(shape, xy)
        case Path():
            return min((_from_piece(piece, xy) for piece in pieces(shape)), default=math.inf)
        case Text():
            return math.dist(shape.at, xy)


def _from_piece(piece: Line | Arc, xy: XY) -> float:
    return _from_line(piece.a, piece.b, xy) if isinstance(piece, Line) else _from_arc(piece, xy)


def _from_line(a: XY, b: XY, p: XY) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length2 = dx * dx + dy * dy
    share = 0.0 if length2 == 0 else min(1.0, max(0.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2))
    return math.hypot(a[0] + share * dx - p[0], a[1] + share * dy - p[1])


def _from_arc(arc: Arc, p: XY) -> float:
    angle = math.atan2(p[1] - arc.centre[1], p[0] - arc.centre[0])
    turned = (angle - arc.start) * (1 if arc.sweep >= 0 else -1) % math.tau
    if turned <= abs(arc.sweep):
        return abs(math.dist(arc.centre, p) - arc.radius)
    return min(math.dist(end, p) for end in arc_ends(arc))
