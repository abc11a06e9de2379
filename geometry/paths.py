"""String paths: where each string lies at the nut and at the saddle, side by side, and the line between.

The **outer paths** are those of the outermost strings on the left and on the right. The list of strings runs from
treble to bass, so which end of it lies on the left follows from the hand.
"""

from itertools import pairwise

import msgspec
import numpy as np

from geometry.frame import Array, Points, crossing, unit
from geometry.job import Job, Spread
from geometry.neck import NeckFrame
from geometry.units import mm

EDGE_TO_STRING = 3.5
"""Board edge to the outer string's centre where the nut's spread is not given, mm (common practice, no source)."""
PAIR = 2.2
"""Centre to centre of the two strings of a course, mm (common practice, no source)."""


class OuterPaths(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """[left, right] in all rows: `start` on the nut's front and `along` the path, (rows, 2)."""

    start: Points
    along: Points


class Across(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Where each string lies across the neck, in list order: its y at the nut and at the saddle, (n,) mm."""

    nut: Array
    saddle: Array


def across(job: Job, frame: NeckFrame) -> Across | None:
    """The strings side by side; None while there are none or their spread at the saddle is not given."""
    strings = job.strings
    if strings is None or strings.saddle is None or not strings.list:
        return None
    shift = mm(strings.shift)
    return Across(
        nut=side_by_side(job, nut_spread(job, frame)) + shift, saddle=side_by_side(job, strings.saddle) + shift
    )


def side_by_side(job: Job, spread: Spread) -> Array:
    """The strings' places across the neck in list order (n,), about 0, the first on its own side; mm.

    Equal centres, or equal gaps between the strings' sides (a string of unknown diameter counts as 0). Strings of
    one course lie `PAIR` apart, and the courses are spaced evenly.
    """
    strings = job.strings.list if job.strings else ()
    sizes = np.array([mm(s.diameter) if s.diameter is not None and spread.spacing == "gaps" else 0.0 for s in strings])
    if len(strings) < 2:
        return np.zeros(len(strings))
    courses = [s.course for s in strings]
    paired = np.array([a is not None and a == b for a, b in pairwise(courses)])
    needs = (sizes[1:] + sizes[:-1]) / 2
    free = mm(spread.spread) - needs.sum() - PAIR * paired.sum()
    gaps = needs + np.where(paired, PAIR, free / max(int((~paired).sum()), 1))
    places = np.concatenate(([0.0], np.cumsum(gaps)))
    return np.asarray((places - places[-1] / 2) * (1 if job.bass == "left" else -1))


def nut_spread(job: Job, frame: NeckFrame) -> Spread:
    """The spread at the nut as given, or by common practice from the nut's width."""
    if job.strings is not None and job.strings.nut is not None:
        return job.strings.nut
    width = float(abs(frame.nut[0][0] - frame.nut[1][0]))
    return Spread(spread=max(width - 2 * EDGE_TO_STRING, 5.0))


def on_the_nut(frame: NeckFrame, places: Array) -> Points:
    """Points on the nut's front at these y (n,) in all rows, (rows, n)."""
    way = unit(frame.nut[0] - frame.nut[1])[:, None]
    start = frame.nut[1][:, None]
    return start + way * ((places - start.imag) / way.imag)


def outer_paths(frame: NeckFrame, strings: Across | None, reach: float) -> OuterPaths:
    """The outer paths; along the board's edges while the strings are not known.

    `reach` is about how far the saddle lies from the nut: the spread at the saddle is met there.
    """
    if strings is None or len(strings.nut) < 2:
        starts = np.stack(frame.nut, axis=1)
        return OuterPaths(start=starts, along=np.stack([way for _, way in frame.edges], axis=1))
    ends = [int(strings.nut.argmax()), int(strings.nut.argmin())]
    start = on_the_nut(frame, strings.nut[ends])
    return OuterPaths(start=start, along=unit(reach + 1j * strings.saddle[ends] - start))


def edge_crossing(frame: NeckFrame, side: int, at: Points, along: Points) -> Points:
    """Where a line in all rows crosses the edge line of a side (0 left, 1 right), (rows,)."""
    edge_at, edge_along = frame.edges[side]
    return crossing(at, along, edge_at, edge_along)
