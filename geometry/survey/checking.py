"""Which points are **checked**: a gross error in any one reading that holds them would show.

A reading shows its own gross error where the smallest error that would show is no more than `GROSS`, or where its
redundancy number is at least `CONTROL`; a reading holds a point where a millimetre in it moves the point by `HOLDS`, as
seen from the board's corners (or, without them, from all points together).
"""

import numpy as np

from geometry.survey.adjustment import Adjusted
from geometry.survey.datum import Free, carry
from geometry.survey.suspects import SHOWS

GROSS = 3.0
"""What a person with a rule is sometimes out by, mm (common practice, no source)."""
CONTROL = 0.1
HOLDS = 0.05
CORNERS = ("nut.left", "nut.right", "end.left", "end.right")


def checked_points(done: Adjusted, solved: list[str]) -> dict[str, bool]:
    """For each solved point whether it is checked."""
    if len(solved) < 2:
        return dict.fromkeys(solved, False)
    corners = [name for name in CORNERS if name in solved]
    seen_from = Free(tuple(corners if len(corners) > 1 else solved))
    fitted = done.net.fitted
    shown = shows(done)[:fitted]
    gain = carry(done.net, done.x, seen_from)(done.gain[:, :fitted][:, ~shown])
    columns = np.array([2 * done.net.points.index(name) for name in solved])
    moved = np.hypot(gain[columns], gain[columns + 1])
    hidden = (moved > HOLDS).any(axis=1)
    return {name: not bad for name, bad in zip(solved, hidden.tolist(), strict=True)}


def shows(done: Adjusted) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """For each row (m,) whether a gross error in it would show."""
    r = np.maximum(done.redundancy, 1e-12)
    return np.asarray((r >= CONTROL) | (SHOWS * done.net.sigma / np.sqrt(r) <= GROSS))
