"""The bridge's outline: one of the families, or one that was traced and is as long and as wide as it is."""

from app.edit.bridge.bridge_entries import put
from app.edit.edits import replace
from export.machine.outline_in import TracedOutline
from geometry.job import Bridge, Job, NotAJob
from geometry.job.seating import OutlineName
from geometry.units import show_number


def choose(job: Job, outline: OutlineName) -> Job:
    """The job with another outline; what its sizes forbid there is as usual again."""
    traced = (job.bridge or Bridge()).traced
    if outline == "traced" and traced:
        return take_up(job, sized(traced))
    try:
        return put(job, "bridge", outline=outline)
    except NotAJob:
        return put(job, "bridge", outline=outline, belly_depth=None)


def sized(points: tuple[tuple[float, float], ...]) -> TracedOutline:
    """A traced outline with the sizes that it has."""
    backs, lefts = zip(*points, strict=True)
    return TracedOutline(points=points, length=max(lefts) - min(lefts), width=max(backs) - min(backs))


def take_up(job: Job, found: TracedOutline) -> Job:
    """The job with a traced outline. Raises `NotAJob` where no bridge has its size."""
    length, width = round(found.length, 2), round(found.width, 2)
    fields = {"outline": "traced", "traced": found.points, "length": length, "width": width}
    return put(job, "bridge", **fields, wing_length=None)


def is_traced(job: Job) -> bool:
    """Whether a traced outline is in force."""
    return job.bridge is not None and job.bridge.outline == "traced" and bool(job.bridge.traced)


def turned_about(job: Job) -> Job:
    """The job with its traced outline turned by half a turn: what was its front is its back."""
    if job.bridge is None or not is_traced(job):
        return job
    width = max(back for back, _ in job.bridge.traced)
    points = tuple((round(width - back, 4), round(-left, 4)) for back, left in job.bridge.traced)
    return replace(job, bridge=replace(job.bridge, traced=points))


def size_said(found: TracedOutline) -> str:
    """How large it is and how it lies, in a sentence."""
    length, width = (show_number(round(size, 1)) for size in (found.length, found.width))
    return (
        f"The outline is {length} by {width} mm, in {len(found.points)} points. Its front is what is drawn up, or "
        "to the left where it is drawn upright: turn it where that is its back."
    )
