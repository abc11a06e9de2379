"""The places of the one base that a proof is read to: its corners, by the names that a job's proof has for them."""

from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnStrings
from geometry.separate.reach import places_pm95
from geometry.separate.set_bases import set_bases
from geometry.units import mm


def places_on_base(job: Job, states: PerturbedStates, on: OnStrings) -> dict[str, complex]:
    """Its corners in the first row; none where each string has a base of its own."""
    separate = job.separate
    if separate is None or separate.bases != "one":
        return {}
    (base,) = set_bases(separate, on.strung, on.line, places_pm95(states, on.strung, on.wanted))
    half, long = mm(separate.width) / 2, mm(separate.length)
    return {
        f"base.{at}.{side}": complex(base.place(back, way * half)[0])
        for at, back in (("front", 0.0), ("back", long))
        for side, way in zip(SIDES, (1.0, -1.0), strict=True)
    }
