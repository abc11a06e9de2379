"""New tuner posts in rows on an old headstock, fitted to what the person wants to keep.

A **row** is the posts of one side, from the nut on, in the neck frame and in all perturbed states.
"""

from itertools import accumulate
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.frame import Array, Points, best_line, cross, dot
from geometry.hardware.posts import MiddleLine, OldPosts
from geometry.job import Tuners
from geometry.job.sides import SIDES, Side
from geometry.units import mm

FIRST = 30.0
"""The first post from the nut along the middle line where no old post tells, mm (common practice, no source)."""


class PostRow(NamedTuple):
    """One side's new posts in all rows, (rows, n), from the nut on; which old hole each uses again, or ""."""

    side: Side
    at: Points
    again: tuple[str, ...]


def spacing(plates: tuple[int, ...], between: float) -> Array:
    """Where a row's posts stand along it from its first, mm: all `between` apart, on one plate or on several."""
    return np.array([*accumulate([between] * (sum(plates) - 1), initial=0.0)]) if sum(plates) else np.empty(0)


def fit(middle: MiddleLine, old: dict[Side, OldPosts], tuners: Tuners) -> tuple[PostRow, ...]:
    """Both rows of posts, fitted as the tuners say; a row with neither old posts nor a distance from the middle line is
    left out.
    """
    rows = []
    for side in SIDES:
        steps = spacing(tuners.left if side == "left" else tuners.right, mm(tuners.spacing))
        row = _fit_row(side, middle, old[side], tuners, steps)
        if row is not None:
            rows.append(row)
    return tuple(rows)


def _fit_row(side: Side, middle: MiddleLine, old: OldPosts, tuners: Tuners, steps: Array) -> PostRow | None:
    if not len(steps):
        return None
    sign, count = (1.0 if side == "left" else -1.0), old.at.shape[1]
    leftward = -1j * middle.away  # the frame's left, +y, where away runs to -x
    if tuners.from_middle is not None:
        base = middle.at + sign * mm(tuners.from_middle) * leftward
        way = middle.away
    elif count > 1:
        base, way = best_line(old.at, middle.away)
    elif count == 1:
        base, way = old.at[:, 0], middle.away
    else:
        return None
    away = middle.away[:1] if tuners.roller is not None else None
    start = _start(base, way, steps, old, tuners, away) if count else dot(way, middle.at - base) + FIRST
    at = base[:, None] + way[:, None] * (start[:, None] + steps)
    return PostRow(side, at, _again(at[0], old, away))


def _start(base: Points, way: Points, steps: Array, old: OldPosts, tuners: Tuners, away: Points | None) -> Array:
    """Where along the row, from `base`, its first post stands, (rows,)."""
    along = dot(way[:, None], old.at - base[:, None])
    if tuners.keep == "first post":
        return np.asarray(along[:, 0])
    if tuners.keep == "middle post":
        return np.asarray((along[:, 0] + along[:, -1]) / 2 - (steps[0] + steps[-1]) / 2)
    tried, exact = _starts(base, way, along, steps, old, away)
    # all that is kept is counted as it will be told; of as good ones, that with the fewest holes in which the post is
    # loose, then with a post right on an old hole, and then that which moves the middle least
    used = _uses(base[0] + way[0] * (tried[0][:, None] + steps), old, away)
    lost = (old.diameters**2 * ~used.any(axis=1)).sum(axis=1) if tuners.keep == "least wood" else -used.sum(axis=(1, 2))
    loose = used[..., old.loose].sum(axis=(1, 2))
    moved = np.abs(tried[0] + steps.mean() - along[0].mean())
    return np.asarray(tried[:, int(np.lexsort((moved, ~exact, loose, lost.round(6)))[0])])


def _starts(
    base: Points, way: Points, along: Array, steps: Array, old: OldPosts, away: Points | None
) -> tuple[Array, NDArray[np.bool_]]:
    """The starts that are worth trying, (rows, tried), and which of them put a post right on an old hole, (tried,).

    A post uses an old hole again from one start to another, a stretch of the row. What most of these stretches, or the
    heaviest of them, have in common begins where one of them begins and ends where one ends: so its middle is tried for
    every two of them that overlap.
    """
    off = old.at[0] - base[0]
    if away is None:
        right_on, half = along, np.sqrt(np.maximum(old.near**2 - cross(way[0], off) ** 2, 0.0))
    else:
        lean = float(dot(way[:1], away)[0])
        right_on, half = dot(away, old.at - base[:, None]) / lean, old.near / lean
    starts = (right_on[:, :, None] - steps).reshape(len(base), -1)
    half = np.repeat(half, len(steps))
    overlap = np.abs(starts[0][:, None] - starts[0]) <= half[:, None] + half
    one, other = np.nonzero(overlap)
    return (starts[:, one] + starts[:, other] + half[other] - half[one]) / 2, one == other


def _uses(at: Points, old: OldPosts, away: Points | None) -> NDArray[np.bool_]:
    """Which old hole each new post of (..., posts) is drilled through, (..., posts, old): the nearest that is near
    enough, and not worn. In the side of a slotted headstock holes are told apart by their places along it (`away`).
    """
    off = old.at[0] - at[..., None]
    apart = np.where(old.worn, np.inf, np.abs(off if away is None else dot(away, off)))
    nearest = np.arange(apart.shape[-1]) == apart.argmin(axis=-1)[..., None] if apart.size else apart < 0
    return np.asarray(nearest & (apart < old.near))


def _again(at: Points, old: OldPosts, away: Points | None) -> tuple[str, ...]:
    """The old hole that each new post is drilled through, or ""."""
    return tuple("".join(np.array(old.names)[used]) if len(used) else "" for used in _uses(at, old, away))
