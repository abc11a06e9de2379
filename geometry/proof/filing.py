"""What can still be put right on a saddle that is cut too near or too far: its ridge is filed forward or back.

The **ridge** can stand anywhere in the saddle's thickness but for a **wall** at its front and at its back, which keeps
it from crumbling.
"""

from typing import NamedTuple

from geometry.job import Saddle
from geometry.units import mm

WALL = 0.5
"""The least from a saddle's face to its ridge, mm (common practice, no source)."""
THICKNESSES = (3.0, 4.0, 6.0)
"""The saddles that are made, mm (common practice, no source)."""


class Room(NamedTuple):
    """How far a ridge can be moved by filing, mm: toward the nut, and toward the tail; never less than 0."""

    forward: float
    back: float

    @property
    def both(self) -> float:
        """How far it can be moved whichever way is wanted."""
        return min(self.forward, self.back)


def room(thickness: float, peak: float) -> Room:
    """Of a saddle so thick (mm) whose ridge stands at `peak`, from 0 (front) to 1 (back) of its thickness."""
    return Room(max(peak * thickness - WALL, 0.0), max((1 - peak) * thickness - WALL, 0.0))


def takes_up(saddle: Saddle) -> float:
    """How wide a ± the saddle's ridge takes up by filing, mm."""
    return room(mm(saddle.thickness), saddle.peak_at).both


def thick_enough(pm95: float, saddle: Saddle, spread: float = 0.0) -> float | None:
    """The thinnest usual saddle, thicker than this one, that takes up a ± (mm), or None. Its ridge stands at most
    `spread` (mm) from its saddle line.
    """
    thicker = (t for t in THICKNESSES if t > mm(saddle.thickness) and spread_room(t, saddle.peak_at, spread) >= pm95)
    return next(thicker, None)


def spread_room(thickness: float, peak: float, spread: float) -> float:
    """How far a ridge can be moved whichever way is wanted that stands so far (mm) from the saddle line, before or
    behind it, which lies at `peak` of the thickness.
    """
    return max(room(thickness, peak).both - spread, 0.0)
