"""What the readings hold, and what they leave **loose**: points that can move though every reading stays as it is.

Counting readings is not enough: four sides hold no board. The measure is the weighted slopes' singular values. Each
belongs to a movement of the whole figure and is one over the standard deviation (mm) to which that movement is held.
"""

import numpy as np

from geometry.survey.adjust.datum import Free, datum_transform
from geometry.survey.adjust.network import Network
from geometry.survey.result import Array

LOOSE = 10.0
"""A point held no better than this counts as loose: its standard deviation (mm) in its worst direction, as seen from
the other points. At the bench it might as well be free (common practice, no source).
"""
FREE = 1e-9
"""Singular values squared (1/mm²) below this are rounding: the movement, held to no better than 30 m, is free."""
STILL = 1e-4
"""A point that takes less than this part in a free movement of length 1 is still."""


def inverse(matrix: Array) -> tuple[Array, Array]:
    """The inverse of a normal matrix (p, p), and the movements (p, k) that it does not hold, left out of the inverse.

    The quick way where all is held, else by eigenvalues: those of the normal matrix are the weighted slopes' singular
    values squared.
    """
    p = len(matrix)
    try:
        quick = np.asarray(np.linalg.inv(matrix), dtype=np.float64)
    except np.linalg.LinAlgError:
        quick = np.full((p, p), np.nan)
    if is_covariance(quick):
        return (quick + quick.T) / 2, np.zeros((p, 0))
    values, vectors = np.linalg.eigh(matrix)
    kept = values > FREE
    half = vectors[:, kept] / np.sqrt(values[kept])
    return half @ half.T, vectors[:, ~kept]


def is_covariance(cov: Array) -> bool:
    """Whether an inverse (p, p) is a covariance at all, and nothing in it is near to being free."""
    variances = np.diagonal(cov)
    return bool(np.all(variances > 0) and variances.max(initial=0.0) < 0.01 / FREE)


def movable_points(net: Network, free: Array) -> frozenset[str]:
    """The points that the free movements (p, k), carried into a datum, move."""
    if not free.shape[1]:
        return frozenset()
    size = 2 * len(net.points)
    parts = (free[:size] ** 2).sum(axis=1).reshape(-1, 2).sum(axis=1)
    return frozenset(net.points[i] for i in np.flatnonzero(parts > STILL**2))


def loose_points(net: Network, x: Array, cov: Array, free: Array) -> frozenset[str]:
    """The points that can move freely in the datum, and those held too weakly as seen from all that are held."""
    loose = movable_points(net, free)
    solved = tuple(name for name in net.points if name not in loose)
    if len(solved) < 3:
        return loose
    columns = np.array([2 * net.points.index(name) for name in solved]) if loose else np.arange(0, 2 * len(solved), 2)
    if float(np.diagonal(cov)[columns].sum() + np.diagonal(cov)[columns + 1].sum()) < LOOSE**2:
        return loose  # the frame of all solved points has the least sum of variances of all frames
    seen = datum_transform(net, x, Free(solved)).covariance(cov)
    return loose | {solved[i] for i in np.flatnonzero(worst_variance(seen, columns) > LOOSE**2)}


def worst_variance(cov: Array, columns: np.ndarray[tuple[int, ...], np.dtype[np.intp]]) -> Array:
    """The variance (k,) of points, by the column of their x, in the direction that each is held worst in."""
    xx, yy, xy = cov[columns, columns], cov[columns + 1, columns + 1], cov[columns, columns + 1]
    return np.asarray((xx + yy) / 2 + np.hypot((xx - yy) / 2, xy))
