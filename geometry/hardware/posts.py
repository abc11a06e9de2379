"""New tuner posts on an old headstock: fitted to what the person wants to keep, and held against what is there.

All is worked out in the neck frame, whose x is less than 0 on the headstock, in all perturbed states; `away` is the
direction along the headstock's middle line away from the nut. A **row** is the posts of one side, from the nut on.
"""

from itertools import accumulate
from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points, best_line, bisector, crossing, dot, unit
from geometry.job import Headstock, Tuners
from geometry.job.sides import SIDES, Side
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm

USED_AGAIN = 0.3
"""A new hole whose middle lies nearer to an old one's than this, mm, is drilled through it, if it is as wide (common
practice, no source)."""
SNUG = 0.15
"""An old hole wider than the new one by no more than this, mm, is as wide: a caliper tells no finer in wood (common
practice, no source)."""
FIRST = 30.0
"""The first post from the nut along the middle line where no old post tells, mm (common practice, no source)."""


class MiddleLine(NamedTuple):
    """The headstock's middle line: where it crosses the nut's front, and its direction away from there, (rows,)."""

    at: Points
    away: Points


class OldPosts(NamedTuple):
    """One side's old post holes in all rows, from the nut on: (rows, n), their diameters (n,) and their names."""

    at: Points
    diameters: Array
    names: tuple[str, ...]


class PostRow(NamedTuple):
    """One side's new posts in all rows, (rows, n), from the nut on; which old hole each uses again, or ""."""

    side: Side
    at: Points
    again: tuple[str, ...]


def middle_line(states: PerturbedStates, frame: NeckFrame, head: Headstock) -> MiddleLine | None:
    """The headstock's middle line; None while its points are not known."""
    nut = frame.nut
    square = 1j * unit(nut[:, 0] - nut[:, 1])
    middle = nut.sum(axis=1) / 2
    if head.middle == "nut":
        return MiddleLine(middle, np.where(square.real > 0, -square, square))
    if head.middle == "points":
        if not states.has(*head.points):
            return None
        first, second = frame.see(states, *head.points).T
        return _away(middle, square, first, unit(second - first))
    left, right = head.edges
    if not states.has(*left, *right):
        return None
    lines = [
        best_line(points, points[:, -1] - points[:, 0]) for points in (frame.see(states, *e) for e in (left, right))
    ]
    (at_a, way_a), (at_b, way_b) = lines
    way_b = np.where((dot(way_a, way_b) < 0), -way_b, way_b)
    return _away(middle, square, *bisector(at_a, way_a, at_b, way_b))


def _away(nut: Points, square: Points, at: Points, way: Points) -> MiddleLine:
    """A line through a point and along a way, from where it crosses the nut's front."""
    return MiddleLine(crossing(at, way, nut, 1j * square), np.where(way.real > 0, -way, way))


def old_posts(states: PerturbedStates, frame: NeckFrame, head: Headstock, middle: MiddleLine) -> dict[Side, OldPosts]:
    """The old post holes that are placed, by side of the middle line, each side's from the nut on."""
    known = {name: hole for name, hole in head.posts.items() if states.has(name)}
    found: dict[Side, OldPosts] = {}
    for side, sign in zip(SIDES, (1.0, -1.0), strict=True):
        at = {name: frame.see(states, name)[:, 0] for name in known}
        # seen along the neck, as sides are: left is +y
        names = [name for name in known if (left_of(middle, at[name])[0] > 0) == (sign > 0)]
        names.sort(key=lambda name: float(dot(middle.away, at[name] - middle.at)[0]))
        points = np.array([at[name] for name in names]).T if names else np.empty((len(middle.at), 0), dtype=complex)
        sizes = np.array([states.surveyed.report.diameters.get(name, mm(known[name].diameter)) for name in names])
        found[side] = OldPosts(points, sizes, tuple(names))
    return found


def left_of(middle: MiddleLine, at: Points) -> Array:
    """How far points lie to the left of the middle line as one sights down the neck, mm."""
    return np.asarray((-(middle.away.conj()) * (at - middle.at)).imag)


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
    if count:
        start = _start(dot(way[:, None], old.at - base[:, None]), steps, old, tuners)
    else:
        start = dot(way, middle.at - base) + FIRST
    at = base[:, None] + way[:, None] * (start[:, None] + steps)
    return PostRow(
        side, at, _again(at[0], old, _taken_up(old, tuners), middle.away[0] if tuners.roller is not None else None)
    )


def _start(along: Array, steps: Array, old: OldPosts, tuners: Tuners) -> Array:
    """Where along the row the first post stands, (rows,)."""
    if tuners.keep == "first post":
        return np.asarray(along[:, 0])
    if tuners.keep == "middle post":
        return np.asarray((along[:, 0] + along[:, -1]) / 2 - (steps[0] + steps[-1]) / 2)
    fits = _taken_up(old, tuners)
    # each new post on each old one: the best of these keeps most, or plugs least, and then moves the middle least
    starts = (along[0][:, None] - steps).ravel()
    apart = np.abs(starts[:, None, None] + steps[:, None] - along[0])
    used = (apart.min(axis=1) < USED_AGAIN) & fits
    lost = (old.diameters**2 * ~used).sum(axis=1) if tuners.keep == "least wood" else -used.sum(axis=1)
    moved = np.abs(starts + steps.mean() - along[0].mean())
    kept, new_at = divmod(int(np.lexsort((moved, lost))[0]), len(steps))
    return np.asarray(along[:, kept] - steps[new_at])


def hole_wide(tuners: Tuners) -> float:
    """How wide a new hole is drilled, mm: for the bushing, or for the post by itself. So wide, too, a post stands in
    another string's way.
    """
    return mm(tuners.bushing or tuners.post)


def _taken_up(old: OldPosts, tuners: Tuners) -> Array:
    """Which old holes a new one on the same place takes away, (n,): a wider one has to be plugged first."""
    return np.asarray(old.diameters <= hole_wide(tuners) + SNUG)


def _again(at: Points, old: OldPosts, fits: Array, away: Points | None) -> tuple[str, ...]:
    """The old hole that each new one is drilled through, or "". In the side of a slotted headstock holes are told apart
    by their places along it (`away`) alone.
    """
    found = []
    for point in at.tolist():
        off = old.at[0] - point
        apart = np.abs(off if away is None else dot(away, off))
        nearest = int(apart.argmin()) if len(apart) else -1
        found.append(old.names[nearest] if nearest >= 0 and apart[nearest] < USED_AGAIN and fits[nearest] else "")
    return tuple(found)
