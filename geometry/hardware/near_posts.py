"""What lies near new posts: old holes, the headstock's edge, its slots; each by the wood between, with its ±.

On a solid headstock a post's hole goes through the face, and wood is measured round it there. On a slotted one it goes
into a side, square to the middle line: old holes of that side are then taken to lie as deep as the new one, so that
only their distance along the headstock is between them.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points, cross, dot, following
from geometry.hardware.post_rows import PostRow
from geometry.hardware.posts import MiddleLine, OldPosts, hole_wide, left_of
from geometry.job import Headstock, Tuners
from geometry.job.sides import Side
from geometry.layout import XY, HeadstockPlan, Hole, Post
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.units import mm

THIN = 1.5
"""Wood between a new hole and an old one under which the old one is plugged first, mm (common practice, no source)."""


class Seen(NamedTuple):
    """What the new posts are held against, in all rows of states in which the headstock's points are moved too."""

    states: PerturbedStates
    frame: NeckFrame
    middle: MiddleLine
    old: dict[Side, OldPosts]
    found: HeadstockPlan
    holes: Points
    """The plan's old posts and screws in turn, (rows, n)."""

    def ring(self, names: tuple[str, ...]) -> Points | None:
        """A closed outline in all rows, (rows, n); None while a point of it is not placed."""
        return self.frame.see(self.states, *names) if len(names) > 2 and self.states.has(*names) else None


def nearest_old(seen: Seen, tuners: Tuners, row: PostRow) -> list[tuple[str, XY | None]]:
    """For each post of a row the old hole that it comes nearest to running into, by wood and ±, but for that it is
    drilled through. Less than 0 is how deep they overlap: no deeper than the narrower of the two is wide.
    """
    slotted = tuners.roller is not None
    every = (*seen.found.old_posts, *seen.found.old_screws)
    near = [at for at, hole in enumerate(every) if not slotted or _beside(seen, row, hole.at)]
    if not near:
        return [("", None)] * row.at.shape[1]
    holes = [every[at] for at in near]
    way = seen.holes[:, None, near] - row.at[:, :, None]
    apart = np.abs(dot(seen.middle.away[:, None, None], way)) if slotted else np.abs(way)
    wide, old = hole_wide(tuners), np.array([hole.diameter for hole in holes])
    gaps = apart - wide / 2 - old / 2
    walls = np.stack((np.maximum(gaps[0], -np.minimum(wide, old)), seen.states.pm95(gaps)), axis=-1).tolist()
    found: list[tuple[str, XY | None]] = []
    for again, beside in zip(row.again, walls, strict=True):
        others = [
            (hole.name, (gap, pm95)) for hole, (gap, pm95) in zip(holes, beside, strict=True) if hole.name != again
        ]
        found.append(min(others, key=lambda one: one[1][0] - max(THIN, one[1][1]), default=("", None)))
    return found


def apart_from(found: HeadstockPlan, tuners: Tuners, post: Post, hole: Hole) -> float:
    """From a post's middle to an old hole's, mm: on a slotted headstock along it, between holes of one side."""
    if tuners.roller is None:
        return math.dist(post.at, hole.at)
    toward, at, middle = (np.array(complex(*place)) for place in (found.middle.direction, hole.at, found.middle.at))
    if (cross(toward, at - middle) > 0) != (post.side == "left"):
        return math.inf
    return abs(float(dot(toward, np.array(complex(*post.at)) - at)))


def _beside(seen: Seen, row: PostRow, at: XY) -> bool:
    """Whether a place lies on a row's side of the middle line."""
    return bool((left_of(seen.middle, np.array(complex(*at)))[0] > 0) == (row.side == "left"))


def edge_wood(seen: Seen, head: Headstock, tuners: Tuners, row: PostRow) -> list[XY | None]:
    """The wood from each post's hole to the headstock's edge; None while its outline is not placed."""
    outline = seen.ring(head.outline)
    if outline is None:
        return [None] * row.at.shape[1]
    return _wood(seen.states, row.at, [outline], hole_wide(tuners) / 2, within=True)


def slot_wood(seen: Seen, head: Headstock, tuners: Tuners, row: PostRow) -> list[XY | None]:
    """A roller's room within its slot, or the wood from a post's hole to the nearest slot."""
    slots = [ring for slot in head.slots if (ring := seen.ring(slot)) is not None]
    if not slots:
        return [None] * row.at.shape[1]
    if tuners.roller is None:
        return _wood(seen.states, row.at, slots, hole_wide(tuners) / 2, within=False)
    found: list[XY | None] = []
    for here in row.at.T:
        found += _wood(seen.states, here[:, None], [nearest_slot(slots, here)], mm(tuners.roller) / 2, within=True)
    return found


def nearest_slot(slots: Sequence[Points], here: Points) -> Points:
    """The slot whose middle lies nearest to a post (rows,)."""
    return min(slots, key=lambda slot: float(np.abs(slot[0].mean() - here[0])))


def _wood(
    states: PerturbedStates, posts: Points, rings: Sequence[Points], radius: float, *, within: bool
) -> list[XY | None]:
    """The least wood from each hole (rows, n) to the sides of outlines, with its ±; less than 0 where it runs out of
    the wood, which is `within` the outlines or outside them.
    """
    sides = [(ring, k, (k + 1) % ring.shape[1]) for ring in rings for k in range(ring.shape[1])]
    gaps = np.array([to_side(posts, ring[:, k, None], ring[:, after, None]) for ring, k, after in sides])
    nearest = gaps[:, 0].argmin(axis=0)
    inside = [any(is_inside(at, ring[0]) for ring in rings) for at in posts[0].tolist()]
    signs = np.where(np.array(inside) == within, 1.0, -1.0)
    least = signs * gaps[nearest, :, range(len(signs))].T - radius
    return list(zip(least[0].tolist(), states.pm95(least).tolist(), strict=True))


def is_inside(at: complex, ring: Points) -> bool:
    """Whether a place lies within a closed outline: a ray to the left crosses its sides an odd number of times."""
    start, stop = ring - at, following(ring) - at
    crosses = (start.imag > 0) != (stop.imag > 0)
    way = stop - start
    where = start.real - start.imag * way.real / np.where(way.imag == 0, 1.0, way.imag)
    return bool((crosses & (where > 0)).sum() % 2)


def to_side(here: Points, start: Points, stop: Points) -> Array:
    """How far points lie from a straight piece, all of one shape or made so."""
    way = stop - start
    share = np.clip(dot(way, here - start) / np.maximum(np.abs(way) ** 2, 1e-12), 0.0, 1.0)
    return np.asarray(np.abs(here - start - share * way))
