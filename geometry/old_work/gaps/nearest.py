"""Nearest places of points, lines and closed outlines, in the plane; numpy alone, for many at once.

A **ring** is a closed outline, its corners in order (m,), the last joined to the first.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.frame import Array, Points, cross, dot, following
from geometry.median import distinct

Places = NDArray[np.intp]
LEAST = 1e-12
CORNER = 1e-9
"""An edge that goes through a corner is cut there, whichever side of it rounding puts it on; a cut too many does no
harm."""


class OnLine(NamedTuple):
    """For each point how far it lies from a line of pieces, which piece is nearest, and how far along it (0–1)."""

    far: Array
    piece: Places
    share: Array

    def at(self, start: Points, stop: Points) -> Points:
        """The nearest places, from the pieces' ends (..., m)."""
        return start[..., self.piece] * (1 - self.share) + stop[..., self.piece] * self.share


def on_line(points: Points, start: Points, stop: Points) -> OnLine:
    """Points (k,) against straight pieces (m,)."""
    way = stop - start
    off = points[:, None] - start
    share = np.clip(dot(way, off) / np.maximum(np.abs(way) ** 2, LEAST), 0.0, 1.0)
    far = np.abs(off - share * way)
    piece = far.argmin(axis=1)
    index = np.arange(len(points))
    return OnLine(far[index, piece], piece, share[index, piece])


def within(points: Points, ring: Points) -> NDArray[np.bool_]:
    """Whether points (k,) lie inside a ring, by the count of its edges to one side."""
    start, stop = ring, following(ring)
    above = start.imag > points.imag[:, None]
    spans = above != (stop.imag > points.imag[:, None])
    rise = np.where(stop.imag == start.imag, 1.0, stop.imag - start.imag)
    at = start.real + (points.imag[:, None] - start.imag) * (stop.real - start.real) / rise
    return np.asarray((spans & (points.real[:, None] < at)).sum(axis=1) % 2 == 1)


def inside(points: Points, ring: Points) -> tuple[Array, OnLine]:
    """How far points (k,) lie inside a ring, less than 0 outside, and the nearest places on its edge."""
    near = on_line(points, ring, following(ring))
    return np.where(within(points, ring), near.far, -near.far), near


class Parts(NamedTuple):
    """Pieces of straight edges: of which edge, from where to where along it (0–1), and whether inside the ring."""

    edge: Places
    low: Array
    high: Array
    inside: NDArray[np.bool_]


def parted(start: Points, stop: Points, ring: Points) -> Parts:
    """Straight edges (k,) cut where they cross a ring."""
    way, ring_way = stop - start, following(ring) - ring
    apart = ring - start[:, None]
    turn = cross(way[:, None], ring_way)
    flat = np.abs(turn) < LEAST
    turn = np.where(flat, 1.0, turn)
    along, at_ring = cross(apart, ring_way) / turn, cross(apart, way[:, None]) / turn
    meets = ~flat & (along > 0) & (along < 1) & (at_ring >= -CORNER) & (at_ring <= 1 + CORNER)
    found = [distinct(np.concatenate(((0.0, 1.0), along[k, meets[k]]))) for k in range(len(start))]
    edge = np.repeat(np.arange(len(found)), [len(cuts) - 1 for cuts in found])
    low, high = (np.concatenate([cuts[part] for cuts in found]) for part in (slice(None, -1), slice(1, None)))
    middle = start[edge] + way[edge] * (low + high) / 2
    return Parts(edge, low, high, within(middle, ring))


def area(ring: Points) -> float:
    """A ring's area, counter-clockwise positive, mm²: half the sum of the corners' vector products."""
    return float(cross(ring, following(ring)).sum() / 2)


def narrow(ring: Points) -> float:
    """How narrow a ring is: its least width square to one of its sides, mm."""
    way = following(ring) - ring
    way = way / np.maximum(np.abs(way), LEAST)
    reach = cross(way[:, None], ring - ring[:, None])
    return float((reach.max(axis=1) - reach.min(axis=1)).min())
