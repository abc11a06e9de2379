"""Where on a ground there is still room; the ground is divided into square cells, which what is drawn **occupies**."""

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from export.drawing.flatten import Box, shape_points
from export.drawing.marks import XY, Circle, Mark, Path, Text
from export.drawing.typeface import text_box

Boxes = NDArray[np.float64]
"""Many boxes, (k, 4): x0, y0, x1, y1."""
HALF = 0.49
"""No other cell is as near to a place that lies less than this off one's own, in cells each way."""


def boxes_under(marks: Iterable[Mark], clear: float, cell: float) -> Boxes:
    """What is drawn as boxes, about two cells long along slanted lines: with `clear` mm around lines and half as much
    again around words.
    """
    boxes: list[tuple[float, float, float, float]] = []
    for mark in marks:
        shape = mark.shape
        if isinstance(shape, Text):
            boxes.append(text_box(shape).grown(1.5 * clear))
        elif isinstance(shape, Circle):
            (x, y), r = shape.centre, shape.radius
            boxes.append((x - r, y - r, x + r, y + r))
        else:
            points = shape_points(shape)
            if isinstance(shape, Path) and shape.closed:
                points.append(points[0])
            boxes += _boxes_along(points, clear, cell)
    return np.array(boxes, dtype=np.float64).reshape(-1, 4)


def _boxes_along(points: list[XY], clear: float, cell: float) -> Iterator[tuple[float, float, float, float]]:
    for (ax, ay), (bx, by) in pairwise(points):
        level = ax == bx or ay == by  # one box covers it as closely as many
        steps = 1 if level else max(1, math.ceil(math.hypot(bx - ax, by - ay) / (cell * 2)))
        for i in range(steps):
            x0, x1 = ax + (bx - ax) * i / steps, ax + (bx - ax) * (i + 1) / steps
            y0, y1 = ay + (by - ay) * i / steps, ay + (by - ay) * (i + 1) / steps
            if x0 > x1:
                x0, x1 = x1, x0
            if y0 > y1:
                y0, y1 = y1, y0
            yield x0 - clear, y0 - clear, x1 + clear, y1 + clear


class FreeGround:
    """A ground in cells, `cell` their side (paper mm); what lies beyond the ground is passed over."""

    def __init__(self, ground: Box, cell: float) -> None:
        self.ground, self.cell = ground, cell
        rows, columns = (max(0, math.ceil(side / cell)) for side in (ground.height, ground.width))
        self.occupied = np.zeros((rows, columns), dtype=np.bool_)
        """Its cells, (rows, columns), from the lower left on."""
        self._below: NDArray[np.int32] | None = None
        """How many are occupied left of and below each corner of the cells, until more of them are."""

    def copy(self) -> "FreeGround":
        """The same ground, occupied alike, to be occupied further."""
        other = FreeGround(self.ground, self.cell)
        other.occupied, other._below = self.occupied.copy(), self._below
        return other

    def occupy(self, box: Box) -> None:
        """All cells under a box."""
        x, y, cell = self.ground.x0, self.ground.y0, self.cell
        i, j = math.floor((box.x0 - x) / cell), math.floor((box.y0 - y) / cell)
        i1, j1 = math.ceil((box.x1 - x) / cell), math.ceil((box.y1 - y) / cell)
        self.occupied[max(j, 0) : max(j1, 0), max(i, 0) : max(i1, 0)] = True
        self._below = None

    def occupy_marks(self, marks: Iterable[Mark], clear: float) -> None:
        """All that is drawn, with `clear` mm around lines and half as much again around words."""
        self.occupy_boxes(boxes_under(marks, clear, self.cell))

    def occupy_boxes(self, boxes: Boxes, shift: XY = (0.0, 0.0)) -> None:
        """All cells under many boxes, shifted."""
        if not len(boxes):
            return
        corner = np.array((shift[0] - self.ground.x0, shift[1] - self.ground.y0))
        rows, columns = self.occupied.shape
        i, j = np.floor((boxes[:, :2] + corner) / self.cell).clip(0, (columns, rows)).astype(np.intp).T
        i1, j1 = np.ceil((boxes[:, 2:] + corner) / self.cell).clip(0, (columns, rows)).astype(np.intp).T
        # one more from each box's lower left and upper right corner on, one less from its other two: what these come
        # to left of and below a cell is how many boxes lie on it
        wide = columns + 1
        corners = (rows + 1) * wide
        begun = np.bincount(np.concatenate((j * wide + i, j1 * wide + i1)), minlength=corners)
        begun -= np.bincount(np.concatenate((j * wide + i1, j1 * wide + i)), minlength=corners)
        self.occupied |= _summed(begun.reshape(-1, wide))[:-1, :-1] > 0
        self._below = None

    def find(self, width: float, height: float, wanted: XY) -> XY | None:
        """The lower left corner of a free place of that size, nearest to where it is `wanted`; None if there is none.

        `wanted` is given in shares of the ground: (0, 0) lower left, (1, 1) upper right.
        """
        rows, columns = self.occupied.shape
        h, w = math.ceil(height / self.cell), math.ceil(width / self.cell)
        if h > rows or w > columns:
            return None
        goal_x, goal_y = wanted[0] * (columns - w), wanted[1] * (rows - h)
        i, j = round(goal_x), round(goal_y)
        nearest = max(abs(goal_x - i), abs(goal_y - j)) < HALF
        if not nearest or self.occupied[j : j + h, i : i + w].any():
            taken = self._taken(w, h)
            if taken.all():
                return None
            away = (np.arange(columns - w + 1) - goal_x) ** 2 + (np.arange(rows - h + 1)[:, None] - goal_y) ** 2
            np.copyto(away, math.inf, where=taken)
            j, i = divmod(int(away.argmin()), columns - w + 1)
        x = min(self.ground.x0 + float(i) * self.cell, self.ground.x1 - width)
        y = min(self.ground.y0 + float(j) * self.cell, self.ground.y1 - height)
        return x, y

    def _taken(self, w: int, h: int) -> NDArray[np.bool_]:
        """Whether anything lies in the place of so many cells that has its lower left one here, by rows and columns."""
        if self._below is None:
            rows, columns = self.occupied.shape
            self._below = np.zeros((rows + 1, columns + 1), dtype=np.int32)
            self._below[1:, 1:] = _summed(self.occupied)
        below = self._below
        count = below[h:, w:] - below[:-h, w:]
        count -= below[h:, :-w]
        count += below[:-h, :-w]
        taken: NDArray[np.bool_] = count != 0
        return taken


def _summed(cells: NDArray[np.bool_] | NDArray[np.intp]) -> NDArray[np.int32]:
    """The sum of all cells left of and below each, and of itself (F. C. Crow, Summed-area tables for texture mapping,
    1984); both ways along what lies side by side in memory, which is several times as quick.
    """
    rightward = cells.cumsum(1, dtype=np.int32)
    return np.ascontiguousarray(rightward.T).cumsum(1, dtype=np.int32).T
