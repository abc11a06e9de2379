"""What the Bridge card says and puts back of a bridge that stands on the top, and of a tailpiece: feet, heights, the
readings that tell where both stand.
"""

from collections.abc import Iterable
from itertools import count as count_up
from typing import Any

from app.edit import edits
from app.edit.bridge import held_entries, screw_places
from app.edit.edits import Get, Put, replace
from app.edit.headstock.hardware_entries import points_said, points_typed
from app.edit.measure import new_reading
from app.edit.usual_sizes import in_inches, usual
from geometry import words
from geometry.job import Floating, Job, Tail
from geometry.job.bridges.floating import STANDS
from geometry.job.measured.readings import Reading
from geometry.job.sides import SIDES, Side
from geometry.units import Length, mm

FEET = [(0, "one piece, all along"), (2, "two feet"), (3, "three feet")]
USUAL_FOOT = 0.2
"""A foot's length as a share of the bridge's, where feet are begun (common practice, no source)."""
MARK, LEAST, CORNERS = "mark", 3, 4
"""What the points round old feet's marks are called, how many make one, and how many are asked for."""


def _floating(job: Job) -> Floating:
    return job.floating or Floating()


def count(job: Job) -> int:
    return len(_floating(job).feet)


def put_count(job: Job, feet: int) -> Job:
    """So many feet, each of a usual length; none for one piece."""
    get, put = held_entries.field("floating", "feet")
    if feet == len(get(job)):
        return job
    size = USUAL_FOOT * mm(_floating(job).length)
    return put(job, (in_inches(size) if job.unit == "in" else round(size, 1),) * feet)


def foot(at: int) -> tuple[Get, Put]:
    """What reads and puts the length of one foot, counted from the left; an outer right one is the last."""

    def get(job: Job) -> Length | None:
        feet = _floating(job).feet
        return feet[at] if -len(feet) <= at < len(feet) else None

    def put(job: Job, value: Length) -> Job:
        feet = list(_floating(job).feet)
        if not -len(feet) <= at < len(feet):
            return job
        feet[at] = value
        return held_entries.field("floating", "feet")[1](job, tuple(feet))

    return get, put


def height(side: int) -> tuple[Get, Put]:
    """What reads and puts the crown's height over the top, 0 left and 1 right; two alike are one length."""

    def get(job: Job) -> Length | None:
        return _floating(job).heights[side]

    def put(job: Job, value: Length | None) -> Job:
        old = _floating(job).heights
        left, right = (value, old[1]) if side == 0 else (old[0], value)
        return held_entries.field("floating", "height")[1](job, left if left == right else (left, right))

    return get, put


def feet_asked(job: Job) -> bool:
    """Whether the readings to where the bridge stands are in the list."""
    return all(name in job.points for name in STANDS)


def ask_feet(job: Job) -> Job:
    """The readings that tell where the bridge stands today, still to be taken."""
    return _asked(job, STANDS)


def marks(job: Job) -> str:
    """The marks of old feet, each by the points round it: “1 2 3 4; 5 6 7”."""
    return "; ".join(points_said(mark, MARK) for mark in _floating(job).marks)


def put_marks(job: Job, text: str) -> Job:
    """Raises `NotAJob` for a point that there is not, and for a mark with too few."""
    rings = tuple(points_typed(job, part, MARK) for part in text.split(";") if part.strip())
    return held_entries.field("floating", "marks")[1](job, rings)


def has_marks(job: Job) -> bool:
    """Whether marks of old feet were read, or are to be."""
    return job.floating is not None and any(name.startswith(f"{MARK}.") for name in job.points)


def loose_marks(job: Job) -> tuple[str, ...]:
    """The points called after a foot mark that are round none yet, in the order of their numbers."""
    taken = set(_floating(job).points)
    found = [name for name in job.points if name.startswith(f"{MARK}.") and name not in taken]
    return tuple(sorted(found, key=lambda name: (len(name), name)))


def another_mark(job: Job) -> Job:
    """One more mark: round the points that are round none where these are enough, else round four corners whose
    readings are still to be taken.
    """
    made, names = job, loose_marks(job)
    if len(names) < LEAST:
        free = (f"{MARK}.{number}" for number in count_up(1) if f"{MARK}.{number}" not in job.points)
        names = tuple(next(free) for _ in range(CORNERS))
        made = _asked(job, names, inward=bool(_floating(job).marks))
    return held_entries.field("floating", "marks")[1](made, (*_floating(made).marks, names))


def runs_on(job: Job) -> bool:
    """Whether the strings run on behind the bridge, so that a tailpiece may hold them."""
    return job.bridge is None or job.bridge.pins is None


def has_tail(job: Job) -> bool:
    return job.tail is not None


def put_has_tail(job: Job, on: bool) -> Job:
    return replace(job, tail=tail_of(job) if on else None)


def tail_of(job: Job) -> Tail:
    """The tail, or one as it is begun."""
    return job.tail or usual(Tail(), job.unit)


def tail(name: str) -> tuple[Get, Put]:
    """What reads and puts a field of the tail."""

    def get(job: Job) -> Any:
        return getattr(tail_of(job), name)

    def put(job: Job, value: Any) -> Job:
        return edits.in_block(job, "tail", lambda: tail_of(job), **{name: value})

    return get, put


def screws(job: Job) -> str:
    """The tailpiece's screw holes as they are typed: “14 x 5 treble; 14 x 5 bass”."""
    return screw_places.said(job, tail_of(job).screws)


def put_screws(job: Job, text: str) -> Job:
    """Raises `NotAJob` or `NotALength` for what is no list of places."""
    return edits.in_block(job, "tail", lambda: tail_of(job), screws=screw_places.typed(job, text))


def tail_asked(job: Job) -> bool:
    """Whether the readings to where the outer strings end are in the list."""
    return all(f"tail.{side}" in job.points for side in SIDES)


def ask_tail(job: Job) -> Job:
    """The readings that tell where the outer strings end at the tail, still to be taken."""
    return _asked(job, [f"tail.{side}" for side in SIDES], inward=True)


def _asked(job: Job, names: Iterable[str], *, inward: bool = False) -> Job:
    """Along and off the edge on its side for each of the points that has no reading yet; they lie outside the edges
    carried on, or `inward` of them.
    """
    for name in names:
        if any(name in reading.of for reading in job.readings):
            continue
        side: Side = "right" if name.endswith("right") else "left"
        edge = (f"nut.{side}", f"end.{side}")
        along = Reading(id="new", kind="along", of=(name,), from_=edge)
        off = Reading(id="new", kind="off", of=(name,), from_=edge, side=words.other_side(side) if inward else side)
        for reading in (along, off):
            job, _ = new_reading.add(job, reading, None)
    return job
