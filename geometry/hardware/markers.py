"""Markers along the neck: dots before frets, in the board's edge or in its face, from the frets as fitted.

A marker stands midway between its fret and the one before (the nut before fret 1), as dividers would find it. In the
edge it lies on the board's real edge, through the points read there in turn, which need not be straight.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.frame import Array, Points, crossing, dot, unit, xy
from geometry.frets.fret_fit import FittedSpacing
from geometry.job import Job
from geometry.job.neck.fretting import Spacing
from geometry.job.neck.hardware import FaceMarkers, SideMarkers
from geometry.job.sides import SIDES, Side
from geometry.layout import XY, FretPlan, HardwarePlan, Marker, OtherHolePlan, PlacedPoint
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import OuterPaths
from geometry.perturbed_states import PerturbedStates
from geometry.spacing import one_fraction
from geometry.units import mm, said

ROOM = 1.0
"""Wood between a marker and a fret, or between two markers, below which it is said, mm (common practice, no source)."""
SKIN = 0.5
"""Wood over or under a side marker below which it breaks out, mm (common practice, no source)."""


class _Between(NamedTuple):
    """The middle between a fret and the one before, on both edges, and the two frets' distance there (mm)."""

    left: complex
    right: complex
    gap: float


def place(
    states: PerturbedStates, job: Job, frame: NeckFrame, paths: OuterPaths, spaced: FittedSpacing, plan: FretPlan
) -> HardwarePlan:
    """All markers that the frets carry; those before frets that the board has not are left out."""
    markers, count = job.hardware.markers, len(plan.lines) - 1
    if markers is None:
        return HardwarePlan()
    side: tuple[Marker, ...] = ()
    face: tuple[Marker, ...] = ()
    edge: tuple[XY, ...] = ()
    if markers.side is not None:
        edge = real_edge(frame, _physical(job, markers.side))
        frets = [fret for fret in markers.side.frets if fret <= count]
        if frets and len(edge) > 1:
            middles = _middles(frame, paths, spaced, job.frets.spacing, frets)
            pm95s = states.pm95(_along(frame, _physical(job, markers.side), middles)).tolist()
            side = _in_edge(job, plan, markers.side, edge, dict(zip(frets, pm95s, strict=True)))
    if markers.face is not None:
        frets = [fret for fret in markers.face.frets if fret <= count]
        pm95s = states.pm95(_middles(frame, paths, spaced, job.frets.spacing, frets).real.mean(axis=2)).tolist()
        face = _in_face(plan, markers.face, dict(zip(frets, pm95s, strict=True)))
    return HardwarePlan(side=side, face=face, edge=edge)


def place_holes(job: Job, points: dict[str, PlacedPoint]) -> tuple[OtherHolePlan, ...]:
    """The holes anywhere, on the plan where their points are placed."""
    return tuple(
        OtherHolePlan(
            where=hole.where,
            at=(points[hole.point].x, points[hole.point].y) if hole.point in points else None,
            diameter=mm(hole.diameter),
            depth=mm(hole.depth) if hole.depth is not None else None,
        )
        for hole in job.hardware.holes
    )


def real_edge(frame: NeckFrame, side: Side) -> tuple[XY, ...]:
    """The board's edge through the points read on it, from the nut's corner on."""
    points = [complex(at[0]) for at in frame.on_edges[SIDES.index(side)].values()]
    return tuple(xy(at) for at in sorted(points, key=lambda at: at.real))


def along_edge(edge: Sequence[XY], at: complex, way: complex) -> tuple[complex, float]:
    """Where the line through `at` along `way` crosses an edge of several pieces, and how far that is along it from its
    first point; beyond its last point on its last piece carried on.
    """
    done, found = 0.0, (complex(*edge[0]), 0.0)
    pieces = list(pairwise(complex(*point) for point in edge))
    for number, (start, stop) in enumerate(pieces):
        along = stop - start
        share = ((at - start) * way.conjugate()).imag / (along * way.conjugate()).imag
        found = start + share * along, done + share * abs(along)
        if share <= 1 or number == len(pieces) - 1:
            break
        done += abs(along)
    return found


def _physical(job: Job, wanted: SideMarkers) -> Side:
    return "left" if job.bass_or_treble("left") == wanted.side else "right"


def _between(plan: FretPlan, fret: int) -> _Between:
    before, here = plan.lines[fret - 1], plan.lines[fret]
    ends = [(complex(*getattr(before, side)), complex(*getattr(here, side))) for side in SIDES]
    (left, right), gaps = [(a + b) / 2 for a, b in ends], [abs(b - a) for a, b in ends]
    return _Between(left, right, min(gaps))


def _ends(frame: NeckFrame, paths: OuterPaths, spaced: FittedSpacing, spacing: Spacing, frets: Sequence[int]) -> Points:
    """Where frets cross the edge lines in all rows, (rows, frets, 2); the nut's corners for fret 0."""
    shares = np.array([one_fraction(spacing, fret) if fret else 0.0 for fret in frets])
    off = np.concatenate((np.zeros((1, 2)), spaced.off))[list(frets)]
    far = shares[:, None] * spaced.scale[:, None] - spaced.shift[:, None] + off
    places = paths.start[:, None] + paths.along[:, None] * far
    on, way = places[..., 1:], places[..., :1] - places[..., 1:]
    edges = crossing(on, way, frame.edge[:, None], frame.edge_way[:, None])
    return np.where((np.array(frets) == 0)[:, None], frame.nut[:, None], edges)


def _middles(frame: NeckFrame, paths: OuterPaths, spaced: FittedSpacing, spacing: Spacing, frets: list[int]) -> Points:
    """The middle between each fret and the one before on the edge lines in all rows, (rows, frets, 2)."""
    before = _ends(frame, paths, spaced, spacing, [fret - 1 for fret in frets])
    return (before + _ends(frame, paths, spaced, spacing, frets)) / 2


def _along(frame: NeckFrame, side: Side, middles: Points) -> Array:
    """How far along the board's real edge these middles (rows, frets, 2) lie from the nut's corner, (rows, frets)."""
    columns = sorted(frame.on_edges[SIDES.index(side)].values(), key=lambda at: float(at[0].real))
    edge = np.stack(columns, axis=1)
    done = np.concatenate((np.zeros((len(edge), 1)), np.abs(np.diff(edge)).cumsum(axis=1)), axis=1)
    at, way = middles[..., SIDES.index(side)], middles[..., 0] - middles[..., 1]
    # in the first row, on which piece of the edge each lies; the first and the last are carried on
    piece = np.clip(np.searchsorted(edge[0].real, at[0].real) - 1, 0, edge.shape[1] - 2)
    start = edge[:, piece]
    on = crossing(at, way, start, edge[:, piece + 1] - start)
    return done[:, piece] + dot(on - start, unit(edge[:, piece + 1] - start))


def _in_edge(
    job: Job, plan: FretPlan, wanted: SideMarkers, edge: tuple[XY, ...], pm95s: dict[int, float]
) -> tuple[Marker, ...]:
    side, diameter = _physical(job, wanted), mm(wanted.diameter)
    found = []
    for fret, pm95 in pm95s.items():
        middle = _between(plan, fret)
        at, along = along_edge(edge, getattr(middle, side), middle.left - middle.right)
        half = mm(wanted.apart) / 2
        for off in (-half, half) if fret in wanted.twice else (0.0,):
            way = complex(*edge[-1]) - complex(*edge[0])
            place = at + off * way / abs(way)
            found.append(Marker(fret=fret, at=xy(place), along=along + off, pm95=pm95, diameter=diameter))
    return tuple(found)


def _in_face(plan: FretPlan, wanted: FaceMarkers, pm95s: dict[int, float]) -> tuple[Marker, ...]:
    found = []
    for fret, pm95 in pm95s.items():
        middle = _between(plan, fret)
        centre, across = (middle.left + middle.right) / 2, middle.left - middle.right
        half = mm(wanted.apart) / 2 * across / abs(across)
        for at in (centre + half, centre - half) if fret in wanted.twice else (centre,):
            found.append(Marker(fret=fret, at=xy(at), along=at.real, pm95=pm95, diameter=mm(wanted.diameter)))
    return tuple(found)


def findings(job: Job, plan: FretPlan, placed: HardwarePlan, end: tuple[XY, XY] | None) -> tuple[Finding, ...]:
    """Markers that the board has no place for, and such as crowd a fret, each other or the wood they stand in."""
    markers = job.hardware.markers
    if markers is None:
        return ()
    found: list[Finding] = []
    for name, wanted, dots in (("side", markers.side, placed.side), ("face", markers.face, placed.face)):
        if wanted is not None:
            found += _beyond(plan, name, wanted)
            found += _crowded(job, plan, name, wanted, dots)
    if markers.side is not None and end is not None:
        found += _past_the_end(placed)
    if markers.side is not None:
        found += _breaks_out(job, markers.side)
    return tuple(found)


def _beyond(plan: FretPlan, name: str, wanted: SideMarkers | FaceMarkers) -> list[Finding]:
    last = len(plan.lines) - 1
    beyond = [fret for fret in wanted.frets if fret > last]
    if not beyond:
        return []
    which = words.joined([str(fret) for fret in beyond])
    return [
        Finding(
            grade="look",
            code=f"markers.{name}.beyond",
            text=f"The board has {last} frets, so the {name} marker{'s' * (len(beyond) > 1)} at fret {which} "
            f"{'are' if len(beyond) > 1 else 'is'} left out: take {which} off their list, or mend the count of frets.",
            where=f"field:hardware.markers.{name}.frets",
        )
    ]


def _crowded(
    job: Job, plan: FretPlan, name: str, wanted: SideMarkers | FaceMarkers, dots: Sequence[Marker]
) -> list[Finding]:
    """The first marker with too little wood to its frets, or to the other one at its fret."""
    wide = mm(wanted.diameter)
    for marker in dots:
        two = marker.fret in wanted.twice
        span = wide + (mm(wanted.apart) if two and name == "side" else 0.0)
        room = (_between(plan, marker.fret).gap - span) / 2
        apart = mm(wanted.apart) - wide if two else math.inf
        if min(room, apart) < ROOM:
            crowds = "each other" if apart < room else "the frets beside them"
            return [
                Finding(
                    grade="look",
                    code=f"markers.{name}.crowded",
                    text=f"The {name} marker{'s' * two} at fret {marker.fret} crowd{'' if two else 's'} {crowds}: "
                    f"{said(max(min(room, apart), 0.0), job.unit)} of wood is left. Take smaller ones"
                    f"{', or change how far apart they stand' if two else ''}.",
                    values={"fret": float(marker.fret), "wood": min(room, apart)},
                    where=f"field:hardware.markers.{name}.diameter",
                )
            ]
    return []


def _past_the_end(placed: HardwarePlan) -> list[Finding]:
    pieces = list(pairwise(placed.edge))
    length = sum(math.dist(*piece) for piece in pieces)
    past = sorted({dot.fret for dot in placed.side if dot.along + dot.diameter / 2 > length})
    if not past:
        return []
    which = words.joined([str(fret) for fret in past])
    return [
        Finding(
            grade="stop",
            code="markers.side.past_the_end",
            text=f"The side marker at fret {which} lies past the board’s end: there is no wood to drill. Take it off "
            "the list, or look at the readings of the board’s end.",
            values={"fret": float(past[0])},
            where="field:hardware.markers.side.frets",
        )
    ]


def _breaks_out(job: Job, wanted: SideMarkers) -> list[Finding]:
    """A dot too near the face, or to the board's underside where the board's height over the top was read."""
    radius, below = mm(wanted.diameter) / 2, mm(wanted.below)
    heights = [
        mm(reading.parts[0])
        for reading in job.readings
        if reading.kind == "height" and reading.at == "board end" and reading.taken
    ]
    over, under = below - radius, min(heights, default=math.inf) - below - radius
    if min(over, under) >= SKIN:
        return []
    where = "the board’s face" if over <= under else "the board’s underside at its end"
    return [
        Finding(
            grade="look",
            code="markers.side.breaks_out",
            text=f"The side markers leave {said(max(min(over, under), 0.0), job.unit)} of wood to {where}: a drill "
            "breaks out there. Take smaller ones, or set them otherwise.",
            values={"wood": min(over, under)},
            where="field:hardware.markers.side.below",
        )
    ]
