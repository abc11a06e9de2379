"""The pages of a figure that needs more than one sheet: the window, the seams with their crosses, and what each says.

Rows are letters from the top, columns numbers from the left. Each sheet says where it is cut and on which sheet it is
laid, which side is bass and which treble, and what the lines mean. Two ringed crosses, on the first and on the last
sheet, are measured between once all are taped.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from export.drawing.clip import clip_marks
from export.drawing.dimension import cross
from export.drawing.flatten import Box, polyline
from export.drawing.free_ground import FreeGround
from export.drawing.marks import XY, Circle, Drawing, Mark
from export.drawing.transform import Transform
from export.paper import furniture, seams
from export.paper.furniture import Block, marks_box, words
from export.paper.sides_and_key import repeated
from export.paper.table_sheet import table_sheets
from export.paper.taped_tables import Page, with_tables
from export.paper.tile_grid import OVERLAP, Grid, Spread, lay_grid, spread
from export.paper.wrapping import wrapped
from export.paper_sizes import Paper
from export.records import Figure, PrintOrder, Sheet, printable_area
from geometry.units import Unit, show, show_pm

TAPED = 0.5
"""What a taped assembly may be out by from end to end, mm (common practice, no source)."""
CLEAR = 2.5
"""What stays free between the figure and what the sheet says, mm."""


def lay_tiles(order: PrintOrder, papers: list[Paper]) -> tuple[Sheet, ...]:
    """The figure on the fewest sheets that any way of laying the paper gives. Raises `ExportError`."""
    ways = [_spread(order.figure, turn) for turn in (0.0, -math.pi / 2)]
    best: LaidFigure | None = None
    for paper in papers:
        for transform, figure in ways:
            window = page_window(order, paper, transform)
            grid = lay_grid(figure, window.width, window.height)
            if best is None or grid.cost < best.grid.cost:
                best = LaidFigure(paper, window, grid, transform)
    assert best is not None
    far = _far_apart(order, best)
    behind: tuple[Sheet, ...] = ()
    while True:
        pages = [_page(order, best, number, far, len(behind)) for number in range(len(best.grid.cells))]
        left = with_tables(order.figure.tables, pages)
        if not left or behind:
            return (*(_sheet(order, best, page) for page in pages), *behind)
        behind = table_sheets(order, best.paper, left, len(pages))


def _spread(figure: Figure, turn: float) -> tuple[Transform, Spread]:
    transform = Transform(turn=turn, mirror=figure.mirror)
    marks = transform.marks(figure.marks)
    keep = [*(_turned(box, transform) for box in figure.keep), *seams.registers(marks)]
    return transform, spread(marks, marks_box(marks), keep)


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
    """STOP large, with its reasons, and what is to be looked at first, for the foot of a sheet."""
    lines: list[tuple[str, float, bool]] = []
    for word, reasons in (("STOP", order.stops), ("LOOK AGAIN", order.looks)):
        lines += [(word, 6.0, True)] if reasons else []
        lines += [(line, 2.3, True) for one in reasons for line in wrapped(one, 2.3, room, True)]
    return lines


def page_window(order: PrintOrder, paper: Paper, transform: Transform) -> Box:
    """The part of a page that shows the figure."""
    ground = printable_area(paper, order.stamp.margin, order.stamp.correction)
    text, scale = _foot(order, paper, "sheet A1, 1 of 10", transform, order.figure.marks, *LONGEST_FOOT)
    band = furniture.scale_block(
        *furniture.SCALES[0], upright=True, trusted=transform.turn != 0.0, unit=order.unit
    ).width
    return Box(ground.x0, ground.y0 + max(text.height, scale.height) + CLEAR, ground.x1 - band - CLEAR, ground.y1)


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
    text, scale = _foot(order, laid.paper, count, laid.transform, shown, join, far)
    marks = [*shown, *seams.drawn(met, figure, shown)]
    if far is not None:
        marks += _targets(far, cell, transform, laid.transform)
    free = FreeGround(window, furniture.CELL)
    free.occupy_marks(marks, 2.0)
    beside = repeated(figure, shown, free.copy(), [_turned(box, transform) for box in order.figure.keep])
    free.occupy_marks(beside, 2.0)
    marks += [
        *beside,
        *text.at((ground.x0, ground.y0)),
        *scale.at((ground.x1 - scale.width, ground.y0)),
        *_band(grid, cell, ground, window, laid.transform, order.unit),
    ]
    return Page(cell, transform, marks, free, not several or _shows_work(order, transform, window))


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
    )


def _middle_in(mark: Mark, window: Box) -> bool:
    """Whether a window holds the middle of a mark and some round it: a frame with its word, and no bare piece of it."""
    around = marks_box([mark])
    x, y = (around.x0 + around.x1) / 2, (around.y0 + around.y1) / 2
    inner = window.grown(-OVERLAP / 2)
    return inner.x0 <= x <= inner.x1 and inner.y0 <= y <= inner.y1


def _placing(laid: LaidFigure, cell: tuple[int, int]) -> Transform:
    """How the figure lies on a sheet's page."""
    shown = laid.grid.window(cell)
    shift = (laid.window.x0 - shown.x0, laid.window.y0 - shown.y0)
    return Transform(shift=shift, turn=laid.transform.turn, mirror=laid.transform.mirror)


LONGEST_FOOT = (
    "Cut this sheet at the left and at the top, through the crosses, and lay it on A1 and B1, their halves meeting.",
    Far(((0.0, 0.0), (999.9, 0.0)), ((0, 0), (1, 0))),
)
"""What the foot of a sheet may have to say of its neighbours."""
TAPE = "tape"
"""What a frame to tape over and its word stand for."""
TARGET = 5.0
"""How far a mark to measure from reaches from its middle, mm."""


def _far_apart(order: PrintOrder, laid: LaidFigure) -> Far | None:
    """A free place on the first sheet and one on the last, as far apart as their windows allow; None on one sheet,
    and on sheets that have no room for them.
    """
    cells = laid.grid.cells
    if len(cells) < 2:
        return None
    ends = []
    for cell, wanted in ((cells[0], (0.0, 1.0)), (cells[-1], (1.0, 0.0))):
        transform = _placing(laid, cell)
        inner = laid.window.grown(-OVERLAP - 1.0)
        if min(inner.width, inner.height) < 2 * TARGET + 1.0:
            return None  # sheets so small are few together
        free = FreeGround(inner, furniture.CELL)
        free.occupy_marks(clip_marks(transform.marks(order.figure.marks), laid.window), 2.0)
        for keep in order.figure.keep:
            free.occupy(_turned(keep, transform))  # there it would look like a hole
        room = 2 * TARGET + 1.0
        corner = free.find(room, room, wanted) or (inner.x0, inner.y0)
        middle = (corner[0] + room / 2, corner[1] + room / 2)
        shown = laid.grid.window(cell)
        ends.append((middle[0] - laid.window.x0 + shown.x0, middle[1] - laid.window.y0 + shown.y0))
    return Far((ends[0], ends[1]), (cells[0], cells[-1]))


def _targets(far: Far, cell: tuple[int, int], page: Transform, turned: Transform) -> list[Mark]:
    """The marks of this sheet to measure from: a cross in a ring."""
    marks: list[Mark] = []
    for end, on in zip(far.ends, far.cells, strict=True):
        if on == cell:
            at = page.xy(turned.back(end))
            marks += cross(at, TARGET, "register", of="measure")
            marks.append(Mark(shape=Circle(at, 0.6 * TARGET), purpose="register", of="measure"))
    return marks


def _shows_work(order: PrintOrder, transform: Transform, window: Box) -> bool:
    """Whether the middle of something no seam should cross, the bridge that is, lies in a sheet's window."""
    for keep in order.figure.keep:
        x, y = transform.xy(((keep.x0 + keep.x1) / 2, (keep.y0 + keep.y1) / 2))
        if window.x0 <= x <= window.x1 and window.y0 <= y <= window.y1:
            return True
    return False


def _foot(
    order: PrintOrder,
    paper: Paper,
    count: str,
    transform: Transform,
    shown: Sequence[Mark],
    join: str = "",
    far: Far | None = None,
) -> tuple[Block, Block]:
    """The words at the foot of a sheet, and the scale beside them."""
    stamp = order.stamp
    ground = printable_area(paper, stamp.margin, stamp.correction)
    scale = furniture.long_scale(ground.width, upright=False, trusted=transform.turn == 0.0, unit=order.unit)
    room = ground.width - scale.width - 6.0
    who = f"{order.title or 'Untitled job'} · {furniture.day(stamp.date)} · file {stamp.fingerprint}"
    how = f"Print at 100 %, no fit to page · {furniture.correction_words(stamp.printer, stamp.correction)}"
    taped = f"Once all are taped, the two ringed crosses are {far.said(order.unit)} apart." if far else ""
    doubt = [(line, 2.3, True) for line in wrapped(order.doubt, 2.3, room, True) if order.doubt]
    lines = [*stop_lines(order, ground.width), (order.figure.title, 3.6, True), *doubt]
    for said, bold in (
        (f"{who} · {count} · {paper.name}", False),
        (how, True),
        (" ".join(filter(None, (join, taped))), True),
        (" ".join(order.figure.notes_beside(shown)), False),
    ):
        lines += [(line, 2.1, bold) for line in wrapped(said, 2.1, room, bold) if said]
    return furniture.paragraph(lines), scale


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
