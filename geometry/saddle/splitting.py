"""Where a saddle is best parted: all ways to part it are tried, each piece on its own line of least squares.

A **split** is how many strings lie before it in the list; a saddle of k pieces has k − 1 splits.
"""

from collections.abc import Callable, Iterable, Sequence
from itertools import combinations, pairwise

import numpy as np

from geometry.frame import Array
from geometry.saddle.best_line import Line, best_line
from geometry.spacing import CENTS

Splits = tuple[int, ...]
Runs = tuple[tuple[int, int], ...]
"""Each piece's strings in the list: from the first up to, but without, the second."""
SAME = 1e-3
"""Ways whose worst string is left over by cents alike to this are one as good as the other: nobody hears it."""
LEVEL = 1e-9


def runs(splits: Sequence[int], count: int) -> Runs:
    """The strings of each piece, of `count` in all."""
    ends = (0, *splits, count)
    return tuple(pairwise(ends))


def ways(count: int, pieces: int, open_: Sequence[int], long_enough: Callable[[Runs], bool]) -> list[Splits]:
    """All ways to part `count` strings: between courses and into pieces that are long enough, where such ways are;
    else between courses; else anywhere.
    """
    between = list(combinations(sorted(open_), pieces - 1))
    if not between:
        return list(combinations(range(1, count), pieces - 1))
    return [way for way in between if long_enough(runs(way, count))] or between


def best_splits(
    y: Array, wanted: Array, nominal: Array, ways_: Iterable[Splits], lay: Callable[[slice], Line]
) -> Splits:
    """The way that leaves the worst string the fewest cents; of ways alike, that whose lines lie nearest to what the
    strings want (the least sum of squares). All arrays (strings,), mm; `lay` lays the line under a run of strings.
    """
    laid: dict[tuple[int, int], tuple[float, float]] = {}

    def cost(run: tuple[int, int]) -> tuple[float, float]:
        if run not in laid:
            part = slice(*run)
            line = lay(part)
            cents = np.abs(line.stays) * CENTS / nominal[part]
            laid[run] = float(cents.max()), float(((wanted[part] - line.line) ** 2).sum())
        return laid[run]

    def worth(way: Splits) -> tuple[int, float]:
        costs = [cost(run) for run in runs(way, len(y))]
        return round(max(worst for worst, _ in costs) / SAME), sum(squares for _, squares in costs)

    return min(ways_, key=worth)


def lay_under(y: Array, wanted: Array, thickness: float, peak_at: float, *, straight: bool) -> Callable[[slice], Line]:
    """What lays the best line under a run of strings."""
    return lambda part: best_line(y[part], wanted[part], None, thickness, peak_at, straight)


def thickness_needed(y: Array, wanted: Array, *, straight: bool) -> float:
    """How thick one straight saddle must be so that every string's wanted place (n,) lies in it, mm: the least width
    along the neck of a strip that holds them all. A side of that strip runs through two of them (Houle & Toussaint,
    Computing the width of a set, 1988, theorem 1, for widths along a given direction), so that all pairs are tried.
    """
    if len(y) < 2 or straight:
        return float(wanted.max() - wanted.min())
    pairs = [(a, b) for a, b in combinations(range(len(y)), 2) if abs(y[a] - y[b]) > LEVEL]
    slopes = np.array([0.0] if not pairs else [(wanted[a] - wanted[b]) / (y[a] - y[b]) for a, b in pairs])
    left = wanted - slopes[:, None] * y
    return float((left.max(axis=1) - left.min(axis=1)).min())
