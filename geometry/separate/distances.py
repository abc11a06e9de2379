"""Distances to read before the bases' holes are drilled: from fret 12 and from the board's end to the saddles' wanted
places, to the base's front edge and to the screw holes.
"""

import numpy as np

from geometry.frame import Points, crossing
from geometry.job import Job
from geometry.job.sides import SIDES
from geometry.layout import Check
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import edge_crossings
from geometry.perturbed_states import PerturbedStates
from geometry.placed.check_distances import Span, measured
from geometry.saddle.heights.top_fall import Fall
from geometry.saddle.saddle_line import Strung
from geometry.separate.base_holes import HolesInRows
from geometry.separate.set_bases import Base


def distances(
    job: Job,
    states: PerturbedStates,
    frame: NeckFrame,
    twelfth: tuple[Points, Points],
    strung: Strung,
    bases: tuple[Base, ...],
    screws: HolesInRows,
    fall: Fall,
) -> tuple[Check, ...]:
    """All that can be stated, in the order in which a rule is laid; `twelfth` is fret 12's line in all rows."""
    at, way = (part[:, None] for part in twelfth)
    y = strung.break_point[0].imag
    outer = [int(y.argmax()), int(y.argmin())]
    on_fret = crossing(strung.start[:, outer], strung.along[:, outer], at, way)
    places = strung.break_point[:, outer]
    found: list[Span] = []
    for index, side in enumerate(SIDES):
        hand = job.bass_or_treble(side)
        ends = f"fret 12, outer {hand} string", f"its saddle’s place, {hand}"
        found.append(Span(f"fret12.saddle.{hand}", *ends, on_fret[:, index], places[:, index]))
    starts = [("fret12", "fret 12", edge_crossings(frame, *twelfth))]
    if frame.ends is not None:
        starts.append(("end", "board end", frame.ends))
    if len(bases) == 1:
        front = edge_crossings(frame, bases[0].front, 1j * bases[0].tailward)
        for index, side in enumerate(SIDES):
            hand = job.bass_or_treble(side)
            for code, words, start in starts:
                on_top = index if code == "end" else -1
                to = f"base front, {hand} edge"
                found.append(
                    Span(f"{code}.base.{hand}", f"{words}, {hand} edge", to, start[:, index], front[:, index], on_top)
                )
    return measured(states, found + _to_screws(job, starts[-1], screws), fall)


def _to_screws(job: Job, start: tuple[str, str, Points], screws: HolesInRows) -> list[Span]:
    """From both corners to the screw holes farthest out on either side, the foremost of those that are alike: straight
    and crosswise, so that no slip along or across stays unseen.
    """
    if not screws.names:
        return []
    code, words, corners = start
    at = screws.at[0]
    found: list[Span] = []
    for side, way in zip(SIDES, (1.0, -1.0), strict=True):
        out = np.round(way * at.imag, 1)
        hole = min(np.flatnonzero(out == out.max()).tolist(), key=lambda k: float(at[k].real))
        name = screws.names[hole].split(":", 1)[1]
        for index, corner in enumerate(SIDES):
            hand = job.bass_or_treble(corner)
            on_top = (index if corner == side else None) if code == "end" else -1
            found.append(
                Span(
                    f"{code}.screw.{hand}.{job.bass_or_treble(side)}",
                    f"{words}, {hand} {'corner' if code == 'end' else 'edge'}",
                    f"middle of screw hole {name}",
                    corners[:, index],
                    screws.at[:, hole],
                    on_top,
                )
            )
    return found
