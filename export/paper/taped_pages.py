"""The pages of a figure that needs more than one sheet: the window, the seams with their crosses, and what each says.

Rows are letters from the top, columns numbers from the left. A sheet is cut along its thin line at the left and at
the top, through the crosses, and laid on its neighbour so that the halves of the crosses meet.
"""

import math
from typing import NamedTuple

from export.drawing.clip import clip_marks
from export.drawing.dimension import cross
from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Drawing, Line, Mark
from export.drawing.transform import Transform
from export.paper import furniture
from export.paper.furniture import Block, marks_box, words
from export.paper.tile_grid import OVERLAP, Grid, lay_grid
from export.paper_sizes import Paper
from export.records import PrintOrder, Sheet, printable_area

CLEAR = 2.5
"""What stays free between the figure and what the sheet says, mm."""


def lay_tiles(order: PrintOrder, papers: list[Paper]) -> tuple[Sheet, ...]:
    """The figure on the fewest sheets that any way of laying the paper gives. Raises `ExportError`."""
    figure = order.figure
    best: LaidFigure | None = None
    for paper in papers:
        window = page_window(order, paper)
        for turn in (0.0, -math.pi / 2):
            transform = Transform(turn=turn, mirror=figure.mirror)
            marks = transform.marks(figure.marks)
            keep = [_turned(box, transform) for box in figure.keep]
            grid = lay_grid(marks, marks_box(marks), keep, window.width, window.height)
            if best is None or grid.cost < best.grid.cost:
                best = LaidFigure(paper, window, grid, transform)
    assert best is not None
    return tuple(_page(order, best, number) for number in range(len(best.grid.cells)))


class LaidFigure(NamedTuple):
    """How a figure lies: the paper, its window, the grid over the figure, and the figure's turn."""

    paper: Paper
    window: Box
    grid: Grid
    transform: Transform


def _turned(box: Box, transform: Transform) -> Box:
    (ax, ay), (bx, by) = transform.xy(box[:2]), transform.xy(box[2:])
    return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))


def stop_lines(order: PrintOrder, room: float) -> list[tuple[str, float, bool]]:
    """STOP and the reasons, and what is to be looked at first, for the foot of a sheet."""
    said = (*(f"STOP. {reason}" for reason in order.stops), *(f"LOOK AGAIN. {reason}" for reason in order.looks))
    return [(line, 2.3, True) for one in said for line in furniture.wrapped(one, 2.3, room, True)]


def page_window(order: PrintOrder, paper: Paper) -> Box:
    """The part of a page that shows the figure."""
    ground = printable_area(paper, order.stamp.margin, order.stamp.correction)
    text, scale = _foot(order, paper, "sheet A1, 1 of 10")
    band = furniture.scale_block(*furniture.SCALES[0], upright=True).width
    return Box(ground.x0, ground.y0 + max(text.height, scale.height) + CLEAR, ground.x1 - band - CLEAR, ground.y1)


def cell_name(cell: tuple[int, int]) -> str:
    """Row letter and column number: A1 is top left."""
    return f"{chr(ord('A') + cell[1])}{cell[0] + 1}"


def _page(order: PrintOrder, laid: LaidFigure, number: int) -> Sheet:
    grid, window, stamp = laid.grid, laid.window, order.stamp
    cell = grid.cells[number]
    shown = grid.window(cell)
    shift = (window.x0 - shown.x0, window.y0 - shown.y0)
    transform = Transform(shift=shift, turn=laid.transform.turn, mirror=laid.transform.mirror)
    ground = printable_area(laid.paper, stamp.margin, stamp.correction)
    name = cell_name(cell)
    several = len(grid.cells) > 1
    count = f"sheet {name}, {number + 1} of {len(grid.cells)}" if several else "sheet 1 of 1"
    text, scale = _foot(order, laid.paper, count, several=several)
    marks = (
        *clip_marks(transform.marks(order.figure.marks), window),
        *_seam_marks(grid, cell, window),
        *text.at((ground.x0, ground.y0)),
        *scale.at((ground.x1 - scale.width, ground.y0)),
        *_band(grid, cell, ground, window),
    )
    return Sheet(
        name=f"{order.template} {name}" if several else order.template,
        template=order.template,
        drawing=Drawing(title=f"{order.figure.title}, sheet {name}" if several else order.figure.title, marks=marks),
        paper=laid.paper,
        margin=stamp.margin,
        correction=stamp.correction,
        transform=transform,
    )


def _seam_marks(grid: Grid, cell: tuple[int, int], window: Box) -> list[Mark]:
    """Crosses on every shared edge, and where to cut at the left and at the top."""
    column, row = cell
    half = OVERLAP / 2
    places: list[XY] = []
    left, right, above, below = ((column + dx, row + dy) in grid.cells for dx, dy in ((-1, 0), (1, 0), (0, -1), (0, 1)))
    for share in (0.2, 0.8):
        x, y = window.x0 + share * window.width, window.y0 + share * window.height
        places += [(window.x0 + half, y)] * left + [(window.x1 - half, y)] * right
        places += [(x, window.y1 - half)] * above + [(x, window.y0 + half)] * below
    marks = [mark for place in places for mark in cross(place, 4.0, "register", of="cross")]
    x, y = window.x0 + half, window.y1 - half
    marks += _strokes((x, window.y0), (x, window.y1)) if left else []
    return marks + (_strokes((window.x0, y), (window.x1, y)) if above else [])


def _strokes(a: XY, b: XY) -> list[Mark]:
    """Strokes at both ends and between the crosses: enough to lay the knife along, and no line of the work."""
    marks = []
    for start, stop in ((0.0, 0.1), (0.35, 0.42), (0.58, 0.65), (0.9, 1.0)):
        ends = [(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in (start, stop)]
        marks.append(Mark(shape=Line(ends[0], ends[1]), purpose="register", of="cut here"))
    return marks


def _foot(order: PrintOrder, paper: Paper, count: str, *, several: bool = True) -> tuple[Block, Block]:
    """The words at the foot of a sheet, and the scale beside them."""
    stamp = order.stamp
    ground = printable_area(paper, stamp.margin, stamp.correction)
    blocks = [furniture.scale_block(mm, inch, upright=False) for mm, inch in furniture.SCALES]
    scale = next((block for block in blocks if block.width <= ground.width * 0.5), blocks[-1])
    room = ground.width - scale.width - 6.0
    who = f"{order.title or 'Untitled job'} · {furniture.day(stamp.date)} · file {stamp.fingerprint}"
    how = f"Print at 100 %, no fit to page · {furniture.correction_words(stamp.correction)}"
    tape = ["Cut at the left and top through the crosses; lay on so that their halves meet."] if several else []
    doubt = [(line, 2.3, True) for line in furniture.wrapped(order.doubt, 2.3, room, True) if order.doubt]
    lines = [*stop_lines(order, ground.width), (order.figure.title, 3.6, True), *doubt]
    for said, bold in (
        (f"{who} · {count} · {paper.name}", False),
        (how, True),
        (" ".join((*tape, *order.figure.notes)), False),
    ):
        lines += [(line, 2.1, bold) for line in furniture.wrapped(said, 2.1, room, bold)]
    return furniture.paragraph(lines), scale


def _band(grid: Grid, cell: tuple[int, int], ground: Box, window: Box) -> list[Mark]:
    """At the right: the sheet's name, the map of all sheets, and the upright scale."""
    marks: list[Mark] = []
    top = ground.y1
    if len(grid.cells) > 1:
        map_ = sheet_map(grid, cell)
        marks.append(words((ground.x1, top - 6.5), cell_name(cell), 6.5, bold=True, anchor="eb"))
        marks += map_.at((ground.x1 - map_.width, top - 9.5 - map_.height))
        top -= 9.5 + map_.height + 4.0
    for mm, inch in furniture.SCALES:
        scale = furniture.scale_block(mm, inch, upright=True)
        if scale.height <= top - window.y0:
            return [*marks, *scale.at((ground.x1 - scale.width, window.y0))]
    return marks


def sheet_map(grid: Grid, cell: tuple[int, int]) -> Block:
    """A small map of all sheets, this one filled."""
    wide = min(5.0, 14.0 / grid.columns)
    high = wide * grid.height / grid.width
    marks = []
    for column, row in grid.cells:
        own = (column, row) == cell
        inset = 0.5 if own else 0.0
        x0, x1 = column * wide + inset, (column + 1) * wide - inset
        y0, y1 = -(row + 1) * high + inset, -row * high - inset
        ring = polyline([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], closed=True)
        marks.append(Mark(shape=ring, purpose="register", of="map", filled=own))
    return furniture.block(marks)
