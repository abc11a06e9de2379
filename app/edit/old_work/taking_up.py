"""Points of old work taken up by what they are called, all at once or as they are read."""

from collections.abc import Iterable

from app.edit import edits
from app.edit.edits import Get, Put
from app.edit.old_work import head_points, hole_sizes
from app.edit.old_work.old_entries import old_field, old_of, take
from app.edit.old_work.old_kinds import HEAD_KINDS, KINDS, OLD_KINDS, AnyKind, of_family, points_of
from geometry.job import Job, OldHole, OldPin


def take_up(job: Job, kinds: Iterable[AnyKind] = tuple(OLD_KINDS), lately: tuple[str, ...] = ()) -> Job:
    """All points of these kinds that were read, by what they are called, taken into the job; what is there stays. An
    outline on the headstock that is there grows only by what was read `lately`: not all of its points need be of it.

    Not the old slot: the same points may be of a slot that stays in use.
    """
    read = {name for reading in job.readings if reading.taken for name in reading.of}
    made = job
    for kind in kinds:
        about = KINDS[kind]
        if kind == "slot":
            continue
        if about.grouped:
            for group in _groups_read(made, kind, read):
                there = _of_group(made, kind, group)
                new = _that_join(kind, there, read, lately)
                made = _grown(made, kind, _together(made, f"{about.family}.{group}", there, new), group)
        else:
            there = points_of(made, kind)
            made = _grown(made, kind, _together(made, about.family, there, _that_join(kind, there, read, lately)))
    return job if (made.old, made.hardware) == (job.old, job.hardware) else made


def _that_join(kind: AnyKind, there: tuple[str, ...], read: set[str], lately: tuple[str, ...]) -> set[str]:
    """Which of the points read may come to those that are there."""
    grows = not there or not (KINDS[kind].on_head and KINDS[kind].outline)
    return read if grows else read.intersection(lately)


def taken_up_when_read(before: Job, job: Job, reading_id: str) -> Job:
    """The job in which a reading was just typed: if it places a point of the old work, that is taken up; what was left
    out of the headstock is not when it is read once more. `before`: the job without it; a hole that was as wide there
    as its rims say, or as holes are, is as wide as they say now.
    """
    reading, first = edits.find(job, reading_id), not edits.find(before, reading_id).taken
    families = {name.partition(".")[0] for name in reading.of}
    kinds = [kind for kind, about in OLD_KINDS.items() if about.family in families]
    of_head = [kind for kind, about in HEAD_KINDS.items() if about.family in families]
    if not reading.taken or not (kinds or of_head):
        return job
    made = take_up(job) if kinds else job
    made = take_up(made, of_head, reading.of) if first else made
    for name in reading.of:
        hole, begun, (_, put_it) = _hole(before, name)
        size = hole_sizes.diameter_read(made, name)
        followed = hole is not None and hole.diameter in (
            hole_sizes.diameter(before, name, begun),
            hole_sizes.begun(job, begun),
        )
        if followed and size is not None:
            made = put_it(made, size)
    return made


def _hole(job: Job, name: str) -> tuple[OldPin | OldHole | None, float, tuple[Get, Put]]:
    """An old hole, how wide such holes are (mm), and what puts its diameter."""
    old, head = old_of(job), head_points.head_of(job)
    if name in head.posts or name in head.screws:
        begun = hole_sizes.POST if name in head.posts else hole_sizes.SCREW
        return head.posts.get(name) or head.screws.get(name), begun, head_points.hole_field(name)
    begun = hole_sizes.PIN if name in old.pins else hole_sizes.HOLE
    return old.pins.get(name) or old.holes.get(name), begun, old_field(name)


def _together(job: Job, family: str, there: tuple[str, ...], read: Iterable[str]) -> tuple[str, ...]:
    """The points there and those read of a family: in the order of their names, unless the person had another one."""
    known = of_family(job, family)
    new = [name for name in known if name in read and name not in there]
    together = (*there, *new)
    by_name = [name for name in known if name in there]
    return tuple(name for name in known if name in together) if by_name == list(there) else together


def _groups_read(job: Job, kind: AnyKind, read: Iterable[str]) -> list[str]:
    names = [name for name in of_family(job, KINDS[kind].family) if name in read and name.count(".") > 1]
    return list(dict.fromkeys(name.split(".")[1] for name in names))


def _of_group(job: Job, kind: AnyKind, group: str) -> tuple[str, ...]:
    """The points of one area, brace or slot."""
    old = old_of(job)
    if kind == "area":
        return old.areas[group].of if group in old.areas else ()
    if kind == "brace":
        return old.braces[group].of if group in old.braces else ()
    mine = f"{KINDS[kind].family}.{group}."
    return next((ring for ring in head_points.head_of(job).slots if ring[0].startswith(mine)), ())


def _grown(job: Job, kind: AnyKind, names: tuple[str, ...], group: str = "") -> Job:
    """The same with a kind's points, if there are enough of them to make anything."""
    return take(job, kind, names, group) if len(names) >= KINDS[kind].least else job
