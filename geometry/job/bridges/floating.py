"""A floating bridge: it stands on the top and is held by the strings alone."""

import msgspec

from geometry.job.checks import length_between
from geometry.units import Length


class Floating(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`length` is across the top, from foot end to foot end; `width` front to back at its feet."""

    length: Length = 120.0
    width: Length = 12.0

    def __post_init__(self) -> None:
        length_between("The floating bridge's length", self.length, 20, 300)
        length_between("The floating bridge's width", self.width, 2, 60)
