"""How long compensation takes; aim: 12 strings over 20 frets in under 3 ms."""

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from geometry.job import Action, Strings
from geometry.strings.compensation import compensate, residual_cents, strings_as_played
from geometry.strings.usual_sets import SETS
from tests.published.string_cases import equal_frets

ACTION = Action(fret1=(0.5, 0.6), fret12=(1.9, 2.4))


@pytest.mark.parametrize(("name", "nut"), [("steel 12-54", 0.0), ("steel twelve 10-46", "worked out")])
def test_compensation_over_twenty_frets(benchmark: BenchmarkFixture, name: str, nut: float | str) -> None:
    strings = Strings(list=SETS[name].strings, action=ACTION, relief=0.15, press_behind=5, nut_compensation=nut)  # type: ignore[arg-type]  # "worked out"
    places = equal_frets(645.0, len(strings.list), 20)
    found = benchmark(lambda: compensate(strings_as_played(strings, "right", places)))
    assert len(found) == len(strings.list)


def test_what_stays_for_fifty_saddles(benchmark: BenchmarkFixture) -> None:
    strings = Strings(list=SETS["steel 12-54"].strings, action=ACTION)
    places = equal_frets(645.0, 6, 20)
    found = benchmark(
        residual_cents, strings_as_played(strings, "right", places), np.linspace(0, 6, 300).reshape(50, 6)
    )
    assert found.shape == (50, 6, 20)
