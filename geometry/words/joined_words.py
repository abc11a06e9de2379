"""Several names in one sentence, names in quotes, where a sentence ends, and large and small first letters."""

import re
from collections.abc import Sequence

from geometry.job import Job
from geometry.layout import Check

_SINGLE = str.maketrans("“”", "‘’")
_NUMBERED = re.compile(r"[0-9]+[a-z]?")
"""What strings are called by themselves: by their number, and of a pair also by a letter."""


def job_line(job: Job) -> str:
    """The job in one line: “right-handed · 6 strings”."""
    count = len(job.strings.list) if job.strings else 0
    strings = how_many(count, "string") if count else "no strings yet"
    return f"{job.hand}-handed · {strings}"


def how_many(count: int, what: str) -> str:
    """A count in words, none too: “no old screws”, “1 old screw”, “2 old screws”."""
    return f"{count or 'no'} {what}{'' if count == 1 else 's'}"


def joined(names: Sequence[str]) -> str:
    """Names in a sentence: “a”, “a and b”, “a, b and c”."""
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def several(names: Sequence[str], most: int = 6) -> str:
    """Names in a sentence: “a, b and c”; of many, the first and how many more."""
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return joined(names)


def string(name: str) -> str:
    """A string in a sentence: “string 3”; a name that a person made up stands in quotes."""
    return strings((name,))


def strings(names: Sequence[str]) -> str:
    """Strings in a sentence: “string 3”, “strings 3, 4 and 6”."""
    said = [name if _NUMBERED.fullmatch(name) else quoted(name) for name in names]
    return f"string{'s' if len(names) > 1 else ''} {joined(said)}"


def quoted(name: str) -> str:
    """A name in quotes, to stand in a sentence; quotes in the name itself are single ones, as in any quotation."""
    return f"“{name.translate(_SINGLE)}”"


def first_sentence(text: str) -> str:
    """The first of several sentences, without its full stop; what stands in quotes may hold any sign."""
    inside = False
    for at, sign in enumerate(text):
        inside = sign == "“" or (inside and sign != "”")
        if not inside and sign == "." and text[at + 1 : at + 2] in ("", " "):
            return text[:at]
    return text


def first_large(text: str) -> str:
    """With a large first letter, as at the beginning of a sentence or a field's name."""
    return text[:1].upper() + text[1:]


def first_small(text: str) -> str:
    """With a small first letter, as in the middle of a sentence."""
    return text[:1].lower() + text[1:]


def check(distance: Check) -> str:
    """From where to where a check distance runs, naming an edge that both share only once."""
    start, end = distance.from_.rpartition(", "), distance.to.rpartition(", ")
    return f"{start[0]} to {distance.to}" if start[2] == end[2] else f"{distance.from_} to {distance.to}"
