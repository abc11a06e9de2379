"""The fingerboard: which edge was read, which line is called the neck centre line, and how round its face is.

The face's **radius** is typed, or follows from an **arch**: how far a chord of known length stands off the face.
"""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between
from geometry.units import Length, mm, with_unit

RADII = (30.0, 5000.0)
"""The least and the greatest radius of a board's face, mm; a flatter one is called flat (common practice, no
source)."""
Centre = Literal["bisector", "nut to fret 12", "midpoints", "threads"]


class Arch(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A rule's straight edge of known length laid square across the board: its `chord`, the gap at its two ends, made
    alike, its `rise`, and how surely that was read, ± `within`.
    """

    chord: Length
    rise: Length
    within: Length = 0.1

    def __post_init__(self) -> None:
        length_between("The chord across the board", self.chord, 10, 150)
        length_between("The board’s rise over its chord", self.rise, 0.02, 60)
        length_between("How surely the board’s rise was read", self.within, 0.005, 2)
        if mm(self.rise) > mm(self.chord) / 2:
            raise NotAJob(
                f"A rise of {with_unit(self.rise)} over a chord of {with_unit(self.chord)} is more than half a circle; "
                "look at both"
            )


class Board(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`edge`: on a bound board, whether the inside or the outside of the binding was read.

    `centre`: the neck centre line is the edge lines' bisector, that of the edges from nut to fret 12 alone (where the
    board turns there), runs through the nut's and the board end's midpoints, or as two outer-string threads lie (points
    `thread.left.nut`, `thread.left.end`, and right alike); None while nobody chose, and then it is the bisector.
    `end`: whether the board's end has true corners a notch can sit against, or is rounded, raised over the top,
    undercut or flush with it.
    `radius` of its face: one length, or at [nut, board's end] of a compound board; or read as an `arch`, one for the
    whole board or two, at the nut and at the board's end. None and no arch: flat, or not told.
    """

    edge: Literal["outside", "inside"] = "outside"
    centre: Centre | None = None
    zero_fret: bool = False
    end: Literal["corners", "rounded", "raised", "undercut", "flush"] = "corners"
    radius: Length | tuple[Length, Length] | None = None
    arch: tuple[Arch, ...] = ()

    def __post_init__(self) -> None:
        for radius in self.radii:
            length_between("The board’s radius", radius, *RADII)
        if len(self.arch) > 2:
            raise NotAJob(
                f"The board’s arch was read at {len(self.arch)} places; give one, or two: at the nut and at its end"
            )
        if self.arch and self.radius is not None:
            raise NotAJob("The board has a radius and an arch that was read; keep one of them")

    @property
    def radii(self) -> tuple[Length, ...]:
        """The radius as typed: one, two of a compound board, or none."""
        if self.radius is None:
            return ()
        return self.radius if isinstance(self.radius, tuple) else (self.radius,)

    @property
    def line(self) -> Centre:
        """The neck centre line that is in force."""
        return self.centre or "bisector"
