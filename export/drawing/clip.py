"""Cutting shapes at the edge of a box: what of a drawing falls on a sheet."""

import math
from itertools import pairwise
from typing import assert_never

import msgspec
import numpy as np

from export.drawing.flatten import Box, Piece, box, ends, on_arc, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Shape, Text, Vertex
from export.drawing.typeface import text_box
from geometry.frame import Array, Points

NOTHING = 1e-6
"""Pieces shorter than this are left out, mm."""


def clip_line(a: XY, b: XY, to: Box) -> tuple[XY, XY] | None:
    """The part of a line inside a box (Y.-D. Liang and B. A. Barsky, ACM Trans. Graphics 3 (1984) 1-22)."""
    low, high = 0.0, 1.0
    dx, dy = b[0] - a[0], b[1] - a[1]
    for step, room in ((-dx, a[0] - to.x0), (dx, to.x1 - a[0]), (-dy, a[1] - to.y0), (dy, to.y1 - a[1])):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            low = max(low, room / step)
        else:
            high = min(high, room / step)
    if low >= high:
        return None
    start = a if low == 0.0 else (a[0] + low * dx, a[1] + low * dy)
    return start, (b if high == 1.0 else (a[0] + high * dx, a[1] + high * dy))


def inside(start: Points, way: Points, to: Box) -> tuple[Array, Array]:
    """From which share of their `way` (k,) to which lines from `start` lie inside a box; nowhere where the first is not
    the less. The same as `clip_line`, for thousands of lines at once.
    """
    low, high = np.zeros(len(way)), np.ones(len(way))
    for step, room in (
        (-way.real, start.real - to.x0),
        (way.real, to.x1 - start.real),
        (-way.imag, start.imag - to.y0),
        (way.imag, to.y1 - start.imag),
    ):
        at = room / np.where(step == 0, 1.0, step)  # a line along an edge has steps of 0
        low = np.maximum(low, np.where(step < 0, at, np.where((step == 0) & (room < 0), 2.0, 0.0)))
        high = np.minimum(high, np.where(step > 0, at, 1.0))
    return low, high


def clip_arc(arc: Arc, to: Box) -> list[Arc]:
    """The parts of an arc inside a box."""
    (x, y), r = arc.centre, arc.radius
    cuts = {0.0, abs(arc.sweep)}
    way = 1.0 if arc.sweep >= 0 else -1.0
    for edge, at, turned in ((to.x0, x, 0.0), (to.x1, x, 0.0), (to.y0, y, math.pi / 2), (to.y1, y, math.pi / 2)):
        share = (edge - at) / r
        if abs(share) < 1:
            for angle in (turned + math.acos(share), turned - math.acos(share)):
                along = way * (angle - arc.start) % math.tau
                if along < abs(arc.sweep):
                    cuts.add(along)
    parts = []
    for start, stop in pairwise(sorted(cuts)):
        px, py = on_arc(arc, arc.start + way * (start + stop) / 2)
        if (stop - start) * r > NOTHING and to.x0 <= px <= to.x1 and to.y0 <= py <= to.y1:
            parts.append(Arc(arc.centre, r, arc.start + way * start, way * (stop - start)))
    return parts


def clip_shape(shape: Shape, to: Box) -> list[Shape]:
    """The parts of a shape inside a box: whole where it lies inside; words only whole."""
    if isinstance(shape, Text):
        return [shape] if to.holds(text_box(shape)) else []
    around = box(shape)
    if to.holds(around):
        return [shape]
    if not around.meets(to.grown(NOTHING)):
        return []
    match shape:
        case Line():
            part = clip_line(shape.a, shape.b, to)
            return [Line(*part)] if part and math.dist(*part) > NOTHING else []
        case Arc():
            return list(clip_arc(shape, to))
        case Circle():
            return _joined(list(clip_arc(Arc(shape.centre, shape.radius, 0.0, math.tau), to)))
        case Path():
            return _joined([part for piece in pieces(shape) for part in _clip_piece(piece, to)])
        case _:
            assert_never(shape)


def clip_marks(marks: tuple[Mark, ...], to: Box) -> tuple[Mark, ...]:
    """What of the marks lies inside a box; a filled shape that is cut loses its filling."""
    kept: list[Mark] = []
    for mark in marks:
        parts = clip_shape(mark.shape, to)
        if len(parts) == 1 and parts[0] is mark.shape:
            kept.append(mark)
        else:
            kept += [msgspec.structs.replace(mark, shape=part, filled=False) for part in parts]
    return tuple(kept)


def _clip_piece(piece: Piece, to: Box) -> list[Piece]:
    if isinstance(piece, Arc):
        return list(clip_arc(piece, to))
    part = clip_line(piece.a, piece.b, to)
    return [Line(*part)] if part and math.dist(*part) > NOTHING else []


def _joined(parts: list[Piece]) -> list[Shape]:
    """Pieces that follow each other, as open paths; the last joins the first where they meet."""
    runs: list[list[Piece]] = []
    for part in parts:
        if runs and math.dist(ends(runs[-1][-1])[1], ends(part)[0]) < NOTHING:
            runs[-1].append(part)
        else:
            runs.append([part])
    if len(runs) > 1 and math.dist(ends(runs[-1][-1])[1], ends(runs[0][0])[0]) < NOTHING:
        runs[0] = runs.pop() + runs[0]
    return [run[0] if len(run) == 1 else _path(run) for run in runs]


def _path(run: list[Piece]) -> Path:
    vertices: list[Vertex] = [
        (*ends(piece)[0], math.tan(piece.sweep / 4) if isinstance(piece, Arc) else 0.0) for piece in run
    ]
    return Path((*vertices, (*ends(run[-1])[1], 0.0)))
