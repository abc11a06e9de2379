"""Where a sheet shows the **work** itself: within the outlines of what is made or laid on, and between the edges of the
board. A key, a note or a cross there would pass for part of it.
"""

from collections.abc import Sequence

import numpy as np

from export.drawing.flatten import shape_points
from export.drawing.marks import XY, Line, Mark, Path, Purpose
from export.drawing.room.free_ground import Boxes

OUTLINES: tuple[Purpose, ...] = ("cut", "mark", "lay", "hidden")
"""The purposes of closed lines that go round the work."""
WASTE = ("notch",)
"""What closed lines are of that go round no work."""
EDGES = ("edge:left", "edge:right")
"""What the board's edges are told by, carried on over the top."""
STRIP = 2.0
"""How high the strips are that the work is taken as, mm."""
OFF_END = 5.0
"""How far words keep off the end of an edge line, mm: nearer ones read as named by it (tried on the samples)."""


def work_ground(marks: Sequence[Mark], *, between_edges: bool = True) -> Boxes:
    """The work in level strips, (k, 4): a strip reaches over all that a ring encloses between its lower and its upper
    side. Beside bays that open up or down it is wider than the work. With `between_edges` also what lies between the
    board's edges, carried on as they are drawn.
    """
    strips = [_strips(np.array(ring)) for ring in _rings(marks, between_edges=between_edges)]
    return np.concatenate([np.zeros((0, 4)), *strips])


def edge_ends(marks: Sequence[Mark]) -> Boxes:
    """What is kept free round the ends of the board's edges behind the bridge, (k, 4)."""
    ends = [mark.shape.b for mark in marks if isinstance(mark.shape, Line) and mark.of in EDGES]
    return np.array([(x - OFF_END, y - OFF_END, x + OFF_END, y + OFF_END) for x, y in ends]).reshape(-1, 4)


def _rings(marks: Sequence[Mark], *, between_edges: bool) -> list[list[XY]]:
    rings: list[list[XY]] = []
    edges: dict[str, Line] = {}
    for mark in marks:
        if isinstance(mark.shape, Path) and mark.shape.closed and mark.purpose in OUTLINES and mark.of not in WASTE:
            rings.append(shape_points(mark.shape, 0.5))
        elif isinstance(mark.shape, Line) and mark.of in EDGES:
            edges[mark.of] = mark.shape
    if between_edges and len(edges) == 2:
        left, right = edges.values()
        rings.append([left.a, left.b, right.b, right.a])
    return rings


def _strips(ring: np.ndarray[tuple[int, int], np.dtype[np.float64]]) -> Boxes:
    """One ring's strips: from the least to the greatest x of its corners in each, and of its sides at both levels."""
    low, high = ring[:, 1].min(), ring[:, 1].max()
    levels = np.linspace(low, high, max(1, int(np.ceil((high - low) / STRIP))) + 1)
    after = np.roll(ring, -1, axis=0)
    rise = after[:, 1] - ring[:, 1]
    share = (levels[:, None] - ring[:, 1]) / np.where(rise == 0.0, 1.0, rise)
    crossed = (rise != 0.0) & (share >= 0.0) & (share <= 1.0)
    x = ring[:, 0] + share * (after[:, 0] - ring[:, 0])
    between = (ring[:, 1] >= levels[:-1, None]) & (ring[:, 1] <= levels[1:, None])
    at = np.concatenate((x[:-1], x[1:], np.broadcast_to(ring[:, 0], between.shape)), axis=1)
    taken = np.concatenate((crossed[:-1], crossed[1:], between), axis=1)
    least = np.where(taken, at, np.inf).min(axis=1)
    most = np.where(taken, at, -np.inf).max(axis=1)
    return np.stack((least, levels[:-1], most, levels[1:]), axis=1)
