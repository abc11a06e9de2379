"""The same readings entered several times lead nobody astray, and there are no more of them than can be worked out."""

import random
import time
from pathlib import Path

import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.job import Job, NotAJob, Reading
from geometry.job.job import MOST_READINGS
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.survey.start.search_input import search_input
from geometry.units import mm
from geometry.work_out import work_out
from tests.campaign.mutated.silent import from_nut

SAMPLES = Path(__file__).parents[3] / "sample_jobs"
TIMES = 5
HOWS = ("one list after the other", "each beside its copies", "shuffled")


def read_again(job: Job, how: str, chance: random.Random, apart: float) -> Job:
    """Every reading `TIMES` times; those again differ by so much (mm, one standard deviation) from the first."""
    readings = [*job.readings]
    for time_ in range(1, TIMES):
        readings += [_again(r, f"{r.id}.{time_}", chance.gauss(0, apart)) for r in job.readings if r.taken]
    if how == "each beside its copies":
        readings.sort(key=lambda r: int(r.id.split(".")[0][1:]))
    elif how == "shuffled":
        chance.shuffle(readings)
    return replace(job, readings=tuple(readings))


def _again(reading: Reading, key: str, off: float) -> Reading:
    if off and reading.parts and reading.kind != "rims":
        return replace(reading, id=key, value=max(round(mm(reading.parts[0]) + off, 2), 0.01))
    return replace(reading, id=key)


@pytest.mark.parametrize("apart", [0.0, 0.08])
@pytest.mark.parametrize("how", HOWS)
@pytest.mark.parametrize("name", ["leaning-neck", "small-four", "tie-bridge", "turned-left"])
def test_readings_entered_five_times_agree_as_before(name: str, how: str, apart: float) -> None:
    """Derived: copies weigh the readings against what is taken of the nut, and no more than that moves the saddle."""
    job = job_file.read(SAMPLES / f"{name}.job.json")
    once, often = work_out(job), work_out(read_again(job, how, random.Random(f"{name} {how}"), apart))
    assert once.survey.verdict == often.survey.verdict == "clean"
    for here, there in zip(from_nut(once), from_nut(often), strict=True):
        assert abs(here - there) < 0.5


@pytest.mark.parametrize("how", HOWS)
def test_copies_count_once_where_places_are_sought(how: str) -> None:
    job = job_file.read(SAMPLES / "turned-left.job.json")
    again = read_again(job, how, random.Random(1), 0.0)
    once, often = (search_input(rows_of(one), tuple(job.points), (), {}, {}) for one in (job, again))
    assert {name: len(rows) for name, rows in often.touching.items()} == {
        name: len(rows) for name, rows in once.touching.items()
    }


def test_the_slip_is_still_named() -> None:
    job = job_file.read(SAMPLES / "one-slip.job.json")
    often = work_out(read_again(job, "shuffled", random.Random(1), 0.0))
    assert often.survey.verdict == "misread"
    assert {name.split(".")[0] for name in often.survey.suspects} == set(work_out(job).survey.suspects)


def test_copies_still_count_in_the_fit() -> None:
    job = job_file.read(SAMPLES / "leaning-neck.job.json")
    often = work_out(read_again(job, HOWS[0], random.Random(1), 0.0))
    assert often.survey.dof > 4 * work_out(job).survey.dof
    assert often.points["end.left"].sx < work_out(job).points["end.left"].sx


def many(count: int) -> tuple[Job, list[Reading]]:
    job = job_file.read(SAMPLES / "leaning-neck.job.json")
    one = next(r for r in job.readings if r.kind == "distance")
    return job, [*job.readings, *(replace(one, id=f"more.{i}") for i in range(count - len(job.readings)))]


def test_there_is_a_greatest_number_of_readings() -> None:
    job, readings = many(MOST_READINGS + 1)
    start = time.perf_counter()
    assert work_out(replace(job, readings=tuple(readings[:-1]))).saddle is not None
    # a quarter of a second where it was made; the bound is wide, for it only tells seconds from minutes
    assert time.perf_counter() - start < 10.0
    with pytest.raises(NotAJob, match=f"has {MOST_READINGS + 1} readings, and no more than {MOST_READINGS}"):
        replace(job, readings=tuple(readings))
