"""What is said of the frets besides the readings."""

from typing import Literal

import msgspec

from geometry.job.checks import length_between, number_between
from geometry.units import Length

Spacing = Literal["equal", "eighteen", "measured"]
SCALES = (200.0, 1500.0)
"""mm; no fretted instrument's scale is shorter or longer (common practice, no source)."""


class Frets(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`spacing`: equal tempered, the rule of eighteen, or as measured. `scale`: given instead of read.

    `nominal`: the nominal place by octave (twice nut to fret 12) or by best fit over the fretted notes. `slanted`: the
    frets are slanted on purpose, so that each outer string has a scale of its own.
    """

    count: int = 20
    spacing: Spacing = "equal"
    nominal: Literal["octave", "best"] = "octave"
    scale: Length | None = None
    slanted: bool = False

    def __post_init__(self) -> None:
        number_between("The number of frets", self.count, 1, 36)
        length_between("The scale", self.scale, *SCALES)
