"""Which points are **checked**: a gross error in any one reading that holds them would show.

A reading shows its own gross error where the smallest error that would show is no more than `GROSS`, or where its
redundancy number is at least `CONTROL`; a reading holds a point where a millimetre in it moves the point by `HOLDS`, as
seen from the board's corners (or, without them, from all points together).
"""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from geometry.survey.result import Array
from geometry.survey.suspects import SHOWS

Flags = NDArray[np.bool_]
GROSS = 3.0
"""What a person with a rule is sometimes out by, mm (common practice, no source)."""
CONTROL = 0.1
HOLDS = 0.05
CORNERS = ("nut.left", "nut.right", "end.left", "end.right")


def checked_points(
    x: Array, point_at: Mapping[str, int], gain: Array, redundancy: Array, sigma: Array
) -> dict[str, bool]:
    """For each solved point, by the column of its x in x (p,), whether it is checked by the readings (m)."""
    if len(point_at) < 2:
        return dict.fromkeys(point_at, False)
    hidden = ~shows(redundancy, sigma)
    bad: Flags = np.asarray(holds(x, point_at, gain[:, hidden]).any(axis=1))
    return {name: not unseen for name, unseen in zip(point_at, bad.tolist(), strict=True)}


def shows(redundancy: Array, sigma: Array) -> Flags:
    """Whether a gross error in a reading of this redundancy number and sigma would show (any shape)."""
    r = np.maximum(redundancy, 1e-12)
    return np.asarray((r >= CONTROL) | (SHOWS * sigma / np.sqrt(r) <= GROSS))


def holds(x: Array, point_at: Mapping[str, int], gain: Array) -> Flags:
    """Which readings hold which points, (n, k), from what a millimetre in each does to x, `gain` (p, k)."""
    columns = np.array([[column, column + 1] for column in point_at.values()])
    z = x[columns]
    moves = np.zeros((len(columns), 2, 3))
    moves[:, 0, 0] = moves[:, 1, 1] = 1
    moves[:, 0, 2], moves[:, 1, 2] = -z[:, 1], z[:, 0]
    corners = [i for i, name in enumerate(point_at) if name in CORNERS]
    seen_from = corners if len(corners) > 1 else list(range(len(columns)))
    base = moves[seen_from].reshape(-1, 3)
    drift = np.linalg.lstsq(base, gain[columns[seen_from].ravel()], rcond=None)[0]
    moved = gain[columns] - moves @ drift
    return np.asarray(np.hypot(moved[:, 0], moved[:, 1]) > HOLDS)
