"""Naming several strings in a sentence."""

from collections.abc import Sequence


def listed(names: Sequence[str], noun: str = "string") -> str:
    """`["3"]` reads “string 3”, `["3", "4", "6"]` reads “strings 3, 4 and 6”."""
    if len(names) == 1:
        return f"{noun} {names[0]}"
    return f"{noun}s {', '.join(names[:-1])} and {names[-1]}"
