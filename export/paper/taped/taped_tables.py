"""The tables of a figure that needs more than one sheet: beside the work, on another sheet that has room, or on one of
their own. Beside the work they stand outside it; what is said of them in short, at the foot or on it at last.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from export.drawing.marks import XY, Mark
from export.drawing.room.free_ground import FreeGround
from export.drawing.transform import Transform
from export.hole_table import Table
from export.paper.furniture import Block, marks_box
from export.paper.table_blocks import Letters, put_table, table_blocks, table_in_short
from export.paper.table_sheet import NAME
from export.paper.taped import seams

APART = 3.0
"""What stays free round a table, mm."""
WANTED: tuple[XY, ...] = ((0.0, 0.6), (0.0, 0.0), (0.0, 1.0), (1.0, 0.6), (1.0, 0.0), (1.0, 1.0))
"""Where tables are wanted on a page, in shares of its window: the usual place, and others where they find more room."""


class Page(NamedTuple):
    """A sheet in the making: its cell, how the figure lies on it, its marks, where it is still `free` (beside the work,
    at the foot, and anywhere in the window), and whether it shows what no seam should cross, so that the tables are
    wanted there.
    """

    cell: tuple[int, int]
    transform: Transform
    marks: list[Mark]
    free: tuple[FreeGround, FreeGround, FreeGround]
    shows_work: bool

    def copy(self) -> "Page":
        """The same, to be laid on further."""
        beside, at_foot, anywhere = (ground.copy() for ground in self.free)
        return self._replace(marks=list(self.marks), free=(beside, at_foot, anywhere))


class _Laid(NamedTuple):
    """The pages with their tables, and the page that holds each table; None where none has room."""

    pages: list[Page]
    hosts: list[Page | None]
    letters: Letters

    @property
    def off_the_work(self) -> int:
        """How many tables are not beside the work."""
        return sum(host is None or not host.shows_work for host in self.hosts)

    @property
    def lack(self) -> tuple[int, int]:
        """The less, the better."""
        return self.hosts.count(None), self.off_the_work


def with_tables(
    tables: Sequence[Table], pages: Sequence[Page], told: Mapping[str, str]
) -> tuple[list[Page], list[Table]]:
    """The pages with the figure's tables: each on the first that shows the work and has room, else on the first other
    one that has; and those that find none. Where some find none in the usual places, others are tried; all are small
    where more of them find room then, or find it beside the work. What of a table must not be missing, and where it
    stands, is said beside the work elsewhere: on one of the sheets of tables alone where it is `told`, by its title.
    """
    best = _laid(tables, pages, "usual")
    if best.off_the_work:
        best = min(best, _laid(tables, pages, "small"), key=lambda laid: laid.lack)
    for table, host in zip(tables, best.hosts, strict=True):
        where = seams.cell_name(host.cell) if host is not None else told.get(table.title, NAME)
        for page in best.pages:
            if page.shows_work and page is not host:
                _put(page, table_in_short(table, where, best.letters), page.free, WANTED[0])
    return best.pages, [table for table, host in zip(tables, best.hosts, strict=True) if host is None]


def _laid(tables: Sequence[Table], bare: Sequence[Page], letters: Letters) -> _Laid:
    """The tables in these letters where most of them find room, and most find it beside the work."""
    best: _Laid | None = None
    for wanted in WANTED:
        pages = [page.copy() for page in bare]
        laid = _Laid(pages, _hosts(tables, pages, letters, wanted), letters)
        if best is None or laid.lack < best.lack:
            best = laid
        if not best.off_the_work:
            break
    assert best is not None
    return best


def _hosts(tables: Iterable[Table], pages: Sequence[Page], letters: Letters, wanted: XY) -> list[Page | None]:
    """For each table the first of these pages that has room for it beside the work, those that show it first, the table
    laid on it.
    """
    ordered = sorted(pages, key=lambda page: not page.shows_work)
    return [
        next((page for page in ordered if _put(page, table_blocks(table, letters), page.free[:1], wanted)), None)
        for table in tables
    ]


def _put(page: Page, choices: Iterable[Block], grounds: Sequence[FreeGround], wanted: XY) -> bool:
    """Lay the first of these that finds room, on the first of these grounds that has any, which none has any more."""
    told = len(page.marks)
    if not any(put_table(page.marks, ground, choices, wanted, APART) for ground in grounds):
        return False
    for ground in page.free:
        ground.occupy(marks_box(page.marks[told:]).grown(APART))
    return True
