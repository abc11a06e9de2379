"""The neck: its two edge lines, the centre line between them, and the frame that all else is placed in.

The frame's origin is where the neck centre line crosses the nut's front edge (the top of a zero fret, if there is one);
+x runs to the tail, +y to the left.
"""

import msgspec
import numpy as np

from geometry.findings import Finding
from geometry.frame import Points, best_line, bisector, cross, crossing, into, unit, xy
from geometry.job import Job
from geometry.layout import Neck, Ray, Side
from geometry.sample import Sample
from geometry.units import said

SIDES: tuple[Side, Side] = ("left", "right")
HOLLOW = 1.0
"""From how far off its edge line (mm) a point on an edge is worth a look (common practice, no source)."""


class NeckFrame(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The frame in all rows, and the neck's lines seen in it: `edges` and `nut` by side, `ends` where read."""

    origin: Points
    direction: Points
    edges: tuple[tuple[Points, Points], tuple[Points, Points]]
    nut: tuple[Points, Points]
    ends: tuple[Points, Points] | None
    edge_points: tuple[tuple[str, ...], tuple[str, ...]]

    def see(self, sample: Sample, *names: str) -> Points:
        """Points seen in the neck frame in all rows, (rows, k)."""
        return into(sample.points(names), self.origin, self.direction)


def edge_points(points: list[str], side: Side) -> tuple[str, ...]:
    """Which of these points lie on the edge of the board on that side."""
    wanted = (f"nut.{side}", f"fret12.{side}", f"end.{side}")
    return tuple(name for name in points if name in wanted or name.startswith(f"edge.{side}."))


def find_neck(sample: Sample, job: Job) -> NeckFrame | None:
    """The neck in all rows; None while the nut's corners or a second point on either edge is missing."""
    if not sample.has("nut.left", "nut.right"):
        return None
    solved = list(sample.surveyed.point_at)
    on_edges = (edge_points(solved, "left"), edge_points(solved, "right"))
    if any(len(names) < 2 for names in on_edges):
        return None
    lines = tuple(_edge_line(sample, names) for names in on_edges)
    nut = tuple(sample.point(f"nut.{side}") for side in SIDES)
    at, direction = _centre_line(sample, job, (lines[0], lines[1]), (nut[0], nut[1]))
    origin = crossing(at, direction, nut[1], unit(nut[0] - nut[1]))
    turn = direction.conj()
    edges = tuple(((a - origin) * turn, d * turn) for a, d in lines)
    corners = tuple((corner - origin) * turn for corner in nut)
    ends = None
    if sample.has("end.left", "end.right"):
        seen = into(sample.points(("end.left", "end.right")), origin, direction)
        ends = (seen[:, 0], seen[:, 1])
    return NeckFrame(
        origin=origin,
        direction=direction,
        edges=(edges[0], edges[1]),
        nut=(corners[0], corners[1]),
        ends=ends,
        edge_points=on_edges,
    )


def _edge_line(sample: Sample, names: tuple[str, ...]) -> tuple[Points, Points]:
    nut = next(name for name in names if name.startswith("nut."))
    points = sample.points(names)
    far = int(np.argmax(np.abs(points[0] - points[0, names.index(nut)])))
    return best_line(points, points[:, far] - sample.point(nut))


def _centre_line(
    sample: Sample, job: Job, lines: tuple[tuple[Points, Points], tuple[Points, Points]], nut: tuple[Points, Points]
) -> tuple[Points, Points]:
    threads = [f"thread.{side}.{place}" for side in SIDES for place in ("nut", "end")]
    if job.board.centre == "midpoints" and sample.has("end.left", "end.right"):
        start = (nut[0] + nut[1]) / 2
        return start, unit((sample.point("end.left") + sample.point("end.right")) / 2 - start)
    if job.board.centre == "threads" and sample.has(*threads):
        a, b, c, d = (sample.point(name) for name in threads)
        return bisector(a, unit(b - a), c, unit(d - c))
    return bisector(lines[0][0], lines[0][1], lines[1][0], lines[1][1])


def describe(sample: Sample, frame: NeckFrame) -> Neck:
    """The neck as the layout holds it."""
    left, right = (Ray(at=xy(at[0]), direction=xy(direction[0])) for at, direction in frame.edges)
    seam = sorted(name for name in sample.surveyed.point_at if name.startswith("seam."))
    seam_ray = None
    if len(seam) >= 2:
        seen = frame.see(sample, *seam)[:1]
        at, direction = best_line(seen, np.array([1 + 0j]))
        seam_ray = Ray(at=xy(at[0]), direction=xy(direction[0]))
    return Neck(
        left_edge=left,
        right_edge=right,
        nut=(xy(frame.nut[0][0]), xy(frame.nut[1][0])),
        end=None if frame.ends is None else (xy(frame.ends[0][0]), xy(frame.ends[1][0])),
        seam=seam_ray,
    )


def findings(sample: Sample, job: Job, frame: NeckFrame, neck: Neck) -> tuple[Finding, ...]:
    """Hollow edges, and how the seam lies to the neck centre line."""
    found = []
    for (at, direction), names in zip(frame.edges, frame.edge_points, strict=True):
        off = cross(direction[0], frame.see(sample, *names)[0] - at[0])
        worst = int(np.argmax(np.abs(off)))
        if len(names) > 2 and abs(off[worst]) > HOLLOW:
            found.append(
                Finding(
                    grade="look",
                    code="edge.hollow",
                    text=f"The edge is not straight: {names[worst]} lies {said(abs(off[worst]), job.unit)} "
                    "off the best line through the points read on it. A hollow or a planed "
                    "stretch; check that it was read on the edge.",
                    values={"off": float(off[worst])},
                    where=f"point:{names[worst]}",
                )
            )
    if neck.seam is not None:
        angle = float(np.degrees(np.arctan2(neck.seam.direction[1], neck.seam.direction[0])))
        found.append(
            Finding(
                grade="good",
                code="seam.cant",
                text=f"The seam is turned {abs(angle):.2f}° to the neck centre line; the bridge is set from the neck.",
                values={"degrees": angle},
                where="seam",
            )
        )
    return tuple(found)


def missing(sample: Sample) -> Finding:
    """What is still to be read before there is a neck."""
    lacking = [name for name in ("nut.left", "nut.right") if not sample.has(name)]
    lacking += [
        f"a second point on the {side} edge"
        for side in SIDES
        if len(edge_points(list(sample.surveyed.point_at), side)) < 2
    ]
    return Finding(
        grade="look",
        code="neck.missing",
        text=f"The neck cannot be laid out yet: {', '.join(lacking)} still to be read or held.",
        where="step:measure",
    )
