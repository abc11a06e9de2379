"""The reading in hand, drawn as it is taken: the straightedge laid down, the rule on it, and the value.

u is the unit vector along the straightedge, n its left-hand normal, as the equations of the readings have them.
"""

import math
from collections.abc import Callable, Mapping
from typing import NamedTuple

import msgspec

from export.drawing.clip import clip_line
from export.drawing.dimension import arrow
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Text
from export.drawing.straight import cross, crossing, direction
from export.drawing.typeface import width
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry import words
from geometry.job import Job, Reading
from geometry.job.measured.kinds import Kind
from geometry.layout import FretLine, Layout

PLATE = 2.4, 1.6
"""How far the plate under a value reaches past the words, paper mm."""
WIDE = 16.0
"""A straightedge's width on the plan, mm."""
FAR = 150.0
"""Lines that cross farther than this from all their points, mm, are not carried on to there."""
Where = Callable[[str], XY | None]


def in_hand(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """The reading in hand and the one advised, where their points have places."""
    marks: list[Mark] = []
    reading = next((r for r in job.readings if r.id == view.reading), None)
    for held, of in ((view.advice, "advice"), (reading, f"reading:{view.reading}")):
        if held is not None:
            marks += laid_down(job, layout, view, held, of)
    return marks, []


class Taken(NamedTuple):
    """A reading with what it takes to draw it: the places `at` of its points, the straightedge's first, what it `says`,
    and what its marks are `of`.
    """

    layout: Layout
    view: PlanView
    reading: Reading
    at: list[XY]
    says: str
    of: str


def laid_down(job: Job, layout: Layout, view: PlanView, reading: Reading, of: str) -> list[Mark]:
    """One reading's straightedge, rule and value."""
    where = _places(layout)
    ends = [where(name) for name in (*reading.from_, *reading.of)]
    if any(end is None for end in ends):
        return []
    at = [end for end in ends if end is not None]
    says = words.value(reading, job.unit) or "?"
    says = f"{says} {job.unit}" if says[-1].isnumeric() else says  # as typed, a value may carry its own unit
    return DRAWN[reading.kind](Taken(layout, view, reading, at, says, of))


def _places(layout: Layout) -> Where:
    def where(name: str) -> XY | None:
        if name in layout.points:
            return layout.points[name].x, layout.points[name].y
        return layout.rough.get(name)

    return where


def _foot(a: XY, b: XY, p: XY) -> XY:
    """Where P stands square to the straightedge."""
    ux, uy = direction(a, b)
    along = (p[0] - a[0]) * ux + (p[1] - a[1]) * uy
    return a[0] + along * ux, a[1] + along * uy


def _crossing(a: XY, b: XY, c: XY, d: XY) -> XY | None:
    return crossing(a, direction(a, b), c, direction(c, d), parallel=1e-6)


def _straightedge(a: XY, b: XY, touched: tuple[XY, ...], of: str) -> list[Mark]:
    """A steel straightedge along a→b, long enough for all it must touch, on the side away from the neck's middle."""
    ux, uy = direction(a, b)
    reach = [(p[0] - a[0]) * ux + (p[1] - a[1]) * uy for p in touched]
    low, high = min(reach) - 28.0, max(reach) + 45.0
    start, stop = (a[0] + low * ux, a[1] + low * uy), (a[0] + high * ux, a[1] + high * uy)
    side = -1.0 if -uy * a[0] + ux * a[1] > 0 else 1.0  # away from the origin's side: the middle of the neck
    return _strip(start, stop, of, -side, kind="straightedge")


def _strip(a: XY, b: XY, of: str, side: float, kind: str = "rule") -> list[Mark]:
    """A strip of steel from a to b: on its left (1), its right (-1), or astride (0)."""
    ux, uy = direction(a, b)
    low, high = {1.0: (0.0, WIDE), -1.0: (-WIDE, 0.0)}.get(side, (-WIDE / 2, WIDE / 2))
    if side == 0.0:
        low, high = -WIDE * 0.4, 0.0
    corners = [(p[0] - h * uy, p[1] + h * ux) for p, h in ((a, low), (b, low), (b, high), (a, high))]
    return [
        Mark(
            shape=polyline(corners, True), purpose="measured", of=f"{kind}:{of}", tone="quiet", filled=True, weight=0.8
        )
    ]


def _measure(a: XY, b: XY, says: str, of: str, view: PlanView) -> list[Mark]:
    """The distance that is read, between arrowheads, with its value in the middle."""
    marks = arrow(a, b, "measured", scale=view.scale, both=True, of=of)
    marks = [
        Mark(shape=m.shape, purpose="measured", of=of, filled=m.filled, tone="measured", weight=1.4) for m in marks
    ]
    return [*marks, _value(a, b, says, of, view)]


def _value(a: XY, b: XY, says: str, of: str, view: PlanView) -> Mark:
    """The value beside the middle of what is measured, or, close up, of what is seen of that: above it, or left of it
    where it stands on the screen.
    """
    (ax, ay), (bx, by) = view.seen(a), view.seen(b)
    upright = abs(by - ay) > abs(bx - ax)
    sight = view.seen_window if view.close_up else None
    if sight is not None and (part := clip_line((ax, ay), (bx, by), sight)) is not None:
        (ax, ay), (bx, by) = part
    off = (-2.0, 0.0) if upright else (0.0, 1.8)
    x, y = (ax + bx) / 2 + off[0], (ay + by) / 2 + off[1]
    if view.window is not None and upright:
        edge = min(view.seen(corner)[0] for corner in (view.window[:2], view.window[2:]))
        if (ax + bx) / 2 >= edge:  # what lies in sight has its value in sight
            x = max(x, edge + width(says, 2.6, True) + PLATE[0] + 1.0)
    if sight is not None and not upright and sight.x0 <= x <= sight.x1:
        half = width(says, 2.6, True) / 2 + PLATE[0]
        x = min(max(x, sight.x0 + half), sight.x1 - half)
    at = view.unseen((x, y))
    text = view.from_screen.shape(Text((0.0, 0.0), says, 2.6, 0.0, "em" if upright else "mb", bold=True))
    assert isinstance(text, Text)
    return Mark(shape=msgspec.structs.replace(text, at=at), purpose="measured", of=of, tone="measured")


def _between(taken: Taken) -> list[Mark]:
    """The rule from point to point."""
    a, b = taken.at
    return [*_strip(a, b, taken.of, 0.0), *_measure(a, b, taken.says, taken.of, taken.view)]


def _edge_and_foot(taken: Taken) -> tuple[XY, list[Mark]]:
    """Where the point stands square to the straightedge, which reaches so far; the point is ringed."""
    a, b, p = taken.at
    foot = _foot(a, b, p)
    return foot, [*_straightedge(a, b, (a, b, foot), taken.of), _ring(p, taken.of, taken.view)]


def _along(taken: Taken) -> list[Mark]:
    foot, (*edge, ring) = _edge_and_foot(taken)
    square = Mark(shape=Line(foot, taken.at[2]), purpose="lay", of=taken.of, tone="measured")
    return [*edge, square, ring, *_measure(taken.at[0], foot, taken.says, taken.of, taken.view)]


def _off(taken: Taken) -> list[Mark]:
    foot, edge = _edge_and_foot(taken)
    return [*edge, *_measure(foot, taken.at[2], taken.says, taken.of, taken.view)]


def _in_line(taken: Taken) -> list[Mark]:
    foot, edge = _edge_and_foot(taken)
    asks = [_value(foot, taken.at[2], "in line?", taken.of, taken.view)] if taken.reading.asked else []
    return [*edge, *asks]


def _across(taken: Taken) -> list[Mark]:
    """The gap from Q to P, square to the straightedge: from Q to where P would stand level with it."""
    a, b, p, q = taken.at
    (px, py), (qx, qy) = _foot(a, b, p), _foot(a, b, q)
    level = (qx + p[0] - px, qy + p[1] - py)
    edge = _straightedge(a, b, (a, b, (px, py), (qx, qy)), taken.of)
    along = Mark(shape=Line(level, p), purpose="lay", of=taken.of, tone="measured")
    ring = _ring(p, taken.of, taken.view)
    return [*edge, along, ring, *_measure(q, level, taken.says, taken.of, taken.view)]


def _meets(taken: Taken) -> list[Mark]:
    a, b, c, d = taken.at
    crossing = _crossing(a, b, c, d)
    if crossing is None:
        return []
    line = Mark(shape=Line(c, d), purpose="lay", of=taken.of, tone="measured")
    edge = _straightedge(a, b, (a, b, crossing), taken.of)
    read = _measure(a, crossing, taken.says, taken.of, taken.view)
    return [line, *edge, *read, _ring(crossing, taken.of, taken.view)]


def _same(taken: Taken) -> list[Mark]:
    a, b, c, d = taken.at
    return [*_measure(a, b, "=", taken.of, taken.view), *_measure(c, d, "=", taken.of, taken.view)]


def _square(taken: Taken) -> list[Mark]:
    a, b, c, d = taken.at
    lines = [Mark(shape=Line(*pair), purpose="lay", of=taken.of, tone="measured") for pair in ((a, b), (c, d))]
    return [*lines, *_corner(taken.at, taken.of, taken.view)]


def _off_sheet(taken: Taken) -> list[Mark]:
    (p,) = taken.at
    return [_ring(p, taken.of, taken.view), _value(p, p, taken.says, taken.of, taken.view)]


def _ring(at: XY, of: str, view: PlanView) -> Mark:
    return Mark(shape=Circle(at, view.size(1.3)), purpose="measured", of=of, tone="measured", weight=1.6)


def _corner(at: list[XY], of: str, view: PlanView) -> list[Mark]:
    """The sign for a right angle, where the two lines cross."""
    crossing = _crossing(at[0], at[1], at[2], at[3])
    if crossing is None:
        return []
    u, w, s = direction(at[0], at[1]), direction(at[2], at[3]), view.size(3.0)
    shares = ((s, 0.0), (s, s), (0.0, s))
    corners = [(crossing[0] + i * u[0] + j * w[0], crossing[1] + i * u[1] + j * w[1]) for i, j in shares]
    return [Mark(shape=polyline(corners), purpose="measured", of=of, tone="measured", weight=1.4)]


def _bevel(taken: Taken) -> list[Mark]:
    """Both lines, carried on to where they cross, and the arc from the one's direction to the other's; where they cross
    too far away, the value stands at the line that the blade lies along.
    """
    a, b, c, d = taken.at
    of, view, meet = taken.of, taken.view, _crossing(a, b, c, d)
    if meet is None or min(math.dist(meet, end) for end in taken.at) > FAR:
        lines, sign = [Line(a, b), Line(c, d)], [_value(c, d, taken.says, of, view)]
    else:
        u, w, radius = direction(a, b), direction(c, d), view.size(8.0)
        start, sweep = math.atan2(u[1], u[0]), math.atan2(cross(u, w), u[0] * w[0] + u[1] * w[1])
        arc = Mark(shape=Arc(meet, radius, start, sweep), purpose="measured", of=of, tone="measured", weight=1.4)
        middle = start + sweep / 2
        beside = meet[0] + radius * math.cos(middle), meet[1] + radius * math.sin(middle)
        lines = [_through(a, b, meet, _ahead(meet, u, radius)), _through(c, d, meet, _ahead(meet, w, radius))]
        sign = [arc, _value(beside, beside, taken.says, of, view)]
    return [*(Mark(shape=line, purpose="lay", of=of, tone="measured") for line in lines), *sign]


def _ahead(at: XY, u: XY, by: float) -> XY:
    return at[0] + by * u[0], at[1] + by * u[1]


def _through(a: XY, b: XY, *others: XY) -> Line:
    """The line through a and b, as far as it takes to reach others that lie in line with them."""
    ux, uy = direction(a, b)
    along = sorted((a, b, *others), key=lambda p: p[0] * ux + p[1] * uy)
    return Line(along[0], along[-1])


def _to_fret(taken: Taken) -> list[Mark]:
    layout, view, reading, _, says, of = taken
    frets = layout.frets
    line = next((f for f in frets.lines if f.fret == reading.fret), None) if frets else None
    neck = layout.neck
    if line is None or neck is None:
        return []
    paths = _paths(layout, line)
    start, stop = paths[reading.on or "centre"]
    return [*_strip(start, stop, of, 0.0), *_measure(start, stop, says, of, view)]


def _paths(layout: Layout, line: FretLine) -> dict[str, tuple[XY, XY]]:
    """From the nut's front to a fret along the outer strings and the centre line; the edges where no strings are."""
    neck = layout.neck
    assert neck is not None
    x = (line.left[0] + line.right[0]) / 2
    found: dict[str, tuple[XY, XY]] = {"centre": ((0.0, 0.0), (x, 0.0))}
    at_nut = [string for string in layout.strings if not string.starts_at]
    outer = (at_nut[0], at_nut[-1]) if len(at_nut) > 1 else ()
    for side, nut, fret in (("left", neck.nut[0], line.left), ("right", neck.nut[1], line.right)):
        found[side] = (nut, fret)
        for string in outer:
            if (string.nut_xy[1] > 0) == (side == "left"):
                (ax, ay), (bx, by) = string.nut_xy, string.end
                found[side] = (string.nut_xy, (fret[0], ay + (by - ay) * (fret[0] - ax) / (bx - ax)))
    return found


def _height(taken: Taken) -> list[Mark]:
    """A height has no length on the plan: a ring where the rule stands, and the value."""
    layout, view, reading, _, says, of = taken
    frets, neck, saddle = layout.frets, layout.neck, layout.saddle
    place: XY | None = None
    side = 0 if reading.on == "left" else 1
    if reading.at in ("fret 1", "fret 12") and frets is not None:
        line = next((f for f in frets.lines if f.fret == int(reading.at.removeprefix("fret "))), None)
        place = (line.left, line.right)[side] if line else None
    elif reading.at == "board end" and neck is not None and neck.end is not None:
        place = neck.end[side]
    elif reading.at in ("bridge", "saddle") and saddle is not None:
        place = saddle.at_strings[side]
    return [_ring(place, of, view), _value(place, place, f"{says} high", of, view)] if place else []


DRAWN: Mapping[Kind, Callable[[Taken], list[Mark]]] = {
    "distance": _between,
    "along": _along,
    "off": _off,
    "across": _across,
    "meets": _meets,
    "inline": _in_line,
    "same": _same,
    "square": _square,
    "rims": _between,
    "fret": _to_fret,
    "height": _height,
    "at": _off_sheet,
    "angle": _bevel,
}
"""How each kind of reading is drawn as it is taken."""
