"""Where on a sheet there is still room: what is drawn is laid on a grid of 2 mm, and a free place is looked for."""

import math
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from export.drawing.flatten import Box, shape_points
from export.drawing.marks import XY, Circle, Mark, Path, Text
from export.drawing.typeface import text_box

CELL = 2.0


class Ground:
    """A sheet's ground, and which of its cells are taken."""

    def __init__(self, ground: Box) -> None:
        self.ground = ground
        self._taken: NDArray[np.int32] = np.zeros(
            (math.ceil(ground.height / CELL), math.ceil(ground.width / CELL)), dtype=np.int32
        )

    def take(self, box: Box) -> None:
        """Mark a box as taken."""
        x0, y0 = (max(0, math.floor(v / CELL)) for v in (box.x0 - self.ground.x0, box.y0 - self.ground.y0))
        x1, y1 = (max(0, math.ceil(v / CELL)) for v in (box.x1 - self.ground.x0, box.y1 - self.ground.y0))
        self._taken[y0:y1, x0:x1] = 1

    def take_marks(self, marks: Iterable[Mark], clear: float) -> None:
        """Mark all that is drawn as taken, with `clear` mm around it, and half as much again around words."""
        for mark in marks:
            shape = mark.shape
            if isinstance(shape, Text):
                self.take(text_box(shape).grown(1.5 * clear))
            elif isinstance(shape, Circle):
                self.take(Box(*(c - shape.radius for c in shape.centre), *(c + shape.radius for c in shape.centre)))
            else:
                points = shape_points(shape)
                if isinstance(shape, Path) and shape.closed:
                    points.append(points[0])
                self._take_line(points, clear)

    def _take_line(self, points: list[XY], clear: float) -> None:
        for (ax, ay), (bx, by) in pairwise(points):
            steps = max(1, math.ceil(math.hypot(bx - ax, by - ay) / (CELL * 2)))
            for i in range(steps):
                x0, x1 = sorted((ax + (bx - ax) * i / steps, ax + (bx - ax) * (i + 1) / steps))
                y0, y1 = sorted((ay + (by - ay) * i / steps, ay + (by - ay) * (i + 1) / steps))
                self.take(Box(x0, y0, x1, y1).grown(clear))

    def find(self, width: float, height: float, wanted: XY) -> XY | None:
        """The lower left corner of a free place of that size, nearest to where it is `wanted`; None if there is none.

        `wanted` is given in shares of the ground: (0, 0) lower left, (1, 1) upper right.
        """
        rows, columns = self._taken.shape
        h, w = math.ceil(height / CELL), math.ceil(width / CELL)
        if h > rows or w > columns:
            return None
        total = np.zeros((rows + 1, columns + 1), dtype=np.int32)
        total[1:, 1:] = self._taken.cumsum(0).cumsum(1)
        count = total[h:, w:] - total[:-h, w:] - total[h:, :-w] + total[:-h, :-w]
        ys, xs = np.nonzero(count == 0)
        if not len(xs):
            return None
        goal_x, goal_y = wanted[0] * (columns - w), wanted[1] * (rows - h)
        best = int(np.argmin((xs - goal_x) ** 2 + (ys - goal_y) ** 2))
        x = min(self.ground.x0 + float(xs[best]) * CELL, self.ground.x1 - width)
        y = min(self.ground.y0 + float(ys[best]) * CELL, self.ground.y1 - height)
        return x, y
