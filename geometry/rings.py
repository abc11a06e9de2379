"""Points that go round something in the order of their numbers: the body's edge, a sound hole."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from geometry.frame import Points, cross, following
from geometry.layout import XY


class Sides(NamedTuple):
    """Two sides of a closed outline that cross, by the corners at which they begin."""

    one: int
    other: int


def numbered(names: Iterable[str], kind: str) -> list[str]:
    """The names of one kind of point, `body.1` and so on, in the order of their numbers."""
    head = f"{kind}."
    found = [name for name in names if name.startswith(head) and name[len(head) :].isdecimal()]
    return sorted(found, key=lambda name: int(name[len(head) :]))


def middle(ring: Sequence[XY]) -> XY:
    """The mean of a ring's corners (mm)."""
    x, y = (sum(at[axis] for at in ring) / len(ring) for axis in (0, 1))
    return x, y


def sides_that_cross(ring: Points) -> Sides | None:
    """The first two sides of a closed outline (k,) that cross each other; None where none do.

    Sides cross where either has its ends on both sides of the other's line; those that only touch do not.
    """
    start, stop = ring, following(ring)
    along = (stop - start)[:, None]
    apart = cross(along, start - start[:, None]) * cross(along, stop - start[:, None]) < 0
    pairs = np.argwhere(np.triu(apart & apart.T, 1))
    return Sides(int(pairs[0, 0]), int(pairs[0, 1])) if len(pairs) else None
