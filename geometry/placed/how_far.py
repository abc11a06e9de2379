"""How far it is from here to there, with the ± that the readings allow: between points, from a point to a line, from
line to line.

A **thing** is `point:NAME`, or a line: `edge:left`, `edge:right`, `neck` (the neck centre line), `seam`, `saddle`.
"""

import math
from typing import Literal

import msgspec
import numpy as np

from geometry.frame import Points, best_line, cross, crossing, unit, xy
from geometry.job import Job
from geometry.layout import LINES, TWO_SIDED_95, XY, Record
from geometry.placed.place_everything import REACH, PlacedInstrument, place_everything
from geometry.survey import survey
from geometry.survey.result import Surveyed

BESIDE = 10.0
"""Lines that open by fewer degrees run beside each other, and have a distance; others cross."""


class HowFar(Record, frozen=True):
    """An answer in mm, with the half-width of its 95 % interval.

    `points`: the distance. `square`: the point's square distance from the line; `side` is +1 where it lies on the
    line's left (its sense runs to the tail, the saddle's from right to left). `beside`: how far the second line lies
    from the first, square to it, at the saddle, `side` as before; `angle` in degrees with its `angle_pm95`, +
    counter-clockwise.
    `crossing`: how far from the nut's front, along the neck centre line, two lines cross. `ends`: where to draw it, in
    the neck frame; None where there is no neck.
    """

    kind: Literal["points", "square", "beside", "crossing"]
    distance: float
    pm95: float
    side: int = 0
    angle: float = 0.0
    angle_pm95: float = 0.0
    ends: tuple[XY, XY] | None = None


def how_far(job: Job, a: str, b: str) -> HowFar | None:
    """How far from one thing to another; None where the readings do not hold both, or it is one thing twice."""
    found = survey(job)
    if a == b:
        return None
    if a not in LINES and b not in LINES:
        return _between(found, a.removeprefix("point:"), b.removeprefix("point:"))
    points = [thing.removeprefix("point:") for thing in (a, b) if thing not in LINES]
    seams = [name for name in found.point_at if name.startswith("seam.")]
    if any(name not in found.point_at for name in points):
        return None
    placed = place_everything(job, found, also=(*points, *seams))
    lines = [_line(placed, thing, seams) for thing in (a, b) if thing in LINES]
    if placed.neck is None or None in lines:
        return None
    (at, way), *other = (line for line in lines if line is not None)
    if not other:
        return _square(placed, placed.neck.frame.see(placed.states, *points)[:, 0], at, way)
    return _beside(placed, at, way, *other[0])


def _between(found: Surveyed, a: str, b: str) -> HowFar | None:
    """The distance of two points. Its variance is J Σ Jᵀ with J the unit vector from a to b, minus at a, plus at b
    (JCGM 102:2011, 6.2.1).
    """
    if a not in found.point_at or b not in found.point_at:
        return None
    at, to = found.point_at[a], found.point_at[b]
    step = found.state[to : to + 2] - found.state[at : at + 2]
    length = float(np.hypot(*step))
    if length == 0:
        return HowFar(kind="points", distance=0.0, pm95=0.0)
    slopes = np.zeros(len(found.state))
    slopes[to : to + 2] = step / length
    slopes[at : at + 2] = -step / length
    variance = float(slopes @ found.cov @ slopes)
    return HowFar(kind="points", distance=length, pm95=TWO_SIDED_95 * math.sqrt(max(variance, 0.0)))


def _line(placed: PlacedInstrument, thing: str, seams: list[str]) -> tuple[Points, Points] | None:
    """A line in the neck frame in all rows, a point on it and its direction, (rows,); None where it isn't known."""
    neck, seen = placed.neck, placed.states
    if neck is None:
        return None
    rows = len(seen.rows)
    match thing:
        case "edge:left" | "edge:right":
            side = 0 if thing == "edge:left" else 1
            return neck.frame.edge[:, side], neck.frame.edge_way[:, side]
        case "neck":
            return np.zeros(rows, dtype=complex), np.ones(rows, dtype=complex)
        case "seam":
            if len(seams) < 2:
                return None
            return best_line(neck.frame.see(seen, *seams), np.ones(rows, dtype=complex))
        case _:
            if placed.saddle is None:
                return None
            line = placed.saddle.line
            return line.at.astype(np.complex128), unit((line.lean + 1j).astype(np.complex128))


def _square(placed: PlacedInstrument, point: Points, at: Points, way: Points) -> HowFar:
    off = cross(way, point - at)
    foot = point[0] - 1j * way[0] * off[0]
    return HowFar(
        kind="square",
        distance=abs(float(off[0])),
        pm95=float(placed.states.pm95(off)),
        side=round(math.copysign(1, off[0])),
        ends=(xy(complex(point[0])), xy(complex(foot))),
    )


def _beside(placed: PlacedInstrument, at: Points, way: Points, at_b: Points, way_b: Points) -> HowFar:
    turn = way_b * way.conj()
    turn = np.where(turn.real[0] < 0, -turn, turn)
    angle = np.degrees(np.arctan2(turn.imag, turn.real))
    opened = msgspec.structs.replace(
        _square(placed, at_b, at, way), angle=float(angle[0]), angle_pm95=float(placed.states.pm95(angle))
    )
    if abs(opened.angle) >= BESIDE:
        met = crossing(at, way, at_b, way_b)
        return msgspec.structs.replace(
            opened,
            kind="crossing",
            distance=float(met[0].real),
            pm95=float(placed.states.pm95(met.real)),
            side=0,
            ends=(xy(complex(0.0, met[0].imag)), xy(complex(met[0]))),
        )
    x = float(placed.saddle.line.at[0]) if placed.saddle is not None else REACH
    found = _square(placed, at_b + way_b * (x - at_b.real) / way_b.real, at, way)
    return msgspec.structs.replace(found, kind="beside", angle=opened.angle, angle_pm95=opened.angle_pm95)
