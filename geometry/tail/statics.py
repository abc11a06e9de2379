"""Statics of strings that run over a saddle to a tail.

Each string pulls the saddle along both of its parts with the same pull T (no friction): toward the nut along u, toward
the tail along v, unit vectors. The saddle is pushed by T (u + v); its part across the neck is the **push**, its part
square to the strings the **down** force. In a frame that lies in the strings' plane over the board, with the string
before the saddle turned sideways by a, behind it by b, and dropping by d: push = T (cos d sin b − sin a),
down = T sin d (derived).
"""

import numpy as np

from geometry.frame import Array

ROUNDS = 4
"""Newton steps to the balanced place: the push is so nearly straight in it that three leave less than a micrometre."""
NUDGE = 1e-3
"""How far the tail is moved for its slope, mm."""


def sideways(start: Array, saddle: Array, tail: Array, behind: Array, along: Array) -> tuple[Array, Array]:
    """The strings' direction before and behind the saddle, as angles to the neck centre line, radians, + to the left:
    `start`, `saddle` and `tail` their y (..., n), `along` the way from the nut and `behind` that to the tail, mm.
    """
    return np.arctan2(saddle - start, along), np.arctan2(tail - saddle, behind)


def push(pull: Array, before: Array, after: Array, drop: Array) -> Array:
    """What the strings push the bridge with, + to the left (...,), N. `pull` (n,) N; angles (..., n) in radians."""
    return np.asarray((pull * (np.cos(drop) * np.sin(after) - np.sin(before))).sum(axis=-1))


def down(pull: Array, drop: Array) -> float:
    """What the strings press the bridge down with, N."""
    return float((pull * np.sin(drop)).sum())


def drops(under: float, behind: Array) -> Array:
    """How steeply each string breaks over the saddle, radians: `under` is how far it ends under a straightedge laid on
    it over the saddle, `behind` how far behind, mm.
    """
    return np.arctan2(under, behind)


def balanced(
    pull: Array, start: Array, saddle: Array, offsets: Array, behind: Array, along: Array, drop: Array, first: Array
) -> Array:
    """The y of the tail's middle (rows,) at which the pulls' push across the neck is nought; `offsets` (n,) are the
    strings' places from that middle, the others as above in all rows, `first` (rows,) where to begin.
    """
    middle = first

    def pushed(at: Array) -> Array:
        return push(pull, *sideways(start, saddle, at[:, None] + offsets, behind, along), drop)

    for _ in range(ROUNDS):
        here = pushed(middle)
        slope = (pushed(middle + NUDGE) - here) / NUDGE
        middle = middle - here / np.where(np.abs(slope) > 1e-12, slope, np.inf)
    return middle
