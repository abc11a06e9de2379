"""Works out a job's layout. What that takes is loaded when first needed, after the first picture is on the screen."""

from typing import TYPE_CHECKING

from geometry.job import Job
from geometry.layout import Laid, Layout

if TYPE_CHECKING:
    from geometry.survey.result import Surveyed


class LastSurvey:
    """Surveys one job after the other. The last survey serves again while nothing has changed that it stands on."""

    def __init__(self) -> None:
        self.last: tuple[Job, Surveyed] | None = None

    def of(self, job: Job) -> "Surveyed":
        """The survey of a job."""
        from geometry.survey import survey
        from geometry.work_out import surveyed_alike

        if self.last is None or not surveyed_alike(job, self.last[0]):
            self.last = job, survey(job)
        return self.last[1]


class WorkingOut:
    """Works out one job after the other."""

    def __init__(self) -> None:
        self.surveys = LastSurvey()

    def work_out(self, job: Job) -> Layout:
        """The layout of a job."""
        return self.lay_places(job).judged()

    def lay_places(self, job: Job) -> Laid:
        """The layout of a job, still to be judged."""
        from geometry.work_out import lay_places

        return lay_places(job, self.surveys.of(job))
