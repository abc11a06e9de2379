"""The headstock's middle line, its old post holes, and which of them new posts may be drilled through.

All is worked out in the neck frame, whose x is less than 0 on the headstock, in all perturbed states; `away` is the
direction along the headstock's middle line away from the nut. An old hole is **worn** for new tuners where it has to be
plugged before they are drilled.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points, best_line, bisector, cross, crossing, dot, unit
from geometry.job import Headstock, Job, OldPost, Tuners
from geometry.job.sides import SIDES, Side
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.survey.rows.rows_of_readings import fineness
from geometry.units import mm, told_alike

USED_AGAIN = 0.3
"""A new hole whose middle lies nearer to an old one's than this, mm, is drilled through it, if that is not worn (common
practice, no source)."""
TOLD_APART = 0.6
"""An old hole whose place is only known so far, mm, or worse: a new one this near may lie right on it, and is drilled
through it too (common practice, no source)."""
SNUG = 0.15
"""An old hole wider than the new one by no more than this, mm, is as wide: a caliper tells no finer in wood (common
practice, no source)."""


class MiddleLine(NamedTuple):
    """The headstock's middle line: where it crosses the nut's front, and its direction away from there, (rows,)."""

    at: Points
    away: Points


class OldPosts(NamedTuple):
    """One side's old post holes in all rows, from the nut on: (rows, n), their diameters (n,) and their names; which of
    them are `worn` for the new tuners (n,), so that none is drilled through them; how near, mm, a new hole must be to
    be drilled through each (n,); and in which of them the new post is `loose` (n,).
    """

    at: Points
    diameters: Array
    names: tuple[str, ...]
    worn: Array
    near: Array
    loose: Array


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


def old_posts(
    states: PerturbedStates, frame: NeckFrame, job: Job, head: Headstock, middle: MiddleLine, tuners: Tuners
) -> dict[Side, OldPosts]:
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
        wide = dict(zip(names, sizes.tolist(), strict=True))
        worn = np.array([is_worn(job, name, known[name], wide[name], tuners) for name in names], dtype=bool)
        loose = np.array([is_loose(job, name, wide[name], tuners) for name in names], dtype=bool)
        near = np.clip(_pm95s(states, middle, points), USED_AGAIN, TOLD_APART)
        found[side] = OldPosts(points, sizes, tuple(names), worn, near, loose)
    return found


def _pm95s(states: PerturbedStates, middle: MiddleLine, at: Points) -> Array:
    """How surely the holes of a row (rows, n) are known among each other, mm: along it or across, the worse."""
    if at.shape[1] < 2:
        return np.zeros(at.shape[1])
    off, away = at - at.mean(axis=1, keepdims=True), middle.away[:, None]
    return np.maximum(states.pm95(dot(away, off)), states.pm95(cross(away, off)))


def is_worn(job: Job, name: str, hole: OldPost, wide: float, tuners: Tuners) -> bool:
    """Whether an old post hole so `wide` (mm) has to be plugged before a new one is drilled on its place: it is said to
    be worn, or it is wider than what is drilled there, of which a ring would stay open.
    """
    return hole.worn or not _is_as_wide(job, name, wide, hole_wide(tuners))


def is_loose(job: Job, name: str, wide: float, tuners: Tuners) -> bool:
    """Whether an old post hole so `wide` (mm) is wider than the new post's: a bushing alone holds the post there."""
    return not _is_as_wide(job, name, wide, mm(tuners.post))


def _is_as_wide(job: Job, name: str, wide: float, wanted: float) -> bool:
    """Whether an old post hole so `wide` (mm) is no wider than is `wanted`, as far as anybody can tell: both are told
    alike, or what parts them is less than its rims were read to, one standard deviation of their distance.
    """
    rims = [fineness(r).own * math.sqrt(2) for r in job.readings if r.kind == "rims" and r.of[1] == name and r.taken]
    return wide <= wanted + max(SNUG, min(rims, default=0.0)) or told_alike(wide, wanted, job.unit)


def left_of(middle: MiddleLine, at: Points) -> Array:
    """How far points lie to the left of the middle line as one sights down the neck, mm."""
    return np.asarray((-(middle.away.conj()) * (at - middle.at)).imag)


def hole_wide(tuners: Tuners) -> float:
    """How wide a new hole is drilled, mm: for the bushing, or for the post by itself."""
    return mm(tuners.bushing or tuners.post)
