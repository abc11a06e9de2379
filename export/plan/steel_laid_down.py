"""Steel on the plan: straightedge and rule where they are laid, what is read between arrowheads, and the value."""

import msgspec

from export.drawing.clip import clip_line
from export.drawing.dimension import arrow
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Line, Mark, Text
from export.drawing.straight import crossing, direction
from export.drawing.typeface import width
from export.plan.plan_view import PlanView

PLATE = 2.4, 1.6
"""How far the plate under a value reaches past the words, paper mm."""
WIDE = 16.0
"""A straightedge's width on the plan, mm."""


def where_lines_cross(a: XY, b: XY, c: XY, d: XY) -> XY | None:
    return crossing(a, direction(a, b), c, direction(c, d), parallel=1e-6)


def straightedge(a: XY, b: XY, touched: tuple[XY, ...], of: str) -> list[Mark]:
    """A steel straightedge along a→b, long enough for all it must touch, on the side away from the neck's middle."""
    ux, uy = direction(a, b)
    reach = [(p[0] - a[0]) * ux + (p[1] - a[1]) * uy for p in touched]
    low, high = min(reach) - 28.0, max(reach) + 45.0
    start, stop = (a[0] + low * ux, a[1] + low * uy), (a[0] + high * ux, a[1] + high * uy)
    side = -1.0 if -uy * a[0] + ux * a[1] > 0 else 1.0  # away from the origin's side: the middle of the neck
    return strip(start, stop, of, -side, kind="straightedge")


def strip(a: XY, b: XY, of: str, side: float, kind: str = "rule") -> list[Mark]:
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


def measure(a: XY, b: XY, says: str, of: str, view: PlanView) -> list[Mark]:
    """The distance that is read, between arrowheads, with its value in the middle."""
    marks = arrow(a, b, "measured", scale=view.scale, both=True, of=of)
    marks = [
        Mark(shape=m.shape, purpose="measured", of=of, filled=m.filled, tone="measured", weight=1.4) for m in marks
    ]
    return [*marks, value(a, b, says, of, view)]


def value(a: XY, b: XY, says: str, of: str, view: PlanView) -> Mark:
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


def ring(at: XY, of: str, view: PlanView) -> Mark:
    return Mark(shape=Circle(at, view.size(1.3)), purpose="measured", of=of, tone="measured", weight=1.6)


def ahead(at: XY, u: XY, by: float) -> XY:
    return at[0] + by * u[0], at[1] + by * u[1]


def through(a: XY, b: XY, *others: XY) -> Line:
    """The line through a and b, as far as it takes to reach others that lie in line with them."""
    ux, uy = direction(a, b)
    along = sorted((a, b, *others), key=lambda p: p[0] * ux + p[1] * uy)
    return Line(along[0], along[-1])
