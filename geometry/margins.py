"""Margins: how far the outer strings run inside the board's edges, at every fret and on both sides."""

import numpy as np

from geometry.findings import Finding
from geometry.frame import crossing
from geometry.frets import FretLines
from geometry.job import Job
from geometry.layout import Margins
from geometry.neck import SIDES, NeckFrame
from geometry.saddle import Strung
from geometry.units import said

LEAST = 2.0
"""The least margin with which a string is not pulled over the edge, mm (common practice, no source)."""
OUTWARD = np.array([1.0, -1.0])


def find_margins(frame: NeckFrame, strung: Strung, lines: FretLines) -> Margins:
    """From each outer string's centre to the board's edge along each fret, the nut first, mm."""
    across = strung.break_point[0].imag
    outer = [int(across.argmax()), int(across.argmin())]
    start, along = strung.start[0, outer], strung.along[0, outer]
    gaps = lines.edge - crossing(lines.on[:, None], lines.way[:, None], start, along)
    along_frets, at_nut = np.abs(gaps) * np.sign(gaps.imag), (frame.nut[0] - start).imag
    left, right = (np.concatenate((at_nut[None], along_frets)) * OUTWARD).T.tolist()
    return Margins(left=tuple(left), right=tuple(right))


def findings(job: Job, margins: Margins) -> tuple[Finding, ...]:
    """The smallest margin, named with its fret and side, where it is small."""
    least, fret, side = min(
        (margin, fret, side) for side in SIDES for fret, margin in enumerate(getattr(margins, side))
    )
    if least >= LEAST:
        return ()
    hand = job.bass_or_treble(side)
    place = f"fret {fret}" if fret else "the nut"
    runs = (
        f"runs {said(least, job.unit)} from the board's edge"
        if least > 0
        else (f"would lie {said(-least, job.unit)} beyond the board's edge")
    )
    return (
        Finding(
            grade="look" if least > 0 else "stop",
            code="margin.small",
            text=f"At {place} the outer {hand} string {runs}; {said(LEAST, job.unit)} inside it is usual. Make "
            "the spread smaller or shift the strings.",
            values={"mm": least, "fret": float(fret)},
            where=f"fret:{fret}",
        ),
    )
