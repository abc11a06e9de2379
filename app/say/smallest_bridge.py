"""The smallest bridge that hides the old footprint, in words, beside the bridge as it is."""

from app.say.chosen_places import area
from geometry.job import Job
from geometry.layout import Covering
from geometry.units import mm, said
from geometry.words import joined

SIDES = {"front": "its front", "back": "its back", "left": "its left wing", "right": "its right wing"}


def rows(job: Job, found: Covering) -> tuple[tuple[str, str, str], ...]:
    """What each is called, of the bridge as it is, and of the covering one."""
    bridge = job.bridge
    if bridge is None:
        return ()
    more = "" if found.weight is None else f"+{found.weight:.0f} g"
    return (
        ("Length", said(mm(bridge.length), job.unit), said(found.length, job.unit)),
        ("Width", said(mm(bridge.width), job.unit), said(found.width, job.unit)),
        ("Wood from above", area(found.usual_area, job), area(found.area, job)),
        ("Old footprint left bare", area(found.usual_uncovered, job), area(found.uncovered, job)),
        *((("Weight", "", more),) if more else ()),
    )


def sentence(job: Job, found: Covering) -> str:
    """What grows, and what it allows for."""
    grows = joined([SIDES.get(side, side) for side in found.grown])
    front = f" Its front edge comes {said(found.front, job.unit)} nearer to the nut." if found.front >= 0.05 else ""
    return (
        f"It grows at {grows}; the slot stays where it is.{front} The old corners’ ± is hidden as well, "
        f"{said(max(found.margin), job.unit)} at most."
    )
