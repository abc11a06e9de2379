"""Measured points on the plan, with how well each is known."""

import math

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Line, Mark, Path, Tone
from export.drawing.smooth import closed_curve
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.job import Job
from geometry.layout import TWO_SIDED_95, Layout, PlacedPoint, accused

GROWTH = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
"""The factors by which ellipses may be drawn larger."""
LEAST_SEEN = 1.2
"""The median ellipse's half axis on the paper, mm, that the factor is chosen for."""
CHI2_95 = 5.991464547107979
"""The 95 % point of chi-square for two degrees of freedom: −2 ln 0.05, exactly."""


def points(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Every point: a dot, or a ring where a gross error in it would not show, with its 95 % ellipse if wanted; and
    where one that is loose, or may lie on either side, was put.
    """
    if "points" not in view.overlays:
        return [], []
    marks: list[Mark] = []
    labels: list[Label] = []
    suspect = _suspect_points(job, layout)
    growth = growth_of(layout, view) if "ellipses" in view.overlays else 1.0
    for name, point in layout.points.items():
        of, at = f"point:{name}", (point.x, point.y)
        tone: Tone = "look" if name in suspect else "measured"
        if "ellipses" in view.overlays:
            marks.append(Mark(shape=ellipse(point, growth), purpose="measured", of=of, tone="quiet", weight=0.7))
        hollow = not point.checked
        radius = view.size(0.75 if hollow else 0.7)
        marks.append(Mark(shape=Circle(at, radius), purpose="measured", of=of, tone=tone, filled=not hollow))
        if tone == "look":
            marks.append(Mark(shape=warning(at, view.size(2.0)), purpose="measured", of=of, tone="look", weight=1.4))
    more, asked = _not_held(job, layout, view)
    marks, labels = marks + more, labels + asked
    if growth > 1 and layout.points:
        lowest = min(layout.points.values(), key=lambda p: p.y)
        words = f"95 % ellipses, drawn {growth:g} times"
        labels.append(Label(at=(lowest.x, lowest.y), words=words, of="ellipses", tone="quiet", prefer=-90, clear=2.0))
    return marks, labels


def _not_held(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """Points that are loose or may lie on either side, where they were put, and which way they can move. One of which a
    reading is still to be taken is no fault, and stays quiet.
    """
    marks: list[Mark] = []
    labels: list[Label] = []
    ways = {item.point: item.direction for item in layout.survey.loose}
    elsewhere = layout.survey.elsewhere
    waiting = {name for r in job.readings if not (r.taken or r.struck) for name in r.of}
    for name, at in layout.rough.items():
        of = f"point:{name}"
        tone: Tone = "look" if (name in ways or name in elsewhere) and name not in waiting else "quiet"
        marks.append(Mark(shape=Circle(at, view.size(0.9)), purpose="hidden", of=of, tone=tone, weight=0.6))
        if name in ways:
            labels.append(Label(at=at, words="loose", of=of, tone=tone, clear=0.6))
            way = ways[name]
            if way is not None:
                marks += [Mark(shape=arrow, purpose="measured", of=of, tone=tone) for arrow in can_move(at, way, view)]
        if name in elsewhere:
            there = elsewhere[name]
            marks.append(Mark(shape=Line(at, there), purpose="hidden", of=of, tone=tone))
            marks.append(Mark(shape=Circle(there, view.size(0.9)), purpose="hidden", of=of, tone=tone, weight=0.6))
            labels += [Label(at=at, words="here, or", of=of, tone=tone, clear=0.6)]
            labels += [Label(at=there, words="here?", of=of, tone=tone, clear=0.6)]
    return marks, labels


def pm95(point: PlacedPoint) -> float:
    """The 95 % half-width of the axis along which a point is known worst, mm."""
    return TWO_SIDED_95 * axes(point)[0]


def axes(point: PlacedPoint) -> tuple[float, float, float]:
    """Half axes (1 sd, mm) of the standard ellipse, longest first, and the longest's angle."""
    mean, half = (point.sx**2 + point.sy**2) / 2, (point.sx**2 - point.sy**2) / 2
    reach = math.hypot(half, point.sxy)
    return math.sqrt(mean + reach), math.sqrt(max(mean - reach, 0.0)), math.atan2(point.sxy, half) / 2


def growth_of(layout: Layout, view: PlanView) -> float:
    """By how much ellipses are drawn larger at this scale: the same for all, said in words."""
    sizes = sorted(math.sqrt(CHI2_95) * axes(p)[0] for p in layout.points.values())
    if not sizes:
        return 1.0
    middle = sizes[len(sizes) // 2] * view.scale
    return next((factor for factor in GROWTH if middle * factor >= LEAST_SEEN), GROWTH[-1])


def ellipse(point: PlacedPoint, growth: float) -> Path:
    """A point's 95 % ellipse as arcs."""
    a, b, angle = axes(point)
    a, b = (max(axis * growth * math.sqrt(CHI2_95), 0.01) for axis in (a, b))
    cos, sin = math.cos(angle), math.sin(angle)
    turns = [math.tau * k / 12 for k in range(12)]
    ring = [(a * math.cos(t), b * math.sin(t)) for t in turns]
    return closed_curve(tuple((point.x + x * cos - y * sin, point.y + x * sin + y * cos) for x, y in ring))


def warning(at: XY, half: float) -> Path:
    """The triangle that says look again, `half` its width in mm."""
    return polyline([(at[0] - half, at[1] - half), (at[0] + half, at[1] - half), (at[0], at[1] + half)], True)


def can_move(at: XY, way: XY, view: PlanView) -> tuple[Path, ...]:
    """Two arrows from a loose point along the way in which nothing holds it."""
    (x, y), (dx, dy), near, far, head = at, way, view.size(1.6), view.size(5.0), view.size(1.1)
    return tuple(
        polyline(
            [
                (x + s * near * dx, y + s * near * dy),
                (x + s * far * dx, y + s * far * dy),
                (x + s * (far - head) * dx - head / 2 * dy, y + s * (far - head) * dy + head / 2 * dx),
                (x + s * (far - head) * dx + head / 2 * dy, y + s * (far - head) * dy - head / 2 * dx),
                (x + s * far * dx, y + s * far * dy),
            ]
        )
        for s in (1, -1)
    )


def _suspect_points(job: Job, layout: Layout) -> set[str]:
    suspects = accused(layout.survey)
    return {name for reading in job.readings if reading.id in suspects for name in reading.of}
