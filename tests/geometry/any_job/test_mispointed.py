"""A reading whose points are exchanged, or taken for others, is worked out: never an exception."""

import cmath
import math
import random
from collections.abc import Iterator

import pytest
from msgspec.structs import replace

from geometry.job import Job, NotAJob, Reading
from geometry.job.measured.kinds import KINDS, SHAPES, Kind
from geometry.work_out import work_out
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import Trial, trial_of

SEED, TIMES = 11, 6
WITH_POINTS = tuple(kind for kind in KINDS if SHAPES[kind].of)


def whole_tops() -> Iterator[Trial]:
    """Right jobs by the longest list."""
    for index in range(2, 12, 3):
        yield trial_of(CASES[0], SEED, index)


def with_all_kinds(trial: Trial) -> Job:
    """The trial's job and one reading more, a right one, of each kind that no list asks for."""
    at = trial.instrument.points
    corners = ("nut.left", "end.left", "end.right", "nut.right")
    middle = sum(at[name] for name in corners) / 4
    way = (at["end.left"] - at["nut.left"]) / abs(at["end.left"] - at["nut.left"])
    more = [
        Reading(
            id="more.1",
            kind="across",
            of=("old.1", "old.2"),
            from_=("nut.left", "end.left"),
            value=round(((at["old.1"] - at["old.2"]) * (1j * way).conjugate()).real, 1),
        ),
        Reading(id="more.2", kind="same", of=("nut.left", "end.left", "nut.right", "end.right"), within=2.0),
        Reading(id="more.3", kind="square", of=("nut.left", "nut.right", "nut.left", "seam.1"), within=20.0),
        Reading(
            id="more.angle",
            kind="angle",
            of=("old.1", "old.2"),
            from_=("nut.left", "end.left"),
            value=round(math.degrees(abs(cmath.phase((at["old.2"] - at["old.1"]) / way))), 1),
        ),
        *(
            Reading(
                id=f"more.{name}",
                kind="at",
                of=(name,),
                value=(round((at[name] - middle).real, 1), round((at[name] - middle).imag, 1)),
            )
            for name in corners
        ),
    ]
    return replace(trial.job, readings=(*trial.job.readings, *more))


def mispointed(job: Job, kind: Kind, chance: random.Random) -> Job | None:
    """The job with the points of one reading of a kind exchanged, or one taken for another; None where that is none."""
    places = [i for i, reading in enumerate(job.readings) if reading.kind == kind and reading.taken]
    if not places:
        return None
    place = chance.choice(places)
    reading = job.readings[place]
    lists = [list(reading.of), list(reading.from_)]
    which = chance.choice([names for names in lists if names])
    what = chance.random()
    if what < 0.4 and len(which) > 1:
        one, other = chance.sample(range(len(which)), 2)
        which[one], which[other] = which[other], which[one]
    elif what < 0.6 and reading.from_:
        lists[0][0], lists[1][0] = lists[1][0], lists[0][0]
    else:
        which[chance.randrange(len(which))] = chance.choice(list(job.points))
    try:
        changed = replace(reading, of=tuple(lists[0]), from_=tuple(lists[1]))
        return replace(job, readings=(*job.readings[:place], changed, *job.readings[place + 1 :]))
    except NotAJob:
        return None


@pytest.mark.parametrize("kind", WITH_POINTS)
def test_any_reading_may_be_mispointed(kind: Kind) -> None:
    chance = random.Random(f"{SEED} {kind}")
    jobs = [with_all_kinds(trial) for trial in whole_tops()]
    tried = 0
    for time in range(TIMES):
        job = mispointed(jobs[time % len(jobs)], kind, chance)
        if job is not None:
            layout = work_out(job)
            assert layout.survey.why.whole
            tried += 1
    assert tried > TIMES // 3
