"""The guide's pages as tests read them: their words, and their tables."""

import re
from pathlib import Path

DOCS = Path(__file__).parent.parent / "docs"


def text(name: str) -> str:
    """A page of the guide."""
    return (DOCS / name).read_text(encoding="utf-8")


def tables(page: str) -> dict[tuple[str, ...], list[tuple[str, ...]]]:
    """A page's tables by their heads; those with the same head are run together."""
    found: dict[tuple[str, ...], list[tuple[str, ...]]] = {}
    for table in re.findall(r"(?:^\|.*\|\n)+", page, re.MULTILINE):
        head, _, *rows = [tuple(cell.strip() for cell in line.split("|")[1:-1]) for line in table.splitlines()]
        found.setdefault(head, []).extend(rows)
    return found
