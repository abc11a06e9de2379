"""Naming several strings in a sentence."""

from collections.abc import Sequence

from geometry.findings import joined


def listed(names: Sequence[str], noun: str = "string") -> str:
    """`["3"]` reads “string 3”, `["3", "4", "6"]` reads “strings 3, 4 and 6”."""
    return f"{noun}{'s' if len(names) > 1 else ''} {joined(names)}"
