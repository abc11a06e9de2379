"""The tables of a figure that needs more than one sheet: beside the work, on another sheet that has room, or on one of
their own. Beside the work they stand outside it; what is said of them in short, at the foot or on it at last.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from export.drawing.marks import Mark
from export.drawing.room.free_ground import FreeGround
from export.drawing.transform import Transform
from export.hole_table import Table
from export.paper.furniture import Block, marks_box
from export.paper.table_blocks import Letters, put_table, table_blocks, table_in_short
from export.paper.table_sheet import NAME
from export.paper.taped import seams

WANTED, APART = (0.0, 0.6), 3.0
"""Where a table is wanted on a page, in shares of its window, and what stays free round it, mm."""


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


def with_tables(
    tables: Sequence[Table], pages: Sequence[Page], told: Mapping[str, str]
) -> tuple[list[Page], list[Table]]:
    """The pages with the figure's tables, each on the first that shows the work and has room, else on the first other
    one that has; and those that find none. What of a table must not be missing, and where it stands, is said beside the
    work elsewhere: on one of the sheets of tables alone where it is `told`, by its title. All are small where more of
    them find room then, or find it beside the work.
    """
    usual = _laid(tables, pages, told, "usual")
    if usual.off_the_work == 0:
        return usual.pages, usual.left
    small = _laid(tables, pages, told, "small")
    better = (len(small.left), small.off_the_work) < (len(usual.left), usual.off_the_work)
    return (small.pages, small.left) if better else (usual.pages, usual.left)


class _Laid(NamedTuple):
    """The pages with their tables, those that found no room, and how many are not beside the work."""

    pages: list[Page]
    left: list[Table]
    off_the_work: int


def _laid(tables: Sequence[Table], bare: Sequence[Page], told: Mapping[str, str], letters: Letters) -> _Laid:
    """The tables in these letters on the pages."""
    pages = [_to_write_on(page) for page in bare]
    work = [page for page in pages if page.shows_work]
    others = [page for page in pages if not page.shows_work]
    hosts = [_host(table, (*work, *others), letters) for table in tables]
    for table, host in zip(tables, hosts, strict=True):
        where = seams.cell_name(host.cell) if host is not None else told.get(table.title, NAME)
        for page in work:
            if page is not host:
                _put(page, table_in_short(table, where, letters), page.free)
    left = [table for table, host in zip(tables, hosts, strict=True) if host is None]
    return _Laid(pages, left, sum(host is None or not host.shows_work for host in hosts))


def _to_write_on(page: Page) -> Page:
    """The same page, to be written on without a trace on this one."""
    beside, at_foot, anywhere = page.free
    return page._replace(marks=[*page.marks], free=(beside.copy(), at_foot.copy(), anywhere.copy()))


def _host(table: Table, pages: Iterable[Page], letters: Letters) -> Page | None:
    """The first of these pages that has room for a table beside the work, the table laid on it."""
    full = table_blocks(table, letters)
    return next((page for page in pages if _put(page, full, page.free[:1])), None)


def _put(page: Page, choices: Iterable[Block], grounds: Sequence[FreeGround]) -> bool:
    """Lay the first of these that finds room, on the first of these grounds that has any, which none has any more."""
    told = len(page.marks)
    if not any(put_table(page.marks, ground, choices, WANTED, APART) for ground in grounds):
        return False
    for ground in page.free:
        ground.occupy(marks_box(page.marks[told:]).grown(APART))
    return True
