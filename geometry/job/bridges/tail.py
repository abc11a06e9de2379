"""A tailpiece, where the strings run on behind the bridge; and the strap pin at the body's end.

The **tail** is where the strings end behind the bridge; its **middle** lies midway between the outer strings there.
It is read as the points `tail.left` and `tail.right`, or `tail.middle` alone.
"""

import math
from itertools import combinations

import msgspec

from geometry.job.checks import NotAJob, length_between
from geometry.units import Length, in_its_unit, mm, with_unit

READ = ("tail.left", "tail.right", "tail.middle")
"""The points that tell where the tail stands."""
MOST_SCREWS = 12


class Tail(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """`behind`: from the saddle line back to where the strings end, along the neck, where that is not read as points.

    `spread`: the outer strings there, centre to centre; None where they run straight on from the saddle. `under`: how
    far they end under a straightedge laid on the strings over the saddle. `screws`: holes of the tailpiece,
    [x, y]: x behind the place where the strings end, y to the left of its middle; `screw` their diameter. `pin`: a
    strap pin is to stand where the strings' middle meets the body's end; `pin_hole` its hole.
    """

    behind: Length | None = None
    spread: Length | None = None
    under: Length | None = None
    screws: tuple[tuple[Length, Length], ...] = ()
    screw: Length = 2.5
    pin: bool = False
    pin_hole: Length = 6.0

    def __post_init__(self) -> None:
        if isinstance(self.behind, (int, float)) and self.behind < 0:
            raise NotAJob(
                f"The tail is {with_unit(self.behind)} behind the saddle, so in front of the bridge; a "
                "tailpiece stands behind it: give the distance without a minus sign"
            )
        length_between("The tail behind the saddle", self.behind, 5, 500)
        length_between("The outer strings’ spread at the tail", self.spread, 5, 200)
        length_between("The tail under the strings carried on", self.under, 0, 80)
        length_between("The diameter of the tailpiece’s screw holes", self.screw, 0.5, 8)
        length_between("The strap pin’s hole", self.pin_hole, 1, 20)
        if len(self.screws) > MOST_SCREWS:
            raise NotAJob(
                f"The tailpiece has {len(self.screws)} screw holes; {MOST_SCREWS} at most can be drawn, so "
                "leave some out"
            )
        for number, (x, y) in enumerate(self.screws, 1):
            length_between(f"Screw hole {number} of the tailpiece, behind the strings’ end,", x, -100, 200)
            length_between(f"Screw hole {number} of the tailpiece, beside its middle,", y, -100, 100)
        places = [(mm(x), mm(y)) for x, y in self.screws]
        for (i, one), (j, other) in combinations(enumerate(places, 1), 2):
            if (apart := math.dist(one, other)) < mm(self.screw):
                said = in_its_unit(apart, self.screw, self.behind)
                raise NotAJob(
                    f"Screw holes {i} and {j} of the tailpiece lie {said} apart and would run into each other; look at "
                    "both"
                )
