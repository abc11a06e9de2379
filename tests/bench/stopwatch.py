"""A clock for the benchmarks' table that goes on by what was timed elsewhere: between events, or in another process.

The plugin times what it calls; here that is `go_on`, which takes no time of its own.
"""

from collections.abc import Sequence

from pytest_benchmark.fixture import BenchmarkFixture


class Stopwatch:
    """Called, it tells its time in seconds."""

    def __init__(self) -> None:
        self.at = 0.0

    def __call__(self) -> float:
        return self.at

    def go_on(self, seconds: float) -> None:
        """Let so many seconds pass."""
        self.at += seconds


STOPWATCH = Stopwatch()
"""The clock of each benchmark that is marked with `timer=STOPWATCH`."""


def into_table(benchmark: BenchmarkFixture, seconds: Sequence[float]) -> None:
    """Let the table show these times, each a round."""
    waiting = iter(seconds)
    benchmark.pedantic(lambda: STOPWATCH.go_on(next(waiting)), rounds=len(seconds))  # type: ignore[no-untyped-call]  # the plugin's own gap
