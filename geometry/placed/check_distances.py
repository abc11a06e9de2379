"""Check distances: what a rule must read before the glue goes on, between places that are really there.

They run along the edge lines of the board, from fret 12 and from the board's end to the slot's front and the bridge's
front, crosswise from the nut's and the board end's corners to the bridge's front corners, and from the outer strings to
the board's edges.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Points, xys
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES
from geometry.layout import PLACES, TWO_SIDED_95, Check, Margins, Where
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import edge_crossings
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.heights.top_fall import Fall
from geometry.saddle.saddle_line import Slot
from geometry.units import mm

SEEN = 0.1
"""A gap from which on a rule can read it at all, mm (common practice, no source)."""
THE: dict[Where, str] = {"nut": "the nut", "board end": "the board’s end"}


class Span(NamedTuple):
    """A check's code, its two ends in words and in all rows, and whether the rule lies on the top: on which side (0
    left, 1 right), crosswise (None), or not (-1).
    """

    code: str
    from_: str
    to: str
    start: Points
    stop: Points
    on_top: int | None = -1


def check_distances(
    states: PerturbedStates,
    job: Job,
    frame: NeckFrame,
    twelfth: tuple[Points, Points],
    slots: tuple[Slot, Slot],
    seated: SeatedBridge | None,
    fall: Fall,
    margins: Margins,
) -> tuple[Check, ...]:
    """All check distances that can be stated, in the order in which a rule is laid.

    `twelfth` is fret 12's line in all rows, as a point and its direction; `slots` are the outermost on the left and on
    the right, which for a saddle of one piece are one. From the board's end the rule lies on the
    top, which falls away from the board's plane by `fall`; from the frets and the nut it lies in that plane.
    """
    starts = [("fret12", "fret 12", edge_crossings(frame, *twelfth))]
    if frame.ends is not None:
        starts.append(("end", "board end", frame.ends))
    fronts = [edge_crossings(frame, slot.middle, slot.leftward) for slot in dict.fromkeys(slots)]
    stops = [("slot", how_held(job).stop, np.stack((fronts[0][:, 0], fronts[-1][:, 1]), axis=1))]
    if job.separate is not None:
        stops = []  # each string has a saddle of its own, and its distances stand with these
    if seated is not None:
        stops.append(("bridge", "bridge front", edge_crossings(frame, seated.front, seated.leftward)))
    found: list[Span] = []
    for index, side in enumerate(SIDES):
        hand = job.bass_or_treble(side)
        for code, words, start in starts:
            for target, called, stop in stops:
                name, ends = f"{code}.{target}.{hand}", (f"{words}, {hand} edge", f"{called}, {hand} edge")
                found.append(Span(name, *ends, start[:, index], stop[:, index], index if code == "end" else -1))
    if seated is not None and job.bridge is not None:
        found += _diagonals(job, frame, seated, mm(job.bridge.length) / 2)
    return (*measured(states, found, fall), *_margins(job, margins))


def _margins(job: Job, margins: Margins) -> tuple[Check, ...]:
    """From the outer strings, or threads that lie as they will, to the board's edge; none for one beside the board."""
    return tuple(
        Check(
            code=f"margin.{PLACES[margin.place]}.{hand}",
            from_=f"outer {hand} string",
            to=f"board’s edge at {THE.get(margin.place, margin.place)}",
            from_xy=margin.string_xy,
            to_xy=margin.edge_xy,
            distance=margin.mm,
            pm95=margin.pm95,
        )
        for margin in margins.at
        if margin.mm > SEEN
        for hand in (job.bass_or_treble(margin.side),)
    )


def _diagonals(job: Job, frame: NeckFrame, seated: SeatedBridge, half: float) -> list[Span]:
    """From the nut's and the board end's corners to the bridge's front corner on the other side."""
    found: list[Span] = []
    starts = [("nut", "nut", frame.nut)]
    if frame.ends is not None:
        starts.append(("end", "board end", frame.ends))
    stops = seated.place(0.0, -half), seated.place(0.0, half)
    for code, words, corners in starts:
        for index, side in enumerate(SIDES):
            here, there = ("bass", "treble") if side == job.bass else ("treble", "bass")
            name, ends = f"{code}.corner.{here}", (f"{words}, {here} corner", f"bridge front, {there} corner")
            found.append(Span(name, *ends, corners[:, index], stops[index], None if code == "end" else -1))
    return found


def measured(states: PerturbedStates, spans: list[Span], fall: Fall) -> tuple[Check, ...]:
    """What a rule must read between the ends of each span, with its ±."""
    if not spans:
        return ()
    starts, stops = np.array([span.start for span in spans]).T, np.array([span.stop for span in spans]).T
    lengths = np.abs(stops - starts)
    found = []
    for span, start, stop, length, pm95 in zip(
        spans, xys(starts[0]), xys(stops[0]), lengths[0].tolist(), states.pm95(lengths).tolist(), strict=True
    ):
        reads, sd = (length, 0.0) if span.on_top == -1 else fall.along_top(length, span.on_top)
        found.append(
            Check(
                code=span.code,
                from_=span.from_,
                to=span.to,
                from_xy=start,
                to_xy=stop,
                distance=reads,
                pm95=math.hypot(pm95, TWO_SIDED_95 * sd),
            )
        )
    return tuple(found)
