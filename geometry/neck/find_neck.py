"""The neck: its two edge lines, the centre line between them, and the frame that all else is placed in.

The frame's origin is where the neck centre line crosses the nut's front edge (the top of a zero fret, if there is one);
+x runs to the tail, +y to the left. Whatever there is of a side stands at [left, right] in the last axis.
"""

import math

import msgspec
import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.frame import Points, best_line, bisector, crossing, into, unit, xy, xys
from geometry.job import Job
from geometry.job.neck.board import Centre
from geometry.job.sides import SIDES, Side
from geometry.layout import Neck, PlacedPoint, Ray
from geometry.perturbed_states import PerturbedStates

LIES: dict[Centre, str] = {
    "bisector": "along the whole board",
    "nut to fret 12": "along nut to fret 12",
    "midpoints": "by the midpoints",
    "threads": "by the threads",
}
"""How the neck centre line lies, in words."""
WEAK = 2.0
"""A point on an edge that is known no better than this, one standard deviation, mm, says nothing of the edge (common
practice, no source)."""
SHORTEST, NARROWEST = 50.0, 10.0
"""An edge line needs points this far apart and a nut this width, mm: less is a slip, not a neck (common practice)."""

CANTED = 3.0
"""Degrees. A seam turned farther to the neck is a slip, or a neck to be mended (common practice, no source)."""


class NeckFrame(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The frame in all rows (rows,), and seen in it at [left, right] (rows, 2): a point `edge` on each edge line, its
    direction `edge_way`, the corners of the `nut` and, where they were read, of the board's `ends`. `on_edges` maps
    the points of each edge to their places (rows,), the nut's corner first.
    """

    origin: Points
    direction: Points
    edge: Points
    edge_way: Points
    nut: Points
    ends: Points | None
    on_edges: tuple[dict[str, Points], dict[str, Points]]

    def see(self, states: PerturbedStates, *names: str) -> Points:
        """Points seen in the neck frame in all rows, (rows, k)."""
        return into(states.points(names), self.origin, self.direction)


def edge_points(states: PerturbedStates, side: Side) -> tuple[str, ...]:
    """Which of the solved points lie on the edge of the board on that side, the nut's corner first if it is held."""
    nut, wanted = f"nut.{side}", (f"fret12.{side}", f"end.{side}")
    solved = states.surveyed.point_at
    others = [name for name in solved if name in wanted or name.startswith(f"edge.{side}.")]
    if f"end.{side}" in solved:
        others = [name for name in others if name == f"end.{side}" or _spread(states, name) <= WEAK]
    return (nut, *others) if nut in solved else tuple(others)


def _spread(states: PerturbedStates, name: str) -> float:
    """A point's largest standard deviation along an axis of the survey, mm."""
    at, cov = states.surveyed.point_at[name], states.surveyed.cov
    return math.sqrt(max(float(cov[at, at]), float(cov[at + 1, at + 1]), 0.0))


def find_neck(states: PerturbedStates, job: Job) -> NeckFrame | None:
    """The neck in all rows; None while the nut's corners or a second point on either edge is missing."""
    on_edges = edge_points(states, "left"), edge_points(states, "right")
    if lacking(states, job, on_edges):
        return None
    names, count = [*on_edges[0], *on_edges[1]], len(on_edges[0])
    points = states.points(names)
    nut = points[:, [0, count]]
    left, left_way = _edge_line(points[:, :count])
    right, right_way = _edge_line(points[:, count:])
    at, direction = _centre_line(states, job, nut) or bisector(left, left_way, right, right_way)
    origin = crossing(at, direction, nut[:, 1], nut[:, 0] - nut[:, 1])
    seen = into(points, origin, direction)
    columns = seen.T
    corners = [names.index(name) for name in ("end.left", "end.right") if name in names]
    return NeckFrame(
        origin=origin,
        direction=direction,
        edge=into(np.array((left, right)).T, origin, direction),
        edge_way=np.array((left_way, right_way)).T * direction.conj()[:, None],
        nut=seen[:, [0, count]],
        ends=seen[:, corners] if len(corners) == 2 else None,
        on_edges=(
            dict(zip(on_edges[0], columns[:count], strict=True)),
            dict(zip(on_edges[1], columns[count:], strict=True)),
        ),
    )


def _edge_line(points: Points) -> tuple[Points, Points]:
    """The line through the points of one edge (rows, k), away from the nut's corner, the first of them."""
    far = int(np.abs(points[0] - points[0, 0]).argmax())
    return best_line(points, points[:, far] - points[:, 0])


def _centre_line(states: PerturbedStates, job: Job, nut: Points) -> tuple[Points, Points] | None:
    """The centre line that was chosen instead of the edge lines' bisector; None where its points are not known."""
    names = centre_points(job)
    if not names or not states.has(*names):
        return None
    points = states.points(names).T
    if job.board.line == "midpoints":
        start = nut.sum(axis=1) / 2
        return start, unit(points.sum(axis=0) / 2 - start)
    if job.board.line == "nut to fret 12":
        left, right = nut.T
        return bisector(left, unit(points[0] - left), right, unit(points[1] - right))
    a, b, c, d = points
    return bisector(a, unit(b - a), c, unit(d - c))


def centre_points(job: Job) -> tuple[str, ...]:
    """The points that the chosen centre line needs beside the edges."""
    return {
        "bisector": (),
        "nut to fret 12": ("fret12.left", "fret12.right"),
        "midpoints": ("end.left", "end.right"),
        "threads": tuple(f"thread.{side}.{place}" for side in SIDES for place in ("nut", "end")),
    }[job.board.line]


def describe(frame: NeckFrame, points: dict[str, PlacedPoint]) -> Neck:
    """The neck as the layout holds it; `points` are all that are placed."""
    seam = [complex(points[name].x, points[name].y) for name in points if name.startswith("seam.")]
    seam_ray = None
    if len(seam) >= 2:
        at, direction = best_line(np.array(seam), np.array(1 + 0j))
        seam_ray = Ray(at=xy(complex(at)), direction=xy(complex(direction)))
    left, right = (
        Ray(at=at, direction=way) for at, way in zip(xys(frame.edge[0]), xys(frame.edge_way[0]), strict=True)
    )
    nut, end = xys(frame.nut[0]), None if frame.ends is None else xys(frame.ends[0])
    return Neck(
        left_edge=left,
        right_edge=right,
        nut=(nut[0], nut[1]),
        end=None if end is None else (end[0], end[1]),
        seam=seam_ray,
    )


def findings(job: Job, neck: Neck, points: dict[str, PlacedPoint]) -> tuple[Finding, ...]:
    """Sides exchanged, a centre line that cannot be had, and how the seam lies to it."""
    found = [*_exchanged(neck)]
    lacking = [name for name in centre_points(job) if name not in points]
    called = [words.called(name, job.hand) for name in lacking]
    if lacking:
        found.append(
            Finding(
                grade="look",
                code="neck.centre",
                text=f"The neck centre line is to lie {LIES[job.board.line]}, but {words.joined(called)} "
                f"{'is' if len(lacking) == 1 else 'are'} not fixed by the readings yet. Until then it "
                "lies midway between the edges.",
                where="field:board.centre",
            )
        )
    if neck.seam is not None:
        angle = math.degrees(math.atan2(neck.seam.direction[1], neck.seam.direction[0]))
        askew = abs(angle) > CANTED
        mend = f"; few are by more than {CANTED:g}°. Look at the readings to its points." if askew else ""
        found.append(
            Finding(
                grade="look" if askew else "good",
                code="seam.cant",
                text=f"The seam is turned {abs(angle):.2f}° to the neck centre line"
                f"{mend or '; the bridge is set from the neck.'}",
                values={"degrees": angle},
                where="seam",
            )
        )
    return tuple(found)


def _exchanged(neck: Neck) -> tuple[Finding, ...]:
    """Corners whose left one lies on the right."""
    places = (("nut", neck.nut), ("board’s end", neck.end))
    where = [name for name, corners in places if corners is not None and corners[0][1] <= corners[1][1]]
    if not where:
        return ()
    return (
        Finding(
            grade="stop",
            code="neck.sides",
            text=f"Bass and treble are exchanged at the {' and the '.join(where)}. Look at the readings there, and at "
            "the side that each one names.",
            where="point:nut.left" if "nut" in where else "point:end.left",
        ),
    )


def lacking(states: PerturbedStates, job: Job, on_edges: tuple[tuple[str, ...], tuple[str, ...]]) -> tuple[str, ...]:
    """What is still to be read, in words, before there is a neck; `on_edges` the points on either edge."""
    found = [words.called(name, job.hand) for name in ("nut.left", "nut.right") if not states.has(name)]
    if not found and states.apart("nut.left", "nut.right") < NARROWEST:
        found.append("the nut’s two corners apart from each other")
    for side, names in zip(SIDES, on_edges, strict=True):
        if not any(states.apart(names[0], name) >= SHORTEST for name in names[1:]):
            found.append(f"a second point on the {job.bass_or_treble(side)} edge well away from the nut")
    return tuple(found)


def missing(states: PerturbedStates, job: Job) -> Finding:
    """What is still to be read before there is a neck."""
    on_edges = edge_points(states, "left"), edge_points(states, "right")
    return Finding(
        grade="look",
        code="neck.missing",
        text=f"The neck cannot be laid out yet. Still to be read: {words.joined(lacking(states, job, on_edges))}.",
        where="step:measure",
    )
