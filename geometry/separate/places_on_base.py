"""The places that a proof of bases is read to: the corners of the one base, or the outer corners of the outermost of
several, by the names that a job's proof has for them. One sheet marks them all, so that these tell of the whole row.
"""

from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnStrings
from geometry.separate.reach import places_pm95
from geometry.separate.set_bases import set_bases
from geometry.units import mm


def places_on_base(job: Job, states: PerturbedStates, frame: NeckFrame, on: OnStrings) -> dict[str, complex]:
    """The corners in the first row."""
    separate = job.separate
    if separate is None:
        return {}
    bases = set_bases(separate, on.strung, on.line, places_pm95(states, frame, on.strung, on.wanted))
    by_side = sorted(bases, key=lambda base: float(base.front[0].imag), reverse=True)
    half, long = mm(separate.width) / 2, mm(separate.length)
    return {
        f"base.{at}.{side}": complex(base.place(back, way * half)[0])
        for at, back in (("front", 0.0), ("back", long))
        for side, way, base in zip(SIDES, (1.0, -1.0), (by_side[0], by_side[-1]), strict=True)
    }
