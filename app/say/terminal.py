"""Words for a terminal: a job's own texts cannot break a line, steer the cursor or turn the writing round."""

import re

from export.drawing.typeface import LACKING

ENDLESS = re.compile(r"(\S{100})\S{100,}(\S{100})")
"""A word that would bury the sentence it stands in, with its beginning and its end."""


QUOTED = re.compile("“([^”]{61,})”")
GLANCE, LONGEST = 300, 600
"""Signs from which long names are shortened, and those that what is said at once may have; our own sentences have
fewer (common practice, no source)."""


def shortened(text: str) -> str:
    """The text with only the beginning and the end of words without end; where it is still longer than a sentence may
    be, of long names too, and at last of the whole.
    """
    text = ENDLESS.sub(r"\1…\2", text)
    if len(text) > GLANCE:
        text = QUOTED.sub(lambda found: f"“{found[1][:40]}…{found[1][-15:]}”", text)
    return text if len(text) <= LONGEST else f"{text[:400].rstrip()} … {text[-190:].lstrip()}"


def one_line(text: str) -> str:
    """The words on one line: breaks are spaces."""
    return plain(" ".join(text.split()))


def plain(text: str) -> str:
    """The text with a box for each sign that would steer the terminal."""
    return "".join(sign if sign.isprintable() or sign.isspace() else LACKING for sign in text)
