"""Which points are **checked**: a gross error in any one reading that holds them would show.

When a reading shows its own gross error is told in `geometry.layout.measured`. It holds a point where a millimetre in
it moves the point by `HOLDS`, as seen from the board's corners (or, without them, from all points together).
"""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from geometry.layout import BOARD_CORNERS, measured
from geometry.survey.judge.suspects import SHOWS
from geometry.survey.result import Array

Flags = NDArray[np.bool_]
HOLDS = 0.05
"""The part of a millimetre by which a reading must move a point to hold it (common practice, no source)."""
NOTHING = 1e-12
"""What a redundancy number of nothing counts for."""
LEAST = 1e-9
"""Points that lie together within this (mm²) tell no turn."""


def checked_points(
    x: Array, point_at: Mapping[str, int], gain: Array, redundancy: Array, sigma: Array
) -> dict[str, bool]:
    """For each solved point, by the column of its x in x (p,), whether it is checked by the readings (m)."""
    if len(point_at) < 2:
        return dict.fromkeys(point_at, False)
    hidden = ~shows(redundancy, sigma)
    if not hidden.any():
        return dict.fromkeys(point_at, True)
    bad: Flags = np.asarray(holds(x, point_at, gain[:, hidden]).any(axis=1))
    return {name: not unseen for name, unseen in zip(point_at, bad.tolist(), strict=True)}


def shows(redundancy: Array, sigma: Array) -> Flags:
    """Whether a gross error in a reading of this redundancy number and sigma would show (any shape)."""
    return np.asarray(measured.shows(redundancy, SHOWS * sigma / np.sqrt(np.maximum(redundancy, NOTHING))))


def holds(x: Array, point_at: Mapping[str, int], gain: Array) -> Flags:
    """Which readings hold which points, (n, k), from what a millimetre in each does to x, `gain` (p, k).

    Seen from the corners is what is left when their common shift and turn, by least squares, is taken off.
    """
    if not point_at:
        return np.zeros((0, gain.shape[1]), dtype=bool)
    columns = np.array(list(point_at.values()))
    z = x[columns] + 1j * x[columns + 1]
    moved = gain[columns] + 1j * gain[columns + 1]
    corners = [i for i, name in enumerate(point_at) if name in BOARD_CORNERS]
    seen_from = corners if len(corners) > 1 else slice(None)
    z = z - z[seen_from].mean()
    own, of_own = z[seen_from], moved[seen_from]
    turn = (own.conj() @ of_own).imag / max(float(np.vdot(own, own).real), LEAST)
    moved = moved - (of_own.sum(axis=0) / len(own) + 1j * z[:, None] * turn)
    return np.asarray(np.abs(moved) > HOLDS)
