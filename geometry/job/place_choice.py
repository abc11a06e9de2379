"""The **choice of place**: how far the bridge may be moved from where the strings want it, and what counts for it."""

import msgspec

from geometry.job.checks import NotAJob, length_between, number_between
from geometry.units import Length


class Weights(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What counts, and how much: 0 counts for nothing. Each is for one cent out of `tune`, one mm by which the outer
    strings' `margins` differ, a hundred mm² of `scar`, one old hole that is not used again (`holes`), one mm that is
    lacking at braces, plate or metal (`clearance`), one mm that a wing stands askew to the seam (`looks`).
    """

    tune: float = 1.0
    margins: float = 1.0
    scar: float = 1.0
    holes: float = 0.5
    clearance: float = 2.0
    looks: float = 0.5

    def __post_init__(self) -> None:
        weights = {name: getattr(self, name) for name in self.__struct_fields__}
        for name, weight in weights.items():
            number_between(f"The weight of {name}", weight, 0, 1000)
        if not any(weights.values()):
            raise NotAJob("The weights of the choice are all 0, so nothing counts; give one of them more")


class Choosing(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The range either way: `along` and `across` the neck, a `turn` in degrees. A place that hides or spares something
    may be so many `cents` out of tune, one that stands square so far (`within`) from where the strings want it.
    """

    along: Length = 3.0
    across: Length = 2.0
    turn: float = 1.0
    cents: float = 2.0
    within: Length = 1.0
    weights: Weights = Weights()

    def __post_init__(self) -> None:
        length_between("The choice’s range along the neck", self.along, 0, 30)
        length_between("The choice’s range across the neck", self.across, 0, 15)
        number_between("The choice’s range of turn", self.turn, 0, 5)
        number_between("The choice’s cents", self.cents, 0, 50)
        length_between("The choice’s distance from where the strings want it", self.within, 0, 30)
