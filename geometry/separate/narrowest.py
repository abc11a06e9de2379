"""The narrowest strip that holds every string's wanted place with its ±: the slant at which a base leaves most reach.

The strip's edges run along the base. At a slope b (x per y) it must hold x - b y ± p of every string; its width along
the neck, the greatest upper end less the least lower one, is piecewise linear and convex in b, and square to the strip
it is that width times the slope's cosine. Between two breaks that product is nowhere least, so the narrowest strip has
two places' ends on one of its edges, or lies at a bound (for a set of points: M. E. Houle and G. T. Toussaint,
“Computing the width of a set”, IEEE Transactions on Pattern Analysis and Machine Intelligence 10(5), 1988, from
memory). All such slopes are tried.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.frame import Array

MOST_SLOPE = math.tan(math.radians(40))
"""No base is set farther out of square (common practice, no source)."""
ALIKE = 1e-9
"""mm. Strips whose widths differ by less are alike, and the squarer is taken."""


class Strip(NamedTuple):
    """A strip's `slope` and its width square to it, mm; `on` are the two strings on one of its edges, and that edge (1
    rearmost, -1 foremost); None where the strip is square or at a bound.
    """

    slope: float
    width: float
    on: tuple[int, int, int] | None


def widths(x: Array, y: Array, p: Array, slopes: Array) -> Array:
    """The width (k,) of the strip at each slope (k,), square to it, that holds places x, y (n,) ± p (n,), mm."""
    off = x - slopes[:, None] * y
    return np.asarray(((off + p).max(axis=1) - (off - p).min(axis=1)) / np.sqrt(1 + slopes**2))


def narrowest(x: Array, y: Array, p: Array) -> Strip:
    """The narrowest strip round places x, y (n,) ± p (n,), of those that are alike the squarest."""
    tried: list[tuple[float, tuple[int, int, int] | None]] = [(0.0, None), (MOST_SLOPE, None), (-MOST_SLOPE, None)]
    for way in (1, -1):
        end = x + way * p
        tried += [
            (float((end[i] - end[j]) / (y[i] - y[j])), (i, j, way))
            for i in range(len(y))
            for j in range(i)
            if y[i] != y[j]
        ]
    tried = [(slope, on) for slope, on in tried if abs(slope) <= MOST_SLOPE]
    found = widths(x, y, p, np.array([slope for slope, _ in tried])).tolist()
    least = min(found)
    alike = [k for k, width in enumerate(found) if width <= least + ALIKE]
    best = min(alike, key=lambda k: abs(tried[k][0]))
    return Strip(tried[best][0], found[best], tried[best][1])
