"""Laying figures on paper: on one sheet with all it must say around it, or on as few as can be, to be taped."""

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, partial
from itertools import chain
from typing import Literal, NamedTuple

from export.drawing.flatten import Box
from export.drawing.marks import XY, Drawing, Mark
from export.drawing.room.free_ground import FreeGround, boxes_under
from export.drawing.transform import Transform
from export.hole_table import Table
from export.paper import furniture
from export.paper.blocks_around import PlacedBlocks, Wish, blocks_around
from export.paper.furniture import Block, marks_box
from export.paper.made_on_demand import Kept
from export.paper.table_blocks import Letters, table_blocks, table_in_short
from export.paper.table_sheet import NAME as TABLES
from export.paper.table_sheet import table_sheets, where_told
from export.paper.taped.taped_pages import lay_tiles
from export.paper_sizes import Paper, paper_named
from export.records import Figure, PrintOrder, Sheet, Stamp, Turn, printable_area

__all__ = ["Figure", "PrintOrder", "Sheet", "Stamp", "lay"]

PLACES = ((1.0, 1.0), (0.0, 0.5), (0.5, 0.5), (1.0, 0.5), (0.0, 1.0), (0.0, 0.0))
"""Where on the ground a figure is tried, in shares of the room that is left over."""
BETWEEN = ((0.5, 0.8), (0.5, 0.2))
"""Where it is tried for the sake of its tables."""


SHORTEST_ROLL = 150.0
"""No piece of a roll is cut shorter, mm: the blocks around a narrow figure need the room."""
WELL = 0.17
"""Blocks that lie no worse than this each, on average, are well enough, and no other place is tried."""
LINE = 0.3
"""What a line's own width may stand out beyond its middle, mm."""


def turned(paper: Paper, turn: Turn, needed: float) -> list[Paper]:
    """The ways a paper may lie; a roll is cut to what is needed."""
    if paper.roll:
        needed = max(needed, SHORTEST_ROLL)
        return [Paper(paper.name, min(needed + extra, paper.height), paper.width, True) for extra in (0.0, 70.0, 140.0)]
    wide = Paper(paper.name, paper.height, paper.width)
    return {"portrait": [paper], "landscape": [wide], "either": [wide, paper]}[turn]


def lay(order: PrintOrder) -> tuple[Sheet, ...]:
    """A figure on as few sheets as it needs. Raises `ExportError`."""
    stamp = order.stamp
    needed = marks_box(order.figure.marks).width + 2 * stamp.margin
    papers = turned(paper_named(stamp.paper), stamp.turn, needed)
    ready_on, tables_of = cache(partial(_ready, order)), cache(partial(_tables, order))
    for ways in WAYS if order.figure.tables else WAYS[:1]:
        for ready in filter(None, map(ready_on, papers)):
            laid = _on_one(order, ready, {how: tables_of(how) for how in ways})
            if laid is not None:
                return laid
    return lay_tiles(order, papers)


How = Literal["all", "all low", "all small", "all smallest", "some", "some small"]
WAYS: tuple[tuple[How, ...], ...] = (("all",), ("all low",), ("all small",), ("all smallest",), ("some", "some small"))
"""How the tables are laid round a figure, the best way first: lower, where the usual place of one would leave no room
for the next; the tables small, then scales and key small as well; at last those that find room, in the letters that
leave fewer over.
"""
USUAL, LOW = (0.0, 0.6), (0.0, 0.0)
"""Where tables are wanted, in shares of the ground: at the left over the title, or as near to it as can be."""
SMALL: frozenset[How] = frozenset(("all small", "all smallest", "some small"))
"""The ways with small tables."""


class Start(NamedTuple):
    """A figure at one of its places, with the blocks that no sheet is without laid around it, and what is left free.
    `between`: a place tried for the sake of tables.
    """

    shift: XY
    around: PlacedBlocks
    free: FreeGround
    between: bool

    @property
    def short_of_room(self) -> bool:
        """Whether a block is there that is taken only where no other finds room."""
        return any(block.last_resort for block, _ in self.around.blocks)


class Ready(NamedTuple):
    """A figure turned as it lies on a paper that is large enough for it, the title block, and where it may lie:
    `smallest` with scales and key small.
    """

    paper: Paper
    turn: float
    laid: tuple[Mark, ...]
    title: Block
    starts: Kept[Start]
    smallest: Kept[Start]


def _ready(order: PrintOrder, paper: Paper, sheets: int = 1) -> Ready | None:
    """The figure turned for the first of so many sheets of a paper; None where that is too small."""
    figure, stamp = order.figure, order.stamp
    ground = printable_area(paper, stamp.margin, stamp.correction)
    turn = 0.0 if paper.width >= paper.height else -math.pi / 2
    laid = Transform(turn=turn, mirror=figure.mirror).marks(figure.marks)
    size = marks_box(laid).grown(LINE)
    if size.width > ground.width or size.height > ground.height:
        return None
    title = title_block(order, paper, sheets)
    wishes = (_wishes(order, paper, title), _small_wishes(order, paper, title))
    return Ready(paper, turn, laid, title, *(Kept(_starts(order, laid, ground, size, some)) for some in wishes))


def _starts(
    order: PrintOrder, laid: tuple[Mark, ...], ground: Box, size: Box, wishes: Sequence[Wish]
) -> Iterator[Start]:
    """A figure of a size at all places where its blocks find room."""
    under = boxes_under(laid, 2.5, furniture.CELL)
    small = size.width < 0.5 * ground.width and size.height < 0.7 * ground.height
    places = ((0.5, 0.6), *PLACES) if small else PLACES
    for share in (*places, *BETWEEN) if order.figure.tables else places:
        shift = (
            ground.x0 - size.x0 + share[0] * (ground.width - size.width),
            ground.y0 - size.y0 + share[1] * (ground.height - size.height),
        )
        free = FreeGround(ground, furniture.CELL)
        free.occupy_boxes(under, shift)
        around = blocks_around(free, wishes)
        if around is not None:
            yield Start(shift, around, free, share in BETWEEN)


def _on_one(
    order: PrintOrder, ready: Ready, ways: Mapping[How, tuple[Letters, Sequence[Wish]]]
) -> tuple[Sheet, ...] | None:
    """A figure with all its blocks on one sheet, or None where there is no room; with all its tables, or with those
    that find some room and what of the others must not be missing, and these on sheets of their own; of several ways
    the first that leaves the fewest over.
    """
    tried = [(how, found) for how, (_, tables) in ways.items() if (found := _laid(ready, how, tables)) is not None]
    if not tried:
        return None
    how, found = min(tried, key=lambda one: len(one[1][0].short))
    (letters, tables), (around, shift) = ways[how], found
    left = [table for number, table in enumerate(order.figure.tables) if number in around.short]
    if not left:
        return (_sheet(order, ready, around, shift),)
    behind = table_sheets(order, ready.paper, left, 1)
    told = where_told(left, behind)
    title = title_block(order, ready.paper, 1 + len(behind))
    if (title.width, title.height) == (ready.title.width, ready.title.height):
        return (_sheet(order, ready, _named(around.instead(ready.title, title), left, told, letters), shift), *behind)
    anew = _ready(order, ready.paper, 1 + len(behind))
    again = _laid(anew, how, tables) if anew is not None else None
    around, shift = again or found
    return (_sheet(order, ready, _named(around, left, told, letters), shift), *behind)


def _named(around: PlacedBlocks, tables: Sequence[Table], told: Mapping[str, str], letters: Letters) -> PlacedBlocks:
    """The blocks that say of a table on which sheet it stands, with its own sheet's name in each."""
    for table in tables:
        names = TABLES, told.get(table.title, TABLES)
        for usual, own in zip(*(table_in_short(table, name, letters) for name in names), strict=True):
            around = around.instead(usual, own)
    return around


def _laid(ready: Ready, how: How, tables: Sequence[Wish]) -> tuple[PlacedBlocks, XY] | None:
    """All blocks and tables around a figure where they lie best, and where it lies then."""
    best: tuple[PlacedBlocks, XY] | None = None
    for start in ready.smallest if how == "all smallest" else ready.starts:
        some = how in ("some", "some small")
        if start.between if some else tables and start.short_of_room:
            continue  # no table is worth a scale that shows a printer's error badly
        below = best[0].worse if best is not None else math.inf
        needed, if_room = ((), tables) if some else (tables, ())
        around = blocks_around(start.free.copy(), needed, if_room, start.around, below)
        if around is None:
            continue
        best = (around, start.shift)
        if around.worse < WELL * (len(start.around.blocks) + len(tables)):
            break
    return best


def _sheet(order: PrintOrder, ready: Ready, around: PlacedBlocks, shift: XY) -> Sheet:
    """The sheet with the figure and all that is laid around it."""
    return Sheet(
        name=order.template,
        template=order.template,
        drawing=Drawing(title=order.figure.title, marks=Transform(shift=shift).marks(ready.laid) + around.marks()),
        paper=ready.paper,
        margin=order.stamp.margin,
        correction=order.stamp.correction,
        transform=Transform(shift=shift, turn=ready.turn, mirror=order.figure.mirror),
        nowhere=order.figure.nowhere,
    )


def _wishes(order: PrintOrder, paper: Paper, title: Block, *, tight_key: bool = False) -> list[Wish]:
    """The blocks to find room for, most needed first."""
    along = paper.width >= paper.height  # as `_ready` turns the strings
    level, upright = (furniture.scales(upright=up, trusted=up != along, unit=order.unit) for up in (False, True))
    wishes: list[Wish] = []
    if order.stops:
        wishes.append((tuple(furniture.stop_block(order.stops, room) for room in (110, 80, 60)), (0.3, 0.75)))
    if order.looks:
        wishes.append((tuple(furniture.look_block(order.looks, room) for room in (110, 80, 60)), (0.3, 0.6)))
    return [
        *wishes,
        ((title,), (0.0, 0.0)),
        (level, (1.0, 0.0)),
        (upright, (1.0, 0.5)),
        ((furniture.legends_of(order.figure.marks)[1 if tight_key else 0],), (0.0, 1.0)),
    ]


def _small_wishes(order: PrintOrder, paper: Paper, title: Block) -> list[Wish]:
    """The same, scales and key as small as they may be beside tables; words are as wide as finds room."""
    wishes = _wishes(order, paper, title, tight_key=True)
    return [(_smallest([one for one in blocks if not one.last_resort]), wanted) for blocks, wanted in wishes]


def _smallest(blocks: Sequence[Block]) -> Sequence[Block]:
    """The last of ever smaller blocks; all of those that are the higher the narrower they are."""
    return blocks if blocks[-1].height > blocks[0].height else blocks[-1:]


def _tables(order: PrintOrder, how: How) -> tuple[Letters, list[Wish]]:
    """The tables to find room for, all in the same letters; where one finds none, what of it must not be missing."""
    letters: Letters = "small" if how in SMALL else "usual"
    wanted = LOW if how == "all low" else USUAL
    whole = [(table, table_blocks(table, letters)) for table in order.figure.tables]
    if how not in ("some", "some small"):
        return letters, [(blocks, wanted) for _, blocks in whole]
    short = ((blocks, table_in_short(table, TABLES, letters)) for table, blocks in whole)
    return letters, [(Kept(chain(blocks, told)), wanted) for blocks, told in short]


def title_block(order: PrintOrder, paper: Paper, sheets: int) -> Block:
    """Title, job, date and file, how to print it, and the cautions."""
    figure, stamp = order.figure, order.stamp
    lines = [
        (figure.title, 5.2, True),
        ("", 0.5, False),
        *furniture.in_lines(order.title or "Untitled job", 3.1, 95),
        *furniture.in_lines(order.doubt, 2.6, 92, bold=True),
        (f"{furniture.day(stamp.date)} · file {stamp.fingerprint} · sheet 1 of {sheets} · {paper.name}", 2.3, False),
        (f"Print at 100 %, no fit to page · {furniture.correction_words(stamp.printer, stamp.correction)}", 2.3, True),
        ("", 0.8, False),
        *(line for note in figure.notes_beside(figure.marks) for line in furniture.in_lines(note, 2.1, 92)),
    ]
    return furniture.paragraph(lines)
