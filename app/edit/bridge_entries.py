"""What the Bridge card says and puts back: saddle, bridge, pin holes, and a cut slot."""

from collections.abc import Callable
from typing import Any

from app.edit import edits
from app.edit.edits import Get, Put, replace
from app.edit.new_job import TIED
from app.edit.usual_sizes import usual
from geometry import units, words
from geometry.bridge.seat_bridge import where_left
from geometry.job import Bridge, Job, Pins, Saddle, SlotFront
from geometry.layout import Layout
from geometry.units import Length

_EMPTY: dict[str, Callable[[], Any]] = {"saddle": Saddle, "bridge": Bridge}
USUAL_FRONT = 6.0
"""mm from a bridge's front to its slot, where a cut slot is begun (common practice, no source)."""


def block(job: Job, name: str) -> Any:
    """The saddle or bridge block, or one with usual values."""
    return getattr(job, name) or usual(_EMPTY[name](), job.unit)


def put(job: Job, name: str, **fields: Any) -> Job:
    """Some fields of the saddle or bridge block changed; a bridge needs a saddle, so that one is begun with it."""
    job = edits.in_block(job, name, lambda: block(job, name), **fields)
    return job if job.saddle is not None else replace(job, saddle=block(job, "saddle"))


def begin(job: Job) -> Job:
    """The job with a bridge and a saddle of usual sizes; a set of tied strings gets a straight one without pins."""
    strings = job.strings.list if job.strings else ()
    tied = bool(strings) and strings[0].material in TIED
    begun = Bridge(outline="straight", length=188.0, width=29.0) if tied else Bridge(pins=_pins(job))
    return replace(job, bridge=job.bridge or usual(begun, job.unit), saddle=block(job, "saddle"))


def has_pins(job: Job) -> bool:
    return bool(job.bridge and job.bridge.pins)


def put_has_pins(job: Job, on: bool) -> Job:
    return put(job, "bridge", pins=usual(Pins(), job.unit) if on else None)


def _pins(job: Job) -> Pins:
    """The bridge's pin holes, or usual ones."""
    return (job.bridge.pins if job.bridge else None) or usual(Pins(), job.unit)


def pins_of(name: str) -> Get:
    """What reads a field of the pins block."""

    def get(job: Job) -> Any:
        return getattr(_pins(job), name)

    return get


def pins_put(name: str) -> Put:
    """What puts a field of the pins block."""

    def put_it(job: Job, value: Any) -> Job:
        return put(job, "bridge", pins=replace(_pins(job), **{name: value}))

    return put_it


def thickness_of(side: int) -> Get:
    """What reads the bridge's thickness at the slot, 0 left and 1 right."""

    def get(job: Job) -> Length | None:
        found: Bridge = block(job, "bridge")
        return found.thicknesses[side]

    return get


def thickness_put(side: int) -> Put:
    """What puts it; two sides that are the same are one length."""

    def put_it(job: Job, value: Length | None) -> Job:
        old: Bridge = block(job, "bridge")
        left, right = (value, old.thicknesses[1]) if side == 0 else (old.thicknesses[0], value)
        return put(job, "bridge", thickness=left if left == right else (left, right))

    return put_it


def has_slot(job: Job) -> bool:
    return bool(job.bridge and job.bridge.slot_front)


def put_has_slot(job: Job, on: bool) -> Job:
    return put(job, "bridge", slot_front=SlotFront(left=USUAL_FRONT, right=USUAL_FRONT) if on else None)


def slot_of(side: str) -> Get:
    """What reads how far a cut slot stands behind the bridge's front."""

    def get(job: Job) -> Length | None:
        cut = job.bridge.slot_front if job.bridge else None
        return None if cut is None else getattr(cut, side)

    return get


def slot_put(side: str) -> Put:
    """What puts it; none given on either side: the slot is not cut."""

    def put_it(job: Job, value: Length | None) -> Job:
        cut = job.bridge.slot_front if job.bridge else None
        if value is None:
            return put(job, "bridge", slot_front=None)
        made = replace(cut, **{side: value}) if cut else SlotFront(left=value, right=value)
        return put(job, "bridge", slot_front=made)

    return put_it


def wood(job: Job, layout: Layout | None) -> str:
    """The wood that is left, in one line that names the holes it is about; nothing where there is no bridge yet."""
    plan = layout.bridge if layout else None
    if plan is None:
        return ""
    parts = [f"{units.show(left, job.unit)} {where_left(place, plan)}" for place, left in plan.wood.items()]
    return f"Wood left, {job.unit}: {words.joined(parts)}."
