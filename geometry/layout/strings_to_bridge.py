"""Strings, saddle and bridge as they are worked out."""

from typing import Literal

import msgspec

from geometry.layout.record import XY, Record, Vertex
from geometry.layout.tie_plan import TiePlan


class StringPlan(Record, frozen=True):
    """One string from nut to break point. `cents` maps a fret to what stays out of tune there, in cents.

    `nut_xy` is where it leaves the nut: on the nut's front, or `nut_compensation` behind it (before it, if negative);
    of a string that starts at a fret (`starts_at`, 0 for the nut), where it leaves its own small nut there; `length`
    and `nominal` are from there. A string that is not `fretted` is a drone. `end` is where it ends in the bridge.
    `compensation_from`: "typed", "worked out", "by ear", "common practice" or "drone".
    `tension_n` and `cents` are empty where the string's make is not known. `compensation_pm95` is in mm. `peak` is
    where the saddle peaks under the string, from 0 (front) to 1 (back of its thickness). `estimated` names what of it
    was not known.
    """

    name: str
    course: int
    diameter: float | None
    nut_xy: XY
    break_point: XY
    end: XY
    length: float
    nominal: float
    compensation: float
    nut_compensation: float
    compensation_from: str
    compensation_pm95: float = 0.0
    tension_n: float | None = None
    cents: dict[int, float] = msgspec.field(default_factory=dict)
    cents_before: dict[int, float] = msgspec.field(default_factory=dict)
    peak: float = 0.5
    estimated: tuple[str, ...] = ()
    starts_at: int = 0
    fretted: bool = True


Source = Literal["board", "frets", "strings"]
"""Where a part of the saddle's ± comes from."""


class Contribution(Record, frozen=True):
    """What one link of the chain that leads to the saddle contributes to its variance, at [left, right]: its `share` of
    the whole, and the ± of the saddle as it would be by this link and those before it, all else being exact. There
    is no chain while accused readings widen the saddle's ±.
    """

    source: Source
    share: XY
    pm95: XY


class SaddlePiece(Record, frozen=True):
    """One piece of a saddle and its slot. `strings` are the names of its strings, in list order; `line`, `front` and
    `slot` are as the whole saddle's. `at_strings` are its line at its outermost strings, left first, with the `pm95` of
    their distance from the nut; `slant` is how much farther its bass string's place stands than its treble one's, mm.
    """

    strings: tuple[str, ...]
    line: tuple[XY, XY]
    at_strings: tuple[XY, XY]
    pm95: tuple[float, float]
    front: tuple[XY, XY]
    slot: tuple[XY, XY, XY, XY]
    slant: float


class SaddleStep(Record, frozen=True):
    """A step of a saddle that is filed in steps: its strings, where it peaks in the thickness (0 front, 1 back), its
    crest from left to right, and how wide it is along the slot, mm.
    """

    strings: tuple[str, ...]
    peak: float
    crest: tuple[XY, XY]
    width: float


class BySheet(Record, frozen=True):
    """How well a sheet puts the saddle where it belongs that is laid to the board's end: its ± along the neck at the
    outer strings [left, right], whether a gross error in a reading that it hangs on would show, and which of those that
    are accused it hangs on. Where the board's end was not read the sheet is laid to the nut.
    """

    pm95: tuple[float, float]
    checked: bool
    waits_for: tuple[str, ...] = ()


class SaddlePlan(Record, frozen=True):
    """The saddle line where it belongs, and the slot as it will be cut or as it is.

    `line` is the saddle line over the slot's length, left end first; `at_strings` its two points at the outer strings,
    and `from_nut` how far these lie from the nut's front along the neck, mm: what `pm95` is of.
    `front` is the slot's front edge, `slot` its four corners counter-clockwise from the front left. `slant` is how much
    farther the longer side stands at the outer strings, along the neck centre line. `left_over` says for a slot that
    cannot follow the line how far it stands behind (+) or in front at [left, right], and in cents. `opposite` is the
    line at the outer strings if bass and treble were exchanged on these frets, left end first: to lay over and compare.
    `pieces` are what it is made of, in the strings' order: one, or several. Of several, `line` is the straight line
    through where the outer strings' pieces lie under them, and `front` and `slot` run from the outermost slot's left
    end to the outermost's right end; what is cut are the pieces' slots. `steps` is empty but for a stepped saddle.
    `waits_for`: the accused readings that it hangs on; it is not settled until they are read again; its ± is then wider
    than what the `chain` tells. `by_sheet` is how well a sheet puts it there. `wrong_way`: what leans the wrong way for
    the hand, the slot as it is cut, or the saddle as it was typed.
    """

    line: tuple[XY, XY]
    at_strings: tuple[XY, XY]
    from_nut: XY
    opposite: tuple[XY, XY]
    front: tuple[XY, XY]
    slot: tuple[XY, XY, XY, XY]
    slant: float
    slant_pm95: float
    longer: Literal["bass", "treble", "neither"]
    pm95: tuple[float, float]
    cents95: tuple[float, float]
    checked: bool
    by_sheet: BySheet
    waits_for: tuple[str, ...] = ()
    wrong_way: tuple[Literal["slot", "saddle"], ...] = ()
    chain: tuple[Contribution, ...] = ()
    left_over: tuple[float, float] = (0.0, 0.0)
    left_over_cents: tuple[float, float] = (0.0, 0.0)
    pieces: tuple[SaddlePiece, ...] = ()
    steps: tuple[SaddleStep, ...] = ()

    @property
    def tune95(self) -> tuple[float, float]:
        """What is told of the tune at [left, right], cents at fret 12: those of the ± with which a sheet puts it there.
        Strip, card and pages all tell these, and beside them that ± (`by_sheet`) and no other.
        """
        left, right = (
            cents * sheet / own if own else cents
            for cents, own, sheet in zip(self.cents95, self.pm95, self.by_sheet.pm95, strict=True)
        )
        return left, right

    @property
    def slots(self) -> tuple[tuple[XY, XY, XY, XY], ...]:
        """All slots that are cut."""
        return tuple(piece.slot for piece in self.pieces) if len(self.pieces) > 1 else (self.slot,)

    @property
    def lines(self) -> tuple[tuple[XY, XY], ...]:
        """The saddle lines of the slots that are cut."""
        return tuple(piece.line for piece in self.pieces) if len(self.pieces) > 1 else (self.line,)


class Hole(Record, frozen=True):
    """A round hole: its name, centre and diameter. `assumed`: nobody read it, it stands evenly between two others."""

    name: str
    at: XY
    diameter: float
    assumed: bool = False


class BridgePlan(Record, frozen=True):
    """The bridge as seated. `outline` is closed and runs counter-clockwise; `corners` are front left, front right,
    back right, back left of the wings. `turn` is its angle to square (radians, counter-clockwise).
    `wood` holds the least wood in mm: "front", "between", "behind", and "holes" from one pin hole to the next;
    `wood_at` the strings at whose holes that is, for the places where not most of them are alike. `corners_pm95` and
    `pins_pm95` are the ± of each corner and of each pin hole's centre: along the neck, and across it from the middle
    between the edge lines carried on; `across_checked`: a gross error would show across it.
    """

    outline: tuple[Vertex, ...]
    corners: tuple[XY, XY, XY, XY]
    pins: tuple[Hole, ...]
    turn: float
    front_pm95: tuple[float, float]
    wood: dict[str, float] = msgspec.field(default_factory=dict)
    wood_at: dict[str, tuple[str, ...]] = msgspec.field(default_factory=dict)
    corners_pm95: tuple[XY, ...] = ()
    pins_pm95: tuple[XY, ...] = ()
    tie: TiePlan | None = None
    across_checked: bool = True
