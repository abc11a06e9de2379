"""The sides of a slotted headstock, into which its posts are drilled.

A side's **edge** is the chain of corners along it, from the one next to the nut to the far one, as a strip folds over
it. A **bore** is a post's straight way through that side, square to the middle line, from the edge into the slot. How
far along the edge it starts is measured on the edge itself, which may taper or bend.
"""

from collections.abc import Sequence
from itertools import accumulate
from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points, cross, dot, xy, xys
from geometry.hardware.near_posts import Seen, nearest_slot
from geometry.hardware.post_rows import PostRow
from geometry.hardware.posts import hole_wide, left_of
from geometry.job import Headstock, Job, Tuners
from geometry.job.sides import SIDES, Side
from geometry.layout import XY, Bore, HeadSide
from geometry.units import mm

NEAR = 1e-6
"""A bore that misses a corner by this share of its piece of the edge starts at the corner."""


class Edge(NamedTuple):
    """A side's edge in all rows, (rows, n), from the nut on, and the points at its corners."""

    names: tuple[str, ...]
    at: Points


def depth_below(job: Job) -> float | None:
    """How far below the headstock's face the middles of a slotted head's posts lie, mm: as typed, or half its
    thickness; None where neither is known.
    """
    tuners, head = job.hardware.tuners, job.hardware.headstock
    if tuners is not None and tuners.below is not None:
        return mm(tuners.below)
    return mm(head.thickness) / 2 if head is not None and head.thickness is not None else None


def edge_of(seen: Seen, head: Headstock, side: Side) -> Edge | None:
    """A side's edge: through the points that the job names along it, else by the outline's corners on that side of the
    middle line; None where these are not placed.
    """
    away, typed = seen.middle.away[:1], head.edges[SIDES.index(side)]
    if len(typed) > 1 and seen.states.has(*typed):
        at = seen.frame.see(seen.states, *typed)
        order = np.argsort(dot(away, at[0]), kind="stable").tolist()
        return Edge(tuple(typed[k] for k in order), at[:, order])
    ring = seen.ring(head.outline)
    if ring is None:
        return None
    out = left_of(seen.middle, ring.T)[:, 0] * (1.0 if side == "left" else -1.0)
    kept = _chain(out, dot(away, ring[0]), cross(away, ring[0]))
    return Edge(tuple(head.outline[k] for k in kept), ring[:, kept]) if len(kept) > 1 else None


def _chain(out: Array, along: Array, across: Array) -> list[int]:
    """Which corners (n,) make up an edge, from the nut on: the longest run of those that lie `out` on its side, without
    what runs across the headstock at the ends rather than along it.
    """
    count, beside = len(out), (out > 0).tolist()
    runs = [_run(beside, start) for start in range(count) if beside[start] and not beside[start - 1]]
    kept = max(runs, key=lambda run: float(np.abs(np.diff(along[run])).sum()), default=[])
    if kept and along[kept[-1]] < along[kept[0]]:
        kept = kept[::-1]

    def runs_across(one: int, other: int) -> bool:
        return bool(abs(across[other] - across[one]) > abs(along[other] - along[one]))

    while len(kept) > 1 and runs_across(kept[0], kept[1]):
        kept = kept[1:]
    while len(kept) > 1 and runs_across(kept[-1], kept[-2]):
        kept = kept[:-1]
    return kept


def _run(beside: Sequence[bool], start: int) -> list[int]:
    """The corners on from `start` that lie on the same side."""
    count, run = len(beside), [start]
    while beside[(run[-1] + 1) % count] and len(run) < count:
        run.append((run[-1] + 1) % count)
    return run


def head_side(seen: Seen, head: Headstock, tuners: Tuners, row: PostRow) -> HeadSide | None:
    """A side of the headstock with the bores of a row's posts, of its old holes, and the screws of its plates; None
    while its edge is not known.
    """
    edge = edge_of(seen, head, row.side)
    if edge is None:
        return None
    old = seen.old[row.side]
    olds = [*zip(old.names, old.at.T, old.diameters.tolist(), strict=True), *_screws(seen, row.side)]
    bores = [bore(seen, edge, head, row.side, "", hole_wide(tuners), here) for here in row.at.T]
    return HeadSide(
        side=row.side,
        corners=edge.names,
        edge=xys(edge.at[0]),
        bores=tuple(bores),
        old=tuple(
            found
            for name, here, wide in olds
            if (found := bore(seen, edge, head, row.side, name, wide, here)) is not None
        ),
        screws=_plate_screws(tuners, row.side, bores),
    )


def _screws(seen: Seen, side: Side) -> list[tuple[str, Points, float]]:
    """The old screws on a side of the middle line: name, place in all rows, diameter."""
    places = [(hole, seen.frame.see(seen.states, hole.name)[:, 0]) for hole in seen.found.old_screws]
    return [
        (hole.name, here, hole.diameter)
        for hole, here in places
        if (left_of(seen.middle, here)[0] > 0) == (side == "left")
    ]


def bore(seen: Seen, edge: Edge, head: Headstock, side: Side, name: str, wide: float, here: Points) -> Bore | None:
    """The bore to a place (rows,); None where its axis passes the ends of the edge."""
    outward = (-1j if side == "left" else 1j) * seen.middle.away
    found = _crossing(edge.at, here, outward)
    if found is None:
        return None
    enters, along = found
    slots = [ring for slot in head.slots if (ring := seen.ring(slot)) is not None]
    wall = _crossing(_closed(nearest_slot(slots, here)), here, outward) if slots else None
    return Bore(
        hole=name,
        diameter=wide,
        axis=(xy(enters[0]), xy((wall[0] if wall is not None else here)[0])),
        along=(float(along[0]), float(seen.states.pm95(along))),
    )


def _closed(ring: Points) -> Points:
    return np.concatenate((ring, ring[:, :1]), axis=1)


def _crossing(chain: Points, here: Points, outward: Points) -> tuple[Points, Array] | None:
    """Where the line through a place (rows,) along `outward` crosses a chain (rows, n), the farthest out if more than
    once, and how far that is along the chain from its first corner; None where it does not.
    """
    done, found = np.zeros(len(here)), None
    for start, stop in zip(chain.T[:-1], chain.T[1:], strict=True):
        piece = stop - start
        turn = cross(outward, piece)
        if abs(turn[0]) > NEAR * abs(piece[0]):
            share = cross(outward, here - start) / turn
            at = start + share * piece
            out = float(dot(outward, at - here)[0])
            if -NEAR <= share[0] <= 1 + NEAR and (found is None or out > found[0]):
                found = out, at, done + share * np.abs(piece)
        done = done + np.abs(piece)
    return None if found is None else found[1:]


def _plate_screws(tuners: Tuners, side: Side, bores: Sequence[Bore | None]) -> tuple[XY, ...]:
    """The new screws of a side's plates: along its edge, and how far below the posts; those beside a plate whose first
    post has no place are left out.
    """
    if tuners.plate is None:
        return ()
    counts = tuners.left if side == "left" else tuners.right
    firsts = [bores[at] for at in accumulate(counts[:-1], initial=0)]
    return tuple(
        (first.along[0] + mm(along), mm(across))
        for first in firsts
        if first is not None
        for along, across in tuners.plate.screws
    )
