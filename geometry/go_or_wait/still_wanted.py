"""How much a ± is and may be, as it is told; and what is wanted besides a change that is not enough alone."""

import math

from geometry.go_or_wait.steps import Step
from geometry.go_or_wait.verdicts import GLUE_WITHIN
from geometry.job import Job, Saddle
from geometry.proof import filing
from geometry.units import MM_PER, show, show_pm
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
    return step.change is None or step.change.after is None or step.change.after <= allowed(step)


def allowed(step: Step) -> float:
    """What is allowed after what would change it, mm."""
    return step.limit if step.change is None or step.change.limit is None else step.change.limit


def still_wanted(job: Job, step: Step) -> str:
    """What makes up for the ± that is left after a change: a saddle so thick, where filing its ridge does; else how
    small that ± is to be. Nothing where it is enough.
    """
    if enough(step) or step.change is None:
        return ""
    thick = thickness_wanted(job, step)
    if thick is None or not step.change.thicker:
        return f"±{at_most(job, allowed(step))} is wanted"
    return f"a saddle {length(thick, job.unit, 0)} thick takes up the rest by filing"


def thickness_wanted(job: Job, step: Step) -> float | None:
    """How thick (mm) a saddle that is made must be to take up by filing what is left after a change; None where none is
    wanted, or none does.
    """
    if enough(step) or step.change is None or step.change.after is None or step.across or step.spread is None:
        return None
    after = step.change.after
    glued = step.what == "glue" and step.cents is not None and after <= GLUE_WITHIN
    if not (glued or step.what in ("slot", "fit")):
        return None
    return filing.thick_enough(after, job.saddle or Saddle(), step.spread)
