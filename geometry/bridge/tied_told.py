"""What is to be said of a tie block: how steeply the strings break over the saddle to it, and the wood that is left."""

import math
from collections.abc import Iterator

import numpy as np

from geometry import words
from geometry.bridge.bridge_told import thin_wood
from geometry.findings import Finding, Grade
from geometry.frame import Array, Points
from geometry.job import Bridge, Job, TieBlock
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, BreakOver, TiePlan
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.heights.break_angle import SD_BEHIND, SHALLOW, STEEP, said_degrees
from geometry.saddle.heights.read_heights import Height
from geometry.saddle.heights.saddle_height import over_top
from geometry.saddle.saddle_line import Strung
from geometry.strings.played import PlayedStrings
from geometry.units import mm, said

LEAST: dict[str, tuple[float, str, str]] = {
    "holes": (
        1.5,
        "between the two tie holes of a string",
        "Set the two holes of a string farther apart, or make the holes smaller.",
    ),
    "neighbours": (1.5, "between the tie holes of two strings", "Make the holes smaller."),
    "top": (1.5, "over the tie holes", "Drill the holes lower, or make the block higher."),
    "bottom": (1.0, "under the tie holes", "Drill the holes higher."),
    "ends": (3.0, "past the outer tie holes", "Make the tie block longer."),
    "slot": (2.0, "between the slot and the tie block", "Set the tie block farther behind the slot."),
    "behind": (
        0.0,
        "behind the tie block",
        "Make the block less deep, set it nearer to the slot, or widen the bridge.",
    ),
}
"""The least wood in mm that is left as a rule (common practice, no source), where it is, and the mend."""


def where_left(place: str) -> str:
    """Where wood is left, in words."""
    return LEAST[place][1]


FLUSH = 0.05
"""A block may stand out behind the bridge by so much, mm: no hand sees it."""


def breaks(
    job: Job,
    states: PerturbedStates,
    strung: Strung,
    ties: Points,
    ready: PlayedStrings,
    plan: TiePlan,
    crown: tuple[Array, Array] | None = None,
) -> dict[str, BreakOver]:
    """Each string's break angle: down from its height over the top at its break point to the middle of the hole that
    it leaves, atan2(drop, way); nothing where the heights at the saddle are not read. Between the outer strings
    the height is taken on a straight line, over which a `crown` stands by so much, with its standard deviation (n,).
    """
    places, ends = strung.break_point[0], ties[0]
    outer = (int(places.imag.argmax()), int(places.imag.argmin()))
    both = [over_top(states, ready, side, string).taken for side, string in zip(SIDES, outer, strict=True)]
    left, right = both
    if left is None or right is None or job.strings is None:
        return {}
    ups = {hole.string: hole.up for hole in plan.holes if hole.leaves}
    first, last = places[outer[0]].imag, places[outer[1]].imag
    found = {}
    over, over_sd = (part.tolist() for part in crown or (np.zeros(len(places)), np.zeros(len(places))))
    for i, (string, at, end) in enumerate(zip(job.strings.list, places.tolist(), ends.tolist(), strict=True)):
        share = (at.imag - last) / (first - last) if first != last else 0.5
        height, sd = _between(left, right, share)
        height, sd = height + over[i], math.hypot(sd, over_sd[i])
        found[string.name] = _break_over((height, sd), ups[string.name], abs(end - at))
    return found


def _between(left: Height, right: Height, share: float) -> tuple[float, float]:
    """The height and its standard deviation so far from the right string to the left one; both are taken to be wrong
    apart from each other.
    """
    return (
        share * left.mm + (1 - share) * right.mm,
        math.hypot(share * left.sd, (1 - share) * right.sd),
    )


def _break_over(height: tuple[float, float], up: float, way: float) -> BreakOver:
    over, sd = height
    drop = over - up
    slope = math.hypot(way * sd, drop * SD_BEHIND) / max(drop * drop + way * way, 1e-9)
    return BreakOver(degrees=math.degrees(math.atan2(drop, way)), pm95=math.degrees(TWO_SIDED_95 * slope))


def findings(job: Job, bridge: Bridge, tie: TieBlock, plan: TiePlan) -> tuple[Finding, ...]:
    """Break angles, wood in the strings' way, thin wood, holes beside the bridge."""
    return (*_angles(tie, plan), *_ramp(job, bridge, plan), *_thin(job, plan), *_past(job, bridge, plan))


def _angles(tie: TieBlock, plan: TiePlan) -> Iterator[Finding]:
    if not plan.breaks:
        return
    low, high = (pick(plan.breaks, key=lambda name: plan.breaks[name].degrees) for pick in (min, max))
    least, most = plan.breaks[low], plan.breaks[high]
    values = {"least": least.degrees, "least_pm95": least.pm95, "most": most.degrees, "most_pm95": most.pm95}
    if least.degrees < math.degrees(SHALLOW):
        more = "" if tie.holes == 2 else ", give each string two holes,"
        text = (
            f"{words.first_large(words.string(low))} breaks over the saddle to its tie hole by only "
            f"{said_degrees(least.degrees, least.pm95)}: it would press lightly and buzz. Drill the tie holes "
            f"lower{more} or set the block nearer to the slot."
        )
        yield Finding(grade="look", code="tie.shallow", text=text, values=values, where="field:bridge.tie")
    if most.degrees > math.degrees(STEEP):
        text = (
            f"{words.first_large(words.string(high))} breaks over the saddle to its tie hole by "
            f"{said_degrees(most.degrees, most.pm95)}: it would lean the saddle forward. Drill the tie holes "
            "higher or set the block farther behind the slot."
        )
        yield Finding(grade="look", code="tie.steep", text=text, values=values, where="field:bridge.tie")
    text = (
        f"From the saddle to the tie holes the strings go down by {said_degrees(least.degrees, least.pm95)} at "
        f"{words.string(low)} to {said_degrees(most.degrees, most.pm95)} at {words.string(high)}."
    )
    yield Finding(grade="good", code="tie.breaks", text=text, values=values, where="bridge")


def _ramp(job: Job, bridge: Bridge, plan: TiePlan) -> Iterator[Finding]:
    """Wood behind the slot that stands higher than the holes: the strings' straight way to them runs into it. It is
    taken to be as thick as the bridge at the slot; a string comes down to its top `thick - up` over the tangent of its
    break angle in front of the block.
    """
    thick = max((mm(one) for one in bridge.thicknesses if one is not None), default=0.0)
    over = thick - min(hole.up for hole in plan.holes if hole.leaves)
    if over <= 0:
        return
    least = min((angle.degrees for angle in plan.breaks.values()), default=0.0)
    reach = over / math.tan(math.radians(least)) if least > 0 else None
    at_slot = reach is not None and reach > plan.wood["slot"]
    start = (
        ""
        if reach is None
        else " from the slot on"
        if at_slot
        else f", beginning {said(reach, job.unit)} before the block"
    )
    text = (
        f"The tie holes lie {said(over, job.unit)} lower than the wood behind the slot: ramp the wood down to "
        f"the holes{start}, or the strings lie on it and break less over the saddle."
    )
    values = {"over": over} | ({} if reach is None else {"reach": reach})
    grade: Grade = "look" if at_slot else "good"
    yield Finding(grade=grade, code="tie.ramp", text=text, values=values, where="field:bridge.tie")


def _thin(job: Job, plan: TiePlan) -> Iterator[Finding]:
    between = {place: plan.wood[place] for place in ("holes", "neighbours") if place in plan.wood}
    nearest = min(between, key=between.__getitem__, default="")
    for place, left in plan.wood.items():
        if place in between and place != nearest:
            continue  # the mend of the nearest pair comes first
        least, where, mend = LEAST[place]
        if place == "neighbours" and "holes" in between:
            mend = "Set the two holes of a string nearer together, or make the holes smaller."
        if place == "behind":
            if left < -FLUSH:
                text = f"The tie block stands out behind the bridge by {said(-left, job.unit)}. {mend}"
                yield Finding(
                    grade="stop", code="tie.behind", text=text, values={"wood": left}, where="field:bridge.tie"
                )
            continue
        if left >= least:
            continue
        grade, text = thin_wood(job, left, least, where, mend)
        yield Finding(grade=grade, code=f"tie.{place}", text=text, values={"wood": left}, where="field:bridge.tie")


def _past(job: Job, bridge: Bridge, plan: TiePlan) -> Iterator[Finding]:
    """A block longer than its bridge."""
    past = max(plan.left, -plan.right) - mm(bridge.length) / 2
    if past > FLUSH:
        text = f"The tie block runs {said(past, job.unit)} past the bridge’s end. Make it shorter or the bridge longer."
        yield Finding(grade="stop", code="tie.long", text=text, values={"mm": past}, where="field:bridge.tie")
