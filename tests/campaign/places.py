"""What is placed of a job, and its ±. None of it is judged: that takes as long again, and moves no place."""

from geometry.job import Job
from geometry.layout import Layout
from geometry.survey import survey
from geometry.work_out import lay_places


def places_of(job: Job) -> Layout:
    """The layout of a job, without findings and without what the work does to the old."""
    return lay_places(job, survey(job)).layout
