"""How long the proof and what may be done now take. Figures to read, never to pass or fail."""

from pytest_benchmark.fixture import BenchmarkFixture

from geometry.go_or_wait import verdicts, with_changes
from geometry.proof import prove, wished
from geometry.survey import survey
from geometry.work_out import work_out
from tests.geometry.go_or_wait.test_what_if import sample
from tests.geometry.proof.proof_read import read

JOB = "leaning-neck"


def test_speed_of_choosing_the_distances(benchmark: BenchmarkFixture) -> None:
    benchmark(wished, sample(JOB))


def test_speed_of_a_distance_typed(benchmark: BenchmarkFixture) -> None:
    """The choice serves again, as it does in the window."""
    job = read(sample(JOB))
    benchmark(prove, job, "clamped", None, wished(job))


def test_speed_of_the_verdicts(benchmark: BenchmarkFixture) -> None:
    job = sample(JOB)
    benchmark(verdicts, job, work_out(job))


def test_speed_of_what_would_change_them(benchmark: BenchmarkFixture) -> None:
    job = sample(JOB)
    layout = work_out(job)
    benchmark(with_changes, job, layout, verdicts(job, layout), survey(job))
