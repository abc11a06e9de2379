"""What is to be said of a strap pin: where it stands, or what is to be read of the body's end for it."""

from geometry import words
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.layout import Hole, TailPlan
from geometry.tail.strap_pin import WIDEST, Crossing
from geometry.units import said, said_pm


def missing(job: Job, crossing: Crossing | None, behind: float) -> Finding:
    """A pin that the body's points give no place: none crosses the line, or not at the end, or too far apart."""
    why = ""
    if crossing is not None:
        between = words.joined([words.point(name, job.hand) for name in crossing.names])
        why = f": {between} lie {said(crossing.wide, job.unit)} apart"
        if crossing.x <= behind:
            why = f": between {between} the line runs in front of where the strings end"
    return look(
        "tail.pin_missing",
        f"The strap pin has no place yet{why}. Read two points of the body’s end, one on either side of the neck "
        f"centre line and no more than {said(WIDEST, job.unit)} apart.",
        "field:tail.pin",
    )


def stands(job: Job, plan: TailPlan, pin: Hole) -> Finding:
    """Where it belongs in the body's end."""
    return Finding(
        grade="good",
        code="tail.pin",
        text=f"The strap pin stands where the neck centre line meets the body’s end, {said(pin.at[0], job.unit)} from "
        f"the nut: ±{said_pm(plan.pin_pm95, job.unit)} along that end.",
        values={"x": pin.at[0], "pm95": plan.pin_pm95},
        where="tail",
    )
