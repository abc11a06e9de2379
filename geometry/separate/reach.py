"""Whether the travel reaches every string's wanted place with its ±, and what is left ahead and behind."""

import numpy as np

from geometry.frame import Array, Points, xys
from geometry.job import Job, Separate
from geometry.layout import SaddleReach
from geometry.layout.separate_plan import Reached
from geometry.neck.find_neck import NeckFrame
from geometry.neck.laid_sheet import lay_sheet
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.saddle_line import Strung
from geometry.saddle.string_plans import WantedCompensation
from geometry.separate.set_bases import Base
from geometry.strings.octave import limp_cents, octave_called
from geometry.units import mm

ROUNDING = 1e-9
"""mm. What is lacking by less is rounding."""


def places_pm95(states: PerturbedStates, frame: NeckFrame, strung: Strung, wanted: WantedCompensation) -> Array:
    """The ± of each string's wanted place along the neck, (n,) mm, from where the sheet that the bases are marked from
    puts it: the nominal place's from the readings, and the whole ± of the string's own compensation, which no neighbour
    makes finer.
    """
    own = np.array([one.pm95 for one in wanted.each])
    moves = wanted.compensation(states)
    bare = states.pm95(lay_sheet(frame).beyond(strung.break_point - moves))
    return np.asarray(np.hypot(bare, own))


def reach_of(
    job: Job, separate: Separate, strung: Strung, bases: tuple[Base, ...], pm95: Array, nominal: Array
) -> tuple[SaddleReach, ...]:
    """Every string's reach in list order; `nominal` are the strings' lengths without compensation, (n,) mm."""
    found: dict[int, SaddleReach] = {}
    strings = job.strings.list if job.strings is not None else ()
    travel = mm(separate.travel)
    for base in bases:
        at: Points = strung.break_point[:1, base.strings]
        way = complex(base.tailward[0])
        ahead = base.own(at)[0].real - mm(separate.foremost)
        foremost = at[0] - way * ahead
        ends = zip(xys(at[0]), xys(foremost), xys(foremost + way * travel), strict=True)
        for i, left, (want, first, last) in zip(base.strings, ahead.tolist(), ends, strict=True):
            pm = float(pm95[i]) / way.real
            found[i] = SaddleReach(
                string=strings[i].name,
                wanted=want,
                pm95=pm,
                foremost=first,
                rearmost=last,
                ahead=left,
                behind=travel - left,
                cents=limp_cents(float(nominal[i])) * way.real if strings[i].fretted else None,
                octave=octave_called(job, strings[i]),
                reached=judged(min(left, travel - left), pm),
            )
    return tuple(found[i] for i in sorted(found))


def judged(least: float, pm95: float) -> Reached:
    """A place that has `least` left to the nearer end of its travel, known to ± `pm95`, both mm."""
    if least >= pm95 - ROUNDING:
        return "reached"
    if least >= -ROUNDING:
        return "thin"
    return "unsure" if least >= -pm95 else "out"
