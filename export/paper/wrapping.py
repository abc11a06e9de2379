"""Words set in lines, a length never torn from its ± and its unit, and no word left over on a line of its own."""

from bisect import bisect_right
from functools import lru_cache

from export.drawing.line_breaks import BREAK
from export.drawing.typeface import width

LONGEST = 1000
"""No line holds more signs; a word that does is not weighed whole for each line."""
LEAST_LAST, LONG = 0.25, 24.0
"""As much of the room the last line fills at least, where words of the line before it can come down to it; a line so
long, mm, is long enough in any room.
"""


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
    return (*lines[:-1], *_none_left_over(lines[-1:], line, height, room, bold)) if line else tuple(lines)


def _none_left_over(before: list[str], last: str, height: float, room: float, bold: bool) -> list[str]:
    """The last line filled up with words of the line before it, as long as that stays the longer."""
    rest = BREAK.split(before[0]) if before else []
    least = min(LEAST_LAST * room, LONG)
    while len(rest) > 1 and width(last, height, bold) < least:
        above, below = " ".join(rest[:-1]), f"{rest[-1]} {last}"
        if width(below, height, bold) > width(above, height, bold):
            break
        rest, last = rest[:-1], below
    return [" ".join(rest), last] if rest else [last]
