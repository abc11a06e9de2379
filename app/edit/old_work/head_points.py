"""The points of a headstock as found, taken up by what they are: its outline, its slots, and the old holes in it."""

from typing import Any, assert_never

from app.edit.edits import Get, Put, replace
from app.edit.old_work import hole_sizes
from app.edit.old_work.old_kinds import KINDS, HeadKind
from geometry.job import Headstock, Job, OldHole, OldPost


def head_of(job: Job) -> Headstock:
    """The headstock, or one of which nothing is known."""
    return job.hardware.headstock or Headstock()


def put(job: Job, **fields: object) -> Job:
    """Some fields of the headstock changed, which begins it."""
    return replace(job, hardware=replace(job.hardware, headstock=replace(head_of(job), **fields)))


def take(job: Job, kind: HeadKind, names: tuple[str, ...], group: str = "") -> Job:
    """The job whose headstock has these points as a kind; of slots in the place of the one of that number."""
    head = head_of(job)
    match kind:
        case "outline":
            return put(job, outline=names)
        case "headslot":
            mine = f"{KINDS[kind].family}.{group}."
            at = next((at for at, ring in enumerate(head.slots) if ring[0].startswith(mine)), len(head.slots))
            return put(job, slots=(*head.slots[:at], names, *head.slots[at + 1 :]))
        case "posts":
            return put(job, posts=_holes(OldPost, job, names, hole_sizes.POST) | head.posts)
        case "screws":
            return put(job, screws=_holes(OldHole, job, names, hole_sizes.SCREW) | head.screws)
        case _:
            assert_never(kind)


def _holes(kind: type[OldHole], job: Job, names: tuple[str, ...], size: float) -> dict[str, OldHole]:
    return {name: kind(diameter=hole_sizes.diameter(job, name, size)) for name in names}


def hole_field(name: str, key: str = "diameter") -> tuple[Get, Put]:
    """What reads and puts the diameter or the depth of an old post's or screw's hole, or whether a post's is `worn`."""

    def get(job: Job) -> Any:
        hole = head_of(job).posts.get(name) or head_of(job).screws.get(name)
        return getattr(hole, key) if hole is not None else None

    def put_it(job: Job, value: Any) -> Job:
        which = "posts" if name in head_of(job).posts else "screws"
        holes = getattr(head_of(job), which)
        if name not in holes:  # it was taken out while something stood typed
            return job
        return put(job, **{which: {**holes, name: replace(holes[name], **{key: value})}})

    return get, put_it


def is_usual(job: Job, name: str) -> bool:
    """Whether an old post's or screw's hole is as wide as such holes are, and neither rim was read."""
    begun = hole_sizes.begun(job, hole_sizes.POST if name in head_of(job).posts else hole_sizes.SCREW)
    return hole_field(name)[0](job) == begun and hole_sizes.diameter_read(job, name) is None
