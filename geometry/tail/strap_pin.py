"""The strap pin: where the neck centre line, carried on, meets the body's end."""

from itertools import pairwise
from typing import NamedTuple

import numpy as np

from geometry.frame import Array, Points
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates

LEAST = 2
"""So few points of the body's end, one on either side of the line, tell where it crosses."""


def end_points(states: PerturbedStates, frame: NeckFrame) -> tuple[str, str] | None:
    """The two neighbours among the body's points between which the line runs out at the tail; None where there are
    none.
    """
    numbered = sorted(
        (int(name[5:]), name) for name in states.surveyed.point_at if name.startswith("body.") and name[5:].isdecimal()
    )
    names = [name for _, name in numbered]
    if len(names) < LEAST:
        return None
    places = dict(zip(names, frame.see(states, *names)[0].tolist(), strict=True))
    rings = [*pairwise(names), *([(names[-1], names[0])] if len(names) > LEAST else [])]
    crossed = [(a, b) for a, b in rings if places[a].imag * places[b].imag <= 0 and places[a] != places[b]]
    return max(crossed, key=lambda pair: places[pair[0]].real + places[pair[1]].real, default=None)


class StrapPin(NamedTuple):
    """Its place in all rows, and how far it lies from the nearer of the two points it lies between (rows,), mm."""

    at: Points
    from_point: Array


def find(states: PerturbedStates, frame: NeckFrame) -> StrapPin | None:
    """The strap pin; None while the body's end is not measured on both sides of the line."""
    names = end_points(states, frame)
    if names is None:
        return None
    one, other = frame.see(states, *names).T
    apart = one.imag - other.imag
    share = one.imag / np.where(np.abs(apart) > 1e-9, apart, 1.0)
    at = one + (other - one) * share
    nearer = one if abs(at[0] - one[0]) <= abs(at[0] - other[0]) else other
    return StrapPin(at, np.abs(at - nearer))
