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
HUSHED = 1e-9
"""The weight of a string that asks nothing of the saddle, a drone: it tells a slant only where no other does."""
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
    y: Array,
    wanted: Array,
    nominal: Array,
    ways_: Iterable[Splits],
    lay: Callable[[slice], Line],
    weights: Array | None = None,
) -> Splits:
    """The way that leaves the worst string the fewest cents; of ways alike, that whose lines lie nearest to what the
    strings want (the least sum of squares). All arrays (strings,), mm, `nominal` each string's own length; `weights` as
    for `lay_under`. `lay` lays the line under a run of strings.
    """
    says = np.ones(len(y)) if weights is None else weights
    laid: dict[tuple[int, int], tuple[float, float]] = {}

    def cost(run: tuple[int, int]) -> tuple[float, float]:
        if run not in laid:
            part = slice(*run)
            line = lay(part)
            cents = says[part] * np.abs(line.stays) * CENTS / nominal[part]
            laid[run] = float(cents.max()), float(says[part] @ (wanted[part] - line.line) ** 2)
        return laid[run]

    def worth(way: Splits) -> tuple[int, float]:
        costs = [cost(run) for run in runs(way, len(y))]
        return round(max(worst for worst, _ in costs) / SAME), sum(squares for _, squares in costs)

    return min(ways_, key=worth)


def lay_under(
    y: Array, wanted: Array, thickness: float, peak_at: float, *, straight: bool, weights: Array | None = None
) -> Callable[[slice], Line]:
    """What lays the best line under a run of strings; `weights` (strings,) of what they ask for, or None for alike."""

    def lay(part: slice) -> Line:
        return best_line(y[part], wanted[part], weights_of(weights, part), thickness, peak_at, straight)

    return lay


def weights_for(asks: Array) -> Array | None:
    """The weights (strings,) of strings of which those that do not ask anything have no say; None: all ask."""
    return None if asks.all() else np.where(asks, 1.0, HUSHED)


def weights_of(weights: Array | None, part: slice) -> Array | None:
    """The weights of a run of strings; alike where none of them asks anything."""
    return None if weights is None or weights[part].max() == HUSHED else weights[part]


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
