"""What is said of the frets besides the readings."""

from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between, number_between
from geometry.units import Length

Spacing = Literal["equal", "eighteen", "measured"]
SCALES = (200.0, 1500.0)
"""mm; no fretted instrument's scale is shorter or longer (common practice, no source)."""


class Scales(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The scales of slanted frets along the outer strings, left and right; None for one that is not declared yet."""

    left: Length | None = None
    right: Length | None = None

    def __post_init__(self) -> None:
        for side in ("left", "right"):
            length_between("The scale at an outer string", getattr(self, side), *SCALES)


class Frets(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`spacing`: equal tempered, the rule of eighteen, or as measured. `scale`: given instead of read.

    `nominal`: the nominal place by octave (twice nut to fret 12) or by best fit over the fretted notes. `slanted`: the
    frets are slanted on purpose, so that each outer string has a scale of its own; `scales` are those that were
    declared, and `square_fret` the fret that is square to the neck centre line, 0 for the nut.
    """

    count: int = 20
    spacing: Spacing = "equal"
    nominal: Literal["octave", "best"] = "octave"
    scale: Length | None = None
    slanted: bool = False
    scales: Scales | None = None
    square_fret: int | None = None

    def __post_init__(self) -> None:
        number_between("The number of frets", self.count, 1, 36)
        length_between("The scale", self.scale, *SCALES)
        number_between("The fret that is square", self.square_fret, 0, 36)
        if not self.slanted and (self.scales is not None or self.square_fret is not None):
            what = "Scales at both sides are" if self.scales is not None else "A square fret is"
            raise NotAJob(f"{what} declared, and the frets are not said to be slanted; say so, or leave it out")
        if self.square_fret is not None and self.square_fret > self.count:
            raise NotAJob(
                f"Fret {self.square_fret} is said to be square, and the board has {self.count} frets; look at both "
                "numbers"
            )

    def declared(self, side: str) -> Length | None:
        """The scale that was declared at the left or the right outer string."""
        found: Length | None = None if self.scales is None else getattr(self.scales, side)
        return found
