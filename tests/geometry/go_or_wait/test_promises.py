"""What a change is said to bring a ± down to is what it brings it to: each is carried out and the job judged anew."""

from collections.abc import Callable, Iterator

import pytest
from msgspec.structs import replace

from app.file import job_file, samples
from geometry.go_or_wait import Change, Step, verdicts, worked_out
from geometry.go_or_wait.what_if import with_action, with_trial
from geometry.job import Job, Saddle
from geometry.placed.place_everything import place_everything
from geometry.survey import survey
from geometry.work_out import work_out
from tests.geometry.go_or_wait.test_what_if import long_job, taken

NAMES = [path.name.removesuffix(".job.json") for path in sorted(samples.paths())]


def as_it_is(job: Job) -> Job:
    return job


def without_heights(job: Job) -> Job:
    left = tuple(r for r in job.readings if r.kind != "height")
    return replace(job, readings=left, strings=replace(job.strings, action=None, height=None) if job.strings else None)


def coarse(job: Job) -> Job:
    """Frets read three times as coarsely, with a saddle of which little can be filed."""
    return replace(
        job,
        readings=tuple(replace(r, times=3.0) if r.kind == "fret" else r for r in job.readings),
        saddle=replace(job.saddle or Saddle(), thickness=1.5),
    )


def typed(job: Job) -> Job:
    """Compensation typed: what is left is the readings'."""
    if job.strings is None:
        return job
    return coarse(replace(job, strings=replace(job.strings, compensation=(2.0,) * len(job.strings.list), heard=())))


STATES: tuple[Callable[[Job], Job], ...] = (as_it_is, without_heights, coarse, typed)


def kept(job: Job) -> Iterator[tuple[Step, float | None]]:
    """Each step that waits and names a change, and its ± once that is carried out."""
    layout = work_out(job)
    for step in worked_out(job, layout):
        if step.change is None or step.change.after is None:
            continue
        done = _carried_out(job, step.change)
        if done is not None:
            after = next(one for one in verdicts(done, work_out(done)) if one.what == step.what)
            yield step, after.pm95 if after.across == step.across else None


def _carried_out(job: Job, change: Change) -> Job | None:
    found = survey(job)
    if change.what == "action":
        return with_action(job, work_out(job), place_everything(job, found))
    if change.what == "trial":
        return with_trial(job, work_out(job))
    assert change.reading is not None
    # the others' values are asked of their own sums
    return taken(job, change.reading, found) if change.reading.kind in ("distance", "fret") else None


@pytest.mark.parametrize("name", [*NAMES, "the longest list"])
def test_what_is_promised_is_kept(name: str) -> None:
    path = samples.find(name)
    job = long_job() if path is None else job_file.read(path)
    broken = []
    for state in STATES:
        for step, now in kept(state(job)):
            assert step.change is not None
            # derived: the sums are of first order, and other strings may be the worst then: a tenth
            if now is None or now > 1.1 * (step.change.after or 0.0):
                broken.append((state.__name__, step.what, step.pm95, step.change.what, step.change.after, now))
    assert broken == []
