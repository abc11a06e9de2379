"""A fret that was miscounted: its reading says one fret, and its value belongs to another.

A scale built on it is out by centimetres, so this stops the work; in the fit it would only look like a poor reading.
"""

import math

import numpy as np

from geometry.findings import Finding
from geometry.job import Job, Reading
from geometry.layout import Fit
from geometry.spacing import fraction
from geometry.survey.result import Surveyed
from geometry.units import mm

FITS = 0.12
"""How far from a whole fret, in frets, a value may lie and still be said to fit it (common practice, no source)."""
LEAST_REDUNDANCY = 0.05


def miscounted(job: Job, surveyed: Surveyed) -> tuple[Finding, ...]:
    """One `stop` finding for each suspect fret reading whose value fits another fret better than its own."""
    suspects = set(surveyed.report.suspects).union(*surveyed.report.groups)
    if not suspects:
        return ()
    fits = {fit.id: fit for fit in surveyed.fits}
    found = []
    for reading in job.readings:
        if reading.kind != "fret" or reading.id not in suspects or reading.id not in fits:
            continue
        counted = _counted(job, reading, fits[reading.id])
        if counted != reading.fret:
            found.append(
                Finding(
                    grade="stop",
                    code="fret.miscounted",
                    text=f"Reading {reading.id} says fret {reading.fret}, but by the other readings its value is that "
                    f"of fret {counted}: count the frets again, and mend the fret or the value.",
                    values={"fret": float(reading.fret or 0), "fits": float(counted or 0)},
                    where=f"reading:{reading.id}",
                )
            )
    return tuple(found)


def _counted(job: Job, reading: Reading, fit: Fit) -> int | None:
    """The fret whose place the value is. The other readings put this fret w σ / √redundancy from where it was read
    (W. Baarda, A testing procedure for use in geodetic networks, 1968).
    """
    if reading.fret is None or fit.w is None or fit.redundancy < LEAST_REDUNDANCY:
        return reading.fret
    value = mm(reading.parts[0])
    by_the_others = value + fit.w * fit.sigma / math.sqrt(fit.redundancy)
    if by_the_others <= 0:
        return reading.fret
    share = float(fraction(job.frets.spacing, reading.fret)) * value / by_the_others
    frets = np.arange(1, 37)
    places = fraction(job.frets.spacing, frets)
    if not places[0] / 2 < share < places[-1]:
        return reading.fret
    exact = float(np.interp(share, places, frets))
    return round(exact) if abs(exact - round(exact)) < FITS else reading.fret
