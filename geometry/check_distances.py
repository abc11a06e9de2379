"""Check distances: what a rule must read before the glue goes on, between places that are really there.

They run along the edge lines of the board, from fret 12 and from the board's end to the slot's front and the bridge's
front, and crosswise from the nut's and the board end's corners to the bridge's front corners.
"""

import math

import numpy as np

from geometry.bridge import Seated
from geometry.frame import Points, xy
from geometry.job import Job
from geometry.layout import Check
from geometry.neck import SIDES, NeckFrame
from geometry.paths import edge_crossing
from geometry.saddle import Slot
from geometry.sample import TWO_SIDED_95, Sample
from geometry.units import mm

Span = tuple[str, tuple[str, str], Points, Points]
"""A check's code, its two ends in words, and the two ends in all rows."""
TILT = math.radians(1.5)
"""By how much the top may fall away from the board's plane where no heights are known (common practice, no source)."""


def check_distances(
    sample: Sample, job: Job, frame: NeckFrame, twelfth: tuple[Points, Points], slot: Slot, seated: Seated | None
) -> tuple[Check, ...]:
    """All check distances that can be stated, in the order in which a rule is laid.

    `twelfth` is fret 12's line in all rows, as a point and its direction.
    """
    targets = [("slot", "slot front", slot.middle, slot.leftward)]
    if seated is not None:
        targets.append(("bridge", "bridge front", seated.front, seated.leftward))
    found: list[Span] = []
    for index, side in enumerate(SIDES):
        hand = "bass" if side == job.bass else "treble"
        starts = [("fret12", "fret 12", edge_crossing(frame, index, *twelfth))]
        if frame.ends is not None:
            starts.append(("end", "board end", frame.ends[index]))
        for code, words, start in starts:
            for target, called, at, along in targets:
                stop = edge_crossing(frame, index, at, along)
                ends = (f"{words}, {hand} edge", f"{called}, {hand} edge")
                found.append((f"{code}.{target}.{hand}", ends, start, stop))
    if seated is not None and job.bridge is not None:
        found += _diagonals(job, frame, seated, mm(job.bridge.length) / 2)
    return _measured(sample, found)


def _diagonals(job: Job, frame: NeckFrame, seated: Seated, half: float) -> list[Span]:
    """From the nut's and the board end's corners to the bridge's front corner on the other side."""
    found: list[Span] = []
    starts = [("nut", "nut", frame.nut)]
    if frame.ends is not None:
        starts.append(("end", "board end", frame.ends))
    for code, words, corners in starts:
        for index, side in enumerate(SIDES):
            here, there = ("bass", "treble") if side == job.bass else ("treble", "bass")
            corner = seated.place(0.0, -half if side == "left" else half)
            ends = (f"{words}, {here} corner", f"bridge front, {there} corner")
            found.append((f"{code}.corner.{here}", ends, corners[index], corner))
    return found


def _measured(sample: Sample, spans: list[Span]) -> tuple[Check, ...]:
    starts, stops = (np.stack([span[i] for span in spans], axis=1) for i in (2, 3))
    lengths = np.abs(stops - starts)
    pm95 = sample.pm95(lengths).tolist()
    return tuple(
        Check(
            code=code,
            from_=words[0],
            to=words[1],
            from_xy=xy(starts[0, i]),
            to_xy=xy(stops[0, i]),
            distance=float(lengths[0, i]),
            pm95=_with_tilt(pm95[i], float(lengths[0, i]) if code.startswith("end.") else 0.0),
        )
        for i, (code, words, _, _) in enumerate(spans)
    )


def _with_tilt(pm95: float, over_top: float) -> float:
    """The ± with what a top that falls away from the board's plane by up to `TILT` could add (rectangular)."""
    most = over_top * (1 / math.cos(TILT) - 1)
    return math.hypot(pm95, TWO_SIDED_95 * most / math.sqrt(3))
