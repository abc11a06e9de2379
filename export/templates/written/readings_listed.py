"""The job sheet's list of readings: as read, and by how much each is off the fit."""

from collections.abc import Sequence

from export.drawing.typeface import width
from export.paper.flow import GUTTER, SMALL, Column, Flow, filling, holds
from export.templates.written import job_tables
from export.templates.written.written_pages import FOOT

TIGHT, LOOSE = 3.2, 4.5
"""How near to each other the rows of readings may stand, so that they end on the second page where they can, mm."""
PITCHES = (LOOSE, 4.2, 4.0, 3.8, 3.6, 3.4)
"""Those that are tried where readings run over to a third page, mm."""
USUAL, AMPLE = 3.8, 1.25
"""Rows stand no nearer than this, mm, for what follows to have this many times the room that it needs."""
NAME = "reading"
"""The heading of the names' column."""
NARROW = 150.0
"""Paper with less room across has no two tables beside each other, mm."""


def readings_table(flow: Flow, rows: job_tables.Rows, below: str, after: float = 0.0) -> None:
    """All readings in two tables side by side; in one where paper is narrow, or a name or a value too long for half of
    it; and what is said `below` them. `after`: the room (mm) that is wanted under that.
    """
    if not rows:
        return
    flow.heading("Readings", follows=flow.row * 5)
    half = _half(flow, rows)
    if half is None:
        pitch = _pitch(flow, 2 * len(rows), after)  # as many as in two tables twice as long
        flow.table(filling(job_tables.READINGS, flow.ground.width), rows, None, min(SMALL, 0.53 * pitch), pitch)
    else:
        _two_tables(flow, rows, half, after)
    flow.y -= 1.0
    flow.words(below, SMALL)


def _half(flow: Flow, rows: job_tables.Rows) -> list[Column] | None:
    """The columns of one of two tables beside each other; those of figures only as wide as need be where a name would
    be cut; None where that is not enough.
    """
    room = flow.ground.width / 2 - 2.0
    usual = filling(job_tables.READINGS, room)
    fitting = [
        column._replace(width=max(width(cell, SMALL, column.bold) for cell in (column.heading, *cells)) + GUTTER)
        for column, cells in zip(job_tables.READINGS, zip(*rows, strict=True), strict=True)
    ]
    left = room + GUTTER - sum(column.width for column in fitting if column.heading != NAME)
    fitting = [column._replace(width=left) if column.heading == NAME else column for column in fitting]
    for columns in (usual, fitting) if flow.ground.width >= NARROW else ():
        if all(holds(column, cell, SMALL) for row in rows for column, cell in zip(columns, row, strict=True)):
            return columns
    return None


def _two_tables(flow: Flow, rows: job_tables.Rows, columns: Sequence[Column], after: float) -> None:
    """Readings in two tables, each page's left one filled first."""
    half = flow.ground.width / 2
    pitch = _pitch(flow, len(rows), after)
    size = min(SMALL, 0.53 * pitch)
    while rows:
        fits = _fit(flow.room - flow.row, pitch)
        count = min(fits, -(-len(rows) // 2))
        top = flow.y
        flow.table(columns, rows[:count], None, size, pitch, most=1)
        low = flow.y
        if rows[count : 2 * count]:
            flow.y = top
            flow.table(columns, rows[count : 2 * count], flow.ground.x0 + half + 2.0, size, pitch, most=1)
        rows = rows[2 * count :]
        flow.y = low
        if rows:
            flow.need(flow.ground.height)


def _pitch(flow: Flow, count: int, after: float) -> float:
    """From row to row of so many readings: as near as need be for them to end on this page, and where they don't even
    so, as far as leaves what follows on the page it would stand on.
    """
    rows = -(-count // 2)
    here = (flow.room - flow.row - FOOT) / rows
    if here >= TIGHT:
        ample = max(USUAL, here - AMPLE * after / rows)
        return min(here, LOOSE, ample if here - after / rows >= USUAL else LOOSE)
    page, left = _end(flow, count, TIGHT)
    for pitch in PITCHES:
        ends, leaves = _end(flow, count, pitch)
        if ends == page and (leaves >= after or left < after):
            return pitch
    return TIGHT


def _end(flow: Flow, count: int, pitch: float) -> tuple[int, float]:
    """How many pages on so many readings end, and what is left below them there, mm."""
    page, room = 0, flow.room - flow.row
    while count > 2 * _fit(room, pitch):
        count -= 2 * _fit(room, pitch)
        page, room = page + 1, flow.ground.height - flow.row
    return page, room - pitch * -(-count // 2) - FOOT


def _fit(room: float, pitch: float) -> int:
    """How many rows stand one under the other below a table's head."""
    return max(1, int((room - 2.0) / pitch))
