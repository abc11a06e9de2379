"""What is small and matters, drawn with its size where one looks closely: how wide the **scar** is at each side, the
least **wood** left between holes and slot, and the corners that a slot's **cutter** leaves round.

A **gap** is a short distance between two edges; its arrows stand outside where there is no room for them within.
"""

import cmath
import math
from collections.abc import Iterator
from typing import NamedTuple, assert_never

import msgspec

from export.drawing.dimension import ARROW, arrow, arrowhead
from export.drawing.marks import XY, Arc, Line, Mark, Tone
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.bridge.bridge_outline import back_at, front_at
from geometry.job import Bridge, Job
from geometry.layout import BridgePlan, Hole, Layout, OldPlan, ScarAt
from geometry.units import mm, said, show

THIN = 4.0
"""Wood no thinner than this (mm) needs no number; common practice, no source."""
TOUCHING = 0.05
"""What lies nearer than this (mm) has no wood between that could be measured; common practice, no source."""
TAIL, SHORT = 2 * ARROW, ARROW
"""An arrow's length, paper mm, where it comes from open ground, and where it comes from among other lines."""
ALIKE = 0.05
"""Of walls that differ by less (mm) the first is the one that is drawn, so that it does not jump; no source."""
WITHIN = 2.6 * ARROW
"""A gap (paper mm) that has room for two arrowheads and a little line between them."""


class Gap(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """A short distance from `a` to `b`, its length in words, and what it belongs to. `ahead`: the words stand past `b`.
    `short`: what is said where there is no room for all of the words.
    """

    a: XY
    b: XY
    words: str
    of: str
    tone: Tone = "worked out"
    ahead: bool = False
    short: str = ""


class Sized(NamedTuple):
    """A gap's arrows and the words that say how wide it is: without the words the arrows say nothing."""

    arrows: list[Mark]
    label: Label


def sizes(job: Job, layout: Layout, view: PlanView) -> list[Sized]:
    """How wide what is small is; nothing where one does not look closely."""
    if not view.close_up:
        return []
    gaps = [*_wood(job, layout), *(_scar(job, layout) if "old bridge" in view.overlays else ())]
    return [Sized(_drawn(gap, view), _label(gap, view)) for gap in gaps]


def corners(job: Job, layout: Layout, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """The corners that a slot's cutter leaves round; nothing where one does not look closely."""
    return _round_corners(job, layout) if view.close_up else ([], [])


# how wide the scar is


def _scar(job: Job, layout: Layout) -> Iterator[Gap]:
    """The scar where it is widest on each side that it shows on."""
    old, plan, bridge = layout.old, layout.bridge, job.bridge
    if plan is None or bridge is None or not old.scar:
        return
    widest = max(old.scar_widths, key=lambda side: old.scar_widths[side], default="")
    for side, width in old.scar_widths.items():
        a, b = _across_scar(old, plan, bridge, side)
        words = f"scar {_said(width, job)}" if side == widest else _said(width, job)
        yield Gap(a=a, b=b, words=words, of="scar", tone="before", ahead=True)


def _across_scar(old: OldPlan, plan: BridgePlan, bridge: Bridge, side: ScarAt) -> tuple[XY, XY]:
    """From the bridge's edge to the old footprint's, where the scar of a side is widest."""
    front_left, front_right = (complex(*at) for at in plan.corners[:2])
    middle, left = (front_left + front_right) / 2, (front_left - front_right) / abs(front_left - front_right)
    half = abs(front_left - front_right) / 2
    own = [(complex(*at) - middle) / left * 1j for ring in old.scar for at in ring]  # back of the front, and leftward
    match side:
        case "front":
            far = min(own, key=lambda at: at.real)
            near = complex(front_at(bridge, far.imag), far.imag)
        case "back":
            behind = [at for at in own if at.real > back_at(bridge, at.imag)] or own
            far = max(behind, key=lambda at: at.real - back_at(bridge, at.imag))
            near = complex(back_at(bridge, far.imag), far.imag)
        case "left wing" | "right wing":
            way = 1.0 if side == "left wing" else -1.0
            far = max(own, key=lambda at: way * at.imag)
            near = complex(far.real, way * half)
        case _:
            assert_never(side)
    on_plan = [middle + at / 1j * left for at in (near, far)]
    return _xy(on_plan[0]), _xy(on_plan[1])


# the wood that is left

BETWEEN = {"bridge": "pin to pin", "old": "pin to old hole", "slot": "pin to slot"}
"""Between what the wood is, by what it is told of."""
ON_CARD = {"bridge": "holes", "slot": "between"}
"""What of it the layout has a figure for as well, and by what name."""


def _wood(job: Job, layout: Layout) -> Iterator[Gap]:
    """The thinnest wood between slot and pin holes, from one pin hole to the next, and to an old hole beside it."""
    pins = layout.bridge.pins if layout.bridge is not None else ()
    walls = [("bridge", [_between(a, b) for at, a in enumerate(pins) for b in pins[at + 1 :]])]
    walls.append(("old", [_between(new, old) for new in pins for old in layout.old.pins]))
    if layout.saddle is not None:
        corners = [[complex(*at) for at in slot[1:]] for slot in layout.saddle.slots]
        walls.append(("slot", [_from_slot(hole, *three) for hole in pins for three in corners]))
    for of, group in walls:
        thin = [wall for wall in group if wall is not None]
        if thin:
            least = min(math.dist(*wall) for wall in thin)
            a, b = next(wall for wall in thin if math.dist(*wall) < least + ALIKE)
            size, whence = said(_as_on_the_card(layout, of, math.dist(a, b)), job.unit), BETWEEN[of]
            yield Gap(a=a, b=b, words=f"{size} of wood, {whence}", short=f"{size}, {whence}", of=of)


def _as_on_the_card(layout: Layout, of: str, wood: float) -> float:
    """The wood's width as the card tells it, so that rounding makes no two figures of it."""
    told = layout.bridge.wood.get(ON_CARD.get(of, "")) if layout.bridge is not None else None
    return wood if told is None or abs(told - wood) > ALIKE else told


Wall = tuple[XY, XY]
"""From one edge to another."""


def _between(one: Hole, other: Hole) -> Wall | None:
    """The wood between two holes; None where there is much of it, or none."""
    a, b = complex(*one.at), complex(*other.at)
    return _wall(a, b, one.diameter / 2, other.diameter / 2)


def _from_slot(hole: Hole, front: complex, back: complex, other: complex) -> Wall | None:
    """The wood between the slot's back edge, from `back` to `other`, and a hole behind it."""
    way = (other - back) / abs(other - back)
    along = ((complex(*hole.at) - back) / way).real
    foot = back + way * min(max(along, 0.0), abs(other - back))
    ahead = (foot - complex(*hole.at)).real * (front - back).real > 0
    return _wall(complex(*hole.at), foot, hole.diameter / 2, 0.0) if ahead else None


def _wall(a: complex, b: complex, from_a: float, from_b: float) -> Wall | None:
    wood = abs(b - a) - from_a - from_b
    if not TOUCHING < wood < THIN:
        return None
    way = (b - a) / abs(b - a)
    return _xy(a + way * from_a), _xy(b - way * from_b)


# the cutter's edge


def _round_corners(job: Job, layout: Layout) -> tuple[list[Mark], list[Label]]:
    """The slot's corners as its cutter leaves them: it does not reach into them."""
    sheets = job.sheets
    cutter = sheets.cutters.get("slot", sheets.cutter)
    if cutter is None or layout.saddle is None:
        return [], []
    radius, arcs = mm(cutter) / 2, list[Arc]()
    for slot in layout.saddle.slots:
        corners = [complex(*at) for at in slot]
        if 2 * radius > min(abs(corners[k] - corners[k - 1]) for k in range(4)):
            continue  # it does not fit at all, which is said elsewhere
        arcs += [_rounded(corners[k - 1], corners[k], corners[(k + 1) % 4], radius) for k in range(4)]
    if not arcs:
        return [], []
    marks = [Mark(shape=arc, purpose="cut", of="slot", tone="look", weight=0.7) for arc in arcs]
    words = f"cutter {_said(2 * radius, job)}"
    at = layout.saddle.slot[1]
    label = Label(at=at, words=f"{words}: corners stay round", of="slot", tone="look", prefer=-145, short=words)
    return marks, [label]


def _rounded(before: complex, corner: complex, after: complex, radius: float) -> Arc:
    """The arc of a radius that touches both sides of a square corner."""
    back, on = (before - corner) / abs(before - corner), (after - corner) / abs(after - corner)
    centre = corner + radius * (back + on)
    return Arc(_xy(centre), radius, cmath.phase(-on), cmath.phase(back / on))


# how a gap is drawn


def _drawn(gap: Gap, view: PlanView) -> list[Mark]:
    """Arrows from edge to edge; from outside where the gap is too short for them."""
    if math.dist(gap.a, gap.b) * view.scale >= WITHIN:
        made = arrow(gap.a, gap.b, "dimension", scale=view.scale, both=True, of=gap.of)
    else:
        tail = TAIL if gap.ahead else SHORT
        made = [mark for ends in ((gap.a, gap.b), (gap.b, gap.a)) for mark in _from_outside(*ends, tail, gap.of, view)]
    return [msgspec.structs.replace(mark, tone=gap.tone) for mark in made]


def _from_outside(edge: XY, other: XY, tail: float, of: str, view: PlanView) -> list[Mark]:
    """An arrow that comes from outside, its `tail` paper mm long, and ends on an edge."""
    toward, long = math.atan2(other[1] - edge[1], other[0] - edge[0]), view.size(tail)
    start = (edge[0] - long * math.cos(toward), edge[1] - long * math.sin(toward))
    head = arrowhead(edge, toward, view.size(0.3 * tail))
    return [
        Mark(shape=Line(start, edge), purpose="dimension", of=of),
        Mark(shape=head, purpose="dimension", of=of, filled=True),
    ]


def _label(gap: Gap, view: PlanView) -> Label:
    """The size beside the outer arrow where the gap ends on open ground, else wherever there is room near by."""
    (ax, ay), (bx, by) = gap.a, gap.b
    if not gap.ahead:
        middle = (ax + bx) / 2, (ay + by) / 2
        return Label(at=middle, words=gap.words, of=gap.of, tone=gap.tone, prefer=-35, short=gap.short)
    toward, off = math.atan2(by - ay, bx - ax), view.size(TAIL)
    end = bx + off * math.cos(toward), by + off * math.sin(toward)
    away = math.degrees(view.to_screen.angle(toward))
    sight = view.window
    if sight is not None and not (sight.x0 < end[0] < sight.x1 and sight.y0 < end[1] < sight.y1):
        end = gap.b
    return Label(at=end, words=gap.words, of=gap.of, tone=gap.tone, prefer=away, ahead=away)


def _said(value: float, job: Job) -> str:
    """A size as the job tells lengths, with its unit."""
    return f"{show(value, job.unit)} {job.unit}"


def _xy(at: complex) -> XY:
    return at.real, at.imag
