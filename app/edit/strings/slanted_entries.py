"""What is declared of slanted frets, as the Strings card says it and puts it back."""

from app.edit.edits import Get, Put, replace
from app.edit.strings.string_entries import put_frets
from geometry.job import Job, Scales
from geometry.job.sides import Side
from geometry.units import Length


def put_slanted(job: Job, on: bool) -> Job:
    """Frets that are slanted on purpose, or not; what was declared of slanted ones goes with them."""
    return put_frets(job, slanted=True) if on else put_frets(job, slanted=False, scales=None, square_fret=None)


def scale_of(side: Side) -> Get:
    """What reads the scale that is declared at a side."""

    def get(job: Job) -> Length | None:
        return job.frets.declared(side)

    return get


def scale_put(side: Side) -> Put:
    """What puts it; none at either side is none declared."""

    def put(job: Job, value: Length | None) -> Job:
        made = replace(job.frets.scales or Scales(), **{side: value})
        return put_frets(job, scales=None if made == Scales() else made)

    return put
