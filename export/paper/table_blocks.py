"""Tables as blocks to lay beside a drawing: in the letters of their sheet, narrower, and in short."""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from itertools import zip_longest
from typing import Literal

import msgspec

from export.drawing.flatten import Box
from export.drawing.marks import XY, Line, Mark
from export.drawing.room.free_ground import FreeGround
from export.drawing.typeface import width
from export.hole_table import Table, folded, is_numbered
from export.paper.furniture import LEADING, Block, block, in_lines, paragraph, words
from export.paper.made_on_demand import Kept
from export.paper.wrapping import wrapped

SMALL_WORDS, TABLE_ROW, GUTTER, LEAST_BELOW, SLENDER = 1.9, 3.5, 3.0, 75.0, 0.6
"""The letters of a table, from row to row, between its columns, and the least room for what stands below, mm; and which
share of that it takes where there is little.
"""
Letters = Literal["roomy", "usual", "small"]
"""How large the letters of tables are, all those on a sheet alike: as on written pages, where tables have a sheet of
their own; as beside a drawing; as small as can be read.
"""
SHARES: Mapping[Letters, float] = {"roomy": 1.16, "usual": 1.0, "small": 0.84}
"""Their share of the usual size."""
HALVES = 2.5
"""How much farther than other columns two halves beside each other stand apart, mm."""
BESIDE = 3.0
"""What stays free at the right of a table besides, mm."""


def table_blocks(table: Table, letters: Letters = "usual") -> Kept[Block]:
    """The table in these letters to choose from: with room for what stands below it, or as narrow as can be with its
    columns nearer; one of numbered places also with its rows in two halves beside each other.
    """
    share = SHARES[letters]
    forms = (table, folded(table)) if is_numbered(table) else (table,)
    rooms = (share * LEAST_BELOW,) if letters == "roomy" else (LEAST_BELOW, SLENDER * LEAST_BELOW)
    return Kept(_table_block(form, share, room) for room in rooms for form in forms)


def in_words(table: Table, room: float, high: float) -> tuple[Block, ...]:
    """A table that is too wide for any of these, a paragraph a row, in as many blocks as need be, none wider than
    `room` or higher than `high` mm.
    """
    rows = (
        ", ".join(f"{head} {cell}".strip() for head, cell in zip_longest(table.head, row, fillvalue="") if cell)
        for row in table.rows
    )
    said = ((table.title, 2.6, True), *((row, SMALL_WORDS, False) for row in rows))
    said += tuple((line, SMALL_WORDS, bold) for line, bold in table.below)
    lines = [(line, size, bold) for text, size, bold in said for line in wrapped(text, size, room, bold)]
    each = max(1, int(high / (2.6 * LEADING)))
    return tuple(paragraph(lines[at : at + each]) for at in range(0, len(lines), each))


def table_in_short(table: Table, elsewhere: str, letters: Letters = "usual") -> tuple[Block, ...]:
    """What of a table must not be missing where there is no room for it: the lines in bold below it, and on which sheet
    it stands; narrower where there is less room, and then smaller, beside small tables as small as these.
    """
    called = table.title.rpartition(",")[0] or table.title
    said = [*(line for line, bold in table.below if bold), f"{called}: on sheet {elsewhere}."]
    shares = [SHARES[size] for size in ("usual", "small") if (size, letters) != ("usual", "small")]
    ways = ((share, room * LEAST_BELOW) for share in shares for room in (1.0, 0.75, 0.5))
    parts = ([part for line in said for part in in_lines(line, k * SMALL_WORDS, room, bold=True)] for k, room in ways)
    blocks = (paragraph(each) for each in parts)
    return tuple(msgspec.structs.replace(block, last_resort=True) for block in blocks)


def beside_free(ground: Box, apart: float) -> Box:
    """The ground of a table with what stays free round it, more of it at its right, so that no row seems to run on."""
    around = ground.grown(apart)
    return Box(around.x0, around.y0, around.x1 + BESIDE, around.y1)


def put_table(marks: list[Mark], free: FreeGround, choices: Iterable[Block], wanted: XY, apart: float) -> bool:
    """Lay the first of these that finds room among a sheet's marks, where it is free nearest to where it is wanted
    (shares of the ground), with `apart` mm round it; whether one did.
    """
    for choice in choices:
        corner = free.find(choice.width, choice.height, wanted)
        if corner is not None:
            marks.extend(choice.at(corner))
            free.occupy(beside_free(choice.ground(corner), apart))
            return True
    return False


@lru_cache(maxsize=256)
def _table_block(table: Table, share: float, least_below: float = LEAST_BELOW) -> Block:
    """A small table: its title, a rule, heads and rows, and what stands below, as wide as these or `least_below`. Kept,
    for it is tried on many sheets and in many places.
    """
    size, row = share * SMALL_WORDS, share * TABLE_ROW
    lines = [*([table.head] if table.head else []), *table.rows]
    wide = [max(width(line[k], size) for line in lines) for k in range(len(table.sides))]
    gutter = share * (GUTTER if least_below >= LEAST_BELOW else SLENDER * GUTTER)
    halves = share * HALVES
    starts = [
        sum(wide[:k]) + gutter * k + (halves if table.second and k >= table.second else 0.0) for k in range(len(wide))
    ]
    whole, titled = starts[-1] + wide[-1], width(table.title, share * 2.6, bold=True)
    marks = [
        words((0.0, 0.0), table.title, share * 2.6, bold=True),
        Mark(shape=Line((0.0, -1.6), (max(whole, titled), -1.6)), purpose="register", of="table"),
    ]
    y = -1.6
    for line in lines:
        y -= row
        for cell, start, room, side in zip(line, starts, wide, table.sides, strict=True):
            at = (start + room if side == "e" else start, y)
            marks += [words(at, cell, size, anchor="eb" if side == "e" else "sb")] if cell else []
    for said, bold in table.below:
        for part in wrapped(said, size, max(whole, least_below), bold):
            y -= row
            marks.append(words((0.0, y - 0.6), part, size, bold=bold))
    return block(marks)
