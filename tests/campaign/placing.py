"""What is placed of a job, without what is to be said of it: all that a stated ± is tried by, and quicker to have."""

from app.desk.document.working_out import WorkingOut
from geometry.job import Job
from geometry.layout import Layout

ONE_AFTER_ANOTHER = WorkingOut()
"""One survey serves, whatever bridge is placed by it."""


def places_of(job: Job) -> Layout:
    """The places of a job's layout."""
    return ONE_AFTER_ANOTHER.lay_places(job).layout
