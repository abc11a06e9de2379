"""Which sheets a large figure falls on: a grid of windows is laid over it so that few sheets are used and no seam
crosses what matters.

A **window** is the part of a sheet that shows the figure. Neighbouring windows share an **overlap**; in its middle runs
the **seam**, where one sheet is cut and laid on the other.
"""

import math
from collections.abc import Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from export.drawing.flatten import Box, shape_points
from export.drawing.marks import Mark, Path, Text
from export.drawing.typeface import text_corners

OVERLAP = 14.0
"""How much neighbouring windows share, mm."""
TRIES = 15
"""How many places of the grid are tried along each axis."""
Points = NDArray[np.float64]


class Grid(msgspec.Struct, frozen=True, kw_only=True):
    """Windows of `width` by `height`, the first one's lower left corner at `x`, `y` (figure mm, as turned).

    `cells` are the windows that show anything, as (column, row), rows counted from the top. `crossed`: how often a
    seam runs through what it should keep off; `torn`: how many words lie on a seam.
    """

    x: float
    y: float
    width: float
    height: float
    columns: int
    rows: int
    cells: tuple[tuple[int, int], ...]
    crossed: int
    torn: int

    def window(self, cell: tuple[int, int]) -> Box:
        """One window, figure mm."""
        x = self.x + cell[0] * (self.width - OVERLAP)
        y = self.y + (self.rows - 1 - cell[1]) * (self.height - OVERLAP)
        return Box(x, y, x + self.width, y + self.height)

    @property
    def cost(self) -> tuple[int, int, int]:
        """What is to be kept small, first things first."""
        return len(self.cells), self.crossed, self.torn


def lay_grid(marks: Sequence[Mark], size: Box, keep: Sequence[Box], width: float, height: float) -> Grid:
    """The best grid of windows of one size over a figure: fewest sheets, then fewest seams across `keep` and words."""
    columns, rows = _count(size.width, width), _count(size.height, height)
    points = _ink(marks)
    words = [_corners_box(mark.shape) for mark in marks if isinstance(mark.shape, Text)]
    best: Grid | None = None
    for x in _starts(size.x0, size.width, width, columns):
        for y in _starts(size.y0, size.height, height, rows):
            cells = _cells(points, x, y, width, height, columns, rows)
            crossed = _seams_through(keep, x, width, columns, 0) + _seams_through(keep, y, height, rows, 1)
            torn = sum(_torn(word, x, width, columns, 0) or _torn(word, y, height, rows, 1) for word in words)
            grid = Grid(
                x=x,
                y=y,
                width=width,
                height=height,
                columns=columns,
                rows=rows,
                cells=cells,
                crossed=crossed,
                torn=torn,
            )
            if best is None or grid.cost < best.cost:
                best = grid
    assert best is not None
    return best


def _count(size: float, window: float) -> int:
    return max(1, math.ceil((size - OVERLAP) / (window - OVERLAP) - 1e-9))


def _starts(low: float, size: float, window: float, count: int) -> list[float]:
    """Where the first window may start: centred first, then to either side as far as the slack allows."""
    slack = count * (window - OVERLAP) + OVERLAP - size
    shares = sorted((k / (TRIES - 1) for k in range(TRIES)), key=lambda share: abs(share - 0.5))
    return [low - slack * share for share in (shares if slack > 0.5 else (0.5,))]


def _seams(start: float, window: float, count: int) -> list[tuple[float, float]]:
    pitch = window - OVERLAP
    return [(start + k * pitch, start + k * pitch + OVERLAP) for k in range(1, count)]


def _seams_through(keep: Sequence[Box], start: float, window: float, count: int, axis: int) -> int:
    return sum(box[axis] < high and low < box[axis + 2] for low, high in _seams(start, window, count) for box in keep)


def _torn(word: Box, start: float, window: float, count: int, axis: int) -> bool:
    """Whether words lie whole on neither of two neighbouring sheets."""
    return any(word[axis] < low and high < word[axis + 2] for low, high in _seams(start, window, count))


def _ink(marks: Sequence[Mark]) -> Points:
    """Points no more than 4 mm apart along everything that is drawn, words by their corners."""
    found = []
    for mark in marks:
        shape = mark.shape
        if isinstance(shape, Text):
            found += list(text_corners(shape))
            continue
        ring = shape_points(shape, 0.5)
        closed = isinstance(shape, Path) and shape.closed
        for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0] if closed else ring[-1]], strict=True):
            steps = max(1, math.ceil(math.hypot(bx - ax, by - ay) / 4.0))
            found += [(ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps) for k in range(steps + 1)]
    return np.array(found)


def _corners_box(text: Text) -> Box:
    xs, ys = zip(*text_corners(text), strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def _cells(
    points: Points, x: float, y: float, width: float, height: float, columns: int, rows: int
) -> tuple[tuple[int, int], ...]:
    """The windows that are needed so that every point is seen on one of them at least."""
    column = np.clip(np.floor((points[:, 0] - x - OVERLAP / 2) / (width - OVERLAP)), 0, columns - 1)
    row = np.clip(np.floor((points[:, 1] - y - OVERLAP / 2) / (height - OVERLAP)), 0, rows - 1)
    codes = np.unique((rows - 1 - row) * columns + column).astype(int)
    return tuple((int(code) % columns, int(code) // columns) for code in codes)
