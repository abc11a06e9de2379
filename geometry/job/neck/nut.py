"""The nut: its blank, where its slots lie between the board's edges, and how deep they are cut."""

from typing import Literal

import msgspec

from geometry.job.checks import length_between, number_between
from geometry.job.stringing import HIGHEST_ACTION
from geometry.units import Length


class Nut(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`thickness` is along the strings. `height` is the whole blank's, from its bottom; `bed` how far the board's face,
    at its edges, stands over the nut's bottom: one length, or at [left, right].

    `margins` are from the board's edge to the outer string's middle at [left, right], in place of a spread at the nut,
    and `spacing` shares out what lies between. A slot is as wide as its string and `clearance`. Its bottom follows from
    `fret_height`, fret tops over the board's face, and from `over_fret1`, the height wanted over fret 1 at [left,
    right]; None: as it is now. To the headstock it falls away by `back_angle` degrees. Behind a zero fret the slots
    only guide: their bottoms lie `below_fret` under that fret's top.
    """

    thickness: Length = 5.0
    height: Length | None = None
    bed: Length | tuple[Length | None, Length | None] | None = None
    fret_height: Length | None = None
    over_fret1: tuple[Length | None, Length | None] = (None, None)
    margins: tuple[Length, Length] | None = None
    spacing: Literal["gaps", "centres"] = "gaps"
    clearance: Length = 0.1
    back_angle: float = 8.0
    below_fret: Length = 0.5

    def __post_init__(self) -> None:
        length_between("The nut’s thickness", self.thickness, 1, 20)
        length_between("The nut’s height", self.height, 2, 30)
        for bed in self.beds:
            length_between("The board’s face over the nut’s bottom", bed, 0, 20)
        length_between("The frets’ height", self.fret_height, 0.2, 3)
        for side, wanted in zip(("left", "right"), self.over_fret1, strict=True):
            length_between(f"The height wanted over fret 1, {side},", wanted, 0, HIGHEST_ACTION["fret 1"])
        for side, margin in zip(("left", "right"), self.margins or (), strict=False):
            length_between(f"The margin at the nut, {side},", margin, 0.5, 30)
        length_between("The slots’ clearance", self.clearance, 0, 1)
        number_between("The slots’ angle to the headstock", self.back_angle, 0, 45)
        length_between("The slots under the zero fret’s top", self.below_fret, 0, 3)

    @property
    def beds(self) -> tuple[Length | None, Length | None]:
        """At [left, right]."""
        return self.bed if isinstance(self.bed, tuple) else (self.bed, self.bed)
