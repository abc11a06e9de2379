"""What the Headstock card says and puts back of new tuners: their posts, plates and screws, and how they are fitted."""

from collections import Counter
from typing import Any

from app.edit.edits import Get, Put, replace
from app.edit.headstock.hardware_entries import put, whole
from app.edit.old_work.head_points import head_of
from app.edit.usual_sizes import usual
from geometry.job import Job, NotAJob, TunerPlate, Tuners
from geometry.job.neck.headstock import MOST_POSTS
from geometry.job.sides import SIDES, Side
from geometry.layout import Layout
from geometry.units import Length, mm, said_pm


def tuner_field(key: str) -> tuple[Get, Put]:
    """A field of the new tuners."""

    def get(job: Job) -> Any:
        return getattr(job.hardware.tuners or begun(job), key)

    def put_it(job: Job, value: Any) -> Job:
        return put(job, tuners=replace(job.hardware.tuners or begun(job), **{key: value}))

    return get, put_it


def begun(job: Job) -> Tuners:
    """The tuners as they are begun: as many posts a side as old holes were read there, where these are as many as the
    strings that start at the nut or no strings are told; else the strings shared out, of an odd number one more on the
    bass side.
    """
    return replace(usual(Tuners(), job.unit), **_posts(job))


def take_begun(job: Job) -> Job:
    """The tuners as they are begun, chosen."""
    return put(job, tuners=begun(job))


def _posts(job: Job) -> dict[str, tuple[int, ...]]:
    strings = sum(not string.first for string in job.strings.list) if job.strings is not None else 0
    counted = Counter(_side_read(job, name) for name in head_of(job).posts)
    shared: dict[Side, int] = {}
    if counted and not counted[None] and strings in (0, counted.total()):
        shared = {side: counted[side] for side in SIDES}
    elif strings:
        shared = {side: (strings + (side == job.bass)) // 2 for side in SIDES}
    return {str(side): (min(posts, MOST_POSTS),) if posts else () for side, posts in shared.items()}


def _side_read(job: Job, name: str) -> Side | None:
    """On which side of the middle an old post was read: the side of the nut's corner that it is nearer to; None while
    it was not read from both.
    """
    far: dict[Side, float] = {}
    for reading in job.readings:
        for side in SIDES:
            if set(reading.of) == {f"nut.{side}", name} and reading.kind in ("rims", "distance"):
                values = reading.value if isinstance(reading.value, tuple) else (reading.value,)
                far[side] = sum(mm(value) / len(values) for value in values if value is not None)
    if len(far) < len(SIDES) or not all(far.values()):
        return None
    nearest: Side = min(SIDES, key=lambda side: far[side])
    return nearest


def plates_field(side: str) -> tuple[Get, Put]:
    """What shows and puts a side's plates: “3” is one plate of three posts, “1 1 1” three single tuners."""
    get, put_it = tuner_field(side)

    def typed(job: Job, text: str) -> Job:
        return put_it(job, whole(text, "plates", "posts on each plate, such as 3, or 1 1 1"))

    return lambda job: " ".join(map(str, get(job))), typed


def plate_field(key: str) -> tuple[Get, Put]:
    """A size of the plates, which are begun with the first size that is typed."""

    def put_it(job: Job, value: Length) -> Job:
        tuners = job.hardware.tuners or begun(job)
        return put(
            job, tuners=replace(tuners, plate=replace(tuners.plate or usual(TunerPlate(), job.unit), **{key: value}))
        )

    def get(job: Job) -> Length | None:
        plate = job.hardware.tuners.plate if job.hardware.tuners is not None else None
        return getattr(plate, key) if plate is not None else None

    return get, put_it


def screws_of(job: Job) -> int:
    """How many screws a plate has."""
    plate = job.hardware.tuners.plate if job.hardware.tuners is not None else None
    return len(plate.screws) if plate is not None else 0


def screw_field(at: int, axis: int) -> tuple[Get, Put]:
    """Where one of a plate's screws is from its first post: along (0), or toward the middle (1). One more is begun by
    the place along that is typed for it; without it a screw is taken off.
    """

    def get(job: Job) -> Length | None:
        plate = job.hardware.tuners.plate if job.hardware.tuners is not None else None
        return plate.screws[at][axis] if plate is not None and at < len(plate.screws) else None

    def put_it(job: Job, value: Length | None) -> Job:
        tuners = job.hardware.tuners or begun(job)
        plate = tuners.plate or usual(TunerPlate(), job.unit)
        screws = list(plate.screws)
        if at >= len(screws) and axis == 1:
            raise NotAJob("Type first how far along from the first post the screw is")
        there = screws[at] if at < len(screws) else (0.0, 0.0)
        along, across = (value, there[1]) if axis == 0 else (there[0], value or 0.0)
        screws[at : at + 1] = [(along, across)] if along is not None else []
        return put(job, tuners=replace(tuners, plate=replace(plate, screws=tuple(screws))))

    return get, put_it


def fittings_said(job: Job, layout: Layout | None) -> tuple[tuple[str, str], ...]:
    """Each way of fitting the new posts, and in one line what it comes to."""
    found = layout.hardware.headstock if layout is not None else None
    said = []
    for fitting in found.fittings if found is not None and found.posts else ():
        parts = [f"{fitting.again} old {'hole' if fitting.again == 1 else 'holes'} used again"]
        if fitting.loose:
            some = f"{fitting.loose} of these " if fitting.loose < fitting.again else ""
            parts.append(f"{some}wider than the post")
        parts.append(f"{fitting.plugs} {'plug' if fitting.plugs == 1 else 'plugs'}")
        if fitting.wall is not None:
            wood, pm95 = fitting.wall
            parts.append(
                f"least wood {said_pm(pm95, job.unit, wood)}"
                if wood > 0
                else f"cuts an old hole by {said_pm(pm95, job.unit, -wood)}"
            )
        if fitting.turns is not None:
            parts.append(f"strings turn up to {fitting.turns:.0f}° at the nut")
        said.append((fitting.keep, f"{', '.join(parts)}."))
    return tuple(said)
