"""The job sheet's list of readings: as read, and by how much each is off the fit."""

from export.paper.flow import SMALL, Flow, filling
from export.templates.written import job_tables
from export.templates.written.written_pages import FOOT

TIGHT, LOOSE = 3.2, 4.5
"""How near to each other the rows of readings may stand, so that they end on the second page where they can, mm."""
NARROW = 150.0
"""Paper with less room across has no two tables beside each other, mm."""


def readings_table(flow: Flow, rows: job_tables.Rows) -> None:
    """All readings in two tables side by side, in one on narrow paper."""
    if not rows:
        return
    flow.heading("Readings", follows=flow.row * 5)
    if flow.ground.width < NARROW:
        flow.table(filling(job_tables.READINGS, flow.ground.width), rows, None, SMALL)
    else:
        _two_tables(flow, rows)
    flow.y -= 1.0
    flow.words(job_tables.OFF_BY, SMALL)


def _two_tables(flow: Flow, rows: job_tables.Rows) -> None:
    """Readings in two tables, each page's left one filled first."""
    half = flow.ground.width / 2
    columns = filling(job_tables.READINGS, half - 2.0)
    room = flow.room - flow.row - FOOT
    pitch = min(max(room / -(-len(rows) // 2), TIGHT), LOOSE)
    size = min(SMALL, 0.53 * pitch)
    while rows:
        fits = max(1, int((flow.room - flow.row - 2.0) / pitch))
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
