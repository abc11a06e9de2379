"""What may be done now and what must wait: the glue under the bridge, the cutter in its slot.

Glued, the bridge still lets the slot be cut where it belongs, as long as it is not far off; the slot once cut is where
the strings are tuned. Both wait for readings that are accused.
"""

from typing import Literal, NamedTuple

from geometry import words
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import show_pm

GLUE_WITHIN, CUT_WITHIN = 2.0, 1.0
"""The widest ± with which a bridge is glued, whose slot is cut later, and with which a slot is cut, mm (common
practice, no source: a slot can move so far within a bridge, a saddle's ridge so far on a saddle)."""
Work = Literal["glue", "slot"]


class Step(NamedTuple):
    """Something to be done to the wood: whether it may be done now, and its ± (mm)."""

    what: Work
    go: bool
    pm95: float


def go_or_wait(bridge_pm95: float, saddle_pm95: float, *, waits: bool, slot_is_cut: bool) -> tuple[Step, ...]:
    """Glue, and cut the slot. All in mm. A bridge whose slot is cut puts the saddle where it is glued: there the
    saddle's ± counts for the glue, and no slot is left to cut.
    """
    if slot_is_cut:
        wide = max(bridge_pm95, saddle_pm95)
        return (Step("glue", not waits and wide <= CUT_WITHIN, wide),)
    return (
        Step("glue", not waits and bridge_pm95 <= GLUE_WITHIN, bridge_pm95),
        Step("slot", not waits and saddle_pm95 <= CUT_WITHIN, saddle_pm95),
    )


SAYS: dict[tuple[Work, bool], str] = {
    ("glue", True): "Glue the bridge",
    ("glue", False): "Don't glue the bridge yet",
    ("slot", True): "Cut the slot",
    ("slot", False): "Don't cut the slot yet",
}


def now(job: Job, layout: Layout) -> tuple[Step, ...]:
    """The same of a layout; nothing where saddle or bridge have no place."""
    saddle, bridge = layout.saddle, layout.bridge
    if saddle is None or bridge is None:
        return ()
    slot_is_cut = job.bridge is not None and job.bridge.slot_front is not None
    return go_or_wait(max(bridge.front_pm95), max(saddle.pm95), waits=bool(saddle.waits_for), slot_is_cut=slot_is_cut)


def said(job: Job, layout: Layout) -> tuple[str, ...]:
    """The same in words, a sentence a step."""
    waits = layout.saddle.waits_for if layout.saddle else ()
    again = words.joined(words.readings_called(job, waits))
    first = f"; first read {again} again" if again else ""
    return tuple(
        f"{SAYS[step.what, step.go]}: ±{show_pm(step.pm95, job.unit)} {job.unit}{'' if step.go else first}."
        for step in now(job, layout)
    )
