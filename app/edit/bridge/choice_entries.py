"""The choice of place in the job: its range and weights, and a bridge taken to a place."""

from msgspec.structs import replace

from app.edit.edits import Get, Put
from geometry.job import Job, Moved


def choice_of(key: str) -> Get:
    """One number of the choice's range, or of what a place may cost."""
    return lambda job: getattr(job.choice, key)


def choice_put(key: str) -> Put:
    """Put it back."""
    return lambda job, value: replace(job, choice=replace(job.choice, **{key: value}))


def weight_of(key: str) -> Get:
    """What one thing counts."""
    return lambda job: getattr(job.choice.weights, key)


def weight_put(key: str) -> Put:
    """Put it back."""

    def put(job: Job, value: float) -> Job:
        return replace(job, choice=replace(job.choice, weights=replace(job.choice.weights, **{key: value})))

    return put


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


def _moved(job: Job) -> Moved:
    return job.bridge.moved if job.bridge is not None and job.bridge.moved is not None else Moved()


def _is_none(place: Moved) -> bool:
    return replace(place, slot="stays") == Moved()


def without_place(job: Job) -> Job:
    """The job as the search for places sees it: wherever the bridge has been moved."""
    return job if job.bridge is None else replace(job, bridge=replace(job.bridge, moved=None))
