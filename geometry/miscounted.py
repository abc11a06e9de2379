"""Frets that were miscounted: the reading says one fret, and its value belongs to another.

A scale built on them is out by centimetres, so this stops the work; in the fit one would only look like a poor reading,
and all from some fret on like a nut that was moved by centimetres.
"""

import math
from collections.abc import Sequence
from itertools import product

import numpy as np

from geometry.findings import Finding
from geometry.job import Job, Reading
from geometry.layout import Fit, accused
from geometry.spacing import fraction
from geometry.survey.result import Surveyed
from geometry.units import mm

FITS = 0.12
"""How far from a whole fret, in frets, a value may lie and still be said to fit it (common practice, no source)."""
LEAST_REDUNDANCY = 0.05


STANDS = 1.0
"""How far from where it should a nut stands before the count is doubted, one standard deviation, mm (common practice,
no source)."""
WRONG, RIGHT = 25.0, 4.0
"""Readings are called miscounted that agree so much better by another count, in the weighted sum of squares, and then
well, a reading."""
BY = (1, -1, 2, -2)


def counted_wrong(job: Job, surveyed: Surveyed) -> tuple[Finding, ...]:
    """A `stop` where all frets from one on, at one outer string or at both, agree far better counted otherwise."""
    taken = [
        (reading, mm(reading.parts[0]), fit.sigma)
        for fit in surveyed.fits
        for reading in job.readings
        if reading.kind == "fret" and reading.id == fit.id and reading.fret is not None
    ]
    rows = [(reading.on or "", reading.fret or 0, value, sigma) for reading, value, sigma in taken]
    as_said = _misfit(job, rows, [fret for _, fret, _, _ in rows])
    if len(rows) < 2 or as_said < WRONG:
        return ()
    sides: list[tuple[str, ...]] = [("left",), ("right",), ("centre",), ("left", "right")]
    found = []
    for on, first, by in product(sides, sorted({fret for _, fret, _, _ in rows}), BY):
        moved = [side in on and fret >= first for side, fret, _, _ in rows]
        counts = [fret - by * there for (_, fret, _, _), there in zip(rows, moved, strict=True)]
        if any(moved) and min(counts) >= 1:
            found.append((_misfit(job, rows, counts), -sum(moved), on, first, by, moved.index(True)))
    if not found:
        return ()
    least, _, on, first, by, at = min(found)
    alone = len({fret for (side, fret, _, _) in rows if side in on and fret >= first}) == 1
    if as_said - least < WRONG or least > RIGHT * len(rows) or (alone and accused(surveyed.report)):
        return ()
    where = " and ".join(job.bass_or_treble(side) for side in on if side != "centre") or "centre line"
    much = ("one" if abs(by) == 1 else "two") + (" too high" if by > 0 else " too low")
    return (
        Finding(
            grade="stop",
            code="frets.miscounted",
            text=f"The frets from {first} on ({where}) read as if each was counted {much}: count the frets again, and "
            "mend the fret that each reading names.",
            values={"from": float(first), "by": float(by)},
            where=f"reading:{taken[at][0].id}",
        ),
    )


def _misfit(job: Job, rows: Sequence[tuple[str, int, float, float]], counts: Sequence[int]) -> float:
    """The weighted sum of squares of fret readings (side, fret, value, sigma) counted so, by one scale and a nut that
    stands about where it should.
    """
    sides = sorted({side for side, _, _, _ in rows})
    slopes = np.zeros((len(rows) + len(sides), 1 + len(sides)))
    values = np.zeros(len(slopes))
    for i, ((side, _, value, sigma), fret) in enumerate(zip(rows, counts, strict=True)):
        slopes[i, 0], slopes[i, 1 + sides.index(side)] = fraction(job.frets.spacing, fret) / sigma, -1 / sigma
        values[i] = value / sigma
    for k in range(len(sides)):
        slopes[len(rows) + k, 1 + k] = 1 / STANDS
    x = np.linalg.lstsq(slopes, values, rcond=None)[0]
    return float(((slopes @ x - values) ** 2).sum())


def miscounted(job: Job, surveyed: Surveyed) -> tuple[Finding, ...]:
    """One `stop` finding for each suspect fret reading whose value fits another fret better than its own."""
    suspects = accused(surveyed.report)
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
