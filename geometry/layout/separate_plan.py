"""Separate saddles as they are worked out: the places they reach, their bases, and the holes these need."""

from collections.abc import Sequence
from typing import Literal

from geometry.layout.old_plan import Gap
from geometry.layout.record import XY, Record
from geometry.layout.strings_to_bridge import Hole

Reached = Literal["reached", "thin", "unsure", "out"]
"""A string's place with its ± lies within the travel; a part of the ± does not; the place itself does not, but may;
nor does any part of its ±."""


class SaddleReach(Record, frozen=True):
    """One string's saddle: the place `wanted` with its ± along the travel, the travel's ends `foremost` and `rearmost`,
    and what is left `ahead` of the place and `behind` it, mm (less than 0: so much is lacking). `cents`: what a mm of
    travel does at its `octave`, a fret in words; None for a drone, which nothing stops.
    """

    string: str
    wanted: XY
    pm95: float
    foremost: XY
    rearmost: XY
    ahead: float
    behind: float
    cents: float | None
    octave: str
    reached: Reached

    @property
    def least(self) -> float:
        """The reach that is left at the nearer end, mm."""
        return min(self.ahead, self.behind)

    def costs(self, off: float) -> float | None:
        """What so many mm of travel come to, in cents at its octave."""
        return None if self.cents is None else off * self.cents


def worst_of(saddles: Sequence[SaddleReach]) -> SaddleReach:
    """The saddle with the least reach beyond its ±; of those that are alike, as a base that is set well leaves several,
    the one with the least reach.
    """
    return min(saddles, key=lambda one: (round(one.least - one.pm95, 6), round(one.least, 6)))


class BasePlan(Record, frozen=True):
    """A base where it belongs: its corners front left, front right, back right, back left with their ± along the neck
    and across it, its angle to square (radians, counter-clockwise), and the screw holes with theirs. `strings`: those
    whose saddles it carries.
    """

    strings: tuple[str, ...]
    corners: tuple[XY, XY, XY, XY]
    corners_pm95: tuple[XY, ...]
    turn: float
    screws: tuple[Hole, ...] = ()
    screws_pm95: tuple[XY, ...] = ()


class Slanted(Record, frozen=True):
    """How the one base would have to be set to leave the most reach: its `turn` (radians, counter-clockwise), the reach
    left beyond its ± at the string that has the least, and the travel that would just do, all mm.
    """

    turn: float
    left: float
    travel: float


class SeparatePlan(Record, frozen=True):
    """All saddles, in the strings' order. `left`: the reach beyond its ± of the string that has the least; `travel`:
    what would just do as the base is set; `best`: how it would be at the slant that leaves the most. `through`: a hole
    a string with its ± along and across; `walls`: the wood between two holes, thin or not, the thinnest first;
    `used_again`: old holes that a screw takes. `over`: how far base and holes lie from an opening that was measured
    (less than 0: inside it). `degrees`: how steeply the outer strings [bass, treble] break over their saddles, with
    the ±, where that is known.
    """

    saddles: tuple[SaddleReach, ...]
    bases: tuple[BasePlan, ...]
    left: float
    travel: float
    best: Slanted | None = None
    through: tuple[Hole, ...] = ()
    through_pm95: tuple[XY, ...] = ()
    walls: tuple[Gap, ...] = ()
    used_again: tuple[str, ...] = ()
    opening: tuple[XY, ...] = ()
    over: tuple[Gap, ...] = ()
    degrees: tuple[tuple[float, float] | None, tuple[float, float] | None] = (None, None)
    across_checked: bool = True

    @property
    def least(self) -> SaddleReach:
        """The saddle with the least reach beyond its ±."""
        return worst_of(self.saddles)

    @property
    def corners(self) -> tuple[XY, ...]:
        """The corners of all bases."""
        return tuple(at for base in self.bases for at in base.corners)
