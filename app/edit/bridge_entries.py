"""What the Bridge card says and puts back: saddle, bridge, pin holes, a cut slot, and the old work's points."""

import math
from collections.abc import Callable
from typing import Any

from app.edit import edits
from app.edit.edits import Get, Put, replace
from app.edit.new_job import TIED
from geometry import units, words
from geometry.bridge.seat_bridge import where_left
from geometry.job import Bridge, Job, Old, OldMetal, OldPin, Pins, Saddle, SlotFront
from geometry.layout import Layout
from geometry.units import Length

_EMPTY: dict[str, Callable[[], Any]] = {"saddle": Saddle, "bridge": Bridge}
USUAL_FRONT = 6.0
"""mm from a bridge's front to its slot, where a cut slot is begun (common practice, no source)."""


def block(job: Job, name: str) -> Any:
    """The saddle or bridge block, or one with usual values."""
    return getattr(job, name) or _EMPTY[name]()


def put(job: Job, name: str, **fields: Any) -> Job:
    """Some fields of the saddle or bridge block changed; a bridge needs a saddle, so that one is begun with it."""
    job = edits.in_block(job, name, _EMPTY[name], **fields)
    return job if job.saddle is not None else replace(job, saddle=Saddle())


def begin(job: Job) -> Job:
    """The job with a bridge and a saddle of usual sizes; a set of tied strings gets a straight one without pins."""
    strings = job.strings.list if job.strings else ()
    tied = bool(strings) and strings[0].material in TIED
    usual = Bridge(outline="straight", length=188.0, width=29.0) if tied else Bridge(pins=Pins())
    return replace(job, bridge=job.bridge or usual, saddle=job.saddle or Saddle())


def has_pins(job: Job) -> bool:
    return bool(job.bridge and job.bridge.pins)


def put_has_pins(job: Job, on: bool) -> Job:
    return put(job, "bridge", pins=Pins() if on else None)


def pins_of(name: str) -> Get:
    """What reads a field of the pins block."""

    def get(job: Job) -> Any:
        return getattr((job.bridge.pins if job.bridge else None) or Pins(), name)

    return get


def pins_put(name: str) -> Put:
    """What puts a field of the pins block."""

    def put_it(job: Job, value: Any) -> Job:
        old = (job.bridge.pins if job.bridge else None) or Pins()
        return put(job, "bridge", pins=replace(old, **{name: value}))

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


def _numbered(job: Job, first: str) -> list[str]:
    """The points of a kind in the order of their numbers."""
    found = [name for name in job.points if name.startswith(f"{first}.")]
    return sorted(found, key=lambda name: (len(name), name))


def take_up(job: Job) -> Job:
    """All points called old, pin and metal that were read taken into the old block; what is there already stays."""
    old = job.old or Old()
    read = {name for reading in job.readings if reading.taken for name in reading.of}
    corners = tuple(name for name in _numbered(job, "old") if name in read or name in old.outline)
    pins = {name: OldPin(diameter=5.0) for name in _numbered(job, "pin") if name in read} | old.pins
    metal = {name: OldMetal() for name in _numbered(job, "metal") if name in read} | old.metal
    made = Old(outline=corners if len(corners) >= 3 else old.outline, pins=pins, metal=metal)
    return job if made == old else replace(job, old=made)


def taken_up_when_read(job: Job, reading_id: str) -> Job:
    """The job in which a reading was just typed: if it places a point of the old work, that is taken up."""
    reading = edits.find(job, reading_id)
    old_work = any(name.partition(".")[0] in ("old", "pin", "metal") for name in reading.of)
    return take_up(job) if reading.taken and old_work else job


def in_order(job: Job, layout: Layout | None) -> Job:
    """The old footprint's corners in order round their middle, where all of them are held."""
    old = job.old or Old()
    corners = old.outline
    places = [layout.points.get(name) for name in corners] if layout else []
    held = [(place.x, place.y) for place in places if place is not None]
    if len(held) < 3 or len(held) < len(corners):
        return job
    middle = sum(x for x, _ in held) / len(held), sum(y for _, y in held) / len(held)
    angle = {name: math.atan2(y - middle[1], x - middle[0]) for name, (x, y) in zip(corners, held, strict=True)}
    return replace(job, old=replace(old, outline=tuple(sorted(corners, key=angle.__getitem__))))


def old_line(job: Job) -> str:
    """What is known of the old work, in one line."""
    old = job.old or Old()
    parts = [f"a footprint of {len(old.outline)} corners"] if old.outline else []
    parts += [f"{len(old.pins)} old pin hole{'s' if len(old.pins) != 1 else ''}"] if old.pins else []
    parts += [f"metal in {len(old.metal)} place{'s' if len(old.metal) != 1 else ''}"] if old.metal else []
    return f"Known: {words.joined(parts)}." if parts else "Nothing is known of old work yet."


def old_names(job: Job) -> tuple[str, ...]:
    """Old pin holes and metal, by their points."""
    old = job.old or Old()
    return (*old.pins, *old.metal)


def old_field(name: str) -> tuple[Get, Put]:
    """What reads and puts an old pin hole's diameter or a metal's keep-out."""

    def get(job: Job) -> Length | None:
        old = job.old or Old()
        if name in old.pins:
            return old.pins[name].diameter
        return old.metal[name].keep_out if name in old.metal else None

    def put_it(job: Job, value: Length) -> Job:
        old = job.old or Old()
        if name in old.pins:
            return replace(job, old=replace(old, pins={**old.pins, name: OldPin(diameter=value)}))
        return replace(job, old=replace(old, metal={**old.metal, name: OldMetal(keep_out=value)}))

    return get, put_it
