"""What the Old work card says and puts back: the old work's points taken up, in order, with their sizes."""

import math
from typing import assert_never

from app.edit import edits
from app.edit.edits import Get, Put, replace
from app.edit.old_work import head_points, hole_sizes
from app.edit.old_work.old_kinds import (
    KINDS,
    AnyKind,
    OldKind,
    next_group,
    points_of,
)
from app.edit.usual_sizes import usual
from geometry import units
from geometry.job import Area, Brace, Job, NotAJob, Old, OldHole, OldMetal, OldPin, OldSlot
from geometry.layout import Layout
from geometry.old_work.inside.read_inside import not_said
from geometry.units import Length


def old_of(job: Job) -> Old:
    """The old block, or an empty one."""
    return job.old or Old()


def put(job: Job, **fields: object) -> Job:
    """Some fields of the old block changed; an old block with nothing in it is none."""
    made = replace(old_of(job), **fields)
    return replace(job, old=None if made == Old() else made)


# taking points as old work of a kind


def take(job: Job, kind: AnyKind, names: tuple[str, ...], group: str = "") -> Job:
    """The job whose old work of a kind, or one area or brace of it, stands on these points, in this order.

    Raises `NotAJob` where these are too few or too many.
    """
    enough(kind, len(names))
    old = old_of(job)
    match kind:
        case "footprint":
            return put(job, outline=names)
        case "bare":
            return put(job, bare=names)
        case "plate":
            return put(job, plate=names)
        case "slot":
            width = old.slot.width if old.slot else hole_sizes.begun(job, hole_sizes.SLOT)
            return put(job, slot=OldSlot(of=(names[0], names[1]), width=width))
        case "pins":
            free = [name for name in names if name not in old.holes]
            wide = {name: hole_sizes.diameter(job, name, hole_sizes.PIN) for name in free}
            return put(job, pins={name: OldPin(diameter=wide[name]) for name in free} | old.pins)
        case "holes":
            wide = {name: hole_sizes.diameter(job, name, hole_sizes.HOLE) for name in names}
            return put(job, holes={name: OldHole(diameter=wide[name]) for name in names} | old.holes)
        case "metal":
            return put(job, metal={name: usual(OldMetal(), job.unit) for name in names} | old.metal)
        case "area":
            group = group or next_group(job, "area")
            area = replace(old.areas[group], of=names) if group in old.areas else Area(of=names)
            return put(job, areas={**old.areas, group: area})
        case "brace":
            group = group or next_group(job, "brace")
            brace = replace(old.braces[group], of=names) if group in old.braces else usual(Brace(of=names), job.unit)
            return put(job, braces={**old.braces, group: brace})
        case "outline" | "headslot" | "posts" | "screws":
            return head_points.take(job, kind, names, group)
        case _:
            assert_never(kind)


def enough(kind: AnyKind, count: int) -> None:
    """Refuse an outline of two points, or a slot of three."""
    about = KINDS[kind]
    if count < about.least:
        raise NotAJob(
            f"For {about.says} at least {about.least} points are needed, but there are {count}; add the others"
        )
    if about.most is not None and count > about.most:
        raise NotAJob(f"For {about.says} {about.most} points are enough, but there are {count}; leave the others out")


def keep_clear(before: Job, job: Job, keep_out: Length) -> Job:
    """The job with so much kept clear round metal that was not in it before."""
    new = [name for name in job.points if name.startswith("metal.") and name not in before.points]
    return put(job, metal={**old_of(job).metal, **{name: OldMetal(keep_out=keep_out) for name in new}}) if new else job


# leaving out


def leave_out(job: Job, kind: OldKind, group: str = "") -> Job:
    """The job without a kind of old work, or one area or brace of it, and without the readings of its points."""
    old = old_of(job)
    points = points_of(job, kind)
    if group:
        points = old.areas[group].of if kind == "area" else old.braces[group].of
    fields: dict[OldKind, dict[str, object]] = {
        "footprint": {"outline": ()},
        "pins": {"pins": {}, "row": None},
        "holes": {"holes": {}},
        "slot": {"slot": None},
        "metal": {"metal": {}},
        "bare": {"bare": ()},
        "area": {"areas": _without(old.areas, group)},
        "plate": {"plate": ()},
        "brace": {"braces": _without(old.braces, group)},
    }
    made = put(job, **fields[kind])
    gone = set(points) - set(old_of(made).points)
    for reading in job.readings:
        if gone.intersection((*reading.of, *reading.from_)):
            made = edits.remove(made, reading.id)
    return replace(made, points={name: point for name, point in made.points.items() if name not in gone})


def _without(things: dict[str, object] | dict[str, Area] | dict[str, Brace], group: str) -> dict[str, object]:
    return {name: thing for name, thing in things.items() if group and name != group}


# order, and where it was read


def in_order(job: Job, layout: Layout | None) -> Job:
    """The old footprint's corners in order round their middle, where all of them are held."""
    corners = old_of(job).outline
    places = [layout.points.get(name) for name in corners] if layout else []
    held = [(place.x, place.y) for place in places if place is not None]
    if len(held) < 3 or len(held) < len(corners):
        return job
    middle = sum(x for x, _ in held) / len(held), sum(y for _, y in held) / len(held)
    angle = {name: math.atan2(y - middle[1], x - middle[0]) for name, (x, y) in zip(corners, held, strict=True)}
    return put(job, outline=tuple(sorted(corners, key=angle.__getitem__)))


def said_inside(job: Job) -> Job:
    """The job whose plate and braces are said to be read from inside, where none of their readings says so yet."""
    unsaid = set(not_said(job))
    return replace(
        job,
        readings=tuple(
            replace(reading, inside=True) if reading.taken and unsaid.intersection(reading.of) else reading
            for reading in job.readings
        ),
    )


# sizes


def row_of(job: Job) -> int | None:
    return old_of(job).row


def row_put(job: Job, count: float | None) -> Job:
    """So many pin holes in the row, read or not; none given: it is not told."""
    if count is not None and count != int(count):
        raise NotAJob(f"“{units.show_number(count)}” is no number of holes; type whole figures only")
    return put(job, row=None if count is None else int(count))


def old_field(name: str) -> tuple[Get, Put]:
    """What reads and puts an old hole's diameter or a metal's keep-out."""

    def get(job: Job) -> Length | None:
        old = old_of(job)
        found = old.pins.get(name) or old.holes.get(name)
        if found is not None:
            return found.diameter
        return old.metal[name].keep_out if name in old.metal else None

    def put_it(job: Job, value: Length) -> Job:
        old = old_of(job)
        if name in old.pins:
            return put(job, pins={**old.pins, name: OldPin(diameter=value)})
        if name in old.holes:
            return put(job, holes={**old.holes, name: replace(old.holes[name], diameter=value)})
        return put(job, metal={**old.metal, name: OldMetal(keep_out=value)})

    return get, put_it


def depth_field(name: str) -> tuple[Get, Put]:
    """What reads and puts how deep another old hole is; none given: it goes through."""

    def put_it(job: Job, value: Length | None) -> Job:
        old = old_of(job)
        return put(job, holes={**old.holes, name: replace(old.holes[name], depth=value)})

    return lambda job: old_of(job).holes[name].depth if name in old_of(job).holes else None, put_it


def slot_width() -> tuple[Get, Put]:
    """What reads and puts the old slot's width."""

    def put_it(job: Job, value: Length) -> Job:
        slot = old_of(job).slot
        return job if slot is None else put(job, slot=replace(slot, width=value))

    return lambda job: slot.width if (slot := old_of(job).slot) else None, put_it


def brace_width(name: str) -> tuple[Get, Put]:
    """What reads and puts a brace's width."""

    def put_it(job: Job, value: Length) -> Job:
        old = old_of(job)
        return put(job, braces={**old.braces, name: replace(old.braces[name], width=value)})

    return lambda job: old_of(job).braces[name].width if name in old_of(job).braces else None, put_it


def damage(name: str) -> tuple[Get, Put]:
    """What reads and puts whether an area is discoloured or damaged."""

    def put_it(job: Job, value: object) -> Job:
        old = old_of(job)
        return put(job, areas={**old.areas, name: replace(old.areas[name], what=value)})

    return lambda job: old_of(job).areas[name].what if name in old_of(job).areas else "discoloured", put_it
