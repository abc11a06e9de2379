"""How long the survey takes. Figures to read, never to pass or fail."""

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from geometry.advice import advise
from geometry.advice.measuring_lists import measuring_list
from geometry.job import Job
from geometry.survey import survey
from geometry.work_out import work_out
from tests.geometry.advice.test_measuring_lists import filled
from tests.geometry.survey.invented import bench_network, job_of, taken


def network(points: int) -> Job:
    places, wanted = bench_network(points)
    return job_of(taken(places, wanted, np.random.default_rng(1)))


@pytest.mark.parametrize("points", [22, 28, 78, 253, 1000], ids=lambda n: f"{n} points")
def test_survey_of_a_network(benchmark: BenchmarkFixture, points: int) -> None:
    """About 80, 100, 300, 1,000 and 4,000 readings, which is as many as a job holds; once where nothing is measured."""
    job = network(points)
    benchmark.extra_info["readings"] = len(job.readings)
    rounds = 30 if points < 100 else 3
    benchmark.pedantic(survey, args=(job,), rounds=rounds, warmup_rounds=1)  # type: ignore[no-untyped-call]  # the plugin's own gap


def test_survey_of_a_whole_top(benchmark: BenchmarkFixture) -> None:
    benchmark(survey, filled(measuring_list("whole top with old work", "right", 6), "right"))


def test_advice_for_a_whole_top(benchmark: BenchmarkFixture) -> None:
    job = filled(measuring_list("whole top with old work", "right", 6), "right")
    layout = work_out(job)
    benchmark(advise, job, layout)
