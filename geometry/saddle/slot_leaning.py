"""How the slot leans as it will lie in the wood, and how the strings want it to; both at the outer strings."""

from typing import Literal, NamedTuple

from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.layout import SaddlePlan
from geometry.saddle.saddle_line import LEVEL
from geometry.units import Unit, as_shown, said, shown_apart, shows


class Leaning(NamedTuple):
    """How much farther (mm) which side stands at the outer strings."""

    mm: float
    longer: Literal["bass", "treble", "neither"]


def slot_apart(job: Job, plan: SaddlePlan) -> Leaning | None:
    """How the slot leans, where that is not what the strings want."""
    own = slot_slant(job, plan)
    if abs(own - wanted_slant(plan)) < LEVEL:
        return None
    return Leaning(abs(own), "neither" if abs(own) < LEVEL else "bass" if own > 0 else "treble")


def as_it_stands(job: Job, plan: SaddlePlan) -> Leaning:
    """How the slot leans, as it will lie in the wood; told in the job's unit."""
    return slot_apart(job, plan) or Leaning(told_slant(plan, job.unit), plan.longer)


def told_slant(plan: SaddlePlan, unit: Unit) -> float:
    """The slant as it is told in a unit, mm: beside the two places from the nut, as these are told."""
    return shown_apart(plan.slant, *plan.from_nut, unit)


def nut_aslant(job: Job, plan: SaddlePlan) -> str:
    """“the nut’s treble side 0.4 mm nearer to the bridge”: by so much more, or less, than the slant the places from it
    lie apart. Reckoned from what is told of them, so that all three agree; empty where it is too little to be told.
    """
    bass = SIDES.index(job.bass)
    far = [as_shown(length, job.unit) for length in plan.from_nut]
    slant = told_slant(plan, job.unit) * {"bass": 1, "treble": -1, "neither": 0}[plan.longer]
    treble_farther = far[bass] - far[1 - bass] - slant
    if not shows(treble_farther, job.unit):
        return ""
    side = "treble" if treble_farther > 0 else "bass"
    return f"the nut’s {side} side {said(abs(treble_farther), job.unit)} nearer to the bridge"


def slot_slant(job: Job, plan: SaddlePlan) -> float:
    """How much farther the slot stands on the bass side at the outer strings, mm."""
    bass = 0 if job.bass == "left" else 1
    stands = [x + over for (x, _), over in zip(plan.at_strings, plan.left_over, strict=True)]
    return stands[bass] - stands[1 - bass]


def wanted_slant(plan: SaddlePlan) -> float:
    """The slant, positive where the bass side stands farther."""
    return plan.slant if plan.longer == "bass" else -plan.slant
