"""Two framed crosses on taped sheets, on the first and on the last, to measure between once all are taped. In a ring
they would pass for holes.
"""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from export.drawing.clip import clip_marks
from export.drawing.dimension import cross
from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Line, Mark, Path
from export.drawing.room.free_ground import Boxes, FreeGround
from export.drawing.transform import Transform
from export.paper import furniture
from export.paper.furniture import marks_box
from export.paper.taped.tile_grid import OVERLAP, Grid
from export.paper.work_ground import work_ground
from geometry.units import Unit, show, show_pm

TAPED = 0.5
"""What a taped assembly may be out by from end to end, mm (common practice, no source)."""
ARM = 5.0
"""How far a cross reaches from its middle, mm."""
ROOM = 2 * ARM + 1.0
"""The side of the square that a cross needs, mm."""


class Far(NamedTuple):
    """Two marks far apart, in mm of the figure as it is turned: where they are, and on which sheets."""

    ends: tuple[XY, XY]
    cells: tuple[tuple[int, int], tuple[int, int]]

    @property
    def apart(self) -> float:
        """How far, mm."""
        return math.dist(*self.ends)

    def said(self, unit: Unit) -> str:
        """The same in words, with what taping may be out by."""
        return f"{show(self.apart, unit)} ± {show_pm(TAPED, unit)} {unit}"

    def drawn(self, cell: tuple[int, int], page: Transform, turned: Transform) -> list[Mark]:
        """Those of them that are on this sheet: a cross in a square."""
        marks: list[Mark] = []
        for end, on in zip(self.ends, self.cells, strict=True):
            if on == cell:
                at = page.xy(turned.back(end))
                marks += cross(at, ARM, "register", of="measure")
                x0, y0, x1, y1 = Box(*at, *at).grown(0.6 * ARM)
                square = polyline([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], closed=True)
                marks.append(Mark(shape=square, purpose="register", of="measure"))
        return marks


def far_apart(
    figure: tuple[Mark, ...],
    keep: Sequence[Box],
    grid: Grid,
    window: Box,
    placing: Callable[[tuple[int, int]], Transform],
) -> Far | None:
    """A free place on the first sheet and one on the last, as far apart as their windows allow. None on one sheet, and
    where either has no room.
    """
    inner, cells = window.grown(-OVERLAP - 1.0), grid.cells
    if len(cells) < 2 or min(inner.width, inner.height) < ROOM:
        return None  # sheets so small are few together
    ends = []
    for cell, wanted in ((cells[0], (0.0, 1.0)), (cells[-1], (1.0, 0.0))):
        transform = placing(cell)
        laid = transform.marks(figure)
        parts = [marks_box([m]) for m in laid if m.purpose == "cut" and isinstance(m.shape, Path) and m.shape.closed]
        work = work_ground(laid)
        kept = [transform.box(one) for one in keep]
        grounds = (inner, _off_seams(grid, cell, window))
        corner = _corner(grounds, clip_marks(laid, window), kept, (work, parts), wanted)
        if corner is None:
            return None
        shown = grid.window(cell)
        ends.append((corner[0] + ROOM / 2 - window.x0 + shown.x0, corner[1] + ROOM / 2 - window.y0 + shown.y0))
    return Far((ends[0], ends[1]), (cells[0], cells[-1]))


def _off_seams(grid: Grid, cell: tuple[int, int], window: Box) -> Box:
    """What of a sheet's window no neighbour shares."""
    column, row = cell
    sides = ((column - 1, row), (column, row + 1), (column + 1, row), (column, row - 1))  # left, below, right, above
    left, below, right, above = ((OVERLAP if side in grid.cells else 0.0) + 1.0 for side in sides)
    return Box(window.x0 + left, window.y0 + below, window.x1 - right, window.y1 - above)


def _corner(
    grounds: tuple[Box, Box], marks: Sequence[Mark], keep: Sequence[Box], work: tuple[Boxes, Sequence[Box]], wanted: XY
) -> XY | None:
    """The lower left corner of a cross's place: clear of all and outside the work, its outlines and then the parts to
    cut out, first well within the sheet and then anywhere off its seams; or else across lines there; or else within
    a part. It never lies on words or beside holes.
    """
    no_lines = [mark for mark in marks if not isinstance(mark.shape, Line | Path)]
    around, parts = work[0], np.array(work[1], dtype=np.float64).reshape(-1, 4)
    everything = np.concatenate((around, parts))
    inner, wide = grounds
    for ground, outside, clear_of in (
        (inner, everything, marks),
        (wide, everything, marks),
        (inner, parts, marks),
        (inner, parts, no_lines),
        (inner, parts[:0], marks),
        (inner, parts[:0], no_lines),
    ):
        free = FreeGround(ground, furniture.CELL)
        for box in keep:
            free.occupy(box)
        free.occupy_boxes(outside)
        free.occupy_marks(clear_of, 2.0)
        corner = free.find(ROOM, ROOM, wanted)
        if corner is not None:
            return corner
    return None
