"""A floating bridge and a tailpiece as they are worked out."""

from typing import Literal

from geometry.layout.blanks import SaddleBlank
from geometry.layout.record import XY, Record
from geometry.layout.strings_to_bridge import Hole

FootName = Literal["bass", "treble", "middle", "whole"]


LEAST_TURN = 0.05
"""Degrees. Less is told as 0.0."""


class FootPlan(Record, frozen=True):
    """Where one foot touches the top: its corners, front left, front right, back right, back left. `whole`: the bridge
    stands all along.
    """

    name: FootName
    corners: tuple[XY, XY, XY, XY]


class Slide(Record, frozen=True):
    """How far the bridge is to go from where it stands today, or stood by an old mark: `along` the neck at its [left,
    right] front corner (+ to the tail), `across` (+ to the left), and its `turn` in degrees (+ counter-clockwise), each
    with its ±.
    """

    along: tuple[float, float]
    along_pm95: tuple[float, float]
    across: float
    across_pm95: float
    turn: float
    turn_pm95: float
    corners: tuple[XY, XY]


class FloatingPlan(Record, frozen=True):
    """Where a floating bridge is set to begin with, and how far it may be moved from there to tune it.

    `crown` is the line the strings break on, over the crown's length, left end first. `window` is the ± of the outer
    front corners along the neck at [left, right]; `turn_pm95` that of its turn in degrees, and `feet_pm95` the same in
    mm at its outer feet. `cents_per_mm` maps a string to what sliding the bridge by 1 mm to the tail does to its note
    at its octave against the open string, in cents; drones left out. `thicker` (mm) is the thinnest crown that
    would carry all strings where this one does not. `today` is how far it is to go from where it stands;
    `marks` the old feet's marks.
    `heights` is the crown as a solid, over the top; None where its height is not known at both sides.
    """

    feet: tuple[FootPlan, ...]
    crown: tuple[XY, XY]
    window: tuple[float, float]
    turn_pm95: float
    feet_pm95: float
    cents_per_mm: dict[str, float]
    thicker: float | None = None
    today: Slide | None = None
    marks: tuple[tuple[XY, ...], ...] = ()
    heights: SaddleBlank | None = None

    @property
    def turns(self) -> bool:
        """Whether its turn has a ± worth telling: one that is to stand square, or under one string, has none."""
        return self.turn_pm95 >= LEAST_TURN


class TailString(Record, frozen=True):
    """One string at the tail: where it ends, how far it turns sideways at the saddle (degrees, + to the left), and how
    steeply it `breaks` over it, ± `breaks_pm95` (degrees; None while its height is not known).
    """

    name: str
    at: XY
    sideways: float
    breaks: float | None = None
    breaks_pm95: float = 0.0


class TailPlan(Record, frozen=True):
    """The tail. `middle` is where its middle must be for the strings to run true, and `across_pm95` its ± across the
    neck; `by` says whether the strings' pulls are balanced there, or only their middle carried on. `measured` is where
    the middle stands, `off` (mm, + to the left) how far that lies beside, ± `off_pm95`; `strings` run to the tail as it
    was measured, else as it must be, and `straight_on` where their spread there is not given. `push` is what they push
    the bridge sideways with, N (+ to the left), ± `push_pm95`, and `down` what they press it down with; None where no
    pull or height is known. `pin` is the strap pin's place, and `pin_pm95` how well its distance from the nearest point
    of the body's end is known.
    """

    middle: XY
    across_pm95: float
    by: Literal["pulls", "middle"]
    strings: tuple[TailString, ...]
    straight_on: bool = False
    measured: XY | None = None
    off: float | None = None
    off_pm95: float = 0.0
    push: float | None = None
    push_pm95: float = 0.0
    down: float | None = None
    screws: tuple[Hole, ...] = ()
    pin: Hole | None = None
    pin_pm95: float = 0.0
