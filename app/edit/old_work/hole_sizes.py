"""How wide old holes are until that is typed: as their rims were read, else as such holes usually are."""

from collections.abc import Callable

from app.edit.edits import Get, Put
from app.edit.usual_sizes import in_inches
from geometry import units
from geometry.job import Job, NotAJob
from geometry.layout import Layout
from geometry.units import Length, Unit

PIN, HOLE, SLOT = 5.0, 4.0, 3.0
"""mm, of an old pin hole, another hole and an old slot that nobody read or typed yet (common practice, no source)."""
POST, SCREW = 8.0, 2.5
"""mm, of a tuner's old post hole and an old screw's in the headstock (common practice, no source)."""
LEAST, MOST = 0.5, 30.0
"""How wide an old hole may be, mm, as the job's record has it."""


def diameter_read(job: Job, name: str) -> Length | None:
    """A hole's diameter by its two rims, in the unit they were read in and as fine as lengths are told in it; the mean
    where they were read several times, None where they were not read, or name no hole that may be.
    """
    rims = [r.parts for r in job.readings if r.kind == "rims" and r.of[1] == name and r.taken]
    sizes = [size for near, far in rims if LEAST <= (size := units.mm(far) - units.mm(near)) <= MOST]
    if not sizes:
        return None
    return as_kept(sum(sizes) / len(sizes), units.unit_typed(*(length for pair in rims for length in pair)))


def as_kept(size: float, unit: Unit) -> Length:
    """A diameter that was worked out (mm) as lengths are told in a unit, to be kept."""
    return units.keep(units.said(size, unit).removesuffix(" mm"), "mm")


def by_rims(name: str, field: tuple[Get, Put], told: Callable[[], Layout | None]) -> tuple[Get, Put]:
    """What reads and puts a hole's diameter on a card. Where its rims were read these say it: it is shown as it is used
    and drawn, in what is `told` of the job, and is not typed.
    """
    typed, put_typed = field

    def get(job: Job) -> Length | None:
        read = diameter_read(job, name)
        if read is None:
            kept: Length | None = typed(job)
            return kept
        layout = told()
        used = layout.survey.diameters.get(name) if layout is not None else None
        return as_kept(used, job.unit) if used is not None else read

    def put_it(job: Job, value: Length) -> Job:
        if diameter_read(job, name) is not None:
            raise NotAJob("Its rims were read: they say how wide it is; read them again, or strike them out")
        return put_typed(job, value)

    return get, put_it


def diameter(job: Job, name: str, size: float) -> Length:
    """A hole's diameter as it was read, else the usual one (mm)."""
    return diameter_read(job, name) or begun(job, size)


def begun(job: Job, size: float) -> Length:
    """A usual size (mm) as it is begun in the job: in inches as a rule shows it."""
    return in_inches(size) if job.unit == "in" else size
