"""What the Headstock card says and puts back of new tuners: their posts, plates and screws, and how they are fitted."""

from app.edit.edits import Get, Put, replace
from app.edit.headstock.hardware_entries import part_field, put, whole
from geometry.job import Job, NotAJob, TunerPlate, Tuners
from geometry.layout import Layout
from geometry.units import Length, said_pm


def tuner_field(key: str) -> tuple[Get, Put]:
    """A field of the new tuners."""
    return part_field("tuners", Tuners, key)


def plates_field(side: str) -> tuple[Get, Put]:
    """What shows and puts a side's plates: “3” is one plate of three posts, “1 1 1” three single tuners."""
    get, put_it = tuner_field(side)

    def typed(job: Job, text: str) -> Job:
        return put_it(job, whole(text, "plates", "posts on each plate, such as 3, or 1 1 1"))

    return lambda job: " ".join(map(str, get(job))), typed


def plate_field(key: str) -> tuple[Get, Put]:
    """A size of the plates, which are begun with the first size that is typed."""

    def put_it(job: Job, value: Length) -> Job:
        tuners = job.hardware.tuners or Tuners()
        return put(job, tuners=replace(tuners, plate=replace(tuners.plate or TunerPlate(), **{key: value})))

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
        tuners = job.hardware.tuners or Tuners()
        plate = tuners.plate or TunerPlate()
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
