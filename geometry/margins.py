"""Margins: how far the outer strings run inside the board's edges, at every fret and on both sides."""

import numpy as np

from geometry.findings import Finding
from geometry.frame import Array, Points, crossing
from geometry.frets import Spaced, all_frets
from geometry.job import Job
from geometry.layout import Margins
from geometry.neck import SIDES, NeckFrame
from geometry.paths import OuterPaths
from geometry.units import said

LEAST = 2.0
"""The least margin with which a string is not pulled over the edge, mm (common practice, no source)."""


def find_margins(job: Job, frame: NeckFrame, paths: OuterPaths, spaced: Spaced) -> Margins:
    """From each outer string's centre to the board's edge along each fret, the nut first, mm."""
    on, along = all_frets(job, paths, spaced)
    sides = [_one_side(frame, paths, side, on, along) for side in (0, 1)]
    return Margins(left=tuple(sides[0].tolist()), right=tuple(sides[1].tolist()))


def _one_side(frame: NeckFrame, paths: OuterPaths, side: int, on: Points, along: Points) -> Array:
    at, way = frame.edges[side][0][0], frame.edges[side][1][0]
    start, path = paths.start[0, side], paths.along[0, side]
    gaps = crossing(on, along, at, way) - crossing(on, along, start, path)
    outward = 1 if side == 0 else -1
    nut = frame.nut[side][0] - start
    return np.concatenate(([nut.imag * outward], np.abs(gaps) * np.sign(gaps.imag) * outward))


def findings(job: Job, margins: Margins) -> tuple[Finding, ...]:
    """The smallest margin, named with its fret and side, where it is small."""
    least, fret, side = min(
        (margin, fret, side) for side in SIDES for fret, margin in enumerate(getattr(margins, side))
    )
    if least >= LEAST:
        return ()
    hand = "bass" if side == job.bass else "treble"
    where = f"fret {fret}" if fret else "the nut"
    return (
        Finding(
            grade="look",
            code="margin.small",
            text=f"At {where} the outer {hand} string runs {said(least, job.unit)} from the board's edge; "
            f"{said(LEAST, job.unit)} is usual. Make the spread smaller or shift the strings.",
            values={"mm": least, "fret": float(fret)},
            where=f"fret:{fret}",
        ),
    )
