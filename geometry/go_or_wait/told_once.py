"""What several places tell of a job and that takes long to work out: what may be done now, and the distances to read
before the glue. It serves all that ask one after the other, on the screen, on sheets and in files.
"""

from functools import cached_property

import msgspec

from geometry.go_or_wait.steps import Step
from geometry.go_or_wait.verdicts import verdicts
from geometry.go_or_wait.what_if import with_changes
from geometry.job import Job
from geometry.layout import Layout
from geometry.proof import Proved, prove
from geometry.survey import Surveyed, survey


class Told:
    """What is told of a job and its layout, each when it is first asked for. `in_mm`: the job as a file for a machine
    speaks of it, of which the same is told.
    """

    def __init__(self, job: Job, layout: Layout) -> None:
        self.job, self.layout = job, layout
        self.in_mm = job if job.unit == "mm" else msgspec.structs.replace(job, unit="mm")

    @cached_property
    def surveyed(self) -> Surveyed:
        """The survey, which a layout does not hold."""
        return survey(self.job)

    @cached_property
    def verdicts(self) -> tuple[Step, ...]:
        """What may be done to the wood now."""
        return verdicts(self.job, self.layout)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The same, and what would change what must wait."""
        return with_changes(self.job, self.layout, self.verdicts, self.surveyed)

    @cached_property
    def clamped(self) -> Proved | None:
        """The distances to read before the glue, and what they say; None where the bridge has no place."""
        return prove(self.job, "clamped", self.surveyed)


_last: list[Told] = []
"""What was asked last, one at most; neither a job nor a layout ever changes."""


def told_of(job: Job, layout: Layout) -> Told:
    """What is told of a job, or of one that was had `in_mm`, and its layout."""
    found = _last[0] if _last else None
    if found is None or (found.job is not job and found.in_mm is not job) or found.layout is not layout:
        found = Told(job, layout)
        _last[:] = [found]
    return found
