"""Works out a job's layout. What that takes is loaded when first needed, after the first picture is on the screen."""

from typing import TYPE_CHECKING

from geometry.job import Job
from geometry.layout import Laid, Layout

if TYPE_CHECKING:
    from geometry.survey.result import Surveyed


class WorkingOut:
    """Works out one job after the other. The last survey serves again while nothing has changed that it stands on."""

    def __init__(self) -> None:
        self._last: tuple[Job, Surveyed] | None = None

    def work_out(self, job: Job) -> Layout:
        """The layout of a job."""
        return self.lay_places(job).judged()

    def lay_places(self, job: Job) -> Laid:
        """The layout of a job, still to be judged."""
        from geometry.survey import survey
        from geometry.work_out import lay_places, surveyed_alike

        if self._last is None or not surveyed_alike(job, self._last[0]):
            self._last = job, survey(job)
        return lay_places(job, self._last[1])
