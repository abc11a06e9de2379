"""Where a point is read that its name alone does not place to a hair: which corner of a foot, which spot of a hole."""

from geometry.job import Reading

FOOT = "The foot’s front corner: of the outer foot the outer corner on the edge toward the nut."
"""Where a bridge that stands is read."""
TAIL = "The tail is read where the outer string leaves the tailpiece."
"""Where the tail is read by the strings."""
TAIL_MIDDLE = "The tail’s middle is midway between where the outer strings leave the tailpiece."
"""Where the tail is read by its middle alone."""
HOLE = "An old hole is read at its middle: halfway between its near and its far rim."
"""Where a hole is read that the reading takes as a point."""
_HOLES = ("pin", "hole", "post", "screw")
"""Families of points that are the middles of round holes."""


def is_hole(name: str) -> bool:
    """Whether a point is the middle of an old hole, which cannot be seen: a pin's, a post's, a screw's, or another."""
    first, *rest = name.split(".")
    return first in _HOLES and bool(rest)


def where_point(name: str) -> str:
    """Where a point is read, in a sentence; empty where its name says all."""
    first, *rest = name.split(".")
    if not rest or first not in ("foot", "tail"):
        return HOLE if is_hole(name) else ""
    return FOOT if first == "foot" else TAIL_MIDDLE if rest == ["middle"] else TAIL


def where_read(reading: Reading) -> tuple[str, ...]:
    """The same of all points that a reading is taken to or from, each sentence once. A hole whose rims it reads needs
    none.
    """
    names = reading.of[:1] if reading.kind == "rims" else reading.of
    told = dict.fromkeys(where_point(name) for name in (*names, *reading.from_))
    if reading.kind in ("inline", "at"):  # looked at or traced
        told.pop(HOLE, None)
    return tuple(filter(None, told))
