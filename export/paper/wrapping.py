"""Words set in lines, a length never torn from its ± and its unit."""

from bisect import bisect_right
from functools import lru_cache

from export.drawing.line_breaks import BREAK
from export.drawing.typeface import width

LONGEST = 1000
"""No line holds more signs; a word that does is not weighed whole for each line."""


@lru_cache(maxsize=512)
def wrapped(text: str, height: float, room: float, bold: bool = False) -> tuple[str, ...]:
    """Words in lines no wider than `room` mm; a word wider than that is broken too, a length only then. Kept, for
    pages are set out in several ways.
    """
    lines: list[str] = []
    line = ""
    for word in BREAK.split(" ".join(text.split())):
        trial = f"{line} {word}".strip()
        if line and width(trial, height, bold) > room:
            lines.append(line)
            trial = word
        while (len(trial) > LONGEST or width(trial, height, bold) > room) and len(trial) > 1:
            near = range(min(len(trial), LONGEST))
            cut = max(1, bisect_right(near, room, key=lambda i: width(trial[:i], height, bold)) - 1)
            lines.append(trial[:cut])
            trial = trial[cut:]
        line = trial
    return (*lines, line) if line else tuple(lines)
