"""The strap pin: where the neck centre line, carried on, meets the body's end."""

from itertools import pairwise
from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.rings import numbered, sides_that_cross

LEAST = 2
"""So few points of the body's end, one on either side of the line, tell where it crosses."""
WIDEST = 120.0
"""Two points that lie farther apart, mm, tell nothing of the body's end between them (common practice, no source)."""


class Crossing(NamedTuple):
    """The two neighbours among the body's points between which the line runs out at the tail: their names, how far
    back it does so and how far apart they lie, mm.
    """

    names: tuple[str, str]
    x: float
    wide: float

    def is_end(self, behind: float) -> bool:
        """Whether it lies behind that place on the neck, mm, between two points near enough to each other."""
        return self.x > behind and self.wide <= WIDEST


def last_crossing(states: PerturbedStates, frame: NeckFrame) -> Crossing | None:
    """The crossing that lies farthest back; None while the body is not measured on both sides of the line."""
    names = numbered(states.surveyed.point_at, "body")
    if len(names) < LEAST:
        return None
    ring = frame.see(states, *names)[0]
    if sides_that_cross(ring) is not None:
        return None
    places = dict(zip(names, ring.tolist(), strict=True))
    rings = [*pairwise(names), *([(names[-1], names[0])] if len(names) > LEAST else [])]
    crossed = []
    for a, b in rings:
        one, other = places[a], places[b]
        if one.imag * other.imag <= 0 and one != other:
            apart = one.imag - other.imag
            x = one.real + (other.real - one.real) * one.imag / apart if apart else max(one.real, other.real)
            crossed.append(Crossing((a, b), x, abs(one - other)))
    return max(crossed, key=lambda crossing: crossing.x, default=None)


class StrapPin(NamedTuple):
    """Its place in all rows, and how far it lies from the nearer of the two points it lies between (rows,), mm."""

    at: Points
    from_point: Array


def find(states: PerturbedStates, frame: NeckFrame, crossing: Crossing) -> StrapPin:
    """The strap pin where the line runs out between two points."""
    one, other = frame.see(states, *crossing.names).T
    apart = one.imag - other.imag
    share = one.imag / np.where(np.abs(apart) > 1e-9, apart, 1.0)
    at = one + (other - one) * share
    nearer = one if abs(at[0] - one[0]) <= abs(at[0] - other[0]) else other
    return StrapPin(at, np.abs(at - nearer))
