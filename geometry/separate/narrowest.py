"""The slant at which a base leaves the most reach: that of the narrowest strip which holds every string's wanted place
with its ±.

A saddle travels square to the base's front. On a base that lies at a slope b (x per y), with c = 1/√(1 + b²), a
string's place x, y lies c (x - b y) along the travel, and its ± p along the neck takes p / c of it. The strip from the
foremost end of all these to the rearmost is c (max(x - b y + p (1 + b²)) - min(x - b y - p (1 + b²))) wide. It is
narrowest either where two strings share an end, a root of a quadratic, or where its own derivative is nought between
one string behind and one ahead, a root of P b³ + (P - A) b - B with the sums P of their p, the differences A of their
x and B of their y; or at a bound. All of these are tried (derived).
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.frame import Array

MOST_SLOPE = math.tan(math.radians(40))
"""No base is set farther out of square (common practice, no source)."""
ALIKE = 1e-9
"""mm. Strips whose widths differ by less are alike, and the squarer is taken."""
ROUNDS = 8
"""So many of Newton's steps settle a root to rounding."""


class Strip(NamedTuple):
    """A strip's `slope` and its width square to it, mm; `on` are the two strings that share one of its ends, and which
    (1 the rearmost, -1 the foremost); None where no two do.
    """

    slope: float
    width: float
    on: tuple[int, int, int] | None


def widths(x: Array, y: Array, p: Array, slopes: Array) -> Array:
    """The width (k,) of the strip at each slope (k,), square to it, that holds places x, y (n,) ± p (n,), mm."""
    long = np.sqrt(1 + slopes**2)
    off, wide = (x - slopes[:, None] * y) / long[:, None], long[:, None] * p
    return np.asarray((off + wide).max(axis=1) - (off - wide).min(axis=1))


def narrowest(x: Array, y: Array, p: Array) -> Strip:
    """The narrowest strip round places x, y (n,) ± p (n,), of those that are alike the squarest."""
    tried: list[tuple[float, tuple[int, int, int] | None]] = [(0.0, None), (MOST_SLOPE, None), (-MOST_SLOPE, None)]
    tried += [(slope, None) for slope in _between(x, y, p).tolist()]
    for way in (1, -1):
        for i in range(len(y)):
            for j in range(i):
                at = x[i] - x[j] + way * (p[i] - p[j])
                tried += [(slope, (i, j, way)) for slope in _shared(way * (p[i] - p[j]), y[j] - y[i], at)]
    tried = [(slope, on) for slope, on in tried if abs(slope) <= MOST_SLOPE]
    found = widths(x, y, p, np.array([slope for slope, _ in tried])).tolist()
    least = min(found)
    alike = [k for k, width in enumerate(found) if width <= least + ALIKE]
    best = min(alike, key=lambda k: (abs(tried[k][0]), tried[k][1] is None))
    return Strip(tried[best][0], found[best], tried[best][1])


def _shared(a: float, b: float, c: float) -> tuple[float, ...]:
    """The roots of a s² + b s + c within the bound, in a form that is exact for a small a."""
    inside = b * b - 4 * a * c
    if inside < 0:
        return ()
    half = -(b + math.copysign(math.sqrt(inside), b)) / 2
    return tuple(top / below for top, below in ((c, half), (half, a)) if 0 < abs(below) >= abs(top) / MOST_SLOPE)


def _between(x: Array, y: Array, p: Array) -> Array:
    """The slopes at which the strip between each two strings is narrowest, one behind and one ahead, (n²,)."""
    total = (p[:, None] + p).ravel()
    apart, aside = (x[:, None] - x).ravel(), (y[:, None] - y).ravel()
    slope = np.zeros(len(total))
    for _ in range(ROUNDS):
        steep = 3 * total * slope**2 + total - apart
        value = total * slope**3 + (total - apart) * slope - aside
        slope = np.clip(slope - value / np.where(np.abs(steep) < ALIKE, 1.0, steep), -MOST_SLOPE, MOST_SLOPE)
    return slope
