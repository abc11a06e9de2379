"""Right jobs to step over one bound in: a sample job, and an invented one with an old bridge and typed compensation."""

from functools import lru_cache
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from app.file import job_file
from geometry.findings import Finding
from geometry.job import Job
from geometry.work_out import work_out
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of

SAMPLES = Path(__file__).parents[3] / "sample_jobs"


@lru_cache
def sample(name: str = "leaning-neck") -> Job:
    return job_file.read(SAMPLES / f"{name}.job.json")


@lru_cache
def invented(index: int = 2, seed: int = 7) -> Job:
    """The longest list's job of an invented instrument, read as finely as stated."""
    return trial_of(CASES[0], seed, index).job


def changed(job: Job, **fields: Any) -> Job:
    """The job with some fields of its blocks changed: `strings={"relief": 1.0}`."""
    blocks = {name: replace(getattr(job, name), **given) for name, given in fields.items()}
    return replace(job, **blocks)


def found(job: Job, code: str) -> Finding | None:
    """What is said under this code, above `good`; None where nothing is."""
    told = [one for one in work_out(job).findings if one.code == code and one.grade != "good"]
    return told[0] if told else None


def grade(job: Job, code: str) -> str:
    """The grade of what is said under this code; empty where nothing is."""
    told = found(job, code)
    return "" if told is None else told.grade
