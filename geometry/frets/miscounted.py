"""Frets that were miscounted: the reading says one fret, and its value belongs to another.

A scale built on them is out by centimetres, so this stops the work; in the fit one would only look like a poor reading,
and all from some fret on like a nut that was moved by centimetres.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.frame import Array
from geometry.job import Job, Reading
from geometry.layout import Fit, accused, accused_alone
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
AS_WELL = 9.0
"""Counts whose sums of squares differ by less than this are told side by side."""
FEW = 2
BY = (1, -1, 2, -2)


class _Counted(NamedTuple):
    """One fret reading: its path, the fret it says, its value and standard deviation (mm)."""

    on: str
    fret: int
    value: float
    sigma: float


class _Other(NamedTuple):
    """Another count: from fret `first` on along the paths `on` each fret counted `by` too high; what it leaves."""

    squares: float
    on: tuple[str, ...]
    first: int
    by: int


def counted_wrong(job: Job, surveyed: Surveyed) -> tuple[Finding, ...]:
    """A `stop` where all frets from one on, at one outer string or at both, agree far better counted otherwise."""
    readings = {one.id: one for one in job.readings if one.kind == "fret"}
    taken = [(readings[fit.id], fit) for fit in surveyed.fits if fit.id in readings]
    rows = [_Counted(one.on or "", one.fret or 0, mm(one.parts[0]), fit.sigma) for one, fit in taken]
    if len(rows) < 2:
        return ()
    as_said = float(_misfits(job, rows, [[row.fret for row in rows]])[0])
    if as_said < WRONG:
        return ()
    found = sorted(_other_counts(job, rows))
    if not found or as_said - found[0].squares < WRONG or found[0].squares > RIGHT * len(rows):
        return ()
    best = [one for one in found if one.squares < found[0].squares + AS_WELL]
    best = [one for one in best if len(one.on) == len(best[0].on)][:2]
    alone = all(len({row.fret for row in rows if row.on in one.on and row.fret >= one.first}) == 1 for one in best)
    if alone and accused(surveyed.report):
        return ()
    said = " or ".join(_said(job, one) for one in sorted(best, key=lambda one: _said(job, one)))
    at = next(one.id for one, _ in taken if one.on in best[0].on and (one.fret or 0) >= best[0].first)
    return (
        Finding(
            grade="stop",
            code="frets.miscounted",
            text=f"The frets {said}: count the frets again, and mend the fret that each reading names.",
            values={"from": float(best[0].first), "by": float(best[0].by)},
            where=f"reading:{at}",
        ),
    )


def _said(job: Job, other: _Other) -> str:
    where = words.joined(sorted("centre line" if side == "centre" else job.bass_or_treble(side) for side in other.on))
    much = ("one" if abs(other.by) == 1 else "two") + (" too high" if other.by > 0 else " too low")
    return f"from {other.first} on ({where}) read as if each was counted {much}"


def _other_counts(job: Job, rows: Sequence[_Counted]) -> Iterator[_Other]:
    sides: list[tuple[str, ...]] = [("left",), ("right",), ("centre",), ("left", "right")]
    others, counted = [], []
    for on in sides:
        if not {row.on for row in rows}.issuperset(on):
            continue
        for first, by in product(sorted({row.fret for row in rows if row.on in on}), BY):
            counts = [row.fret - by * (row.on in on and row.fret >= first) for row in rows]
            if min(counts) >= 1:
                others.append((on, first, by))
                counted.append(counts)
    for squares, (on, first, by) in zip(_misfits(job, rows, counted).tolist() if others else (), others, strict=True):
        yield _Other(round(squares, 6), on, first, by)


def _misfits(job: Job, rows: Sequence[_Counted], counted: Sequence[Sequence[int]]) -> Array:
    """The weighted sums of squares (k,) of fret readings counted in k ways: by one scale, or one for each path where
    frets are slanted, and on each path a nut that stands about where it should.

    The nuts are eliminated: what they take up of two sets of values, path by path, is taken off their product.
    """
    sides = sorted({row.on for row in rows})
    which = [sides.index(row.on) for row in rows]
    own = job.frets.slanted and min(which.count(side) for side in which) >= FEW
    if job.frets.slanted and not own:
        return np.zeros(len(counted))
    weights = np.array([row.sigma for row in rows]) ** -2.0
    on_path = np.eye(len(sides))[which]
    nut = weights @ on_path + STANDS**-2.0

    def product_of(one: Array, other: Array) -> Array:
        taken_up = ((weights * one) @ on_path) * ((weights * other) @ on_path) / nut
        return np.asarray((weights * one * other) @ on_path - taken_up)

    places, values = fraction(job.frets.spacing, counted), np.array([row.value for row in rows])
    held, asked = product_of(places, places), product_of(places, values)
    scales = asked / held if own else asked.sum(axis=1, keepdims=True) / held.sum(axis=1, keepdims=True)
    left = values - places * (scales[:, which] if own else scales)
    return np.asarray(product_of(left, left).sum(axis=1))


def miscounted(job: Job, surveyed: Surveyed) -> tuple[Finding, ...]:
    """One `stop` finding for each suspect fret reading whose value fits another fret better than its own."""
    suspects = accused_alone(surveyed.report, job.readings)
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
                    text=f"{words.reading_called(job, reading)}: by the other readings this value is that of "
                    f"fret {counted}: count the frets again, and mend the fret or the value.",
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
