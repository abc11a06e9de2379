"""What several templates tell of a job and that takes long to work out: what may be done now, and the distances to read
before the glue. It serves all that are drawn one after the other.
"""

from functools import cached_property

from geometry import go_or_wait, proof
from geometry.go_or_wait import Step
from geometry.job import Job
from geometry.layout import Layout
from geometry.proof import Proved
from geometry.survey import Surveyed, survey


class Told:
    """What is told of a job and its layout, each when it is first asked for."""

    def __init__(self, job: Job, layout: Layout) -> None:
        self.job, self.layout = job, layout

    @cached_property
    def surveyed(self) -> Surveyed:
        """The survey, which a layout does not hold."""
        return survey(self.job)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """What may be done to the wood now, and what would change what must wait."""
        return go_or_wait.worked_out(self.job, self.layout, self.surveyed)

    @cached_property
    def clamped(self) -> Proved | None:
        """The distances to read before the glue, and what they say; None where the bridge has no place."""
        return proof.prove(self.job, "clamped", self.surveyed)


_last: list[Told] = []
"""What was asked last, one at most; neither a job nor a layout ever changes."""


def told_of(job: Job, layout: Layout) -> Told:
    """What is told of a job and its layout."""
    found = _last[0] if _last else None
    if found is None or found.job is not job or found.layout is not layout:
        found = Told(job, layout)
        _last[:] = [found]
    return found
