"""A floating bridge as the plan and the templates draw it: its feet, its crown, the window it may be slid in, the marks
that old feet left; and a tail with the places where its strings end.
"""

from msgspec.structs import replace

from export.drawing.dimension import cross
from export.drawing.flatten import polyline
from export.drawing.marks import Circle, Line, Mark, Path, Purpose, Tone
from export.plan.plan_view import PlanView
from geometry.layout import BridgePlan, FloatingPlan, Layout, TailPlan

MIDDLE = 9.0
"""How far the tail's middle line runs either way, mm."""
BEFORE_EDGE, OVER_EDGE = 2.0, 8.0
"""How far the strap pin's line runs before and behind the body's end as it was measured, mm."""


def standing_bridge(bridge: BridgePlan, plan: FloatingPlan, view: PlanView) -> list[Mark]:
    """On the plan: the bridge's ground and its feet, the window, where it stands today, and the marks of old feet."""
    outline = Path(bridge.outline, closed=True)
    marks = [Mark(shape=outline, purpose="cut", of="bridge", filled=True, weight=0.5, tone="quiet")]
    if "old bridge" in view.overlays:
        marks += as_it_stood(plan)
    if view.near:
        marks += window_marks(bridge, plan)
    return marks + feet_marks(plan, "cut")


def as_it_stood(plan: FloatingPlan) -> list[Mark]:
    """Where the bridge's front stands today, and the marks of old feet."""
    marks = old_marks(plan, "before")
    if plan.today is not None:
        marks.append(Mark(shape=Line(*plan.today.corners), purpose="before", of="bridge today", tone="before"))
    return marks


def feet_marks(plan: FloatingPlan, purpose: Purpose) -> list[Mark]:
    """Where each foot touches the top."""
    return [Mark(shape=polyline(foot.corners, closed=True), purpose=purpose, of="bridge") for foot in plan.feet]


def window_marks(bridge: BridgePlan, plan: FloatingPlan) -> list[Mark]:
    """Thin lines before and behind the two outer feet: as far as the bridge may be slid."""
    front_left, front_right, back_right, back_left = bridge.corners
    outer = plan.feet[0].corners, plan.feet[-1].corners
    marks = []
    for (front, back), foot, wide, ends in (
        ((front_left, back_left), outer[0], plan.window[0], (0, 1)),
        ((front_right, back_right), outer[1], plan.window[1], (1, 0)),
    ):
        length = max(4.0, abs(foot[ends[0]][1] - foot[ends[1]][1]) if len(plan.feet) > 1 else 12.0)
        way = (foot[ends[1]][0] - foot[ends[0]][0], foot[ends[1]][1] - foot[ends[0]][1])
        whole = (way[0] ** 2 + way[1] ** 2) ** 0.5
        step = (way[0] / whole * length, way[1] / whole * length)
        for (x, y), off in ((front, -wide), (back, wide)):
            line = Line((x + off, y), (x + off + step[0], y + step[1]))
            marks.append(Mark(shape=line, purpose="lay", of="bridge"))
    return marks


def old_marks(plan: FloatingPlan, tone: Tone = "worked out") -> list[Mark]:
    """The marks that old feet left, as they were before."""
    return [Mark(shape=polyline(ring, closed=True), purpose="before", of="mark", tone=tone) for ring in plan.marks]


def as_it_must_be(tail: TailPlan) -> TailPlan:
    """The tail with its strings where they must end, wherever it was measured."""
    if tail.measured is None:
        return tail
    off = tail.middle[1] - tail.measured[1]
    strings = tuple(replace(string, at=(string.at[0], string.at[1] + off)) for string in tail.strings)
    return replace(tail, strings=strings)


def strings_behind(layout: Layout, view: PlanView) -> list[Mark]:
    """On the plan: each string from the saddle to where it ends at the tail, as it runs today."""
    ends = {string.name: string.at for string in layout.tail.strings} if layout.tail is not None else {}
    return [
        Mark(
            shape=Line(string.break_point, ends[string.name]),
            purpose="body",
            of=f"string:{string.name}",
            weight=max(0.8, (string.diameter or 0.5) * view.scale / 0.18),
            tone="measured",
        )
        for string in layout.strings
        if string.name in ends
    ]


def tail_marks(tail: TailPlan) -> list[Mark]:
    """Where the tail's middle must be and its strings end, its screw holes, and a line over the edge to the strap pin,
    which is bored into the body's end.
    """
    x, y = tail.middle
    marks = [Mark(shape=Line((x - MIDDLE, y), (x + MIDDLE, y)), purpose="centre", of="tail")]
    for string in as_it_must_be(tail).strings:
        marks += cross(string.at, 1.6, "mark", of=f"tail:{string.name}")
    if tail.pin is not None:
        x, y = tail.pin.at
        marks.append(Mark(shape=Line((x - BEFORE_EDGE, y), (x + OVER_EDGE, y)), purpose="mark", of=tail.pin.name))
    for hole in tail.screws:
        marks.append(Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="drill", of=hole.name))
        marks += cross(hole.at, hole.diameter / 2 + 1.4, "centre", of=hole.name, weight=0.75)
    return marks
