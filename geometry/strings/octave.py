"""What a mm at the saddle does to a string's octave in cents, and the fret at which that is told."""

from collections.abc import Iterable

from geometry.job import Job, String
from geometry.spacing import CENTS


def octave_fret(string: String) -> int:
    """The fret an octave over the open string, wherever that begins."""
    return 12 + string.first


def octave_called(job: Job, string: String) -> str:
    """The same in words: “fret 12”; “its octave” where the board has no such fret."""
    fret = octave_fret(string)
    return f"fret {fret}" if fret <= job.frets.count or not string.first else "its octave"


def octaves_called(job: Job, strings: Iterable[String]) -> str:
    """Where the cents of several are told: “fret 12”, or “each string's octave” where they begin at different frets."""
    found = {octave_called(job, string) for string in strings}
    return found.pop() if len(found) == 1 and found != {"its octave"} else "each string’s octave"


def limp_cents(length: float) -> float:
    """By how many cents a mm of saddle, farther from the nut, flattens a limp string's octave against the open note,
    which is tuned again; `length` from where the string begins, mm: open L + d, stopped L / 2 + d, so d ln f = −d / L
    (derived).
    """
    return CENTS / length
