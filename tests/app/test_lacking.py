"""A placement template that cannot be drawn yet says what is lacking, and nothing that is not."""

import datetime

import msgspec
import pytest

from app.file import job_file, samples
from export.errors import ExportError
from export.records import Stamp
from export.templates.glued import placement
from geometry.job import Job
from geometry.work_out import work_out

STAMP = Stamp(date=datetime.date(2026, 1, 2), fingerprint="0000-00")


def whole() -> Job:
    path = samples.find("leaning-neck")
    assert path is not None
    return job_file.read(path)


def without(job: Job, what: str) -> Job:
    match what:
        case "frets":
            kept = tuple(r for r in job.readings if r.kind != "fret" and not any("fret12" in name for name in r.of))
            return msgspec.structs.replace(job, readings=kept)
        case "spread":
            assert job.strings is not None
            return msgspec.structs.replace(job, strings=msgspec.structs.replace(job.strings, saddle=None))
        case "readings":
            return msgspec.structs.replace(job, readings=job.readings[:1])
        case block:
            return msgspec.structs.replace(job, **{block: None})


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("readings", "neck cannot be laid out yet. Still to be read"),
        ("frets", "No fret is read yet"),
        ("strings", "the strings are not"),
        ("spread", "spread at the saddle is not given"),
        ("bridge", "No bridge is chosen yet"),
    ],
)
def test_what_is_lacking_is_said(what: str, said: str) -> None:
    job = without(whole(), what)
    with pytest.raises(ExportError, match=f"^The placement template cannot be drawn yet. .*{said}"):
        placement.draw(job, work_out(job), STAMP)
