"""What is to be said of a seated bridge: thin wood, a turn, a slot past its ends."""

import math

from geometry import words
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.bridge.wood_left import WOOD
from geometry.findings import Finding, Grade
from geometry.frame import Points
from geometry.job import Bridge, Job
from geometry.layout import BridgePlan, OldPlan
from geometry.units import mm, said, said_under

NO_WOOD = 0.01
"""Less wood than this (mm) is none."""
MEND = {
    "front": "Move the slot back in the bridge, or make the bridge wider.",
    "between": "Set the pins farther behind the slot, or in a row with it.",
    "behind": "Set the pins nearer to the slot, or make the bridge wider.",
    "holes": "Make the spread wider, the holes smaller, or set the second row farther behind.",
}
TURNED = 2.0
"""Where its ends differ by less than this, mm, a turned bridge is not spoken of: an eye sees more (common practice)."""
THROUGH = 0.5
"""How far a slanted slot that is cut through at its ends may reach past the bridge's at a corner, mm (common
practice, no source)."""


def findings(job: Job, bridge: Bridge, plan: BridgePlan, old: OldPlan) -> tuple[Finding, ...]:
    """Where the wood left around slot and pin holes is thin, or gone; a bridge that turns, or lacks its footprint."""
    found = [_thin(job, place, plan, bridge) for place, left in plan.wood.items() if left < WOOD[place][0]]
    turned = -mm(bridge.length) * math.sin(plan.turn)
    if abs(turned) > TURNED:
        farther = "bass" if (turned > 0) == (job.bass == "left") else "treble"
        found.append(
            Finding(
                grade="good" if job.frets.slanted and bridge.seat == "with slot" else "look",
                code="bridge.turned",
                text=f"The bridge stands turned: its {farther} end lies {said(abs(turned), job.unit)} farther from the "
                f"nut than the other, {abs(math.degrees(plan.turn)):.1f}° out of square to the neck.",
                values={"mm": turned, "degrees": math.degrees(plan.turn)},
                where="bridge",
            )
        )
    if bridge.outline == "traced" and not bridge.traced:
        found.append(
            Finding(
                grade="look",
                code="bridge.untraced",
                text="The bridge’s outline is to be a traced one, but none is traced yet: read it from a file. Until "
                "then the bridge is drawn straight.",
                where="field:bridge.outline",
            )
        )
    if bridge.seat == "old footprint" and len(old.outline) < 3:
        found.append(
            Finding(
                grade="look",
                code="seat.no_footprint",
                text="The bridge is to sit on the old footprint, but the footprint’s corners are not known "
                "yet. Until then the bridge is drawn square to the neck.",
                where="field:bridge.seat",
            )
        )
    return tuple(found)


def too_short(job: Job, bridge: Bridge, seated: SeatedBridge, pins: Points | None) -> tuple[Finding, ...]:
    """A slot or a pin hole that runs out past the bridge's ends."""
    slot = max(abs(seated.own(corner).imag) for one in seated.slots for corner in one.corners())
    holes, radius = (pins[0].tolist(), mm(bridge.pins.diameter) / 2) if pins is not None and bridge.pins else ([], 0.0)
    pin = max((abs(seated.own(hole).imag) + radius for hole in holes), default=0.0)
    past = max(slot, pin) - mm(bridge.length) / 2
    if past < THROUGH:
        return ()
    runs = "A slot runs" if slot >= pin and seated.parts else "The slot runs" if slot >= pin else "The pin holes run"
    mend = "Make the slot shorter or the bridge longer" if slot >= pin else "Make the bridge longer"
    return (
        Finding(
            grade="stop",
            code="bridge.short",
            text=f"{runs} {said(past, job.unit)} past the bridge’s end. {mend}; look at the spread at the saddle too.",
            values={"mm": past},
            where="bridge",
        ),
    )


def where_left(place: str, plan: BridgePlan) -> str:
    """Where wood is left, in words that name the holes it is about."""
    names = plan.wood_at.get(place, ())
    if place == "behind" and not plan.pins:
        return "behind the slot"
    if not names:
        return WOOD[place][1]
    holes = f"the hole{'s' if len(names) > 1 else ''} of {words.strings(names)}"
    return {"between": "between the slot and", "behind": "behind", "holes": "between"}[place] + f" {holes}"


def thin_wood(job: Job, left: float, least: float, where: str, mend: str) -> tuple[Grade, str]:
    """What is said of wood (`left`, mm) under the `least` that is usual, and how grave that is."""
    if left < NO_WOOD:
        return "stop", f"There is no wood left {where}: it is cut into by {said(max(-left, 0.0), job.unit)}. {mend}"
    stays = said_under(left, least, job.unit)
    return "look", f"Only {stays} of wood stays {where}; {said(least, job.unit)} is usual. {mend}"


def _thin(job: Job, place: str, plan: BridgePlan, bridge: Bridge) -> Finding:
    left, least, where, mend = plan.wood[place], WOOD[place][0], where_left(place, plan), MEND[place]
    if place == "behind" and bridge.pins is None:
        mend = "Move the slot forward in the bridge, or make the bridge wider."
    grade, text = thin_wood(job, left, least, where, mend)
    return Finding(grade=grade, code=f"wood.{place}", text=text, values={"wood": left}, where="bridge")
