"""How much a ± is and may be, as it is told; and what is wanted besides a change that is not enough alone."""

import math

from geometry.go_or_wait.steps import Step
from geometry.go_or_wait.verdicts import GLUE_WITHIN
from geometry.job import Job, Saddle
from geometry.job.seating import THICKEST
from geometry.proof import filing
from geometry.units import MM_PER, mm, show, show_pm
from geometry.units import said as length


def wide(job: Job, pm95: float) -> str:
    """A ± as a rule reads it, rounded up."""
    return f"{show_pm(pm95, job.unit)} {job.unit}"


def least(job: Job) -> float:
    """The least that is told, mm."""
    return MM_PER["in"] / 64 if job.unit == "in" else 0.1


def at_most(job: Job, limit: float) -> str:
    """What is taken up, rounded down: never more than it is."""
    step = least(job)
    return f"{show(math.floor(limit / step + 1e-9) * step, job.unit)} {job.unit}"


def enough(step: Step) -> bool:
    """Whether the step could go after what would change it; also where no ± is told of that."""
    return step.change is None or step.change.after is None or step.change.after <= step.limit


def still_wanted(job: Job, step: Step) -> str:
    """What makes up for the ± that is left after a change: a saddle so thick, where filing its ridge does; else how
    small that ± is to be. Nothing where it is enough.
    """
    if enough(step) or step.change is None or step.change.after is None:
        return ""
    after, saddle = step.change.after, job.saddle or Saddle()
    by_filing = step.what in ("slot", "fit") or (
        step.what == "glue" and step.cents is not None and after <= GLUE_WITHIN
    )
    told = f"±{at_most(job, step.limit)} is wanted"
    if step.across or not by_filing or step.spread is None:
        return told
    usual = filing.thick_enough(after, saddle, step.spread)
    if usual is not None:
        return f"a saddle {length(usual, job.unit, 0)} thick takes up the rest by filing"
    thick = _rounded_up(job, max(filing.least_thickness(after, saddle.peak_at, step.spread), mm(saddle.thickness)))
    if thick > THICKEST:
        return told
    return f"a saddle of one piece would have to be {length(thick, job.unit, 0)} thick to take up the rest by filing"


def _rounded_up(job: Job, thickness: float) -> float:
    """A thickness in whole mm or 64ths, never less than it is, mm."""
    step = least(job) if job.unit == "in" else 1.0
    return math.ceil(thickness / step - 1e-9) * step if math.isfinite(thickness) else thickness
