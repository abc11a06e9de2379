"""What the plan shows before there is a neck: the instrument as its points are roughly placed, so that the reading in
hand can be drawn from the first one on. Nothing of it is measured, and nothing is worked out from it.
"""

import msgspec

from export.drawing.straight import direction
from geometry import units
from geometry.advice.measuring_lists import measuring_list
from geometry.advice.usual_places import about
from geometry.job import Job
from geometry.layout import BOARD_CORNERS, XY, FretLine, FretPlan, Layout, Neck, Nominal, Ray, Survey, Why

SCALE = 650.0
ON_TOP = frozenset({"old", "pin", "hole", "slot", "metal", "bare", "area"})
"""Families of old work that is read along and off the board's edge."""
BESIDE = (1.02, 40.0)
"""Where on the top, in scales and mm to the bass side, what has no usual place is drawn until it is read."""


def with_rough_places(job: Job, layout: Layout) -> Layout:
    """The layout itself once it has a neck and frets; before that a rough one, as far as points are placed."""
    if layout.neck is not None:
        rough = {**_unread(job, layout), **layout.rough}
        frets = layout.frets or _frets(job, layout.neck)
        same = rough == layout.rough and frets is layout.frets
        return layout if same else msgspec.structs.replace(layout, rough=rough, frets=frets)
    points = job.points or measuring_list("bridge only", job.hand, 6).points
    near = {name: _xy(point.near) for name, point in points.items() if point.near is not None}
    if not all(name in near for name in BOARD_CORNERS):
        return layout
    nut, end = (near["nut.left"], near["nut.right"]), (near["end.left"], near["end.right"])
    neck = Neck(left_edge=_ray(nut[0], end[0]), right_edge=_ray(nut[1], end[1]), nut=nut, end=end)
    return Layout(
        frame="neck",
        points={},
        readings=(),
        survey=Survey(verdict="unchecked", why=Why(what="")),
        rough=near if job.points else {},
        neck=neck,
        frets=_frets(job, neck),
    )


def _unread(job: Job, layout: Layout) -> dict[str, XY]:
    """Points that no reading holds yet, where they were placed roughly, so that the hand can take them; old work that
    nobody placed where such a thing usually is, so that its first reading can be drawn as it is taken.
    """
    scale = layout.frets.scale if layout.frets is not None else SCALE
    return {
        name: _xy(point.near) if point.near is not None else _usual_place(name, job, scale)
        for name, point in job.points.items()
        if name not in layout.points and (point.near is not None or name.partition(".")[0] in ON_TOP)
    }


def _usual_place(name: str, job: Job, scale: float) -> XY:
    try:
        return about(name, job.hand, scale)
    except KeyError:
        return BESIDE[0] * scale, BESIDE[1] if job.bass == "left" else -BESIDE[1]


def _xy(near: tuple[units.Length, units.Length]) -> XY:
    return units.mm(near[0]), units.mm(near[1])


def _ray(a: XY, b: XY) -> Ray:
    return Ray(at=a, direction=direction(a, b))


def _frets(job: Job, neck: Neck) -> FretPlan:
    """Equal-tempered frets of a usual scale (ratio 2^(1/12))."""
    lines = []
    for fret in range(job.frets.count + 1):
        x = SCALE * (1 - 2 ** (-fret / 12))
        left, right = (ray.at[1] + x * ray.direction[1] / ray.direction[0] for ray in (neck.left_edge, neck.right_edge))
        lines.append(FretLine(fret=fret, left=(x, left), right=(x, right)))
    nominal = Nominal(left=SCALE, right=SCALE, left_pm95=0.0, right_pm95=0.0)
    return FretPlan(spacing="equal", scale=SCALE, scale_pm95=0.0, nut_shift=0.0, nominal=nominal, lines=tuple(lines))
