"""Written pages: words and tables set one under the other, onto as many pages as they need.

A **column** of a table has a heading, a width in mm, and its cells from the left (`s`) or lined up on the right (`e`).
"""

from bisect import bisect_right
from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate
from typing import Literal, NamedTuple

from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Line, Mark, Text
from export.drawing.typeface import width
from export.paper.furniture import LEADING
from export.paper.wrapping import LONGEST, wrapped

SIZE, SMALL = 2.2, 1.95
"""Capital heights of what is read, and of headings of tables, mm."""
SMALLEST = 0.84
"""What is too wide for its column is set smaller by as much as this before it is broken into lines."""
LEAST = 0.62
"""Headings, and words that would be torn, are set as small as this."""
GUTTER = 2.0
"""What stays free behind a column, mm."""
ROW = 4.5
"""A table row's height at the usual size, mm."""


BELOW = 0.28
"""Where in a row its words stand: the share of its height below their baseline."""
BOX, BOX_IN_ROW = 1.5, 0.36
"""Half a side of a box to tick, mm, and of a row's height at most."""
DASH = 1.2, 0.15
"""Half a dash's length and thickness, mm."""
IN_CELL = 1.75
"""From line to line within a cell, of the capital height."""
MOST_LINES = 4
"""No cell has more lines; what is longer is shortened."""
IN_ROW = 0.55
"""As much of a row's height its capitals have at most."""
FEWEST = 3
"""No fewer rows of a table, or lines of a list, are carried over to another page, where it has as many on both."""
INDENT, OVER_ITEM = 6.0, 1.0
"""How far a list's words stand in from its boxes, and what is left over each of its paragraphs, mm."""


class Column(NamedTuple):
    """One column of a table."""

    heading: str
    width: float
    side: Literal["s", "e"] = "s"
    bold: bool = False


def holds(column: Column, cell: str, size: float = SIZE) -> bool:
    """Whether a column shows a cell whole in one line, smaller if need be."""
    return width(cell, SMALLEST * size, column.bold) <= column.width - GUTTER


def filling(columns: Sequence[Column], room: float) -> list[Column]:
    """The columns in so much room, mm: the last ends where the room does."""
    share = (room + GUTTER) / sum(column.width for column in columns)
    return [column._replace(width=column.width * share) for column in columns]


class Item(NamedTuple):
    """One paragraph of a list: beside a box to tick, or beside a dash."""

    text: str
    ticked: bool = True
    bold: bool = False


class Flow:
    """Sets what it is given from the top of the ground down; `pages` holds the marks of each page begun.

    `row` is the height of a table's rows, mm; headings stand apart by as much.
    """

    def __init__(self, ground: Box, row: float = ROW) -> None:
        self.ground, self.row = ground, row
        self.pages: list[list[Mark]] = [[]]
        self.lists_parted = 0
        """How often a list runs over to another page."""
        self.y = ground.y1

    @property
    def room(self) -> float:
        """What is left on this page, mm."""
        return self.y - self.ground.y0

    def need(self, height: float) -> None:
        """Begin a new page where less than `height` is left."""
        if height > self.room and self.y < self.ground.y1:
            self.pages.append([])
            self.y = self.ground.y1

    def put(self, at: XY, text: str, height: float = SIZE, *, bold: bool = False, side: str = "s") -> None:
        """Words on a baseline."""
        mark = Mark(shape=Text(at, text, height, 0.0, "eb" if side == "e" else "sb", bold), purpose="note")
        self.pages[-1].append(mark)

    def rule(self, x0: float, x1: float, weight: float = 1.0) -> None:
        """A thin line across, here."""
        self.pages[-1].append(Mark(shape=Line((x0, self.y), (x1, self.y)), purpose="dimension", weight=weight))

    def heading(self, text: str, follows: float = 14.0) -> None:
        """A heading that is never left alone at a page's foot."""
        self.need(self.row + 5.5 + follows)
        if self.y < self.ground.y1:
            self.y -= self.row
        self.y -= 3.5
        self.put((self.ground.x0, self.y), text, 3.0, bold=True)
        self.y -= 2.0

    def words(self, text: str, height: float = SIZE, *, bold: bool = False, indent: float = 0.0) -> None:
        """A paragraph across the page."""
        for line in wrapped(text, height, self.ground.width - indent, bold):
            self.need(height * LEADING)
            self.y -= height * LEADING
            self.put((self.ground.x0 + indent, self.y), line, height, bold=bold)

    def listed(self, heading: str, items: Sequence["Item"]) -> None:
        """Paragraphs beside boxes to tick, or beside dashes, below their heading where there is one; three lines at
        least stand on either page where the list runs over to another.
        """
        lines = [len(wrapped(item.text, SIZE, self.ground.width - INDENT, item.bold)) for item in items]
        if heading:
            self.heading(heading, _deep(lines[: next((n for n in range(len(lines)) if _well_parted(lines, n)), None)]))
        while items:
            count = _items_here(lines, self.room)
            for item, high in zip(items[:count], lines[:count], strict=True):
                self._item(item, high)
            items, lines = items[count:], lines[count:]
            if items:
                self.lists_parted += 1
                self.need(self.ground.height)

    def named(self, lines: Sequence[tuple[str, str]]) -> None:
        """Paragraphs, each behind a word of its own at the margin, none of them parted."""
        indent = max(width(name, SIZE, bold=True) for name, _ in lines) + GUTTER
        for name, text in lines:
            self.need(len(wrapped(text, SIZE, self.ground.width - indent)) * SIZE * LEADING)
            self.put((self.ground.x0, self.y - SIZE * LEADING), name, bold=True)
            self.words(text, indent=indent)

    def _item(self, item: "Item", lines: int) -> None:
        self.need(lines * SIZE * LEADING + OVER_ITEM)
        self.y -= OVER_ITEM
        first = self.y - SIZE * LEADING
        self._sign((self.ground.x0, first), item.ticked)
        self.words(item.text, SIZE, bold=item.bold, indent=INDENT)

    def _sign(self, at: XY, ticked: bool, most: float = BOX) -> None:
        x, y = at
        half, high = (most, most) if ticked else DASH
        cx, cy = x + 1.6, y + SIZE / 2
        ring = [(cx - half, cy - high), (cx + half, cy - high), (cx + half, cy + high), (cx - half, cy + high)]
        self.pages[-1].append(Mark(shape=polyline(ring, closed=True), purpose="dimension", filled=not ticked))

    def table(
        self,
        columns: Sequence[Column],
        rows: Sequence[Sequence[str]],
        x0: float | None = None,
        size: float | None = None,
        pitch: float | None = None,
        most: int = MOST_LINES,
    ) -> None:
        """A table whose heading is repeated on each page it runs over, with three rows at least; no cell has more lines
        than `most`. A cell `[]` is a box to tick.
        """
        pitch = pitch or self.row
        size = size or min(SIZE, IN_ROW * pitch)
        left = self.ground.x0 if x0 is None else x0
        self.need(pitch * min(3, len(rows) + 1))
        self._table_head(columns, left)
        rest = [_Row.of(columns, row, size, pitch, most) for row in rows]
        while rest:
            count = _on_this_page(len(rest), _that_fit(rest, self.room))
            for row in rest[:count]:
                self._table_row(columns, row, left, pitch)
            rest = rest[count:]
            if rest:
                self.need(self.ground.height)
                self._table_head(columns, left)

    def _table_head(self, columns: Sequence[Column], left: float) -> None:
        self.y -= self.row - 0.9 if any(column.heading for column in columns) else 0.0
        x = left
        for column in columns:
            edge = x + (column.width - GUTTER if column.side == "e" else 0.0)
            if column.heading:
                small = max(LEAST, min(1.0, (column.width - GUTTER) / width(column.heading, SMALL))) * SMALL
                self.put((edge, self.y), column.heading, small, side=column.side)
            x += column.width
        self.y -= 1.4
        self.rule(left, x - GUTTER)

    def _table_row(self, columns: Sequence[Column], row: "_Row", left: float, pitch: float) -> None:
        x, base = left, self.y - (1.0 - BELOW) * pitch
        for column, lines, size in zip(columns, row.cells, row.sizes, strict=True):
            edge = x + (column.width - GUTTER if column.side == "e" else 0.0)
            if lines == ("[]",):
                self._sign((x, self.y - (pitch + SIZE) / 2), ticked=True, most=min(BOX, BOX_IN_ROW * pitch))
            elif lines != ("",):
                for number, line in enumerate(lines):
                    self.put((edge, base - number * row.leading), line, size, bold=column.bold, side=column.side)
            x += column.width
        self.y -= row.height
        self.rule(left, x - GUTTER, 0.72)


class _Row(NamedTuple):
    """A row of a table: the lines of its cells, their capital heights, from line to line, and the row's height, mm."""

    cells: list[tuple[str, ...]]
    sizes: list[float]
    leading: float
    height: float

    @classmethod
    def of(cls, columns: Sequence[Column], row: Sequence[str], size: float, pitch: float, most: int) -> "_Row":
        """The row with what is too wide for its column set smaller, and what is so even then in several lines."""
        found = [_in_column(cell, column, size, most) for column, cell in zip(columns, row, strict=True)]
        count, leading = max(len(lines) for lines, _ in found), IN_CELL * SMALLEST * size
        return cls([lines for lines, _ in found], [own for _, own in found], leading, pitch + (count - 1) * leading)


@lru_cache(maxsize=2048)
def _in_column(cell: str, column: Column, size: float, most: int) -> tuple[tuple[str, ...], float]:
    """A cell's lines and their capital height. Kept, for pages are set out in several ways."""
    room, small = column.width - GUTTER, SMALLEST * size
    share = min(1.0, room / width(cell, size, column.bold)) if cell else 1.0
    if share >= SMALLEST:
        return (cell,), share * size
    lines = wrapped(cell, small, room, column.bold) if most > 1 else (cell,)
    if share >= LEAST and " ".join(lines) != " ".join(cell.split()):
        return (cell,), share * size  # a word would be torn
    last = " ".join(lines[most - 1 :])
    return (*lines[: most - 1], *((fitted(last, column, small),) if last else ())), small


def _deep(lines: Sequence[int]) -> float:
    """How high paragraphs of so many lines each stand in a list, mm."""
    return sum(lines) * SIZE * LEADING + len(lines) * OVER_ITEM


def _well_parted(lines: Sequence[int], count: int) -> bool:
    """Whether a list of paragraphs, each of so many lines, has enough of them on either page, `count` being on one."""
    return sum(lines[:count]) >= FEWEST <= sum(lines[count:])


def _items_here(lines: Sequence[int], room: float) -> int:
    """How many paragraphs of a list stand on this page: as many as have room, or fewer so that it is well parted."""
    fits = max(1, sum(_deep(lines[: n + 1]) <= room + 1e-9 for n in range(len(lines))))
    return fits if fits == len(lines) else next((n for n in range(fits, 0, -1) if _well_parted(lines, n)), fits)


def _that_fit(rows: Sequence[_Row], room: float) -> int:
    """How many of the rows have room."""
    return sum(deep <= room + 1e-9 for deep in accumulate(row.height for row in rows))


def _on_this_page(left: int, fits: int) -> int:
    """How many of the rows that are left stand on this page, so that neither it nor the next has a mere one or two."""
    if fits >= left:
        return left
    shared = min(fits, left - FEWEST)
    return shared if shared >= FEWEST else fits


def fitted(cell: str, column: Column, size: float = SIZE) -> str:
    """A cell's words, shortened with an ellipsis where they are wider than their column."""
    room = column.width - GUTTER
    if width(cell, size, column.bold) <= room + 1e-6:
        return cell
    near = range(min(len(cell), LONGEST))
    fit = bisect_right(near, room, key=lambda i: width(f"{cell[:i]}…", size, column.bold)) - 1
    return f"{cell[: max(fit, 0)].rstrip()}…"
