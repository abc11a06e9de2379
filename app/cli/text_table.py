"""Tables and paragraphs in plain text, as the command line prints them.

A **row** is one line of a table: its first cell runs from the left, the others are lined up on the right.
"""

import textwrap
from collections.abc import Iterable, Iterator, Sequence

WIDTH = 96
Row = Sequence[str]


def table(title: str, heads: Row, rows: Sequence[Row]) -> str:
    """A table under its title, which stands in the line of the heads where there is room."""
    widths = [max(len(row[at]) for row in (heads, *rows)) for at in range(len(heads))]
    lines = []
    for row in (heads, *rows):
        cells = [row[0].ljust(widths[0])] + [cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)]
        lines.append(f"  {'   '.join(cells)}".rstrip())
    lines[0] = title + lines[0][len(title) :] if len(title) < widths[0] + 3 else f"{title}\n{lines[0]}"
    return "\n".join(line for line in lines if line)


def wrapped(text: str, indent: str) -> str:
    """A paragraph within the page's width."""
    return textwrap.fill(text, WIDTH - 2, subsequent_indent=indent, break_on_hyphens=False)


def indented(paragraphs: Iterable[str]) -> Iterator[str]:
    """The lines of paragraphs, set in."""
    return (f"  {line}" for paragraph in paragraphs for line in paragraph.splitlines())
