"""How wide a ± is told to be, alone or behind what it belongs to: rounded up, never better than it is."""

import math

from geometry.units.shown_lengths import least_shown, said, show, shows, told_alike
from geometry.units.typed_lengths import MM_PER, Unit


def said_angle(degrees: float, pm95: float, places: int = 1) -> str:
    """An angle with its ±, rounded up: 9.2 ±0.4°."""
    return f"{degrees:.{places}f} ±{pm_angle(pm95, places)}"


def pm_angle(pm95: float, places: int = 1) -> str:
    """The width of an angle's ±, without the sign, rounded up: 0.4°."""
    fine = 10**places
    return f"{math.ceil(fine * pm95 - 1e-9) / fine:.{places}f}°"


def show_pm(value_mm: float, unit: Unit) -> str:
    """The width of a ±, without the sign and the unit's name, rounded up: never better than it is, and never nought.

    Tenths of a millimetre, hundredths of a centimetre, 64ths of an inch.
    """
    step = least_shown(unit)
    return show(max(math.ceil(value_mm / step - 1e-9), 1) * step, unit)


def good_within(band_mm: float, unit: Unit) -> float:
    """How far a length may be from what is shown of it and still be good, mm: what is told and what is judged by, both
    one. It is rounded down, but for the one step that a rule's own marks may be off.
    """
    step = least_shown(unit)
    return max(math.floor(band_mm / step + 1e-9), 1) * step


def show_fine_pm(value_mm: float, unit: Unit) -> str:
    """The same beside numbers that are shown in decimals of an inch: thousandths of it; all else as `show_pm`."""
    if unit != "in":
        return show_pm(value_mm, unit)
    step = MM_PER["in"] / 1000
    return show(math.ceil(value_mm / step - 1e-9) * step, unit, 2)


def said_under(value_mm: float, limit_mm: float, unit: Unit, pm95_mm: float | None = None) -> str:
    """A small length, with its ± where one is given, that falls short of a limit told beside it: “just under 3.0 mm”
    where both would read alike.
    """
    says = said(value_mm, unit) if pm95_mm is None else said_pm(pm95_mm, unit, value_mm)
    return f"just under {says}" if value_mm < limit_mm and told_alike(value_mm, limit_mm, unit) else says


def said_pm(pm95_mm: float, unit: Unit, value_mm: float | None = None) -> str:
    """A ± inside a sentence, behind its small length where one is given: 2.7 ±0.4 mm. The ± is rounded up."""
    width = show_pm(pm95_mm, unit)
    if value_mm is None:
        return f"{width} {unit}"
    length = said(value_mm if shows(value_mm, unit) else 0.0, unit)  # its ± tells how little is known of it
    return f"{length.removesuffix(unit)}±{width} {unit}"
