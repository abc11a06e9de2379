"""Lengths as a person types them, and the millimetres they stand for.

A **length** is kept as it was typed: a plain number means millimetres, a text carries its unit
(`"25 11/32 in"`, `"64,4 cm"`). All else is worked out in millimetres.
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
