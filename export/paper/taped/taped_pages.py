"""The pages of a figure that needs more than one sheet: the window, the seams with their crosses, and what each says.

Rows are letters from the top, columns numbers from the left. Each sheet says where it is cut and on which sheet it is
laid, which side is bass and which treble, and what the lines mean. Two framed crosses, on the first and on the last
sheet, are measured between once all are taped.
"""

import math
from collections.abc import Mapping, Sequence
from functools import partial
from typing import NamedTuple

from export.drawing.clip import clip_marks
from export.drawing.flatten import Box, polyline
from export.drawing.marks import Drawing, Mark, Text
from export.drawing.room.free_ground import FreeGround
from export.drawing.transform import Transform
from export.hole_table import Table
from export.paper import furniture
from export.paper.furniture import Block, marks_box, words
from export.paper.table_sheet import table_sheets, where_told
from export.paper.taped import seams
from export.paper.taped.framed_crosses import Far, far_apart
from export.paper.taped.sides_and_key import SIDES, repeated
from export.paper.taped.taped_foot import Said, Setting, foot, lower
from export.paper.taped.taped_tables import Page, with_tables
from export.paper.taped.tile_grid import OVERLAP, TAPE, Grid, Spread, lay_grid, spread
from export.paper.taped.torn_words import made_whole, torn
from export.paper.work_ground import edge_ends, work_ground
from export.paper_sizes import Paper
from export.records import Figure, PrintOrder, Sheet, printable_area
from geometry.units import Unit

CLEAR = 2.5
"""What stays free between the figure and what the sheet says, mm."""
ROUND_SCALE = 6.0
"""And round the ticks of the scale at the foot, whose numbers stand there, mm."""
BESIDE_KEY = 3.5
"""And between its key and what is said beside it, which would pass for part of the key, mm."""


def lay_tiles(order: PrintOrder, papers: list[Paper]) -> tuple[Sheet, ...]:
    """The figure on the fewest sheets that any way of laying the paper gives. Raises `ExportError`."""
    ways = [_spread(order.figure, turn) for turn in (0.0, -math.pi / 2)]
    ready = []
    for paper in papers:
        for transform, figure in ways:
            window, setting = page_window(order, paper, transform)
            grid = lay_grid(figure, window.width, window.height)
            ready.append(LaidFigure(paper, window, grid, transform, setting))
    best: _Tiles | None = None
    for laid in sorted(ready, key=lambda one: one.grid.cost):
        if best is not None and laid.grid.cost[0] >= best.cost:
            break  # sheets of tables could only be more
        tiles = _tiles(order, laid)
        if best is None or tiles.cost < best.cost:
            best = tiles
    assert best is not None
    return best.sheets


class _Tiles(NamedTuple):
    """All sheets of a figure laid in one way, and what they cost, those of tables counted."""

    sheets: tuple[Sheet, ...]
    cost: int


def _tiles(order: PrintOrder, laid: "LaidFigure") -> _Tiles:
    """The sheets of a figure that lies so."""
    if laid.grid.torn:
        keep = [laid.transform.box(box) for box in order.figure.keep]
        laid = laid._replace(torn=torn(laid.transform.marks(order.figure.marks), laid.grid, keep, (TAPE, *SIDES)))
    far = far_apart(order.figure.marks, order.figure.keep, laid.grid, laid.window, partial(_placing, laid))
    pages, left = _pages(order, laid, far, 0, {})
    behind = table_sheets(order, laid.paper, left, len(pages))
    if behind:  # every sheet counts them
        pages, _ = _pages(order, laid, far, len(behind), where_told(left, behind))
    return _Tiles((*(_sheet(order, laid, page) for page in pages), *behind), laid.grid.cost[0] + len(behind))


def _spread(figure: Figure, turn: float) -> tuple[Transform, Spread]:
    transform = Transform(turn=turn, mirror=figure.mirror)
    marks = transform.marks(figure.marks)
    keep = [*(transform.box(box) for box in figure.keep), *seams.registers(marks)]
    return transform, spread(marks, marks_box(marks), keep)


class LaidFigure(NamedTuple):
    """How a figure lies: the paper, its window, the grid over the figure, the figure's turn, how its sheets' foot is
    set, and the numbers of the words that no window holds whole, by the sheet they go to.
    """

    paper: Paper
    window: Box
    grid: Grid
    transform: Transform
    foot: Setting
    torn: Mapping[tuple[int, int], Sequence[int]] = {}


def page_window(order: PrintOrder, paper: Paper, transform: Transform) -> tuple[Box, Setting]:
    """The part of a page that shows the figure, and how the foot below it is set."""
    ground = printable_area(paper, order.stamp.margin, order.stamp.correction)
    setting, high = lower(order, paper, transform)
    band = furniture.scale_block(
        *furniture.SCALES[0], upright=True, trusted=transform.turn != 0.0, unit=order.unit
    ).width
    return Box(ground.x0, ground.y0 + high + CLEAR, ground.x1 - band - CLEAR, ground.y1), setting


def _pages(
    order: PrintOrder, laid: LaidFigure, far: Far | None, behind: int, told: Mapping[str, str]
) -> tuple[list[Page], list[Table]]:
    """The sheets that show the figure, with so many of tables alone behind them, where these are `told`, and the tables
    that found no room.
    """
    pages = [_page(order, laid, number, far, behind) for number in range(len(laid.grid.cells))]
    return with_tables(order.figure.tables, pages, told)


def _page(order: PrintOrder, laid: LaidFigure, number: int, far: Far | None, behind: int) -> Page:
    """A sheet without its tables, with so many of tables alone behind all."""
    grid, window, stamp = laid.grid, laid.window, order.stamp
    cell = grid.cells[number]
    transform = _placing(laid, cell)
    ground = printable_area(laid.paper, stamp.margin, stamp.correction)
    several = len(grid.cells) > 1
    of = len(grid.cells) + behind
    count = f"sheet {seams.cell_name(cell)}, {number + 1} of {of}" if several else f"sheet 1 of {of}"
    met = seams.seams_of(grid, cell, window)
    figure = transform.marks(order.figure.marks)
    shown = clip_marks(tuple(mark for mark in figure if mark.of != TAPE or _middle_in(mark, window)), window)
    join = seams.how_to_join(met) if several else ""
    indent = max((seam.beyond(window).width for seam in met if seam.side == "left"), default=0.0)
    said = Said(count, shown, join, None if indent else far, indent)  # the sheet on its left tells what lies far apart
    below = foot(order, laid.paper, laid.transform, laid.foot, said, window.y0 - CLEAR - ground.y0)
    marks = [*shown, *seams.drawn(met, figure, shown)]
    if far is not None:
        marks += far.drawn(cell, transform, laid.transform)
    keep = [transform.box(box) for box in order.figure.keep]
    marks += made_whole([figure[k] for k in laid.torn.get(cell, ())], window, marks, keep)
    told = below.at((ground.x0, ground.y0))
    marks += told
    free = FreeGround(window, furniture.CELL)
    at_foot = FreeGround(Box(ground.x0 + indent, ground.y0, ground.x1, window.y0 - CLEAR), furniture.CELL)
    for part in (free, at_foot):
        part.occupy_marks(marks, 2.0)
    at_foot.occupy(marks_box([mark for mark in told if mark.purpose == "register"]).grown(ROUND_SCALE))
    free.occupy_boxes(edge_ends(figure))
    for seam in met:
        free.occupy(seam.beyond(window))
    beside = repeated(figure, shown, free.copy(), keep, at_foot)
    for part in (free, at_foot):
        part.occupy_marks(beside, BESIDE_KEY)
    marks += [*beside, *_band(grid, cell, ground, window, laid.transform, order.unit)]
    apart = free.copy()
    apart.occupy_boxes(work_ground(figure))
    return Page(cell, transform, marks, (apart, at_foot, free), not several or _shows_work(order, transform, window))


def _sheet(order: PrintOrder, laid: LaidFigure, page: Page) -> Sheet:
    name, several = seams.cell_name(page.cell), len(laid.grid.cells) > 1
    return Sheet(
        name=f"{order.template} {name}" if several else order.template,
        template=order.template,
        drawing=Drawing(
            title=f"{order.figure.title}, sheet {name}" if several else order.figure.title, marks=tuple(page.marks)
        ),
        paper=laid.paper,
        margin=order.stamp.margin,
        correction=order.stamp.correction,
        transform=page.transform,
        nowhere=order.figure.nowhere,
    )


def _middle_in(mark: Mark, window: Box) -> bool:
    """Whether a window holds the middle of a mark and some round it: a frame with its word, and no bare piece of it.
    Words stand on their frame's middle.
    """
    around = marks_box([mark])
    middle = ((around.x0 + around.x1) / 2, (around.y0 + around.y1) / 2)
    x, y = mark.shape.at if isinstance(mark.shape, Text) else middle
    inner = window.grown(-OVERLAP / 2)
    return inner.x0 <= x <= inner.x1 and inner.y0 <= y <= inner.y1


def _placing(laid: LaidFigure, cell: tuple[int, int]) -> Transform:
    """How the figure lies on a sheet's page."""
    shown = laid.grid.window(cell)
    shift = (laid.window.x0 - shown.x0, laid.window.y0 - shown.y0)
    return Transform(shift=shift, turn=laid.transform.turn, mirror=laid.transform.mirror)


def _shows_work(order: PrintOrder, transform: Transform, window: Box) -> bool:
    """Whether the middle of something no seam should cross, the bridge that is, lies in a sheet's window."""
    for keep in order.figure.keep:
        x, y = transform.xy(((keep.x0 + keep.x1) / 2, (keep.y0 + keep.y1) / 2))
        if window.x0 <= x <= window.x1 and window.y0 <= y <= window.y1:
            return True
    return False


def _band(grid: Grid, cell: tuple[int, int], ground: Box, window: Box, transform: Transform, unit: Unit) -> list[Mark]:
    """At the right: the sheet's name, the map of all sheets, and the upright scale."""
    marks: list[Mark] = []
    top = ground.y1
    if len(grid.cells) > 1:
        map_ = sheet_map(grid, cell)
        marks.append(words((ground.x1, top - 7.0), seams.cell_name(cell), 6.5, bold=True, anchor="eb"))
        marks += map_.at((ground.x1 - map_.width, top - 9.5 - map_.height))
        top -= 9.5 + map_.height + 4.0
    scale = furniture.long_scale(top - window.y0, upright=True, trusted=transform.turn != 0.0, unit=unit)
    return [*marks, *scale.at((ground.x1 - scale.width, window.y0))]


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
