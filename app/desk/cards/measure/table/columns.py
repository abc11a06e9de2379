"""How wide the columns of the table of readings are, and how high its lines."""

from PySide6.QtWidgets import QHeaderView, QTableView

from app.desk.cards.measure.table.readings_model import FITS, READING, TOOL, VALUE_AT
from app.desk.widgets.look import Look

ROW, LEAST = 22.5, 24
"""A line's height at text scale 1, and the least that a finger or a pen can be asked to hit (WCAG 2.2, 2.5.8)."""
WIDE = {VALUE_AT: 76, TOOL: 50, FITS: 56}
"""How wide the columns beside the names are, in pixels at text scale 1."""
BESIDE = {VALUE_AT: 16, TOOL: 6, FITS: 16}
"""What of it is room beside the words, which does not grow with them."""
BARS = 1.4
"""The bars of the fits grow with the text up to this scale: what more they took the names would lack."""
NAMES = 140
"""The least room for names beside which the tool has a column, in the same pixels: “String over fret 12, bass” in bold
(measured).
"""


def lay(table: QTableView, look: Look) -> None:
    """Make columns and lines as large as the text asks for."""
    scale, head = look.text_scale, table.horizontalHeader()
    table.verticalHeader().setMinimumSectionSize(LEAST)
    table.verticalHeader().setDefaultSectionSize(max(LEAST, round(ROW * scale)))
    head.setMinimumSectionSize(24)
    head.setSectionResizeMode(READING, QHeaderView.ResizeMode.Stretch)
    for column, wide in WIDE.items():
        grown = min(scale, BARS) if column == FITS else scale
        head.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
        head.resizeSection(column, BESIDE[column] + round((wide - BESIDE[column]) * grown))


def room_for_the_tool(wide: int, scale: float) -> bool:
    """Whether so many pixels leave the names their room beside all columns, at a text scale."""
    beside = sum(BESIDE.values()) + scale * sum(WIDE[column] - BESIDE[column] for column in WIDE)
    return wide - beside >= NAMES * scale
