"""The sample with slanted frets, and the same job with other bases: what these tests stand on."""

from typing import Any

from msgspec.structs import replace

from app.file import job_file, samples
from geometry.job import Job, Separate
from geometry.layout import Layout, SeparatePlan
from geometry.work_out import work_out


def sample() -> Job:
    path = samples.find("slanted-separate")
    assert path is not None
    return job_file.read(path)


def with_block(**fields: Any) -> Job:
    """The sample with some fields of its block changed."""
    job = sample()
    assert job.separate is not None
    return replace(job, separate=replace(job.separate, **fields))


def one_a_string(**fields: Any) -> Separate:
    """Narrow bases, one a string."""
    usual: dict[str, Any] = {
        "bases": "one a string",
        "set": "along string",
        "width": 9.5,
        "length": 40,
        "foremost": 6,
        "travel": 10,
        "screws": ((36, 0),),
    }
    return Separate(**(usual | fields))


def plan_of(job: Job) -> tuple[Layout, SeparatePlan]:
    layout = work_out(job)
    assert layout.separate is not None
    return layout, layout.separate


def codes(layout: Layout) -> dict[str, str]:
    """Grades of what is said, by code."""
    return {finding.code: finding.grade for finding in layout.findings}


def said(layout: Layout, code: str) -> str:
    return next(finding.text for finding in layout.findings if finding.code == code)
