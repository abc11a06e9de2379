"""String paths: where each string lies at the nut and at the saddle, side by side, and the line between.

The **outer paths** are those of the outermost strings on the left and on the right. The list of strings runs from
treble to bass, so which end of it lies on the left follows from the hand.
"""

from itertools import pairwise

import msgspec
import numpy as np

from geometry.frame import Array, crossing, unit
from geometry.job import Job, Spread
from geometry.neck import NeckFrame
from geometry.units import mm

EDGE_TO_STRING = 3.5
"""Board edge to the outer string's centre where the nut's spread is not given, mm (common practice, no source)."""
PAIR = 2.2
"""Centre to centre of the two strings of a course, mm (common practice, no source)."""


class OuterPaths(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """[left, right] in all rows: `start` on the nut's front and `along` the path, (rows, 2, 2)."""

    start: Array
    along: Array


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
    width = float(np.hypot(*(frame.nut[0][0] - frame.nut[1][0])))
    return Spread(spread=max(width - 2 * EDGE_TO_STRING, 5.0))


def on_the_nut(frame: NeckFrame, across: Array) -> Array:
    """Points on the nut's front at the places `across` (n,) in all rows, (rows, n, 2)."""
    rows = len(frame.nut[0])
    way = unit(frame.nut[0] - frame.nut[1])[:, None, :]
    ahead = (across - frame.nut[1][:, None, 1]) / way[..., 1]
    return np.broadcast_to(frame.nut[1][:, None, :], (rows, len(across), 2)) + way * ahead[..., None]


def outer_paths(job: Job, frame: NeckFrame, reach: float) -> OuterPaths:
    """The outer paths; along the board's edges while the strings or their spread at the saddle are not known.

    `reach` is about how far the saddle lies from the nut: the spread at the saddle is met there.
    """
    strings = job.strings
    if strings is None or strings.saddle is None or len(strings.list) < 2:
        starts = np.stack(frame.nut, axis=1)
        return OuterPaths(start=starts, along=np.stack([way for _, way in frame.edges], axis=1))
    shift = mm(strings.shift)
    near = np.sort(side_by_side(job, nut_spread(job, frame)))[[-1, 0]] + shift
    far = np.sort(side_by_side(job, strings.saddle))[[-1, 0]] + shift
    start = on_the_nut(frame, near)
    aim = np.broadcast_to(np.stack((np.full(2, reach), far), axis=-1), start.shape)
    return OuterPaths(start=start, along=unit(aim - start))


def edge_crossing(frame: NeckFrame, side: int, at: Array, along: Array) -> Array:
    """Where a line in all rows crosses the edge line of a side (0 left, 1 right), (rows, 2)."""
    edge_at, edge_along = frame.edges[side]
    return crossing(at, along, edge_at, edge_along)
