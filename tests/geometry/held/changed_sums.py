"""The sums of jobs as they are, and of what a change to one changes."""

from functools import lru_cache
from pathlib import Path

import msgspec

from geometry.job import Job, NotAJob
from geometry.layout import Layout
from geometry.survey import survey
from geometry.work_out import lay_out, surveyed_alike
from tests.geometry.held.beside_the_layout import ALL, part_of
from tests.geometry.held.changed_jobs import NAMES, as_made, changed, changes, made, plain, surveyed
from tests.geometry.held.sums import Sums, alike, sums

FILE = Path(__file__).with_name("held.txt")
TRIED = 4
"""In so many jobs a change is tried until it changes anything."""
REFUSED: Sums = {"refused": 0.0}


@lru_cache
def laid_out(name: str) -> Layout:
    """The layout of a job as it is."""
    return lay_out(as_made(name), surveyed(name))


@lru_cache
def as_it_is(name: str) -> Sums:
    """The sums of a job as it is."""
    return sums(as_made(name), laid_out(name))


def changed_job(change: str) -> Job | None:
    """The job that a change makes; None where it is refused."""
    name, (path, value) = changes()[change]
    try:
        return made(changed(plain(name), path, value))
    except (msgspec.ValidationError, NotAJob):
        return None


def follows(change: str) -> Sums:
    """The sums of the blocks that a change to a job changes, or that it is refused."""
    name, job = changes()[change][0], changed_job(change)
    if job is None:
        return REFUSED
    before = as_it_is(name)
    same = surveyed_alike(as_made(name), job)
    now = sums(job, lay_out(job, surveyed(name) if same else survey(job)), laid_out(name))
    return {block: now[block] for block in now if not alike(now[block], before[block])}


def told_by(names: tuple[str, ...]) -> str:
    """Of changes that are alike the first of a few that changes anything."""
    return next((name for name in names[:TRIED] if follows(name)), names[0])


def sums_of(name: str) -> Sums:
    """Those of a job, of a part or of a change, by its name."""
    return as_it_is(name) if name in NAMES else part_of(name) if name in ALL else follows(name)
