"""One step up or down from a length as it was typed, by the fineness it was typed with: 43.2 → 43.3, 25 11/32 → 25 3/8.

A length typed as a fraction stays a fraction; a decimal keeps its number of decimals and its comma.
"""

import re
from fractions import Fraction

from geometry import units

_FRACTION = re.compile(r"^(?P<sign>[-−+]?)\s*(?:(?P<whole>\d+)[\s\-]+)?(?P<num>\d+)\s*/\s*(?P<den>\d+)(?P<after>.*)$")
_WHOLE = re.compile(r"^(?P<sign>[-−+]?)\s*(?P<whole>\d+)(?P<after>(?![\d.,]).*)$")
_DECIMAL = re.compile(r"^(?P<sign>[-−+]?)\s*(?P<number>\d+(?:[.,]\d*)?|[.,]\d+)(?P<after>.*)$")


def parts_of(text: str) -> int:
    """Into how many parts the unit of a typed length is cut: 32 of `25 11/32 in`; 1 where there is no fraction."""
    found = _FRACTION.match(_plain(text))
    return int(found["den"]) if found and int(found["den"]) else 1


def step(text: str, count: int, parts: int = 1) -> str:
    """The typed length moved by `count` steps of its own fineness; unchanged where it cannot be read.

    `parts`: how finely a fraction was typed at first; 25 11/32 comes by way of 25 3/8 to 25 13/32.
    """
    text = _plain(text)
    if (found := _FRACTION.match(text)) and int(found["den"]):
        value = int(found["whole"] or 0) + Fraction(int(found["num"]), int(found["den"]))
        return _step_fraction(_signed(found["sign"], value), max(int(found["den"]), parts), count) + found["after"]
    if parts > 1 and (found := _WHOLE.match(text)):
        value = Fraction(int(found["whole"]))
        return _step_fraction(_signed(found["sign"], value), parts, count) + found["after"]
    if found := _DECIMAL.match(text):
        return _step_decimal(found["sign"] + found["number"], count) + found["after"]
    return text


def _signed(sign: str, value: Fraction) -> Fraction:
    return -value if sign in ("-", "−") else value


def _plain(text: str) -> str:
    for glyph, plain in units.FRACTION_SIGNS.items():
        text = text.replace(glyph, f" {plain}")
    return " ".join(text.split())


def _step_fraction(value: Fraction, parts: int, count: int) -> str:
    value += Fraction(count, parts)
    whole, part = divmod(abs(value), 1)
    shown = [str(whole)] if whole or not part else []
    if part:
        shown.append(f"{part.numerator}/{part.denominator}")
    return ("-" if value < 0 else "") + " ".join(shown)


def _step_decimal(number: str, count: int) -> str:
    comma = "," in number
    plain = number.replace(",", ".").replace("−", "-")
    decimals = len(plain.partition(".")[2])
    moved = f"{float(plain) + count * 10.0**-decimals:.{decimals}f}"
    return moved.replace(".", ",") if comma else moved
