"""Separate saddles drawn: their bases, each saddle's travel with its ends and the place it is wanted at, and the holes.

A string's **window** is its travel: a line from the foremost to the rearmost break point with a short stroke at either
end, a long one where the string is wanted, and the ± as a bar along it.
"""

from export.drawing.dimension import cross
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Circle, Line, Mark, Tone
from export.drawing.straight import direction
from export.plan.labels import Label
from export.plan.plan_view import PlanView
from geometry.job import Job
from geometry.layout import SaddleReach, SeparatePlan
from geometry.units import said_pm

SHORT, LONG, BAR = 1.1, 3.4, 0.6
"""Half a stroke at the travel's ends, half of that at the wanted place, and half the bar's width, mm."""


def base_rings(plan: SeparatePlan) -> tuple[tuple[XY, ...], ...]:
    """The bases' outlines."""
    return tuple(base.corners for base in plan.bases)


def grounds(plan: SeparatePlan, weight: float) -> list[Mark]:
    """The bases' ground and outlines on the plan."""
    return [
        Mark(shape=polyline(ring, closed=True), purpose="cut", of="base", filled=True, weight=weight)
        for ring in base_rings(plan)
    ]


def window(one: SaddleReach, tone: Tone = "worked out") -> list[Mark]:
    """A string's window."""
    of = f"saddle:{one.string}"
    ux, uy = direction(one.foremost, one.rearmost) if one.foremost != one.rearmost else (1.0, 0.0)

    def stroke(at: XY, half: float) -> Line:
        return Line((at[0] - uy * half, at[1] + ux * half), (at[0] + uy * half, at[1] - ux * half))

    (x, y), pm = one.wanted, one.pm95
    near, far = (x - ux * pm, y - uy * pm), (x + ux * pm, y + uy * pm)
    corners = [
        (at[0] + side * uy * BAR, at[1] - side * ux * BAR) for at, side in ((near, -1), (near, 1), (far, 1), (far, -1))
    ]
    return [
        Mark(shape=Line(one.foremost, one.rearmost), purpose="lay", of=of, tone=tone),
        Mark(shape=stroke(one.foremost, SHORT), purpose="lay", of=of, tone=tone),
        Mark(shape=stroke(one.rearmost, SHORT), purpose="lay", of=of, tone=tone),
        Mark(shape=polyline(corners, closed=True), purpose="lay", of=of, tone=tone),
        Mark(shape=stroke(one.wanted, LONG), purpose="mark", of=of, tone=tone),
    ]


def holes(plan: SeparatePlan, *, crosses: float | None, weight: float = 1.0) -> list[Mark]:
    """Screw holes and through holes to drill, with their crosses that reach so far beyond the edge, mm."""
    marks: list[Mark] = []
    found = [(f"screw:{hole.name}", hole) for base in plan.bases for hole in base.screws]
    found += [(f"through:{hole.name}", hole) for hole in plan.through]
    for of, hole in found:
        marks.append(Mark(shape=Circle(hole.at, hole.diameter / 2), purpose="drill", of=of, weight=weight))
        if crosses is not None:
            marks += cross(hole.at, hole.diameter / 2 + crosses, "centre", of=of, weight=0.7)
    return marks


def separate(job: Job, plan: SeparatePlan, view: PlanView) -> tuple[list[Mark], list[Label]]:
    """All of it on the plan, and the labels it asks for."""
    heavy = 1.0 if view.near else 0.7
    marks = [mark for one in plan.saddles for mark in window(one, _tone(one))] if view.near else []
    if not view.near:
        marks = [Mark(shape=Circle(one.wanted, 0.9), purpose="cut", of=f"saddle:{one.string}") for one in plan.saddles]
    marks += holes(plan, crosses=1.0 if view.near else None, weight=heavy)
    if plan.opening:
        marks.append(Mark(shape=polyline(plan.opening, closed=True), purpose="hidden", of="opening", tone="measured"))
    return marks, _labels(job, plan, view)


def _tone(one: SaddleReach) -> Tone:
    return "worked out" if one.reached == "reached" else "look"


def _labels(job: Job, plan: SeparatePlan, view: PlanView) -> list[Label]:
    name = "base" if len(plan.bases) == 1 else "bases"
    labels = [Label(at=plan.bases[0].corners[3], words=name, of="base", prefer=35, clear=0.8)]
    if plan.opening:
        labels.append(Label(at=plan.opening[0], words="opening", of="opening", tone="measured"))
    if not view.near:
        return labels
    for one in plan.saddles:
        end, at = ("ahead", one.foremost) if one.ahead <= one.behind else ("behind", one.rearmost)
        bold = one.reached != "reached" or one is plan.least
        words = f"{said_pm(one.pm95, job.unit, one.least)} {end}"
        if bold or view.close_up:
            labels.append(
                Label(at=at, words=words, of=f"saddle:{one.string}", tone=_tone(one), bold=bold, prefer=180, clear=1.0)
            )
    return labels


def backs(plan: SeparatePlan) -> tuple[XY, XY]:
    """The corners farthest behind, left and right."""
    corners = plan.corners
    return max(corners, key=lambda at: at[0] + at[1]), max(corners, key=lambda at: at[0] - at[1])
