"""Where a line of words may end: at a space, but not within a length, its ± or its unit, within what a sheet is called
and counted by, the file’s mark, a corner’s number or a fret’s, or before a point or a semicolon that parts or a ± that
is a word.
"""

import re
from functools import lru_cache

BREAK = re.compile(
    r"(?<!\d)(?<!±(?= \d))(?<!\bsheet(?= [A-Z]?\d| [A-Z]\b))(?<![\dA-Z],(?= \d+ of \d))(?<!\bof(?= \d))"
    r"(?<!\bfile(?= [0-9A-F]{4}-[0-9A-F]{2}\b))(?<!\bheadstock(?= \d))(?<!\b[Ff]ret(?= \d)) "
    r"(?![·;]|±(?! ?\d))"
    r"|(?<=\d) (?!±|[·;]|\d+/\d|of \d|(?:mm|cm|in)²|(?:mm|cm|in|N|kg|lb|cents)\b|%)"
)
"""The spaces at which a line may end."""
KEPT = "\u00a0"


@lru_cache(maxsize=1024)
def unbroken(text: str) -> str:
    """The text with every other space one that keeps what is on its two sides on one line."""
    return " ".join(part.replace(" ", KEPT) for part in BREAK.split(text))
