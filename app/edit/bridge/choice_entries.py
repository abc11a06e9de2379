"""The choice of place in the job: its range and weights, and a bridge taken to a place."""

from typing import Literal

from msgspec.structs import replace

from app.edit.edits import Get, Put
from geometry.job import Job, Moved
from geometry.job.place_choice import Weights
from geometry.units import MM_PER, Length, Unit, keep, mm, show, show_number

By = Literal["one", "area"]
BY: dict[str, By] = {"margins": "one", "scar": "area", "clearance": "one", "looks": "one"}
"""What is counted by a length or by an area; all else by itself."""
INCH = MM_PER["in"]
MUCH: dict[Unit, dict[By, tuple[str, float]]] = {
    "mm": {"one": ("mm", 1.0), "area": ("100 mm²", 1.0)},
    "cm": {"one": ("0.1 cm", 1.0), "area": ("1 cm²", 1.0)},
    "in": {"one": ("1/32 in", INCH / 32), "area": ("1/8 in²", INCH**2 / 8 / 100)},
}
"""So much of a length and of an area counts as a weight says, as a rule of the job's unit shows it; and what share that
is of a millimetre and of a hundred square ones, which the record counts by.
"""


def choice_of(key: str) -> Get:
    """One number of the choice's range, or of what a place may cost."""
    return lambda job: getattr(job.choice, key)


def choice_put(key: str) -> Put:
    """Put it back."""
    return lambda job, value: replace(job, choice=replace(job.choice, **{key: value}))


def weight_of(key: str) -> Get:
    """What so much of one thing counts as the job's unit tells it, `MUCH`; what nobody typed is told roughly there."""

    def get(job: Job) -> float:
        kept: float = getattr(job.choice.weights, key)
        share = _share(key, job)
        return kept if share == 1.0 else round(kept * share, 1 if kept == getattr(Weights(), key) else 4)

    return get


def weight_put(key: str) -> Put:
    """Put it back."""

    def put(job: Job, value: float) -> Job:
        kept = value / _share(key, job)
        return replace(job, choice=replace(job.choice, weights=replace(job.choice.weights, **{key: kept})))

    return put


def _share(key: str, job: Job) -> float:
    """How much of what the record counts by, a mm or a hundred mm², is told in the job's unit."""
    return MUCH[job.unit][BY[key]][1] if key in BY else 1.0


def moved_of(key: str) -> Get:
    """How far the bridge is moved: `along`, `across`, `turn`, or what its `slot` does."""
    return lambda job: getattr(_moved(job), key)


def moved_put(key: str) -> Put:
    """Put it back; a job without a bridge stays as it is."""
    return lambda job, value: take_place(job, replace(_moved(job), **{key: value}))


def take_place(job: Job, place: Moved) -> Job:
    """The bridge moved to a place; one that does not move it is none."""
    if job.bridge is None:
        return job
    return replace(job, bridge=replace(job.bridge, moved=None if _is_none(place) else place))


def take_found(job: Job, place: Moved) -> Job:
    """The bridge moved to a place that was worked out, as a rule of the job's unit can lay it off."""
    along, across = (ruled(mm(length), job.unit) for length in (place.along, place.across))
    return take_place(job, replace(place, along=along, across=across, turn=round(place.turn, 2)))


def ruled(length_mm: float, unit: Unit) -> Length:
    """A worked-out length as a rule of the unit shows it, kept as if it was typed: tenths of a mm, 64ths of an inch."""
    if unit == "in":
        shown = show(length_mm, unit).replace("−", "-")
        return keep(shown, unit) if shown != "0" else 0.0
    return keep(show_number(round(length_mm / MM_PER[unit], 1 if unit == "mm" else 2)), unit)


def _moved(job: Job) -> Moved:
    return job.bridge.moved if job.bridge is not None and job.bridge.moved is not None else Moved()


def _is_none(place: Moved) -> bool:
    return replace(place, slot="stays") == Moved()


def without_place(job: Job) -> Job:
    """The job as the search for places sees it: wherever the bridge has been moved."""
    return job if job.bridge is None else replace(job, bridge=replace(job.bridge, moved=None))
