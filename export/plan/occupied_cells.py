"""The ground on the screen that is taken already, so that no words come to lie on it, in the screen's paper mm."""

import math
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from export.drawing.flatten import Box
from export.drawing.marks import Vertex
from export.plan.plan_view import PlanView

Points = NDArray[np.complex128]
CELL, ROOM = 1.5, 100.0
"""A cell's side, and the room for words round a drawing that is seen whole, paper mm."""
CHORDS = 8
"""How many chords stand for an arc: a half circle's lie 0.02 of its radius within it at most."""


class Taken:
    """The ground that is taken, as the cells of a grid: all cells under lines (runs of vertices, instrument mm) and
    boxes (paper mm).
    """

    def __init__(self, view: PlanView, lines: Sequence[Sequence[Vertex]], boxes: Iterable[Box]) -> None:
        self.view = view
        self.window = view.seen_box(view.window) if view.window else None
        z = _along(_pieces(view, lines), self.window)
        ground = self.window or Box(*np.append(_corners(z) - ROOM, _corners(-z) * -1 + ROOM).tolist())
        self._i, self._j = math.floor(ground.x0 / CELL), math.floor(ground.y0 / CELL)
        wide, high = math.floor(ground.x1 / CELL) + 1 - self._i, math.floor(ground.y1 / CELL) + 1 - self._j
        cells = np.zeros((high, wide), dtype=bool)
        i, j = (np.floor(part / CELL).astype(np.intp) for part in (z.real, z.imag))
        cells[(j - self._j).clip(0, high - 1), (i - self._i).clip(0, wide - 1)] = True
        packed = np.packbits(cells, axis=1, bitorder="little")
        self._rows = [int.from_bytes(row.tobytes(), "little") for row in packed]
        """The cells' rows, each a number whose bits are its cells: words are tried against them a hundred times."""
        for box in boxes:
            self.box(box)

    def box(self, box: Box) -> None:
        """Take a box (paper mm)."""
        rows, cells = self._under(box)
        for j in rows:
            self._rows[j] |= cells

    def is_free(self, box: Box) -> bool:
        """Whether nothing lies in a box (paper mm)."""
        rows, cells = self._under(box)
        return not any(self._rows[j] & cells for j in rows)

    def _under(self, box: Box) -> tuple[range, int]:
        """The rows under a box as far as there are any, and its cells in each."""
        i, j = math.floor(box.x0 / CELL) - self._i, math.floor(box.y0 / CELL) - self._j
        i1, j1 = math.floor(box.x1 / CELL) + 1 - self._i, math.floor(box.y1 / CELL) + 1 - self._j
        cells = (1 << max(i1, 0)) - (1 << max(i, 0))
        return range(max(j, 0), min(max(j1, 0), len(self._rows))), cells


def _corners(z: Points) -> NDArray[np.float64]:
    """The least x and y of places (k,), 0 where there are none."""
    return np.array((z.real.min(), z.imag.min())) if len(z) else np.zeros(2)


def _pieces(view: PlanView, lines: Sequence[Sequence[Vertex]]) -> Points:
    """The straight pieces and chords of lines through vertices, start and stop (2, k), in the screen's paper mm."""
    vertices = np.array([vertex for line in lines for vertex in line], dtype=np.float64).reshape(-1, 3)
    at = vertices[:, 0] + 1j * vertices[:, 1]
    whole = np.ones(max(len(at) - 1, 0), dtype=bool)
    whole[np.cumsum([len(line) for line in lines], dtype=np.intp)[:-1] - 1] = False
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
    low, high = np.zeros(len(way)), np.ones(len(way))
    if window is not None:
        # Y.-D. Liang and B. A. Barsky, ACM Trans. Graphics 3 (1984) 1-22; a piece along an edge has steps of 0
        for step, room in (
            (-way.real, start.real - window.x0),
            (way.real, window.x1 - start.real),
            (-way.imag, start.imag - window.y0),
            (way.imag, window.y1 - start.imag),
        ):
            at = room / np.where(step == 0, 1.0, step)
            low = np.maximum(low, np.where(step < 0, at, np.where((step == 0) & (room < 0), 2.0, 0.0)))
            high = np.minimum(high, np.where(step > 0, at, 1.0))
    inside = low < high
    start, way = (start + low * way)[inside], ((high - low) * way)[inside]
    steps = np.maximum(np.ceil(np.abs(way) / CELL), 1).astype(np.intp)
    first = np.cumsum(steps + 1) - (steps + 1)
    share = (np.arange(int((steps + 1).sum())) - np.repeat(first, steps + 1)) / np.repeat(steps, steps + 1)
    return np.asarray(np.repeat(start, steps + 1) + share * np.repeat(way, steps + 1))
