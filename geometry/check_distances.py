"""Check distances: what a rule must read before the glue goes on, between places that are really there.

They run along the edge lines of the board, from fret 12 and from the board's end to the slot's front and the bridge's
front, and crosswise from the nut's and the board end's corners to the bridge's front corners.
"""

import math

import numpy as np

from geometry.bridge import Seated
from geometry.frame import Points, xys
from geometry.job import Job
from geometry.layout import Check
from geometry.neck import SIDES, NeckFrame
from geometry.paths import edge_crossings
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
    starts = [("fret12", "fret 12", edge_crossings(frame, *twelfth))]
    if frame.ends is not None:
        starts.append(("end", "board end", frame.ends))
    stops = [("slot", "slot front", edge_crossings(frame, slot.middle, slot.leftward))]
    if seated is not None:
        stops.append(("bridge", "bridge front", edge_crossings(frame, seated.front, seated.leftward)))
    found: list[Span] = []
    for index, side in enumerate(SIDES):
        hand = "bass" if side == job.bass else "treble"
        for code, words, start in starts:
            for target, called, stop in stops:
                ends = (f"{words}, {hand} edge", f"{called}, {hand} edge")
                found.append((f"{code}.{target}.{hand}", ends, start[:, index], stop[:, index]))
    if seated is not None and job.bridge is not None:
        found += _diagonals(job, frame, seated, mm(job.bridge.length) / 2)
    return _measured(sample, found)


def _diagonals(job: Job, frame: NeckFrame, seated: Seated, half: float) -> list[Span]:
    """From the nut's and the board end's corners to the bridge's front corner on the other side."""
    found: list[Span] = []
    starts = [("nut", "nut", frame.nut)]
    if frame.ends is not None:
        starts.append(("end", "board end", frame.ends))
    stops = seated.place(0.0, -half), seated.place(0.0, half)
    for code, words, corners in starts:
        for index, side in enumerate(SIDES):
            here, there = ("bass", "treble") if side == job.bass else ("treble", "bass")
            ends = (f"{words}, {here} corner", f"bridge front, {there} corner")
            found.append((f"{code}.corner.{here}", ends, corners[:, index], stops[index]))
    return found


def _measured(sample: Sample, spans: list[Span]) -> tuple[Check, ...]:
    starts, stops = (np.array([span[i] for span in spans]).T for i in (2, 3))
    lengths = np.abs(stops - starts)
    pm95 = sample.pm95(lengths).tolist()
    return tuple(
        Check(
            code=code,
            from_=words[0],
            to=words[1],
            from_xy=start,
            to_xy=stop,
            distance=length,
            pm95=_with_tilt(pm, length if code.startswith("end.") else 0.0),
        )
        for (code, words, _, _), start, stop, length, pm in zip(
            spans, xys(starts[0]), xys(stops[0]), lengths[0].tolist(), pm95, strict=True
        )
    )


def _with_tilt(pm95: float, over_top: float) -> float:
    """The ± with what a top that falls away from the board's plane by up to `TILT` could add (rectangular)."""
    most = over_top * (1 / math.cos(TILT) - 1)
    return math.hypot(pm95, TWO_SIDED_95 * most / math.sqrt(3))
