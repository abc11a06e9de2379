"""Laying rectangles on a sheet in shelves: the highest first, side by side, a new shelf above when one is full."""

from collections.abc import Sequence
from itertools import product
from typing import NamedTuple


class Laid(NamedTuple):
    """A rectangle's lower left corner on the sheet, and whether it was turned by a quarter."""

    x: float
    y: float
    turned: bool


Size = tuple[float, float]


def packed(sizes: Sequence[Size], sheet: Size, gap: float, turns: Sequence[Sequence[bool]]) -> list[Laid] | None:
    """Where each rectangle lies, `gap` mm from the next and from the sheet's edges; None where there is no room.

    `sizes` and `sheet` are widths and heights, mm. `turns` holds for each rectangle whether it may lie as it is
    (False), turned (True), or either; the first choice that fits is taken.
    """
    for choice in product(*turns):
        laid = _on_shelves(sizes, sheet, gap, choice)
        if laid is not None:
            return laid
    return None


def _on_shelves(sizes: Sequence[Size], sheet: Size, gap: float, turned: Sequence[bool]) -> list[Laid] | None:
    as_laid = [(high, wide) if turn else (wide, high) for (wide, high), turn in zip(sizes, turned, strict=True)]
    found: dict[int, Laid] = {}
    x, y, shelf = gap, gap, 0.0
    for k in sorted(range(len(sizes)), key=lambda k: -as_laid[k][1]):
        wide, high = as_laid[k]
        if x > gap and x + wide + gap > sheet[0]:
            x, y, shelf = gap, y + shelf + gap, 0.0
        if x + wide + gap > sheet[0] or y + high + gap > sheet[1]:
            return None
        found[k] = Laid(x, y, turned[k])
        x, shelf = x + wide + gap, max(shelf, high)
    return [found[k] for k in range(len(sizes))]
