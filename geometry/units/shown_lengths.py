"""What was worked out in millimetres as it is shown in a job's unit, alone or in a sentence; numbers in decimals."""

import math

from geometry.units.typed_lengths import MM_PER, Length, Unit, show_number, unit_typed

RULED = 3.0
"""mm: from here on a limit is told as a rule shows it (common practice, no source)."""
NOTHING = 0.005
"""mm: what is smaller is called nothing (common practice, no source)."""


def show_degrees(degrees: float) -> str:
    """An angle as it was typed, with its sign."""
    return f"{show_number(degrees)}°"


def named(unit: Unit) -> str:
    """A unit where a sentence needs a word for it: inches, for “in in” cannot be read."""
    return "inches" if unit == "in" else unit


def in_its_unit(value_mm: float, *typed_: Length | None) -> str:
    """A length that follows from some that were typed, in the unit of these, to four figures; inches as a fraction
    where a rule of 64ths shows it: 12.7 mm, 1/2 in, 0.3445 in.
    """
    unit = unit_typed(*typed_)
    if unit == "in" and _is_64ths(value_mm):
        return f"{_sixty_fourths(value_mm)} in"
    return f"{value_mm / MM_PER[unit]:.4g} {unit}"


def limits(least: float, most: float, *typed_: Length | None) -> tuple[str, str]:
    """Two limits in mm, in the unit of what was typed, each so that it may be typed itself: 5, and 120 mm; inches as a
    rule of 64ths shows them, but for what is so small that it is told in thousandths, such as a string's diameter.
    """
    unit = unit_typed(*typed_)
    if unit == "mm":
        return show_number(least), f"{show_number(most)} mm"
    if unit == "in" and (not least or least >= RULED):
        step = MM_PER["in"] / 64
        return _sixty_fourths(math.ceil(least / step) * step), f"{_sixty_fourths(math.floor(most / step) * step)} in"
    low, high = (math.ceil(least / MM_PER[unit] * 1000), math.floor(most / MM_PER[unit] * 1000))
    return show_number(low / 1000), f"{show_number(high / 1000)} {unit}"


def show(value_mm: float, unit: Unit, decimals: int = 1) -> str:
    """A worked-out length in a job's unit, without the unit's name: one decimal of a mm, 64ths of an inch.

    `decimals` counts decimals of a millimetre; in inches the nearest 1/64 is shown, or with 2 or more
    decimals the inch in decimals, one place finer than the millimetre.
    """
    if unit == "in" and decimals < 2:
        return _sixty_fourths(value_mm)
    return _decimals(value_mm, unit, decimals + (0 if unit == "mm" else 1))


def show_size(value_mm: float, unit: Unit) -> str:
    """A hole's or slot's size without the unit's name: 64ths where a rule shows it just so, else decimals: 0.205."""
    return _sixty_fourths(value_mm) if unit == "in" and _is_64ths(value_mm) else show(value_mm, unit, 2)


def as_shown(value_mm: float, unit: Unit) -> float:
    """The length in mm that `show` writes: where two lengths and how far they differ are told, all three agree."""
    return round(value_mm / MM_PER["in"] * 64) / 64 * MM_PER["in"] if unit == "in" else round(value_mm, 1)


def shown_apart(apart_mm: float, one_mm: float, other_mm: float, unit: Unit) -> float:
    """How far apart two lengths are told to be that are shown beside it, mm: as far as what is shown of them, where
    nothing but rounding parts that from `apart_mm`, which is not negative.
    """
    shown = abs(as_shown(one_mm, unit) - as_shown(other_mm, unit))
    return shown if abs(shown - apart_mm) < least_shown(unit) - 1e-9 else apart_mm


def show_off(value_mm: float, unit: Unit, *, accused: bool = False) -> str:
    """How far a reading stands from what the others say, without the unit's name: hundredths of a mm, thousandths of a
    cm, and of an inch whole 64ths, as all else in a job in inches is told. What is less than they show is said to be
    less, and of a reading that is `accused` told in thousandths.
    """
    if unit != "in":
        return show(value_mm, unit, 2)
    ruled = _sixty_fourths(value_mm)
    if ruled != "0":
        return ruled
    if not accused:
        return "<1/64" if abs(value_mm) > NOTHING else "0"
    return show(value_mm, unit, 2) if abs(value_mm) * 2000 >= MM_PER["in"] else "<0.001"


def said(value_mm: float, unit: Unit, decimals: int = 1) -> str:
    """A small length inside a sentence, with its unit: 2.7 mm, 0.27 cm, 7/64 in: what a rule of that unit shows."""
    if unit == "in":
        small = abs(value_mm) > NOTHING and not shows(value_mm, unit)
        return f"{'less than 1/64' if small else _sixty_fourths(value_mm)} in"
    return f"{_decimals(value_mm, unit, decimals + (unit == 'cm'))} {unit}"


def told_alike(one_mm: float, other_mm: float, unit: Unit) -> bool:
    """Whether two small lengths read alike in a sentence: nobody is warned by two figures that are the same."""
    return said(one_mm, unit) == said(other_mm, unit)


def said_roughly(value_mm: float, unit: Unit) -> str:
    """A length that is only known roughly, such as a radius, inside a sentence: 305 mm, 30.5 cm, 12.0 in."""
    return f"{_decimals(value_mm, unit, 0 if unit == 'mm' else 1)} {unit}"


def shows(value_mm: float, unit: Unit) -> bool:
    """Whether a rule of the unit shows a length at all: half a 64th of an inch, half a tenth of a millimetre."""
    return abs(value_mm) >= (MM_PER["in"] / 128 if unit == "in" else 0.05)


def least_shown(unit: Unit) -> float:
    """The least that is shown of a length, mm."""
    return MM_PER["in"] / 64 if unit == "in" else 0.1


def in_decimals(number: float, places: int = 1, *, sign: bool = False) -> str:
    """A number with a minus sign of its own, −0.7, and with `sign` also +1.2; what is shown as nought has neither."""
    text = f"{number:{'+' if sign else ''}.{places}f}"
    return text.lstrip("+-") if float(text) == 0 else text.replace("-", "−")


def _decimals(value_mm: float, unit: Unit, places: int) -> str:
    return in_decimals(half_away(value_mm) / MM_PER[unit], places)


def half_away(value_mm: float) -> float:
    """A length to be told in decimals: 3.175 is told as 3.18, though no float is just as much, and −3.175 as −3.18."""
    return value_mm + math.copysign(1e-9, value_mm)


def _is_64ths(value_mm: float) -> bool:
    """Whether a rule of 64ths shows a length just so."""
    count = value_mm / MM_PER["in"] * 64
    return abs(count - round(count)) < 1e-6


def _sixty_fourths(value_mm: float) -> str:
    count = round(abs(value_mm) / MM_PER["in"] * 64)
    whole, part = divmod(count, 64)
    sign = "−" if value_mm < 0 and count else ""
    if not part:
        return f"{sign}{whole}"
    common = math.gcd(part, 64)
    fraction = f"{part // common}/{64 // common}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"
