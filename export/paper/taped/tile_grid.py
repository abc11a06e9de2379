"""Which sheets a large figure falls on: a grid of windows is laid over it so that few sheets are used and no seam
crosses what matters.

A **window** is the part of a sheet that shows the figure. Neighbouring windows share an **overlap**; in its middle runs
the **seam**, where one sheet is cut and laid on the other.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import msgspec
import numpy as np
from numpy.typing import NDArray

from export.drawing import typeface
from export.drawing.flatten import Box, box, shape_points, union
from export.drawing.marks import Circle, Mark, Path, Text

OVERLAP = 14.0
"""How much neighbouring windows share, mm."""
TRIES = 15
"""How many places of the grid are tried along each axis."""
WINDOW = 3
"""As how many torn words a torn window counts, and a seam beside a hole to drill."""
HOLE = 3.0
"""How far a seam should stay from a hole's rim, mm."""
RIM = 1.0
"""The paper there should be between a seam and a window that is cut out, mm: less of it tears."""
TAPE = "tape"
"""What a frame to tape over and its word stand for."""
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


class Spread(NamedTuple):
    """A figure as a grid is laid over it: its ink, (k, 2), its size, what no seam should cross, and its words and
    windows, (w, 4).
    """

    ink: Coordinates
    size: Box
    keep: Sequence[Box]
    words: Coordinates


def spread(marks: Sequence[Mark], size: Box, keep: Sequence[Box]) -> Spread:
    """A figure's marks, as turned, made ready to lay grids over."""
    words = [typeface.text_box(mark.shape) for mark in marks if isinstance(mark.shape, Text)]
    circles = [(box(mark.shape), mark.purpose) for mark in marks if isinstance(mark.shape, Circle)]
    windows = [around.grown(RIM) for around, purpose in circles if purpose == "cut"]
    holes = [around.grown(HOLE) for around, purpose in circles if purpose == "drill"]
    words += WINDOW * (windows + holes)
    arrow = [_box(mark) for mark in marks if mark.of == "arrow"]
    words += [union(arrow)] if arrow else []
    words += [_box(mark) for mark in marks if mark.of == TAPE and not isinstance(mark.shape, Text)]
    return Spread(_ink(marks), size, keep, np.array(words).reshape(-1, 4))


def _box(mark: Mark) -> Box:
    return typeface.text_box(mark.shape) if isinstance(mark.shape, Text) else box(mark.shape)


def lay_grid(figure: Spread, width: float, height: float) -> Grid:
    """The best grid of windows of one size over a figure: fewest sheets, then fewest seams across what to keep off and
    across words.
    """
    x, y = _Cuts(figure, width, 0), _Cuts(figure, height, 1)
    used = np.tensordot(x.on, y.on, (2, 2)) > 0  # (places across, columns, places up, rows)
    sheets = np.count_nonzero(used, axis=(1, 3))
    crossed = x.crossed[:, None] + y.crossed
    torn = x.torn.sum(1)[:, None] + y.torn.sum(1) - x.torn @ y.torn.T
    cost = (torn, crossed, sheets + 2 * (crossed > 0))
    i, j = np.unravel_index(np.lexsort([each.ravel() for each in cost])[0], sheets.shape)
    from_top = used[i, :, j, ::-1].T
    return Grid(
        x=x.starts[i],
        y=y.starts[j],
        width=width,
        height=height,
        columns=from_top.shape[1],
        rows=from_top.shape[0],
        cells=tuple((int(column), int(row)) for row, column in np.argwhere(from_top)),
        crossed=int(crossed[i, j]),
        torn=int(torn[i, j]),
    )


class _Cuts:
    """The seams of all places of the grid along one axis: on which window each point falls, (places, windows, k), how
    often the seams cross what they should keep off, (places,), and which words they run through, (places, w).
    """

    def __init__(self, figure: Spread, window: float, axis: int) -> None:
        low, long = figure.size[axis], figure.size[axis + 2] - figure.size[axis]
        count = max(1, math.ceil((long - OVERLAP) / (window - OVERLAP) - 1e-9))
        pitch = window - OVERLAP
        self.starts = _starts(low, long, window, count)
        start = np.array(self.starts)[:, None]
        index = np.clip((figure.ink[:, axis] - start - OVERLAP / 2) // pitch, 0, count - 1)
        self.on = (index[:, None] == np.arange(count)[:, None]).astype(np.float32)
        seam = start + np.arange(1, count) * pitch
        keep = np.array(figure.keep).reshape(-1, 4)
        meets = (keep[:, axis] < seam[..., None] + OVERLAP) & (seam[..., None] < keep[:, axis + 2])
        self.crossed = np.count_nonzero(meets, axis=(1, 2))
        middle, words = seam[..., None] + OVERLAP / 2, figure.words
        self.torn = ((words[:, axis] < middle) & (middle < words[:, axis + 2])).any(1).astype(int)


def _starts(low: float, long: float, window: float, count: int) -> list[float]:
    """Where the first window may start: centred first, then to either side as far as the slack allows."""
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
