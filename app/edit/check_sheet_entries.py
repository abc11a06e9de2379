"""What a rule reads on a printer's check sheet, as it is typed."""

from export.correction import SIDES_LONG, share_of_side
from geometry import units
from geometry.units import Unit


def typed(line: str, text: str) -> float:
    """What was typed of a line that is read, in mm; a bare number in `unit_of` it. Raises `NotALength`."""
    return units.parse(text, unit_of(line, text))


def unit_of(line: str, text: str) -> Unit:
    """The unit of a bare number: that in which it fits a square, for it fits in one alone; mm where it fits in none.
    Raises `NotALength`.
    """
    tried: tuple[Unit, ...] = ("mm", "in", "cm")
    long = SIDES_LONG[line]
    return next((unit for unit in tried if share_of_side(units.parse(text, unit), long) is not None), "mm")
