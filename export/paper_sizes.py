"""Paper: the sizes a printer takes (mm, portrait), and how far out a printer may be.

ISO A sizes: ISO 216:2007. US sizes A to E (Letter, Tabloid and larger): ASME Y14.1-2020, in inches. Legal: common
practice.
"""

import re

import msgspec

from export.errors import ExportError
from geometry.units import INCH, Unit


class Paper(msgspec.Struct, frozen=True):
    """A paper by name; `roll`: the height is cut to what is needed."""

    name: str
    width: float
    height: float
    roll: bool = False


_ISO = {"A0": (841, 1189), "A1": (594, 841), "A2": (420, 594), "A3": (297, 420), "A4": (210, 297), "A5": (148, 210)}
_US = {
    "Letter": (8.5, 11),
    "Legal": (8.5, 14),
    "Tabloid": (11, 17),
    "ANSI C": (17, 22),
    "ANSI D": (22, 34),
    "ANSI E": (34, 44),
}
PAPERS: dict[str, Paper] = {
    **{name: Paper(name, float(w), float(h)) for name, (w, h) in _ISO.items()},
    **{name: Paper(name, w * INCH, h * INCH) for name, (w, h) in _US.items()},
}

_OWN = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*[x×]\s*(\d+(?:[.,]\d+)?)\s*(mm|in)?\s*", re.IGNORECASE)
_ROLL = re.compile(r"\s*roll\s+(\d+(?:[.,]\d+)?)\s*(mm|in)?\s*", re.IGNORECASE)
LONGEST_ROLL = 1500.0


def paper_named(name: str) -> Paper:
    """The paper of that name: `A4`, `Letter`, a size of one's own such as `320x450` or `13 x 19 in`, `roll 610`.

    Raises `ExportError`.
    """
    for known, paper in PAPERS.items():
        if known.lower() == name.strip().lower():
            return paper
    if found := _OWN.fullmatch(name):
        unit = INCH if (found[3] or "").lower() == "in" else 1.0
        sides = sorted(_number(found[i]) * unit for i in (1, 2))
        return _sensible(Paper(name.strip(), sides[0], sides[1]))
    if found := _ROLL.fullmatch(name):
        unit = INCH if (found[2] or "").lower() == "in" else 1.0
        return _sensible(Paper(name.strip(), _number(found[1]) * unit, LONGEST_ROLL, roll=True))
    raise ExportError(
        f"The paper “{name}” is not known; use one of {', '.join(PAPERS)}, a size such as 320x450 (mm) or 13x19 in, "
        "or a roll’s width such as roll 610"
    )


def typed_in(text: str, unit: Unit) -> str:
    """A paper as it was typed in a job of that unit: sides without a unit are inches in a job in inches, else mm."""
    bare = (_OWN.fullmatch(text) or _ROLL.fullmatch(text)) and not text[-1].isalpha()
    return f"{text} in" if unit == "in" and bare else text


def is_paper(name: str) -> bool:
    """Whether there is a paper of that name."""
    try:
        paper_named(name)
    except ExportError:
        return False
    return True


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _sensible(paper: Paper) -> Paper:
    if not (50 <= paper.width <= 2000 and 50 <= paper.height <= 5000):
        raise ExportError(f"The paper “{paper.name}” must measure between 50 mm and 2000 by 5000 mm; look at its unit")
    return paper
