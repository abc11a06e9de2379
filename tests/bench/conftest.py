"""After the benchmarks' table: what each found besides its times, which the table has no room for."""

from collections.abc import Iterator

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

FOUND: dict[str, dict[str, object]] = {}


@pytest.fixture(autouse=True)
def _found(request: pytest.FixtureRequest) -> Iterator[None]:
    """Keep what a benchmark found."""
    benchmark = request.getfixturevalue("benchmark") if "benchmark" in request.fixturenames else None
    yield
    if isinstance(benchmark, BenchmarkFixture) and benchmark.enabled and benchmark.extra_info:
        FOUND[request.node.name] = dict(benchmark.extra_info)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if FOUND:
        terminalreporter.section("found besides")
    for name, found in FOUND.items():
        told = ", ".join(f"{what} {value}" for what, value in found.items())
        terminalreporter.write_line(f"{name.removeprefix('test_').replace('_', ' ')}: {told}")
