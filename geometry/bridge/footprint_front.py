"""The front edge of an old footprint, however many points its outline was read at."""

from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points, best_line, cross, dot, following


class Front(NamedTuple):
    """A footprint's front edge in all rows: its middle and its direction to the left wing, (rows,)."""

    middle: Points
    leftward: Points


def front_of(ring: Points) -> Front:
    """The front edge of an outline (rows, n), n ≥ 3, seen in the neck frame, in either order round: the best line
    through the points from wing to wing, its middle midway between its ends.
    """
    points = ring[:, _run(ring[0])]
    ends = points[:, [0, -1]]
    left, right = ends.T if ends[0, 0].imag > ends[0, 1].imag else ends.T[::-1]
    at, leftward = best_line(points, left - right)
    return Front(at + leftward * dot(leftward, (left + right) / 2 - at), leftward)


def _run(ring: Points) -> Array:
    """The points from the first to the last piece that faces the nut more than it faces a wing."""
    way, count = following(ring) - ring, len(ring)
    turns = np.sign(cross(ring, following(ring)).sum())
    outward = -1j * turns * way
    faces = -outward.real > np.abs(outward.imag)
    faces[outward.real.argmin()] = True
    # counted from the piece that faces the tail most, so that the front's pieces follow one another
    order = (np.arange(count) + int(outward.real.argmax())) % count
    at = np.flatnonzero(faces[order])
    return np.asarray((order[0] + np.arange(at[0], at[-1] + 2)) % count)
