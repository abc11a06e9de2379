"""Where something stands in a job file, in words, and the known word nearest to a mistyped one.

A **place** is the path to a value as a person would point at it: `strings.list, 3rd string, diameter`.
"""

from collections.abc import Iterable

Step = str | int
"""A key, or the place in a list counted from 1."""

ITEMS = {"list": "string", "replaces": "string", "readings": "reading", "kept": "placement"} | dict.fromkeys(
    ("of", "from", "outline"), "point"
)
ENDINGS = {1: "st", 2: "nd", 3: "rd"}


def place(steps: Iterable[Step]) -> str:
    """The path in words."""
    words, last = "", ""
    for step in steps:
        if isinstance(step, int):
            words += f", {step}{_ending(step)} {ITEMS.get(last, 'entry')}"
        elif not words:
            words = step
        else:
            words += f"{', ' if ', ' in words or words == 'points' else '.'}{step}"
        last = step if isinstance(step, str) else ""
    return words


def nearest(word: str, known: Iterable[str]) -> str:
    """The sentence's end that offers the nearest known word, or lists them all where none is near."""
    import difflib  # only a word that is wrong needs it

    known = list(known)
    near = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    return f"did you mean “{near[0]}”?" if near else f"known here: {', '.join(known)}"


def _ending(count: int) -> str:
    return "th" if count % 100 in (11, 12, 13) else ENDINGS.get(count % 10, "th")
