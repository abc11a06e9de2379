"""What may be done now and what must wait where saddles of their own stand on bases: drilling the bases' screw holes,
and drilling through the body.

A base that is screwed down lets every string still be set as far as its travel reaches: its holes may be drilled once
each string's place with its ± lies within the travel. Holes through the body follow the base, and want the body's
thickness besides, for the drill and the ferrules. All wait for readings that are accused, for a check of those that
decide, and for a stop.
"""

import msgspec

from geometry.go_or_wait.steps import Step
from geometry.go_or_wait.verdicts import BESIDE, held_back, proved
from geometry.job import Job
from geometry.layout import Layout, SeparatePlan

BESIDE_THROUGH = 1.0
"""The widest ± across the neck with which it is drilled through, mm: a string leaves its saddle sideways by no more
(common practice, no source)."""


def verdicts(job: Job, layout: Layout) -> tuple[Step, ...]:
    """One verdict for each operation, in the order of the work; nothing where the bases have no place."""
    plan, separate = layout.separate, job.separate
    if plan is None or separate is None or layout.saddle is None:
        return ()
    steps: list[Step] = []
    screws = proved(job, held_back(job, layout, _unless_told(_screws(plan), bool(separate.screws))))
    steps.append(screws)
    if separate.through is not None:
        through = held_back(job, layout, _unless_told(_through(plan), separate.body is not None))
        if through.go and not screws.go:
            through = msgspec.structs.replace(through, go=False, why="after")
        steps.append(through)
    return tuple(steps)


def _screws(plan: SeparatePlan) -> Step:
    """By the string whose ± leaves the least of its reach, and across the neck as a base may stand aside."""
    least = plan.least
    go = least.reached == "reached"
    step = Step(
        what="screws",
        go=go,
        pm95=least.pm95,
        limit=max(least.least, 0.0),
        why="" if go else "wide",
        cents=least.costs(least.pm95),
        strings=(least.string,),
        takes_up=least.least,
    )
    across = max(pm for base in plan.bases for _, pm in base.corners_pm95)
    return _aside(plan, step, across, BESIDE)


def _through(plan: SeparatePlan) -> Step:
    """As well as the base is known along the neck, and across it as a string may lie beside its hole."""
    along, across = (max(pms) for pms in zip(*plan.through_pm95, strict=True))
    return _aside(plan, Step(what="through", go=True, pm95=along, limit=along), across, BESIDE_THROUGH)


def _aside(plan: SeparatePlan, step: Step, across: float, most: float) -> Step:
    if step.go and across > most:
        return msgspec.structs.replace(
            step, go=False, why="wide", pm95=across, limit=most, across=True, cents=None, strings=(), takes_up=None
        )
    return step if plan.across_checked or not step.go else msgspec.structs.replace(step, go=False, why="aside")


def _unless_told(step: Step, told: bool) -> Step:
    """The step, kept back while a size that it needs is not told."""
    return step if told else msgspec.structs.replace(step, go=False, why="untold")
