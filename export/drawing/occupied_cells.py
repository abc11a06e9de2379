"""What of a ground is occupied, and where on it there is still room; the ground is divided into square cells."""

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from export.drawing.flatten import Box, shape_points
from export.drawing.marks import XY, Circle, Mark, Path, Text
from export.drawing.typeface import text_box
from geometry.frame import Points

Boxes = NDArray[np.float64]
"""Many boxes, (k, 4): x0, y0, x1, y1."""


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


class OccupiedCells:
    """A ground in cells, `cell` their side (paper mm); what lies beyond the ground is passed over."""

    def __init__(self, ground: Box, cell: float) -> None:
        self.ground, self.cell = ground, cell
        self._columns = math.ceil(ground.width / cell)
        self._rows = [0] * math.ceil(ground.height / cell)
        """The cells' rows, each a number whose bits are its cells: words are tried against them a hundred times."""
        self._counted: NDArray[np.int32] | None = None
        """How many are occupied left of and below each corner of the cells, until more of them are."""

    def copy(self) -> "OccupiedCells":
        """The same ground, occupied alike, to be occupied further."""
        other = OccupiedCells(self.ground, self.cell)
        other._rows, other._counted = self._rows.copy(), self._counted
        return other

    def occupy(self, box: Box) -> None:
        """All cells under a box."""
        rows, cells = self._under(box)
        self._counted = None
        for j in rows:
            self._rows[j] |= cells

    def is_free(self, box: Box) -> bool:
        """Whether nothing lies in a box."""
        rows, cells = self._under(box)
        return not any(self._rows[j] & cells for j in rows)

    def _under(self, box: Box) -> tuple[range, int]:
        """The rows under a box as far as there are any, and its cells in each."""
        x, y = self.ground.x0, self.ground.y0
        i, j = math.floor((box.x0 - x) / self.cell), math.floor((box.y0 - y) / self.cell)
        i1, j1 = math.ceil((box.x1 - x) / self.cell), math.ceil((box.y1 - y) / self.cell)
        cells = (1 << max(i1, 0)) - (1 << max(i, 0))
        return range(max(j, 0), min(max(j1, 0), len(self._rows))), cells

    def occupy_places(self, z: Points) -> None:
        """The cells of many places, which lie on the ground."""
        cells = np.zeros((len(self._rows), self._columns), dtype=bool)
        i = np.floor((z.real - self.ground.x0) / self.cell).astype(np.intp)
        j = np.floor((z.imag - self.ground.y0) / self.cell).astype(np.intp)
        cells[j.clip(0, len(self._rows) - 1), i.clip(0, self._columns - 1)] = True
        packed = np.packbits(cells, axis=1, bitorder="little")
        self._counted = None
        self._rows = [
            old | int.from_bytes(row.tobytes(), "little") for old, row in zip(self._rows, packed, strict=True)
        ]

    def occupy_marks(self, marks: Iterable[Mark], clear: float) -> None:
        """All that is drawn, with `clear` mm around lines and half as much again around words."""
        self.occupy_boxes(boxes_under(marks, clear, self.cell))

    def occupy_boxes(self, boxes: Boxes, shift: XY = (0.0, 0.0)) -> None:
        """All cells under many boxes, shifted."""
        if not len(boxes):
            return
        x, y = shift[0] - self.ground.x0, shift[1] - self.ground.y0
        low = np.floor((boxes[:, :2] + (x, y)) / self.cell).clip(0).astype(int)
        high = np.ceil((boxes[:, 2:] + (x, y)) / self.cell).clip(0).astype(int)
        rows, top = self._rows, len(self._rows)
        self._counted = None
        for (i, j), (i1, j1) in zip(low.tolist(), high.tolist(), strict=True):
            cells = (1 << i1) - (1 << i)
            for row in range(j, min(j1, top)):
                rows[row] |= cells

    def find(self, width: float, height: float, wanted: XY) -> XY | None:
        """The lower left corner of a free place of that size, nearest to where it is `wanted`; None if there is none.

        `wanted` is given in shares of the ground: (0, 0) lower left, (1, 1) upper right.
        """
        rows, columns = len(self._rows), self._columns
        h, w = math.ceil(height / self.cell), math.ceil(width / self.cell)
        if h > rows or w > columns:
            return None
        if self._counted is None:
            self._counted = np.zeros((rows + 1, columns + 1), dtype=np.int32)
            self._counted[1:, 1:] = self._as_array().cumsum(0, dtype=np.int32).cumsum(1)
        total = self._counted
        count = total[h:, w:] - total[:-h, w:] - total[h:, :-w] + total[:-h, :-w]
        ys, xs = np.nonzero(count == 0)
        if not len(xs):
            return None
        goal_x, goal_y = wanted[0] * (columns - w), wanted[1] * (rows - h)
        best = int(np.argmin((xs - goal_x) ** 2 + (ys - goal_y) ** 2))
        x = min(self.ground.x0 + float(xs[best]) * self.cell, self.ground.x1 - width)
        y = min(self.ground.y0 + float(ys[best]) * self.cell, self.ground.y1 - height)
        return x, y

    def _as_array(self) -> NDArray[np.uint8]:
        """Which cells are occupied, (rows, columns), 1 or 0."""
        size, whole = (self._columns + 7) // 8, (1 << self._columns) - 1
        data = b"".join((row & whole).to_bytes(size, "little") for row in self._rows)
        packed = np.frombuffer(data, dtype=np.uint8).reshape(len(self._rows), size)
        return np.unpackbits(packed, axis=1, count=self._columns, bitorder="little")
