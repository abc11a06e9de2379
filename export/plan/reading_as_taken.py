"""The reading in hand, drawn as it is taken: the straightedge laid down, the rule on it, and the value.

u is the unit vector along the straightedge, n its left-hand normal, as the equations of the readings have them.
"""

import math
from collections.abc import Callable
from typing import NamedTuple

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Arc, Line, Mark
from export.drawing.straight import cross, direction, foot
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from export.plan.steel_laid_down import (
    ahead,
    measure,
    ring,
    straightedge,
    strip,
    through,
    value,
    where_lines_cross,
)
from geometry import words
from geometry.job import Job, Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import ByKind
from geometry.job.sides import SIDES
from geometry.layout import FretLine, Layout

FAR = 150.0
"""Lines that cross farther than this from all their points, mm, are not carried on to there."""
LEAST_ARROW = 9.0
"""How long the arrow of a distance that is still to be read is at least, mm of the view."""
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
    hand: Hand


def laid_down(job: Job, layout: Layout, view: PlanView, reading: Reading, of: str) -> list[Mark]:
    """One reading's straightedge, rule and value."""
    where = _places(layout)
    ends = [where(name) for name in (*reading.from_, *reading.of)]
    if any(end is None for end in ends):
        return []
    at = [end for end in ends if end is not None]
    says = words.value(reading, job.unit) or "?"
    says = f"{says} {job.unit}" if says[-1].isnumeric() else says  # as typed, a value may carry its own unit
    says = " ".join(filter(None, (says, words.side_read(reading, job.hand))))
    return DRAWN[reading.kind](Taken(layout, view, reading, at, says, of, job.hand))


def _places(layout: Layout) -> Where:
    def where(name: str) -> XY | None:
        if name in layout.points:
            return layout.points[name].x, layout.points[name].y
        return layout.rough.get(name)

    return where


def _between(taken: Taken) -> list[Mark]:
    """The rule from point to point."""
    a, b = taken.at
    return [*strip(a, b, taken.of, 0.0), *measure(a, b, taken.says, taken.of, taken.view)]


def _edge_and_foot(taken: Taken) -> tuple[XY, list[Mark]]:
    """Where the point stands square to the straightedge, which reaches so far; the point is ringed."""
    a, b, p = taken.at
    stands = foot(a, b, p)
    return stands, [*straightedge(a, b, (a, b, stands), taken.of), ring(p, taken.of, taken.view)]


def _along(taken: Taken) -> list[Mark]:
    foot, (*edge, ring) = _edge_and_foot(taken)
    square = Mark(shape=Line(foot, taken.at[2]), purpose="lay", of=taken.of, tone="measured")
    return [*edge, square, ring, *measure(taken.at[0], foot, taken.says, taken.of, taken.view)]


def _off(taken: Taken) -> list[Mark]:
    """What is not read yet is drawn on the side where a value without a side would be, on both where that is open."""
    (a, b, p), reading = taken.at, taken.reading
    stands, (*edge, found) = _edge_and_foot(taken)
    if reading.taken:
        return [*edge, found, *measure(stands, p, taken.says, taken.of, taken.view)]
    u, far = direction(a, b), max(math.dist(stands, p), taken.view.size(LEAST_ARROW))
    marks = list(edge)
    for side in (reading.side,) if reading.side else SIDES:
        off = far if side == "left" else -far
        there = stands[0] - off * u[1], stands[1] + off * u[0]
        says = f"? {words.side_typed(side, reading.from_[0], reading.from_[1], taken.hand)}"
        marks += (ring(there, taken.of, taken.view), *measure(stands, there, says, taken.of, taken.view))
    return marks


def _in_line(taken: Taken) -> list[Mark]:
    foot, edge = _edge_and_foot(taken)
    asks = [value(foot, taken.at[2], "in line?", taken.of, taken.view)] if taken.reading.asked else []
    return [*edge, *asks]


def _across(taken: Taken) -> list[Mark]:
    """The gap from Q to P, square to the straightedge: from Q to where P would stand level with it."""
    a, b, p, q = taken.at
    (px, py), (qx, qy) = foot(a, b, p), foot(a, b, q)
    level = (qx + p[0] - px, qy + p[1] - py)
    edge = straightedge(a, b, (a, b, (px, py), (qx, qy)), taken.of)
    along = Mark(shape=Line(level, p), purpose="lay", of=taken.of, tone="measured")
    return [*edge, along, ring(p, taken.of, taken.view), *measure(q, level, taken.says, taken.of, taken.view)]


def _meets(taken: Taken) -> list[Mark]:
    a, b, c, d = taken.at
    crossing = where_lines_cross(a, b, c, d)
    if crossing is None:
        return []
    line = Mark(shape=Line(c, d), purpose="lay", of=taken.of, tone="measured")
    edge = straightedge(a, b, (a, b, crossing), taken.of)
    read = measure(a, crossing, taken.says, taken.of, taken.view)
    return [line, *edge, *read, ring(crossing, taken.of, taken.view)]


def _same(taken: Taken) -> list[Mark]:
    a, b, c, d = taken.at
    return [*measure(a, b, "=", taken.of, taken.view), *measure(c, d, "=", taken.of, taken.view)]


def _square(taken: Taken) -> list[Mark]:
    a, b, c, d = taken.at
    lines = [Mark(shape=Line(*pair), purpose="lay", of=taken.of, tone="measured") for pair in ((a, b), (c, d))]
    return [*lines, *_corner(taken.at, taken.of, taken.view)]


def _off_sheet(taken: Taken) -> list[Mark]:
    (p,) = taken.at
    return [ring(p, taken.of, taken.view), value(p, p, taken.says, taken.of, taken.view)]


def _corner(at: list[XY], of: str, view: PlanView) -> list[Mark]:
    """The sign for a right angle, where the two lines cross."""
    crossing = where_lines_cross(at[0], at[1], at[2], at[3])
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
    of, view, meet = taken.of, taken.view, where_lines_cross(a, b, c, d)
    if meet is None or min(math.dist(meet, end) for end in taken.at) > FAR:
        lines, sign = [Line(a, b), Line(c, d)], [value(c, d, taken.says, of, view)]
    else:
        u, w, radius = direction(a, b), direction(c, d), view.size(8.0)
        start, sweep = math.atan2(u[1], u[0]), math.atan2(cross(u, w), u[0] * w[0] + u[1] * w[1])
        arc = Mark(shape=Arc(meet, radius, start, sweep), purpose="measured", of=of, tone="measured", weight=1.4)
        middle = start + sweep / 2
        beside = meet[0] + radius * math.cos(middle), meet[1] + radius * math.sin(middle)
        lines = [through(a, b, meet, ahead(meet, u, radius)), through(c, d, meet, ahead(meet, w, radius))]
        sign = [arc, value(beside, beside, taken.says, of, view)]
    return [*(Mark(shape=line, purpose="lay", of=of, tone="measured") for line in lines), *sign]


def _to_fret(taken: Taken) -> list[Mark]:
    layout, view, reading, _, says, of, _ = taken
    frets = layout.frets
    line = next((f for f in frets.lines if f.fret == reading.fret), None) if frets else None
    neck = layout.neck
    if line is None or neck is None:
        return []
    paths = _paths(layout, line)
    start, stop = paths[reading.on or "centre"]
    return [*strip(start, stop, of, 0.0), *measure(start, stop, says, of, view)]


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
    layout, view, reading, _, says, of, _ = taken
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
    return [ring(place, of, view), value(place, place, f"{says} high", of, view)] if place else []


DRAWN: ByKind[Callable[[Taken], list[Mark]]] = {
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
