"""A tie block: a bar behind the slot, through which the strings are drawn and round which they are tied."""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between
from geometry.units import Length, in_its_unit, mm, with_unit


class TieBlock(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The block's front face lies `behind_slot` behind the slot's back edge, in the slot's middle; it is `depth` from
    front to back, and its top `height` over the bridge's bottom. `length` is along the bridge; None for the outer
    holes and 8 mm on either side.

    The hole that a string leaves the block from lies on the string's path, its middle `hole` over the bridge's
    bottom or under the block's top. The second of two holes a string lies `spacing` beside it, toward the bass, and
    `below` it by so much (0: level).
    """

    behind_slot: Length = 8.0
    depth: Length = 9.0
    height: Length = 8.5
    length: Length | None = None
    holes: Literal[1, 2] = 1
    hole: Length = 4.5
    hole_from: Literal["bottom", "top"] = "bottom"
    diameter: Length = 1.8
    spacing: Length = 4.0
    below: Length = 0.0

    def __post_init__(self) -> None:
        length_between("The tie block behind the slot", self.behind_slot, 1, 60)
        length_between("The tie block’s depth", self.depth, 2, 60)
        length_between("The tie block’s height over the bridge’s bottom", self.height, 2, 40)
        length_between("The tie block’s length", self.length, 10, 300)
        length_between("The tie holes’ height", self.hole, 0.5, 40)
        length_between("The tie holes’ diameter", self.diameter, 0.5, 6)
        length_between("The two tie holes of a string, middle to middle,", self.spacing, 1, 20)
        length_between("The second tie hole below the first", self.below, 0, 20)
        if self.holes not in (1, 2):
            raise NotAJob(f"A string has {self.holes} tie holes; it can have 1 or 2: choose one of these")
        lowest = self.over_bottom - (mm(self.below) if self.holes == 2 else 0.0)
        if lowest <= 0 or self.over_bottom >= mm(self.height):
            low, high = (in_its_unit(over, self.hole, self.height) for over in (lowest, self.over_bottom))
            raise NotAJob(
                f"The tie holes’ middles would lie {low} to {high} over the bridge’s bottom, outside the block, which "
                f"is {with_unit(self.height)} high; look at their height and the block’s"
            )

    @property
    def over_bottom(self) -> float:
        """The middles of the holes that strings leave by over the bridge's bottom, mm."""
        given = mm(self.hole)
        return given if self.hole_from == "bottom" else mm(self.height) - given
