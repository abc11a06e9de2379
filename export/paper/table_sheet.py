"""Sheets of their own for the tables that find no room beside the work: T, T2 and so on."""

from collections.abc import Iterable, Sequence

import msgspec

from export.drawing.flatten import Box
from export.drawing.free_ground import FreeGround
from export.drawing.marks import Drawing, Mark
from export.hole_table import Table
from export.paper import furniture
from export.paper.furniture import Block
from export.paper.table_blocks import table_blocks
from export.paper.wrapping import wrapped
from export.paper_sizes import Paper
from export.records import PrintOrder, Sheet, printable_area

NAME = "T"
"""What the first is called, beside A1, A2 and so on."""
CONTINUED = ", continued"
BELOW, APART = 4.0, 6.0
"""Between the words at the head and the tables, and between two tables, mm."""


def table_sheets(order: PrintOrder, paper: Paper, tables: Sequence[Table], before: int) -> tuple[Sheet, ...]:
    """The tables on as many sheets as they need, behind so many others. A table longer than a sheet is parted."""
    ground = printable_area(paper, order.stamp.margin, order.stamp.correction)
    room = Box(ground.x0, ground.y0, ground.x1, _head(order, paper, ground, 99, 99)[1])
    laid = _laid(tables, room)
    count = before + len(laid)
    return tuple(
        _sheet(order, paper, [*_head(order, paper, ground, before + at, count)[0], *marks], at)
        for at, marks in enumerate(laid, 1)
    )


def _laid(tables: Sequence[Table], room: Box) -> list[list[Mark]]:
    """The tables from the top left on, a new sheet wherever one finds no more room."""
    pages: list[list[Mark]] = []
    free = FreeGround(room, furniture.CELL)
    waiting = list(tables)
    while waiting:
        table = waiting.pop(0)
        if pages and _put(pages[-1], free, table_blocks(table)):
            continue
        fresh, empty = list[Mark](), FreeGround(room, furniture.CELL)
        if _put(fresh, empty, table_blocks(table)) or len(table.rows) < 2:
            pages.append(fresh)
            free = empty
        else:
            waiting = [*_halves(table), *waiting]
    return pages


def _halves(table: Table) -> tuple[Table, Table]:
    """A table in two, what stands below it below the second."""
    half = (len(table.rows) + 1) // 2
    first = msgspec.structs.replace(table, rows=table.rows[:half], below=())
    title = f"{table.title.removesuffix(CONTINUED)}{CONTINUED}"
    return first, msgspec.structs.replace(table, rows=table.rows[half:], title=title)


def _put(marks: list[Mark], free: FreeGround, choices: Iterable[Block]) -> bool:
    """Lay a table in the first free place from the top left; whether it has room."""
    for block in choices:
        corner = free.find(block.width, block.height, (0.0, 1.0))
        if corner is not None:
            marks.extend(block.at(corner))
            free.occupy(Box(*corner, corner[0] + block.width, corner[1] + block.height).grown(APART))
            return True
    return False


def _head(order: PrintOrder, paper: Paper, ground: Box, number: int, count: int) -> tuple[list[Mark], float]:
    """What every sheet says of itself, at the top; and where the room below it begins."""
    lines: list[tuple[str, float, bool]] = [(f"{order.figure.title}: tables", 5.2, True), ("", 0.5, False)]
    for word, reasons in (("STOP", order.stops), ("LOOK AGAIN", order.looks)):
        lines += [(word, 6.0, True)] if reasons else []
        lines += [(line, 2.3, True) for one in reasons for line in wrapped(one, 2.3, ground.width, True)]
    stamp = order.stamp
    who = f"{order.title or 'Untitled job'} · {furniture.day(stamp.date)} · file {stamp.fingerprint}"
    told = f"{who} · sheet {number} of {count} · {paper.name}"
    for said, bold in ((order.doubt, True), (told, False), (" ".join(order.figure.notes_beside(())), False)):
        lines += [(line, 2.3, bold) for line in wrapped(said, 2.3, ground.width, bold) if said]
    head = furniture.paragraph(lines)
    low = ground.y1 - head.height
    return [*head.at((ground.x0, low))], low - BELOW


def _sheet(order: PrintOrder, paper: Paper, marks: Sequence[Mark], at: int) -> Sheet:
    name = NAME if at == 1 else f"{NAME}{at}"
    return Sheet(
        name=f"{order.template} {name}",
        template=order.template,
        drawing=Drawing(title=f"{order.figure.title}, sheet {name}", marks=tuple(marks)),
        paper=paper,
        margin=order.stamp.margin,
        correction=order.stamp.correction,
    )
