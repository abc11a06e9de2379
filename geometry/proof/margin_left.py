"""What lying off across means for the strings: what margin the one nearest an edge of the board keeps, with the bridge
where the distances have it.

Between nut and saddle a string goes aside in proportion to how far along it one looks.
"""

import math

from geometry.frets.fret_lines import twelfth
from geometry.job import Job
from geometry.job.sides import Side
from geometry.layout import Record, Where
from geometry.placed.margins import LEAST, OVER, find_gaps
from geometry.placed.place_everything import PlacedInstrument
from geometry.proof.where_it_stands import Pose


class MarginLeft(Record, frozen=True):
    """The outer string that is left the least margin, on its `side` at a `place`: `mm` to the board's edge ± `pm95`,
    where it `was` to be, and by how much the bridge has brought it nearer, mm at the saddle.
    """

    place: Where
    side: Side
    mm: float
    pm95: float
    was: float
    nearer: float

    @property
    def short(self) -> bool:
        """Whether it is less than is usual because of where the bridge is."""
        return self.mm < LEAST and (self.was >= LEAST or self.was - self.mm > self.pm95)

    @property
    def may_be_short(self) -> bool:
        """Whether it could be less than is usual within its ±, and was to be as much."""
        return self.was >= LEAST > self.mm - self.pm95


def margin_left(job: Job, placed: PlacedInstrument, pose: Pose) -> MarginLeft | None:
    """The least margin at the board's end, or at fret 12 where no end was read; None where nothing tells it. How well
    the margin and the bridge's place are known counts as independent of each other.
    """
    neck, on = placed.neck, placed.saddle
    if neck is None or on is None or neck.spaced is None:
        return None
    gaps = find_gaps(neck.frame, on.strung, twelfth(job, neck.paths, neck.spaced))
    widths, pm95s = gaps.wide[0].tolist(), placed.states.pm95(gaps.wide).tolist()
    last = gaps.where[-1][0]
    (outer,) = on.strung.outer([OVER[last]])
    found = []
    for at, (place, side) in enumerate(gaps.where):
        if place != last:
            continue
        string = outer[0 if side == "left" else 1]
        start, along = complex(on.strung.start[0, string]), complex(on.strung.along[0, string])
        share = abs(complex(gaps.string[0, at]) - start) / abs(along)
        nearer = pose.across if side == "left" else -pose.across
        found.append(
            MarginLeft(
                place=place,
                side=side,
                mm=widths[at] - share * nearer,
                pm95=math.hypot(pm95s[at], share * pose.across_pm95),
                was=widths[at],
                nearer=nearer,
            )
        )
    return min(found, key=lambda one: one.mm)
