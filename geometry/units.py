"""Lengths as a person types them, and the millimetres they stand for.

A **length** is kept as it was typed: a plain number means millimetres, a text carries its unit
(`"25 11/32 in"`, `"64,4 cm"`). All else is worked out in millimetres; what an inch is, only this module says.
"""

import math
import re
from functools import lru_cache
from typing import Literal

from geometry.rule_fractions import why_no_fraction

Length = float | str
Unit = Literal["mm", "cm", "in"]

INCH = 25.4
MM_PER: dict[Unit, float] = {"mm": 1.0, "cm": 10.0, "in": INCH}
"""1 in = 25.4 mm exactly (ISO 31-1:1992; international yard and pound agreement of 1959)."""
RULED = 3.0
"""mm: from here on a limit is told as a rule shows it (common practice, no source)."""
NOTHING = 0.005
"""mm: what is smaller is called nothing (common practice, no source)."""
WRITTEN: dict[Unit, str] = {
    "mm": "643.5, 64,4 cm or 25 11/32 in",
    "cm": "64,4, 643.5 mm or 25 11/32 in",
    "in": "25 11/32, 643.5 mm or 64,4 cm",
}
"""How a length may be written, the job's own unit first: a bare number is in that."""
LONGEST = 60
"""Characters; nobody types a longer length, and its fraction could leave what a number holds."""
_SIGNS = {'"': "in", "″": "in", "”": "in", "inch": "in", "inches": "in", "in": "in", "mm": "mm", "cm": "cm"}
FRACTION_SIGNS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_TYPED = re.compile(
    r"""\s*(?P<sign>[+\-−]?)\s*
    (?:(?P<whole>\d+)[\s\-]+(?P<num>\d+)\s*/\s*(?P<den>\d+)
      |(?P<num_only>\d+)\s*/\s*(?P<den_only>\d+)
      |(?P<decimal>\d+(?:[.,]\d*)?|[.,]\d+))
    \s*(?P<unit>[A-Za-z"″”]*)\s*""",
    re.VERBOSE,
)


class NotALength(ValueError):
    """What was typed cannot be read as a length; the message says so in one sentence."""


@lru_cache(maxsize=4096)
def _parse(text: str, job_unit: Unit = "mm") -> tuple[float, Unit | None]:
    if len(text) > LONGEST:
        raise NotALength(f"“{text[:20]}…” is too long to be a length; write it like {WRITTEN[job_unit]}")
    spelled = text
    for glyph, plain in FRACTION_SIGNS.items():
        spelled = spelled.replace(glyph, " " + plain)
    found = _TYPED.fullmatch(spelled)
    if found is None:
        raise NotALength(f"“{text}” is not a length; write it like {WRITTEN[job_unit]}")
    sign = found["unit"].lower()
    if sign and sign not in _SIGNS:
        raise NotALength(f"“{text}” ends in a unit that is not known here; use mm, cm or in")
    unit: Unit | None = _SIGNS[sign] if sign else None  # type: ignore[assignment]  # the table holds only units
    if found["decimal"] is not None:
        number = float(found["decimal"].replace(",", "."))
    else:
        below = int(found["den"] or found["den_only"])
        if below == 0:
            raise NotALength(f"“{text}” divides by nothing; write the fraction again")
        above = int(found["num"] or found["num_only"])
        if found["whole"] is not None and above >= below:
            raise NotALength(f"“{text}” has a fraction of one or more beside a whole number; write it again")
        number = int(found["whole"] or 0) + above / below
    if not math.isfinite(number):
        raise NotALength(f"“{text}” is too large to be a length")
    return (-number if found["sign"] in ("-", "−") else number), unit


def parse(text: str, unit: Unit = "mm") -> float:
    """Read a typed length; a bare number is in `unit`. Returns millimetres; raises `NotALength`."""
    number, own = _parse(text, unit)
    return number * MM_PER[own or unit]


def mm(length: Length) -> float:
    """A stored length in millimetres: a number is millimetres, a text must name its unit.

    Raises `NotALength`.
    """
    if isinstance(length, str):
        number, unit = _parse(length)
        if unit is None:
            raise NotALength(f"“{length}” has no unit; write “{length} mm” or “{length} in”")
        return number * MM_PER[unit]
    if not math.isfinite(length):
        raise NotALength(f"{length} is not a length")
    return float(length)


def keep(text: str, unit: Unit) -> Length:
    """What a typed length is stored as: a number where that keeps every character, else text with a unit.

    Raises `NotALength`.
    """
    text = " ".join(text.split())
    number, own = _parse(text, unit)
    if why := why_no_fraction(text):
        raise NotALength(why)
    if own is not None:
        return text
    if unit == "mm" and show_number(number) == text:
        return number
    return f"{text} {unit}"


def keep_degrees(text: str) -> float:
    """An angle as typed, in degrees: 87.5, 87,5° or 87 1/2. Raises `NotALength`."""
    plain = text.strip().removesuffix("°").removesuffix("degrees")
    try:
        number, unit = _parse(plain)
    except NotALength:
        unit = "mm"
    if unit is not None:
        raise NotALength(f"“{text[:LONGEST]}” is not an angle; write it in degrees, like 87.5")
    return number


def show_degrees(degrees: float) -> str:
    """An angle as it was typed, with its sign."""
    return f"{show_number(degrees)}°"


def said_angle(degrees: float, pm95: float, places: int = 1) -> str:
    """An angle with its ±, rounded up: 9.2 ±0.4°."""
    fine = 10**places
    return f"{degrees:.{places}f} ±{math.ceil(fine * pm95 - 1e-9) / fine:.{places}f}°"


def typed(length: Length, unit: Unit) -> str:
    """A stored length as the person would type it again in a job whose unit is `unit`."""
    if isinstance(length, str):
        _, own = _parse(length)
        return length[: -len(f" {unit}")] if own == unit and length.endswith(f" {unit}") else length
    return show_number(length) if unit == "mm" or not length else f"{show_number(length)} mm"


def in_64ths(length: Length) -> bool:
    """Whether a stored length was typed in inches, with a fraction that a rule of 64ths shows: 25 11/32 in."""
    if not isinstance(length, str) or not any(sign in length for sign in ("/", *FRACTION_SIGNS)):
        return False
    number, unit = _parse(length)
    return unit == "in" and number * 64 == round(number * 64)


def named(unit: Unit) -> str:
    """A unit where a sentence needs a word for it: inches, for “in in” cannot be read."""
    return "inches" if unit == "in" else unit


def show_number(number: float) -> str:
    """A number without a superfluous ending: 643.0 is shown as 643, 643.50 as 643.5."""
    return repr(int(number)) if abs(number) < 1e15 and number == int(number) else repr(float(number))


def with_unit(length: Length) -> str:
    """A length as the job holds it, with its unit."""
    return length if isinstance(length, str) else f"{show_number(length)} mm"


def unit_typed(*lengths: Length | None) -> Unit:
    """The unit of the first of some lengths that names its own; mm where none does."""
    for length in lengths:
        own = _parse(length)[1] if isinstance(length, str) else None
        if own is not None:
            return own
    return "mm"


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
    return shown if abs(shown - apart_mm) < _step(unit) - 1e-9 else apart_mm


def show_pm(value_mm: float, unit: Unit) -> str:
    """The width of a ±, without the sign and the unit's name, rounded up: never better than it is, and never nought.

    Tenths of a millimetre, hundredths of a centimetre, 64ths of an inch.
    """
    step = _step(unit)
    return show(max(math.ceil(value_mm / step - 1e-9), 1) * step, unit)


def good_within(band_mm: float, unit: Unit) -> float:
    """How far a length may be from what is shown of it and still be good, mm: what is told and what is judged by, both
    one. It is rounded down, but for the one step that a rule's own marks may be off.
    """
    step = _step(unit)
    return max(math.floor(band_mm / step + 1e-9), 1) * step


def show_fine_pm(value_mm: float, unit: Unit) -> str:
    """The same beside numbers that are shown in decimals of an inch: thousandths of it; all else as `show_pm`."""
    if unit != "in":
        return show_pm(value_mm, unit)
    step = MM_PER["in"] / 1000
    return show(math.ceil(value_mm / step - 1e-9) * step, unit, 2)


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


def said_under(value_mm: float, limit_mm: float, unit: Unit, pm95_mm: float | None = None) -> str:
    """A small length, with its ± where one is given, that falls short of a limit told beside it: “just under 3.0 mm”
    where both would read alike.
    """
    says = said(value_mm, unit) if pm95_mm is None else said_pm(pm95_mm, unit, value_mm)
    return f"just under {says}" if value_mm < limit_mm and told_alike(value_mm, limit_mm, unit) else says


def told_alike(one_mm: float, other_mm: float, unit: Unit) -> bool:
    """Whether two small lengths read alike in a sentence: nobody is warned by two figures that are the same."""
    return said(one_mm, unit) == said(other_mm, unit)


def said_roughly(value_mm: float, unit: Unit) -> str:
    """A length that is only known roughly, such as a radius, inside a sentence: 305 mm, 30.5 cm, 12.0 in."""
    return f"{_decimals(value_mm, unit, 0 if unit == 'mm' else 1)} {unit}"


def shows(value_mm: float, unit: Unit) -> bool:
    """Whether a rule of the unit shows a length at all: half a 64th of an inch, half a tenth of a millimetre."""
    return abs(value_mm) >= (MM_PER["in"] / 128 if unit == "in" else 0.05)


def said_pm(pm95_mm: float, unit: Unit, value_mm: float | None = None) -> str:
    """A ± inside a sentence, behind its small length where one is given: 2.7 ±0.4 mm. The ± is rounded up."""
    width = show_pm(pm95_mm, unit)
    if value_mm is None:
        return f"{width} {unit}"
    length = said(value_mm if shows(value_mm, unit) else 0.0, unit)  # its ± tells how little is known of it
    return f"{length.removesuffix(unit)}±{width} {unit}"


def _step(unit: Unit) -> float:
    """The least that is shown of a length, mm."""
    return MM_PER["in"] / 64 if unit == "in" else 0.1


def _decimals(value_mm: float, unit: Unit, places: int) -> str:
    """A length in decimals, with a minus sign of its own and none before nought."""
    text = f"{half_away(value_mm) / MM_PER[unit]:.{places}f}"
    return text.removeprefix("-") if float(text) == 0 else text.replace("-", "−")


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
