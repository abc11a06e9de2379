"""What the Headstock card says and puts back: the headstock as found, new tuners, markers, and holes anywhere."""

from collections.abc import Callable
from typing import Any

import msgspec

from app.edit.edits import Get, Put, replace
from app.edit.old_work import taking_up
from app.edit.old_work.head_points import head_of
from app.edit.old_work.old_kinds import HEAD_KINDS
from app.edit.usual_sizes import usual
from geometry import words
from geometry.job import FaceMarkers, Headstock, Job, Markers, NotAJob, OtherHole, SideMarkers

NEW_HOLE = OtherHole(where="where it is", diameter=4.0)
"""What a hole is until it is described."""


def put(job: Job, **fields: Any) -> Job:
    """Some parts of the hardware block changed."""
    return replace(job, hardware=replace(job.hardware, **fields))


def part_field(part: str, begun: Callable[[], msgspec.Struct], key: str, empty: Any = None) -> tuple[Get, Put]:
    """What reads and puts one field of the headstock or the tuners; putting it begins that part."""

    def there(job: Job) -> Any:
        return getattr(job.hardware, part) or usual(begun(), job.unit)

    def put_it(job: Job, value: Any) -> Job:
        return put(job, **{part: replace(there(job), **{key: value})})

    def get(job: Job) -> Any:
        return empty if empty is not None and getattr(job.hardware, part) is None else getattr(there(job), key)

    return get, put_it


def head_field(key: str) -> tuple[Get, Put]:
    """A field of the headstock."""
    return part_field("headstock", Headstock, key)


# the headstock as found


def take_up(job: Job) -> Job:
    """All points of the headstock that were read, by what they are called, taken into it; what is there stays."""
    return taking_up.take_up(job, HEAD_KINDS)


def leave_out(job: Job) -> Job:
    """The job without its headstock and the tuners for it; the points that were read stay."""
    return put(job, headstock=None, tuners=None)


def points_said(names: tuple[str, ...], family: str) -> str:
    """Points as they are typed: by their number where they are called after the family."""
    return " ".join(name.removeprefix(f"{family}.") for name in names)


def points_typed(job: Job, text: str, family: str) -> tuple[str, ...]:
    """The points that were typed by number or by name; raises `NotAJob` for one that there is not."""
    names = []
    for part in text.replace(",", " ").split():
        name = part if part in job.points else f"{family}.{part}"
        if name not in job.points:
            raise NotAJob(f"There is no point {words.called(name, job.hand)}; read it on the Measure card first")
        names.append(name)
    return tuple(names)


def ring_field(key: str, family: str) -> tuple[Get, Put]:
    """What shows and puts the outline, or the two points of the middle line, as typed."""
    get, put_it = head_field(key)
    return lambda job: points_said(get(job), family), lambda job, text: put_it(job, points_typed(job, text, family))


def slot_field(at: int) -> tuple[Get, Put]:
    """What shows and puts one slot's points as typed; nothing typed takes the slot away."""
    family = f"headslot.{at + 1}"

    def get(job: Job) -> str:
        slots = head_of(job).slots
        return points_said(slots[at], family) if at < len(slots) else ""

    def put_it(job: Job, text: str) -> Job:
        slots, ring = list(head_of(job).slots), points_typed(job, text, family)
        slots[at : at + 1] = [ring] if ring else []
        return put(job, headstock=replace(head_of(job), slots=tuple(slots)))

    return get, put_it


def edge_field(at: int) -> tuple[Get, Put]:
    """What shows and puts the points along the left (0) or the right (1) edge as typed."""

    def put_it(job: Job, text: str) -> Job:
        edges = list(head_of(job).edges)
        edges[at] = points_typed(job, text, "head")
        return put(job, headstock=replace(head_of(job), edges=(edges[0], edges[1])))

    return lambda job: points_said(head_of(job).edges[at], "head"), put_it


# markers


def wants(which: str) -> tuple[Get, Put]:
    """Whether there are side or face markers, and the job with them or without."""

    def put_it(job: Job, on: bool) -> Job:
        made = replace(job.hardware.markers or Markers(), **{which: _begun(job, which) if on else None})
        return put(job, markers=None if made == Markers() else made)

    return lambda job: _marked(job, which) is not None, put_it


def marker_field(which: str, key: str) -> tuple[Get, Put]:
    """A field of the side or the face markers; without them it shows nothing, and putting it begins them."""

    def put_it(job: Job, value: Any) -> Job:
        changed = replace(_marked(job, which) or _begun(job, which), **{key: value})
        return put(job, markers=replace(job.hardware.markers or Markers(), **{which: changed}))

    return lambda job: getattr(_marked(job, which) or _begun(job, which), key), put_it


def frets_field(which: str, key: str) -> tuple[Get, Put]:
    """The frets of markers as typed: “3 5 7 9 12”; frets that are left off are not marked twice either."""
    get, put_it = marker_field(which, key)

    def typed(job: Job, text: str) -> Job:
        frets = whole(text, "frets", "their numbers, such as 3 5 7 9 12") if text.strip() or key == "frets" else ()
        if key == "frets":
            twice, put_twice = marker_field(which, "twice")
            kept = tuple(fret for fret in twice(job) if fret in frets)
            return put_twice(put_it(put_twice(job, ()), frets), kept)
        return put_it(job, frets)

    return lambda job: " ".join(map(str, get(job))), typed


def _begun(job: Job, which: str) -> msgspec.Struct:
    return usual(SideMarkers() if which == "side" else FaceMarkers(), job.unit)


def _marked(job: Job, which: str) -> msgspec.Struct | None:
    found: msgspec.Struct | None = getattr(job.hardware.markers, which, None)
    return found


def whole(text: str, what: str, like: str) -> tuple[int, ...]:
    """Whole numbers as typed, apart by blanks or commas; raises `NotAJob` for what is none."""
    parts = text.replace(",", " ").split()
    if not parts or not all(part.isascii() and part.isdecimal() for part in parts):
        raise NotAJob(f"“{text.strip()}” does not tell {what}; type {like}")
    return tuple(map(int, parts))


# holes anywhere


def add_hole(job: Job) -> Job:
    """The job with another hole, still to be described."""
    return put(job, holes=(*job.hardware.holes, usual(NEW_HOLE, job.unit)))


def remove_hole(job: Job, at: int) -> Job:
    """The job without one of its holes."""
    holes = job.hardware.holes
    return put(job, holes=(*holes[:at], *holes[at + 1 :]))


def other_field(at: int, key: str) -> tuple[Get, Put]:
    """A field of one of the holes anywhere."""

    def put_it(job: Job, value: Any) -> Job:
        holes = list(job.hardware.holes)
        if at >= len(holes):  # it was taken off the list while something stood typed
            return job
        holes[at] = replace(holes[at], **{key: value})
        return put(job, holes=tuple(holes))

    return lambda job: getattr(job.hardware.holes[at], key) if at < len(job.hardware.holes) else None, put_it


def point_field(at: int) -> tuple[Get, Put]:
    """The point at which a hole was measured, as typed; nothing typed: its place is told in words only."""
    get, put_it = other_field(at, "point")

    def typed(job: Job, text: str) -> Job:
        named = points_typed(job, text, "hole")
        if len(named) > 1:
            raise NotAJob("A hole has one middle; type one point’s name, or its number")
        return put_it(job, named[0] if named else None)

    return lambda job: (get(job) or "").removeprefix("hole."), typed
