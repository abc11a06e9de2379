"""The fingerboard: which edge was read, and which line is called the neck centre line."""

from typing import Literal

import msgspec

Centre = Literal["bisector", "nut to fret 12", "midpoints", "threads"]


class Board(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`edge`: on a bound board, whether the inside or the outside of the binding was read.

    `centre`: the neck centre line is the edge lines' bisector, that of the edges from nut to fret 12 alone (where the
    board turns there), runs through the nut's and the board end's midpoints, or as two outer-string threads lie (points
    `thread.left.nut`, `thread.left.end`, and right alike); None while nobody chose, and then it is the bisector.
    `end`: whether the board's end has true corners a notch can sit against, or is rounded, raised over the top,
    undercut or flush with it.
    """

    edge: Literal["outside", "inside"] = "outside"
    centre: Centre | None = None
    zero_fret: bool = False
    end: Literal["corners", "rounded", "raised", "undercut", "flush"] = "corners"

    @property
    def line(self) -> Centre:
        """The neck centre line that is in force."""
        return self.centre or "bisector"
