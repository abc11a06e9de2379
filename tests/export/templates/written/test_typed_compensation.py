"""What a compensation is sure to, in the job sheet's table of strings: one that is typed is known."""

from msgspec.structs import replace

from export.templates.written import job_tables
from geometry.job import Job
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def pms(job: Job) -> list[str]:
    return [row[4] for row in job_tables.strings(job, work_out(job))]


def test_a_typed_compensation_is_known_and_has_no_pm() -> None:
    job = sample("leaning-neck")
    assert job.strings is not None
    count = len(job.strings.list)
    typed = replace(job, strings=replace(job.strings, compensation=(2.0, *[None] * (count - 1))))
    assert pms(typed)[0] == "known"
    assert "known" not in pms(typed)[1:]
    assert "known" not in pms(job)
