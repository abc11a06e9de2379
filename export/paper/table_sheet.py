"""Sheets of their own for the tables that find no room beside the work: T, T2 and so on."""

from collections.abc import Iterable, Sequence

import msgspec

from export.drawing.flatten import Box
from export.drawing.marks import Drawing, Mark, Text
from export.drawing.room.free_ground import FreeGround
from export.drawing.typeface import text_box
from export.errors import PaperTooSmall
from export.hole_table import Table
from export.paper import furniture
from export.paper.furniture import Block
from export.paper.table_blocks import SHARES, Letters, in_words, put_table, table_blocks
from export.paper.wrapping import wrapped
from export.paper_sizes import Paper
from export.records import PrintOrder, Sheet, printable_area

NAME = "T"
"""What the first is called, beside A1, A2 and so on."""
CONTINUED = ", continued"
LEAST = 12.0
"""What tables need below the words at the head at least, mm."""
LARGE = 6.5
"""The letters of a sheet's name, as on sheets that are taped, mm."""
BELOW, APART = 4.0, 6.0
"""Between the words at the head and the tables, and between two tables, mm."""


def table_sheets(order: PrintOrder, paper: Paper, tables: Sequence[Table], before: int) -> tuple[Sheet, ...]:
    """The tables on as many sheets as they need, behind so many others; none for no tables. A table longer than a sheet
    is parted. Raises `PaperTooSmall`.
    """
    if not tables:
        return ()
    ground = printable_area(paper, order.stamp.margin, order.stamp.correction)
    room = Box(ground.x0, ground.y0, ground.x1, _head(order, paper, ground, 99, 99, 99)[1])
    if room.height < LEAST:
        raise PaperTooSmall(
            f"Paper {paper.name} leaves no room for tables below what is to be heeded first; choose larger paper"
        )
    laid = _in_best_letters(tables, room)
    count = before + len(laid)
    return tuple(
        _sheet(order, paper, [*_head(order, paper, ground, at, before + at, count)[0], *marks], at)
        for at, marks in enumerate(laid, 1)
    )


def _in_best_letters(tables: Sequence[Table], room: Box) -> list[list[Mark]]:
    """The tables on as few sheets as they need, parted as seldom, in the largest letters that do; in the smallest that
    are needed for none to be put into words.
    """
    wide = [max(min(block.width for block in table_blocks(table, size)) for table in tables) for size in SHARES]
    fit = [size for size, most in zip(SHARES, wide, strict=True) if most <= room.width] or ["small"]
    laid = [_laid(tables, room, letters) for letters in fit]
    return min(laid, key=lambda one: (len(one[0]), one[1]))[0]


def _laid(tables: Sequence[Table], room: Box, letters: Letters) -> tuple[list[list[Mark]], int]:
    """The tables from the top left on, a new sheet wherever one finds no more room, and how often one is parted."""
    pages: list[list[Mark]] = []
    free = FreeGround(room, furniture.CELL)
    waiting = list(tables)
    parted = 0
    while waiting:
        table = waiting.pop(0)
        choices = table_blocks(table, letters)
        if pages and _put(pages[-1], free, choices):
            continue
        fresh, empty = list[Mark](), FreeGround(room, furniture.CELL)
        if _put(fresh, empty, choices):
            pages.append(fresh)
            free = empty
        elif len(table.rows) > 1 and min(block.width for block in choices) <= room.width:
            waiting = [*_halves(table), *waiting]
            parted += 1
        else:
            pages += [
                [*block.at((room.x0, room.y1 - block.height))] for block in in_words(table, room.width, room.height)
            ]
            free.occupy(room)
    return pages, parted


def _halves(table: Table) -> tuple[Table, Table]:
    """A table in two, what stands below it below the second."""
    half = (len(table.rows) + 1) // 2
    first = msgspec.structs.replace(table, rows=table.rows[:half], below=())
    title = f"{table.title.removesuffix(CONTINUED)}{CONTINUED}"
    return first, msgspec.structs.replace(table, rows=table.rows[half:], title=title)


def _put(marks: list[Mark], free: FreeGround, choices: Iterable[Block]) -> bool:
    return put_table(marks, free, choices, (0.0, 1.0), APART)


def name(at: int) -> str:
    """What a sheet of tables is called: T, T2 and so on."""
    return NAME if at == 1 else f"{NAME}{at}"


def where_told(tables: Sequence[Table], sheets: Sequence[Sheet]) -> dict[str, str]:
    """On which of the sheets of tables each table stands, or begins, by its title."""
    found: dict[str, str] = {}
    for at, sheet in enumerate(sheets, 1):
        told = {mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)}
        found |= {one.title: name(at) for one in tables if one.title in told and one.title not in found}
    return found


def _head(order: PrintOrder, paper: Paper, ground: Box, at: int, number: int, count: int) -> tuple[list[Mark], float]:
    """What every sheet says of itself, at the top, its name large at the right; and where the room below it begins."""
    called = furniture.words((ground.x1, ground.y1 - LARGE - 0.8), name(at), LARGE, bold=True, anchor="eb")
    beside = ground.width - text_box(called.shape).width - BELOW if isinstance(called.shape, Text) else ground.width
    title = wrapped(f"{order.figure.title}: tables", 5.2, beside, True)
    lines = [*((line, 5.2, True) for line in title), ("", 0.5, False), *furniture.stop_lines(order, ground.width)]
    told = f"{furniture.whose(order)} · sheet {name(at)}, {number} of {count} · {paper.name}"
    for said, bold in ((order.doubt, True), (told, False)):
        lines += furniture.in_lines(said, 2.3, ground.width, bold=bold)
    heeded = " ".join(order.figure.notes_beside((), scales=False))
    lines += [("", 0.8, False), *furniture.in_lines(heeded, 2.3, ground.width)]
    head = furniture.paragraph(lines)
    low = ground.y1 - head.height
    return [called, *head.at((ground.x0, low))], low - BELOW


def _sheet(order: PrintOrder, paper: Paper, marks: Sequence[Mark], at: int) -> Sheet:
    return Sheet(
        name=f"{order.template} {name(at)}",
        template=order.template,
        drawing=Drawing(title=f"{order.figure.title}, sheet {name(at)}", marks=tuple(marks)),
        paper=paper,
        margin=order.stamp.margin,
        correction=order.stamp.correction,
    )
