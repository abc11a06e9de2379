"""What is typed of the proof: a distance read before the glue or as built, and the day on which it was."""

from app.edit.edits import replace
from geometry import units
from geometry.job import Job, Reading
from geometry.job.measured.proof import Stage
from geometry.proof.proof_at_stage import latest
from geometry.units import Length


def put(job: Job, stage: Stage, reading: Reading, value: Length | None, when: str, wanted: float | None = None) -> Job:
    """The job with a distance read at a stage, dated, that is `wanted` so long (mm); with None as its value it is not
    read any more. Raises `NotAJob`.
    """
    old = latest(job, stage)
    kept = tuple(one for one in old.readings if one.of != reading.of)
    at = next((i for i, one in enumerate(old.readings) if one.of == reading.of), len(kept))
    made = () if value is None else (replace(reading, value=value),)
    readings = (*kept[:at], *made, *kept[at:])
    far = {name: mm for name, mm in old.wanted.items() if name != reading.id}
    if made and wanted is not None:
        far[reading.id] = round(wanted, 3)
    new = replace(old, readings=readings, wanted=far, when=when if readings else "")
    return replace(job, proof=(*(one for one in job.proof if one is not old), *((new,) if readings else ())))


def without(job: Job) -> Job:
    """The job as it is without its proof: what the distances are chosen by."""
    return replace(job, proof=()) if job.proof else job


def shown(job: Job, reading: Reading) -> str:
    """A distance as it was typed."""
    return units.typed(reading.parts[0], job.unit) if reading.parts else ""
