"""The **strokes** in which marks are painted: an outline that is dashed in one for each of its sides, so that dashes
make its corners and no corner falls into a gap (ISO 128-2:2020).

A **side** runs from corner to corner; where an outline turns by less it is bent, and its side goes on.
"""

import math
from collections.abc import Sequence

import msgspec

from export.drawing.flatten import Piece, pieces, vertices_of
from export.drawing.marks import XY, Line, Mark, Path
from export.drawing.pens import PENS

CORNER = math.radians(20.0)
"""From so much of a turn an outline has a corner."""


def strokes(mark: Mark) -> tuple[Mark, ...]:
    """The marks to paint for a mark: itself, or the sides of an outline that is dashed."""
    if not isinstance(mark.shape, Path) or mark.filled or not PENS[mark.purpose].dashes:
        return (mark,)
    sides = _sides(list(pieces(mark.shape)), closed=mark.shape.closed)
    if len(sides) < 2:
        return (mark,)
    return tuple(msgspec.structs.replace(mark, shape=_joined(side)) for side in sides)


def _sides(run: list[Piece], *, closed: bool) -> list[list[Piece]]:
    """The pieces of each side; of a closed outline the first begins at a corner. One side where there is none."""
    ways = [_ways(piece) for piece in run]
    corners = [at for at in range(0 if closed else 1, len(run)) if _turn(ways[at - 1][1], ways[at][0]) > CORNER]
    if not corners:
        return [run]
    if closed:
        run, corners = run[corners[0] :] + run[: corners[0]], [at - corners[0] for at in corners]
    starts = corners if closed else [0, *corners]
    return [run[start:stop] for start, stop in zip(starts, [*starts[1:], len(run)], strict=True)]


def _turn(one: XY, other: XY) -> float:
    """By how much one direction turns into another, radians."""
    (ux, uy), (wx, wy) = one, other
    return abs(math.atan2(ux * wy - uy * wx, ux * wx + uy * wy))


def _ways(piece: Piece) -> tuple[XY, XY]:
    """The directions in which a piece sets out and arrives."""
    if isinstance(piece, Line):
        way = (piece.b[0] - piece.a[0], piece.b[1] - piece.a[1])
        return way, way
    side = math.copysign(1.0, piece.sweep)
    angles = (piece.start, piece.start + piece.sweep)
    one, other = ((-side * math.sin(angle), side * math.cos(angle)) for angle in angles)
    return one, other


def _joined(side: Sequence[Piece]) -> Line | Path:
    if len(side) == 1 and isinstance(side[0], Line):
        return side[0]
    last = vertices_of(side[-1])[-1]
    return Path((*(vertex for piece in side for vertex in vertices_of(piece)[:-1]), last))
