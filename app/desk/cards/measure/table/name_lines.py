"""A reading's name on one line of its row, or on more where it has no room on one: no name is cut short.

A name's **lines** are pairs: what of the name itself stands on it, and what of how it is taken, in smaller letters.
"""

import math
import re
from functools import lru_cache
from typing import NamedTuple

from PySide6.QtGui import QFontMetricsF

from app.desk.widgets.look import LABEL, TEXT, Look

GAP = 6
"""Pixels between a name and how it is taken, at text scale 1."""
NUMBERED = re.compile(r"\S+(?: \d\S*)?")
"""A word, with the number that stands after it: “hole 1” keeps together."""


class NameLine(NamedTuple):
    """What stands on one line of a row."""

    name: str
    how: str = ""


@lru_cache(maxsize=4096)
def name_lines(look: Look, name: str, how: str, room: int) -> tuple[NameLine, ...]:
    """The lines of a name with so much room, pixels: alike whether the row is in hand, so that none grows with it."""
    letters, small = QFontMetricsF(look.font(TEXT)), QFontMetricsF(look.font(LABEL))
    held = NUMBERED.findall(name)
    lines = [""]
    for word in (w for one in held for w in ([one] if letters.horizontalAdvance(one) <= room else one.split(" "))):
        longer = f"{lines[-1]} {word}".strip()
        if letters.horizontalAdvance(longer) <= room or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    beside = letters.horizontalAdvance(lines[-1]) + GAP * look.text_scale + small.horizontalAdvance(how)
    *above, last = map(NameLine, lines)
    return (*above, NameLine(last.name, how)) if not how or beside <= room else (*above, last, NameLine("", how))


@lru_cache(maxsize=4096)
def one_line(look: Look, name: str, how: str) -> float:
    """The room that a name takes on one line, pixels."""
    letters, small = QFontMetricsF(look.font(TEXT)), QFontMetricsF(look.font(LABEL))
    beside = small.horizontalAdvance(how) + GAP * look.text_scale if how else 0.0
    return math.ceil(letters.horizontalAdvance(name) + beside) + 1.0


@lru_cache(maxsize=64)
def line_height(look: Look) -> float:
    """How much higher a row is for each line more, pixels."""
    return QFontMetricsF(look.font(TEXT)).height()


def fits_bold(look: Look, lines: tuple[NameLine, ...], room: float) -> bool:
    """Whether the lines have room in bold letters as well; what has none stays in plain ones."""
    bold, small = QFontMetricsF(look.font(TEXT, bold=True)), QFontMetricsF(look.font(LABEL))
    return all(
        bold.horizontalAdvance(line.name)
        + (small.horizontalAdvance(line.how) + GAP * look.text_scale if line.how else 0)
        <= room
        for line in lines
    )
