"""What the frets as read say against the spacing that was fitted: another spacing that fits better, and single frets
that stand out of place, in mm and in cents.
"""

import math

import numpy as np

from geometry.findings import Finding
from geometry.frets.fret_fit import NOT_A_FRET
from geometry.job import Job, Reading
from geometry.job.neck.fretting import Spacing
from geometry.layout import TWO_SIDED_95, Fit, FretPlan
from geometry.spacing import CENTS, one_fraction
from geometry.units import said

SHORTEST = 1.0
"""No string sounds on less than this, mm; a half-typed reading may leave it."""
EQUAL = 1 / (1 - 2 ** (-1 / 12))
"""Equal temperament's number: 17.817 to three places."""
NEAR = 0.5
"""Farther from a spacing's number than this, something else than the spacing is wrong: a fret that was miscounted."""
BETTER = 9.0
"""By how much another spacing's sum of squares must be the smaller to be proposed: three standard deviations."""


def findings(job: Job, plan: FretPlan, fits: tuple[Fit, ...], accused: frozenset[str]) -> tuple[Finding, ...]:
    """A spacing that fits better than the job's, else each fret that stands out of place by what was read; `accused`
    are the readings that do not go with the others.
    """
    readings = {reading.id: reading for reading in job.readings if reading.kind == "fret" and reading.taken}
    fitted = [(readings[fit.id], fit) for fit in fits if fit.id in readings]
    other: Spacing = "equal" if job.frets.spacing == "eighteen" else "eighteen"
    wrong = [reading.id for reading, _ in fitted if reading.id in accused]
    # one fret that was misread is no other spacing: the others must say so without it
    told = [one for one in fitted if one[0].id not in accused] if len(wrong) == 1 else fitted
    here, there = _misfit(job.frets.spacing, told), _misfit(other, told)
    if here - there > BETTER:
        ladder, pm95 = _ladder(told)
        if abs(ladder - _number(other)) < NEAR:
            return (_proposal(other, here, there, ladder, pm95),)
    return tuple(_out_of_place(job, plan, reading, fit) for reading, fit in fitted if fit.id in accused)


def _ladder(fitted: list[tuple[Reading, Fit]]) -> tuple[float, float]:
    """The number by which the frets as read divide what remains, and its ± (95 %); 17.817 where they are equal
    tempered, 18 by the rule of eighteen.

    Each fret leaves 1 − 1/n of what is left. Least squares of scale, shift and n at each path, from equal temperament.
    """
    n, variance = EQUAL, 0.0
    for _ in range(3):
        pull, own = 0.0, 0.0
        for side in ("left", "right", "centre"):
            rows = [(reading.fret or 0, fit.value, fit.sigma) for reading, fit in fitted if reading.on == side]
            if len({fret for fret, _, _ in rows}) < 3:
                continue
            fret, value, sigma = (np.array(part, dtype=float) for part in zip(*rows, strict=True))
            left = (1 - 1 / n) ** fret
            known = np.column_stack((1 - left, np.ones_like(left))) / sigma[:, None]
            scale = float(np.linalg.lstsq(known, value / sigma, rcond=None)[0][0])
            slope = -scale * fret * left / (n * (n - 1)) / sigma
            both = np.column_stack((known, slope))
            rest = both - known @ np.linalg.lstsq(known, both, rcond=None)[0]
            miss = value / sigma - known @ np.linalg.lstsq(known, value / sigma, rcond=None)[0]
            pull, own = pull + float(rest[:, 2] @ miss), own + float(rest[:, 2] @ rest[:, 2])
        if own <= 0:
            return n, math.inf
        n, variance = n + pull / own, 1 / own
    return n, TWO_SIDED_95 * math.sqrt(variance)


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


def _number(spacing: Spacing) -> float:
    return 18.0 if spacing == "eighteen" else EQUAL


def _proposal(other: Spacing, here: float, there: float, ladder: float, pm95: float) -> Finding:
    named = "the rule of eighteen" if other == "eighteen" else "equal temperament"
    return Finding(
        grade="look",
        code="frets.spacing",
        text=f"The frets as read fit {named} far better than the spacing chosen: each fret takes one part in "
        f"{ladder:.2f} ±{pm95:.2f} of what remains, by {named} in {_number(other):.2f}. "
        "Choose it, and look at the saddle again.",
        values={"chosen": here, "proposed": there, "ladder": ladder, "pm95": pm95},
        where="field:frets.spacing",
    )


def _out_of_place(job: Job, plan: FretPlan, reading: Reading, fit: Fit) -> Finding:
    """How far a fret stands from where the others put it: −w σ / √r (W. Baarda, A testing procedure for use in geodetic
    networks, 1968). For a reading set aside, which bears on nothing, that is its residual.
    """
    off = -(fit.w or 0.0) * fit.sigma / math.sqrt(fit.redundancy)
    saddle = plan.nominal.left if reading.on == "left" else plan.nominal.right
    cents = CENTS * off / max(abs(saddle - (fit.value - off)), SHORTEST)
    way = "far from" if off > 0 else "near"
    side = "centre" if reading.on == "centre" else job.bass_or_treble(reading.on or "")
    return Finding(
        grade="look",
        code="fret.out_of_place",
        text=f"Fret {reading.fret} ({side}) reads {said(abs(off), job.unit)} too {way} the nut, "
        f"{abs(cents):.0f} cents: read it again"
        + ("; if it stays, that fret was set wrong." if abs(off) <= NOT_A_FRET else ", and count the frets."),
        values={"mm": off, "cents": float(cents)},
        where=f"reading:{reading.id}",
    )
