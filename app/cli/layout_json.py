"""The layout as data for other programs: `offsquare work-out JOB --json`. All lengths in mm, angles in radians.

The names are the layout's own (docstrings of `geometry/layout/`); a name once given never changes its meaning.
"""

from typing import Any

import msgspec

from app.file import job_file, job_text
from geometry.job import Job
from geometry.layout import Layout
from geometry.placed import kept_placements
from geometry.saddle.choice_of_saddle import saddle_choices


def tree(job: Job, layout: Layout) -> dict[str, Any]:
    """The report as plain values. `survey.loose` lists names; what would hold each one stands in `survey.held_by`;
    `placements` are those that the job keeps, beside the present one.
    """
    found: dict[str, Any] = msgspec.json.decode(msgspec.json.encode(layout))  # by way of JSON, so that NaN becomes null
    found["survey"]["why"] = layout.survey.why.whole
    found["survey"]["loose"] = [loose.point for loose in layout.survey.loose]
    found["survey"]["held_by"] = {loose.point: loose.held_by for loose in layout.survey.loose}
    beside = [one for kept in job.kept if (one := kept_placements.compare(job, layout, kept)) is not None]
    found["placements"] = msgspec.to_builtins(beside)
    found["saddle_choices"] = msgspec.to_builtins(saddle_choices(job, layout))
    head = {"title": job.title, "file": job_file.fingerprint(job), "hand": job.hand, "lengths": "mm"}
    return {**head, **found}


def as_json(job: Job, layout: Layout) -> str:
    """The report as JSON text, its keys in a fixed order."""
    return job_text.canonical(tree(job, layout))
