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

from export.drawing import typeface
from export.drawing.flatten import Box, box, shape_points
from export.drawing.marks import Circle, Mark, Path, Text

OVERLAP = 14.0
"""How much neighbouring windows share, mm."""
TRIES = 15
"""How many places of the grid are tried along each axis."""
Coordinates = NDArray[np.float64]


class Grid(msgspec.Struct, frozen=True, kw_only=True):
    """Windows of `width` by `height`, the first one's lower left corner at `x`, `y` (figure mm, as turned).

    `cells` are the windows that show anything, as (column, row), rows counted from the top. `crossed`: how often a
    seam runs through what it should keep off; `torn`: how many words and windows lie on a seam.
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
        """What is to be kept small, first things first; a seam through the bridge weighs as much as two sheets."""
        return len(self.cells) + 2 * (self.crossed > 0), self.crossed, self.torn


def lay_grid(marks: Sequence[Mark], size: Box, keep: Sequence[Box], width: float, height: float) -> Grid:
    """The best grid of windows of one size over a figure: fewest sheets, then fewest seams across `keep` and words."""
    columns, rows = _count(size.width, width), _count(size.height, height)
    points = _ink(marks)
    words = [typeface.text_box(mark.shape) for mark in marks if isinstance(mark.shape, Text)]
    words += [box(mark.shape) for mark in marks if isinstance(mark.shape, Circle) and mark.purpose == "cut"]
    across = [_Cuts(points[:, 0], keep, words, start, width, columns, 0) for start in _starts(size, 0, width, columns)]
    up = [_Cuts(points[:, 1], keep, words, start, height, rows, 1) for start in _starts(size, 1, height, rows)]
    best: Grid | None = None
    for x in across:
        for y in up:
            used = np.bincount((rows - 1 - y.index) * columns + x.index, minlength=columns * rows)
            grid = Grid(
                x=x.start,
                y=y.start,
                width=width,
                height=height,
                columns=columns,
                rows=rows,
                cells=tuple((int(code) % columns, int(code) // columns) for code in np.flatnonzero(used)),
                crossed=x.crossed + y.crossed,
                torn=int(np.count_nonzero(x.torn | y.torn)),
            )
            if best is None or grid.cost < best.cost:
                best = grid
    assert best is not None
    return best


class _Cuts:
    """The seams of a grid along one axis: on which window each point falls, and what the seams run through."""

    def __init__(
        self,
        along: Coordinates,
        keep: Sequence[Box],
        words: Sequence[Box],
        start: float,
        size: float,
        count: int,
        axis: int,
    ) -> None:
        self.start = start
        pitch = size - OVERLAP
        self.index = np.clip((along - start - OVERLAP / 2) // pitch, 0, count - 1).astype(int)
        seams = [(start + k * pitch, start + k * pitch + OVERLAP) for k in range(1, count)]
        self.crossed = sum(kept[axis] < high and low < kept[axis + 2] for low, high in seams for kept in keep)
        middles = [(low + high) / 2 for low, high in seams]
        self.torn = np.array([any(word[axis] < at < word[axis + 2] for at in middles) for word in words], dtype=bool)


def _count(size: float, window: float) -> int:
    return max(1, math.ceil((size - OVERLAP) / (window - OVERLAP) - 1e-9))


def _starts(size: Box, axis: int, window: float, count: int) -> list[float]:
    """Where the first window may start: centred first, then to either side as far as the slack allows."""
    low, long = size[axis], size[axis + 2] - size[axis]
    slack = count * (window - OVERLAP) + OVERLAP - long
    shares = sorted((k / (TRIES - 1) for k in range(TRIES)), key=lambda share: abs(share - 0.5))
    return [low - slack * share for share in (shares if slack > 0.5 else (0.5,))]


def _ink(marks: Sequence[Mark]) -> Coordinates:
    """Coordinates no more than 4 mm apart along everything that is drawn, words by their corners."""
    found = []
    for mark in marks:
        shape = mark.shape
        if isinstance(shape, Text):
            found += list(typeface.text_corners(shape))
            continue
        ring = shape_points(shape, 0.5)
        closed = isinstance(shape, Path) and shape.closed
        for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0] if closed else ring[-1]], strict=True):
            steps = max(1, math.ceil(math.hypot(bx - ax, by - ay) / 4.0))
            found += [(ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps) for k in range(steps + 1)]
    return np.array(found)
