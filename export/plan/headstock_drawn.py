"""The rest of the instrument on the plan: the headstock with what is to go on it, markers along the neck, other holes.

What was found is drawn as former lines and an outline; new holes as what is to be drilled. An old hole that is to be
plugged is hatched. A slotted headstock's posts are drilled from its sides: of them one sees the axes.
"""

import math

from export.drawing.dimension import cross, hatch
from export.drawing.flatten import Box, around, polyline
from export.drawing.marks import XY, Circle, Line, Mark
from export.plan.bridge.old_work_drawn import old_hole
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.job import Job
from geometry.layout import HeadstockPlan, Layout, Plug
from geometry.units import mm

HATCH = 0.9
"""Between the lines of a plug's hatch, in paper mm."""
PAST = 8.0
"""How far the middle line reaches past the last of the headstock, mm."""
ROUND = 16
"""Corners of the outline that stands for a plug's circle while it is hatched."""


def rest(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """All of it, from the ground up; labels only where one looks closely."""
    marks = _other_holes(layout)
    labels: list[Label] = []
    found = layout.hardware.headstock
    if found is not None:
        marks += _as_found(found, slotted=job.hardware.slotted)
        more, labels = _new(job, found, view)
        marks += more
    return marks + _markers(job, layout), labels


def place_of_headstock(layout: Layout | None) -> Box | None:
    """The box round the headstock and the nut; None where the headstock has no place."""
    found = layout.hardware.headstock if layout is not None else None
    if layout is None or found is None or layout.neck is None:
        return None
    return around(tuple(_places(found)) + layout.neck.nut)


def _places(found: HeadstockPlan) -> list[XY]:
    rings = (found.outline, *found.slots, *found.plates)
    old = [hole.at for hole in (*found.old_posts, *found.old_screws)]
    return [*(at for ring in rings for at in ring), *old, *(post.at for post in found.posts), found.middle.at]


def _as_found(found: HeadstockPlan, *, slotted: bool) -> list[Mark]:
    """Outline and slots, the middle line from the nut on, and the old holes; of a slotted headstock their axes."""
    marks: list[Mark] = []
    if found.outline:
        marks.append(Mark(shape=polyline(found.outline, closed=True), purpose="body", of="headstock", filled=True))
    marks += [Mark(shape=polyline(ring, closed=True), purpose="body", of="headstock") for ring in found.slots]
    (x, y), (dx, dy) = found.middle.at, found.middle.direction
    far = max(abs(complex(*at) - complex(x, y)) for at in _places(found)) + PAST
    away = -far if dx > 0 else far
    middle = Line((x, y), (x + away * dx, y + away * dy))
    marks.append(Mark(shape=middle, purpose="centre", of="headstock", tone="quiet"))
    axes = {bore.hole: Line(*bore.axis) for side in found.sides for bore in side.old}
    for hole in (*found.old_posts, *found.old_screws):
        of = f"point:{hole.name}"
        if hole.name in axes:
            marks.append(Mark(shape=axes[hole.name], purpose="before", of=of, tone="quiet"))
        elif not slotted:
            marks += old_hole(hole, of, "quiet")
    return marks


def _new(job: Job, found: HeadstockPlan, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Plugs, plates and their screws, posts with their bushings; by each post the string that goes to it."""
    if job.hardware.slotted:
        return _axes(found, view)
    marks = [mark for plug in found.plugs for mark in _plug(plug, view)]
    labels: list[Label] = []
    marks += [Mark(shape=polyline(ring, closed=True), purpose="hidden", of="tuner plate") for ring in found.plates]
    plate = job.hardware.tuners.plate if job.hardware.tuners is not None else None
    if plate is not None:
        half = mm(plate.screw_hole) / 2
        marks += [Mark(shape=Circle(at, half), purpose="drill", of="plate screw") for at in found.screws]
    for number, post in enumerate(found.posts, 1):
        of = f"post:{number}"
        marks.append(Mark(shape=Circle(post.at, post.diameter / 2), purpose="drill", of=of))
        if post.bushing is not None:
            marks.append(Mark(shape=Circle(post.at, post.bushing / 2), purpose="mark", of=of))
        if view.near:
            marks += cross(post.at, post.diameter / 2 + 1.4, "centre", of=of, weight=0.7)
            clear = view.scale * (post.bushing or post.diameter) / 2
            labels.append(Label(at=post.at, words=post.string or str(number), of=of, bold=True, clear=clear))
    return marks, labels


def _axes(found: HeadstockPlan, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """The posts of a slotted headstock, which are drilled from its sides: their axes from the edge to the slot."""
    marks, labels = [], []
    for number, (post, bore) in enumerate(zip(found.posts, found.bores, strict=True), 1):
        of = f"post:{number}"
        if bore is not None:
            marks.append(Mark(shape=Line(*bore.axis), purpose="mark", of=of))
        if view.near:
            marks += cross(post.at, post.diameter / 2, "centre", of=of, weight=0.7)
            labels.append(
                Label(
                    at=post.at, words=post.string or str(number), of=of, bold=True, clear=view.scale * post.diameter / 2
                )
            )
    return marks, labels


def _plug(plug: Plug, view: PlanView) -> list[Mark]:
    """A plug's edge and its hatch; on a small plan its edge alone."""
    of = f"point:{plug.hole}"
    edge = Mark(shape=Circle(plug.at, plug.plug / 2), purpose="mark", of=of, tone="quiet")
    if not view.near:
        return [edge]
    turns = [2 * math.pi * k / ROUND for k in range(ROUND)]
    half = plug.plug / 2
    ring = tuple((plug.at[0] + half * math.cos(turn), plug.at[1] + half * math.sin(turn)) for turn in turns)
    return [
        edge,
        *(
            Mark(shape=line, purpose="dimension", of=of, tone="quiet", weight=0.6)
            for line in hatch(ring, view.size(HATCH))
        ),
    ]


def _markers(job: Job, layout: Layout) -> list[Mark]:
    """Dots in the face as they are; in the edge, which one sees from above as a line, each hole as deep as it goes."""
    marks = [
        Mark(shape=Circle(dot.at, dot.diameter / 2), purpose="drill", of="markers") for dot in layout.hardware.face
    ]
    wanted = job.hardware.markers.side if job.hardware.markers is not None else None
    edge = layout.hardware.edge
    if wanted is None or len(edge) < 2:
        return marks
    way = complex(*edge[-1]) - complex(*edge[0])
    way /= abs(way)
    inward = way * (1j if sum(y for _, y in edge) < 0 else -1j) * mm(wanted.deep)
    for dot in layout.hardware.side:
        at, half = complex(*dot.at), way * dot.diameter / 2
        corners = [at - half, at + half, at + half + inward, at - half + inward]
        ring = [(corner.real, corner.imag) for corner in corners]
        marks.append(Mark(shape=polyline(ring, closed=True), purpose="drill", of="markers", filled=True))
    return marks


def _other_holes(layout: Layout) -> list[Mark]:
    return [
        Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="drill", of=f"other hole:{number}")
        for number, hole in enumerate(layout.hardware.holes, 1)
        if hole.at is not None
    ]
