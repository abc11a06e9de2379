"""What the frets as read say against the spacing that was fitted: another spacing that fits better, and single frets
that stand out of place, in mm and in cents.
"""

from geometry.findings import Finding
from geometry.job import Job, Reading
from geometry.job.fretting import Spacing
from geometry.layout import Fit, FretPlan
from geometry.spacing import CENTS, one_fraction
from geometry.survey.suspects import BELIEVABLE
from geometry.units import said

BETTER = 9.0
"""By how much another spacing's sum of squares must be the smaller to be proposed: three standard deviations."""


def findings(job: Job, plan: FretPlan, fits: tuple[Fit, ...]) -> tuple[Finding, ...]:
    """A spacing that fits better than the job's, else each fret that stands out of place by what was read."""
    readings = {reading.id: reading for reading in job.readings if reading.kind == "fret" and reading.taken}
    fitted = [(readings[fit.id], fit) for fit in fits if fit.id in readings]
    other: Spacing = "equal" if job.frets.spacing == "eighteen" else "eighteen"
    here, there = _misfit(job.frets.spacing, fitted), _misfit(other, fitted)
    if here - there > BETTER:
        return (_proposal(other, here, there),)
    return tuple(_out_of_place(job, plan, reading, fit) for reading, fit in fitted if abs(fit.w or 0.0) > BELIEVABLE)


def _misfit(spacing: Spacing, fitted: list[tuple[Reading, Fit]]) -> float:
    """The weighted sum of squares that stays when scale and shift are fitted to each side's readings by this spacing.

    A straight line in the fret's fraction, so it is the values' scatter less what the line explains. Written out, for
    a dozen readings are few.
    """
    total = 0.0
    for side in ("left", "right", "centre"):
        rows = [
            (one_fraction(spacing, reading.fret or 0), fit.value, fit.sigma**-2)
            for reading, fit in fitted
            if reading.on == side
        ]
        if len({x for x, _, _ in rows}) < 3:
            continue
        weight = sum(w for _, _, w in rows)
        mean_x, mean_y = sum(w * x for x, _, w in rows) / weight, sum(w * y for _, y, w in rows) / weight
        off = [(x - mean_x, y - mean_y, w) for x, y, w in rows]
        xx, xy = sum(w * x * x for x, _, w in off), sum(w * x * y for x, y, w in off)
        total += sum(w * y * y for _, y, w in off) - xy * xy / xx
    return total


def _proposal(other: Spacing, here: float, there: float) -> Finding:
    named = "the rule of eighteen" if other == "eighteen" else "equal temperament"
    return Finding(
        grade="look",
        code="frets.spacing",
        text=f"The frets as read fit {named} far better than the spacing chosen. Choose it, and look at the saddle "
        "again.",
        values={"chosen": here, "proposed": there},
        where="field:frets.spacing",
    )


def _out_of_place(job: Job, plan: FretPlan, reading: Reading, fit: Fit) -> Finding:
    """How far a fret stands from where the others put it, which is its residual over its redundancy number (W. Baarda,
    A testing procedure for use in geodetic networks, 1968).
    """
    off = (fit.value - fit.adjusted) / fit.redundancy
    saddle = plan.nominal.left if reading.on == "left" else plan.nominal.right
    cents = CENTS * off / (saddle - (fit.value - off))
    way = "far from" if off > 0 else "near"
    side = "centre" if reading.on == "centre" else job.bass_or_treble(reading.on or "")
    return Finding(
        grade="look",
        code="fret.out_of_place",
        text=f"Fret {reading.fret} ({side}) reads {said(abs(off), job.unit)} too {way} the nut, "
        f"{abs(cents):.0f} cents: read it again; if it stays, that fret was set wrong.",
        values={"mm": off, "cents": float(cents)},
        where=f"reading:{reading.id}",
    )
