"""The sample jobs, each worked out once, and their pages, each laid once, for all tests that only look at them."""

from functools import cache

from app.file import job_file, samples
from export.records import Sheet, Stamp
from export.templates import sheets
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out


@cache
def laid(name: str) -> tuple[Job, Layout]:
    """A sample job and its layout."""
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    return job, work_out(job)


@cache
def pages_of(name: str, asked: Stamp) -> tuple[Sheet, ...]:
    """The pages of a sample job that a stamp asks for."""
    return sheets(*laid(name), asked)
