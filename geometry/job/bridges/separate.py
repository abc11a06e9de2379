"""Separate saddles: one a string, each on a base that is screwed down and along which it travels.

The **base** carries all saddles, or there is one base a string. A saddle's **travel** runs along its base, from its
foremost break point to its rearmost. **Through holes** let the strings through the body, to **ferrules** in its back.
"""

from itertools import combinations
from typing import Literal

import msgspec

from geometry.job.checks import NotAJob, length_between, no_repeats
from geometry.units import Length, in_its_unit, mm, with_unit

ROUNDING = 1e-9
"""mm. Lengths that are added up differ by less from their sum as typed."""
MOST_SCREWS, MOST_SADDLES = 24, 24
"""No base has more (common practice, no source)."""
Bases = Literal["one", "one a string"]
Set = Literal["square", "saddle line", "most reach", "along string"]
SETS: dict[Bases, tuple[Set, ...]] = {
    "one": ("square", "saddle line", "most reach"),
    "one a string": ("square", "along string"),
}
"""How each kind of base can be set."""


class Through(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Strings through the body: holes of a `diameter` on the face, their middles `behind` the base's front edge or the
    foremost break point; at the back the hole for a ferrule and how deep it goes. None: no ferrules.
    """

    behind: Length = 28.0
    from_: Literal["base front", "foremost"] = msgspec.field(name="from", default="base front")
    diameter: Length = 3.5
    ferrule: Length | None = 8.0
    ferrule_deep: Length = 12.0

    def __post_init__(self) -> None:
        length_between("The through holes’ place behind", self.behind, 0, 150)
        length_between("The through holes’ diameter", self.diameter, 1, 12)
        length_between("The ferrules’ hole", self.ferrule, 2, 20)
        length_between("The ferrules’ depth", self.ferrule_deep, 0.5, 60)
        if self.ferrule is not None and mm(self.ferrule) < mm(self.diameter):
            raise NotAJob(
                f"The ferrules’ hole of {with_unit(self.ferrule)} is narrower than the through holes of "
                f"{with_unit(self.diameter)}; look at both"
            )


class Separate(
    msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, cache_hash=True
):
    """`travel` is how far a saddle's break point can be moved on its base, from its foremost place to its rearmost;
    `foremost` how far the foremost lies behind the base's front edge. `length` is the base's along the strings, `width`
    across them, `thickness` where the strings come up through it. `screws`: each screw hole [behind the front edge,
    across from the base's middle, + to the left], drilled with `screw`. `set`: one base square to the neck centre line,
    along the saddle line, or at the slant that leaves the most reach; one a string square too, or along its string.
    `saddles`: how many there are, None: one a string. `opening`: points round a pickup's opening or a cavity near it.
    """

    bases: Bases = "one"
    saddles: int | None = None
    travel: Length = 12.0
    foremost: Length = 8.0
    length: Length = 44.0
    width: Length = 80.0
    thickness: Length | None = None
    set: Set = "square"
    screws: tuple[tuple[Length, Length], ...] = ()
    screw: Length = 2.5
    through: Through | None = None
    body: Length | None = None
    opening: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        length_between("The saddles’ travel", self.travel, 0, 60)
        length_between("The foremost break point behind the base’s front", self.foremost, 0, 80)
        length_between("The base’s length", self.length, 5, 200)
        length_between("The base’s width", self.width, 4, 200)
        length_between("The base’s thickness", self.thickness, 0.5, 30)
        length_between("The screws’ pilot hole", self.screw, 0.8, 8)
        length_between("The body’s thickness", self.body, 5, 120)
        if self.saddles is not None and not 1 <= self.saddles <= MOST_SADDLES:
            raise NotAJob(f"There are {self.saddles} saddles, but must be 1 to {MOST_SADDLES}; count again")
        if self.set not in SETS[self.bases]:
            which = "one base" if self.bases == "one" else "one base a string"
            raise NotAJob(
                f"The base is to be set “{self.set}”, but {which} can be set "
                f"“{'”, “'.join(SETS[self.bases])}”; choose one of these"
            )
        self._check_fits()
        no_repeats("Round the opening, the point", self.opening)
        if self.opening and len(self.opening) < 3:
            raise NotAJob(f"An opening needs three points or more round it, but has {len(self.opening)}; read another")

    def _check_fits(self) -> None:
        """Break points and screw holes lie on the base, and no screw hole runs into another."""
        long, wide, hole = mm(self.length), mm(self.width), mm(self.screw)
        if (rearmost := mm(self.foremost) + mm(self.travel)) > long + ROUNDING:
            raise NotAJob(
                f"The rearmost break point would lie {in_its_unit(rearmost, self.travel, self.foremost)} behind the "
                f"base’s front, but the base is {with_unit(self.length)} long; look at the travel, the foremost "
                "place and the length"
            )
        if len(self.screws) > MOST_SCREWS:
            raise NotAJob(
                f"The base has {len(self.screws)} screw holes, but must have {MOST_SCREWS} at most; leave some out"
            )
        for number, (behind, across) in enumerate(self.screws, 1):
            length_between(f"Screw hole {number} behind the base’s front", behind, 0, long)
            length_between(f"Screw hole {number} across from the base’s middle", across, -wide / 2, wide / 2)
        at_hand = [*(length for screw in self.screws for length in screw), self.screw]
        at = [complex(mm(behind), mm(across)) for behind, across in self.screws]
        for (i, one), (j, other) in combinations(enumerate(at, 1), 2):
            if abs(one - other) < hole:
                apart = in_its_unit(abs(one - other), *at_hand)
                raise NotAJob(
                    f"Screw holes {i} and {j} of the base lie {apart} apart and would run into each other; look at both"
                )
        if self.through is None or self.body is None or self.through.ferrule is None:
            return
        if mm(self.through.ferrule_deep) >= mm(self.body):
            raise NotAJob(
                f"The ferrules’ holes of {with_unit(self.through.ferrule_deep)} go through the body of "
                f"{with_unit(self.body)}; look at both"
            )
