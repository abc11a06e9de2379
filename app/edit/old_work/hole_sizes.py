"""How wide old holes are until that is typed: as their rims were read, else as such holes usually are."""

from app.edit.usual_sizes import in_inches
from geometry import units
from geometry.job import Job
from geometry.units import Length

PIN, HOLE, SLOT = 5.0, 4.0, 3.0
"""mm, of an old pin hole, another hole and an old slot that nobody read or typed yet (common practice, no source)."""
POST, SCREW = 8.0, 2.5
"""mm, of a tuner's old post hole and an old screw's in the headstock (common practice, no source)."""
LEAST, MOST = 0.5, 30.0
"""How wide an old hole may be, mm, as the job's record has it."""


def diameter_read(job: Job, name: str) -> Length | None:
    """A hole's diameter by its two rims, in the unit they were read in; the mean where they were read several times,
    None where they were not read, or name no hole that may be.
    """
    rims = [r.parts for r in job.readings if r.kind == "rims" and r.of[1] == name and r.taken]
    sizes = [size for near, far in rims if LEAST <= (size := units.mm(far) - units.mm(near)) <= MOST]
    if not sizes:
        return None
    size = sum(sizes) / len(sizes)
    typed = [length for pair in rims for length in pair]
    if len(sizes) > 1 and units.unit_typed(*typed) == "in":
        return in_inches(size)
    said = units.in_its_unit(size, *typed)
    return float(said.removesuffix(" mm")) if said.endswith(" mm") else said


def diameter(job: Job, name: str, size: float) -> Length:
    """A hole's diameter as it was read, else the usual one (mm)."""
    return diameter_read(job, name) or begun(job, size)


def begun(job: Job, size: float) -> Length:
    """A usual size (mm) as it is begun in the job: in inches as a rule shows it."""
    return in_inches(size) if job.unit == "in" else size
