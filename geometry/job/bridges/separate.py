"""Separate saddles: one a string, each on a base that is screwed down and along which it travels."""

import msgspec

from geometry.job.checks import length_between
from geometry.units import Length


class Separate(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`travel` is how far a saddle's break point can be moved on its base, from its foremost place to its rearmost."""

    travel: Length = 12.0

    def __post_init__(self) -> None:
        length_between("The saddles' travel", self.travel, 0.5, 60)
