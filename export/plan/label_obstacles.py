"""What the plan's labels keep clear of, as occupied cells in the screen's paper mm: points, the bridge's work, lines of
reading; not the body's ground.
"""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from export.drawing.clip import inside
from export.drawing.flatten import Box, vertices_of
from export.drawing.marks import Arc, Circle, Line, Mark, Path, Text, Vertex
from export.drawing.pens import STEEL
from export.drawing.room.occupied_cells import OccupiedCells
from export.drawing.typeface import ACROSS, ALONG, width
from export.plan import steel_laid_down
from export.plan.plan_view import PlanView
from geometry.frame import Points

CELL, ROOM = 1.5, 100.0
"""A cell's side, and the room for words round a drawing that is seen whole, paper mm."""
TIP = 2.5
"""How far words keep from where an edge line ends, paper mm: they would pass for its name."""
CHORDS = 8
"""How many chords stand for an arc: a half circle's lie 0.02 of its radius within it at most."""
OUTLINED = ("body", "string")
"""What of the instrument itself words keep clear of: the body's edge and the strings."""
EDGES = ("ring", "headstock")
"""What words lie on only where there is no other room: the edges of the body's hole and of the headstock; sooner than
on those of pages laid over.
"""
Run = Sequence[Vertex]
"""A line through vertices, instrument mm."""


def label_obstacles(marks: Sequence[Mark], view: PlanView) -> OccupiedCells:
    """The cells under what is drawn that no label may cover."""
    runs: list[Run] = []
    boxes: list[Box] = []
    for mark in marks:
        shape = mark.shape
        if isinstance(shape, Text) and mark.of.startswith("reading:"):
            boxes.append(_plate(shape, view))
            continue
        kind = mark.of.partition(":")[0]
        scar = mark.of == "scar" and mark.purpose != "dimension"
        ground = mark.purpose == "body" and kind not in OUTLINED
        if isinstance(shape, Text) or scar or ground or _is_page(mark):
            continue
        if kind == "edge" and isinstance(shape, Line):
            (x, y) = view.seen(shape.b)
            boxes.append(Box(x - TIP, y - TIP, x + TIP, y + TIP))
        if isinstance(shape, Circle):
            (x, y), r = view.seen(shape.centre), shape.radius * view.scale
            boxes.append(Box(x - r, y - r, x + r, y + r))
        else:
            runs.append(vertices_of(shape))
            if kind in STEEL and isinstance(shape, Path):
                runs += _across_strip(shape, view)
    return occupied(view, runs, boxes)


def label_edges(marks: Sequence[Mark], view: PlanView) -> list[OccupiedCells]:
    """The cells under the edges that a label covers only where it would have no place otherwise: all of them, and where
    pages are laid over, those of the pages alone, which are crossed last.
    """
    pages = [mark for mark in marks if _is_page(mark)]
    edges = [mark for mark in marks if mark.purpose == "body" and mark.of in EDGES]
    return [_under_edges([*edges, *pages], view), *([_under_edges(pages, view)] if pages else [])]


def _is_page(mark: Mark) -> bool:
    return mark.of.startswith("sheet:")


def _under_edges(marks: Sequence[Mark], view: PlanView) -> OccupiedCells:
    shapes = [mark.shape for mark in marks]
    whole = [Arc(shape.centre, shape.radius, 0.0, math.tau) if isinstance(shape, Circle) else shape for shape in shapes]
    return occupied(view, [vertices_of(shape) for shape in whole if not isinstance(shape, Text)], [])


def occupied(view: PlanView, runs: Sequence[Run], boxes: Sequence[Box]) -> OccupiedCells:
    """The cells under lines (instrument mm) and boxes (paper mm), as far as the view's window reaches."""
    window = view.seen_window
    z = _along(_pieces(view, runs), window)
    x0, y0, x1, y1 = window or np.append(_least(z) - ROOM, _least(-z) * -1 + ROOM).tolist()
    ends = (math.floor(x0 / CELL), math.floor(y0 / CELL), math.floor(x1 / CELL) + 1, math.floor(y1 / CELL) + 1)
    cells = OccupiedCells(Box(*(CELL * end for end in ends)), CELL)
    cells.occupy_places(z)
    for box in boxes:
        cells.occupy(box)
    return cells


def _plate(text: Text, view: PlanView) -> Box:
    """The ground under a reading's value, which stands upright on the screen (paper mm)."""
    (x, y), wide = view.seen(text.at), width(text.text, text.height, text.bold)
    upright = view.to_screen.shape(text)
    assert isinstance(upright, Text)
    x -= ALONG[upright.anchor[0]] * wide
    y -= ACROSS[upright.anchor[1]] * text.height
    more, high = steel_laid_down.PLATE
    return Box(x - more, y - high, x + wide + more, y + text.height + high)


def _across_strip(strip: Path, view: PlanView) -> list[Run]:
    """Lines across a strip of steel, so close that no words find room on it."""
    (ax, ay, _), (bx, by, _), (cx, cy, _), (dx, dy, _) = strip.vertices
    count = math.ceil(math.hypot(dx - ax, dy - ay) * view.scale / CELL)
    shares = [k / count for k in range(1, count)]
    return [
        ((ax + share * (dx - ax), ay + share * (dy - ay), 0.0), (bx + share * (cx - bx), by + share * (cy - by), 0.0))
        for share in shares
    ]


def _least(z: Points) -> NDArray[np.float64]:
    """The least x and y of places (k,), 0 where there are none."""
    return np.array((z.real.min(), z.imag.min())) if len(z) else np.zeros(2)


def _pieces(view: PlanView, runs: Sequence[Run]) -> Points:
    """The straight pieces and chords of lines through vertices, start and stop (2, k), in the screen's paper mm."""
    vertices = np.array([vertex for run in runs for vertex in run], dtype=np.float64).reshape(-1, 3)
    at = vertices[:, 0] + 1j * vertices[:, 1]
    whole = np.ones(max(len(at) - 1, 0), dtype=bool)
    whole[np.cumsum([len(run) for run in runs], dtype=np.intp)[:-1] - 1] = False
    start, way, sweep = at[:-1][whole], np.diff(at)[whole], 4 * np.arctan(vertices[:-1, 2][whole])
    bent = np.abs(sweep) > 1e-9
    turn, share = sweep[bent, None] / 2, np.arange(CHORDS + 1) / CHORDS
    # an arc's share s from its start: the chord's way times sin(s·turn) / sin(turn), turned by (s − 1)·turn
    arcs = start[bent, None] + way[bent, None] * np.sin(share * turn) / np.sin(turn) * np.exp(1j * (share - 1) * turn)
    line, stop = ~bent, start + way
    first, last = (
        np.concatenate((straight[line], chords.ravel()))
        for straight, chords in ((start, arcs[:, :-1]), (stop, arcs[:, 1:]))
    )
    x, y = (complex(*view.seen(axis)) for axis in ((1.0, 0.0), (0.0, 1.0)))
    return np.array([z.real * x + z.imag * y for z in (first, last)])


def _along(pieces: Points, window: Box | None) -> Points:
    """Places along pieces (2, k), no farther apart than a cell, as far as they lie in the window."""
    start, way = pieces[0], pieces[1] - pieces[0]
    if window is not None:
        low, high = inside(start, way, window)
        seen = low < high
        start, way = (start + low * way)[seen], ((high - low) * way)[seen]
    steps = np.maximum(np.ceil(np.abs(way) / CELL), 1).astype(np.intp)
    first = np.cumsum(steps + 1) - (steps + 1)
    share = (np.arange(int((steps + 1).sum())) - np.repeat(first, steps + 1)) / np.repeat(steps, steps + 1)
    return np.asarray(np.repeat(start, steps + 1) + share * np.repeat(way, steps + 1))
