"""What is told where much was not read, and where several readings are wrong at once: the verdict on the readings, the
points that hang loose, the sentences, and, where enough is read to hold them still, the numbers.
"""

from typing import Any

import pytest

from tests.pinned import changes, jobs, kept
from tests.pinned.test_changes import NEAR

EVERY = (2, 3, 5)
"""Of so many readings one is left, or one is out."""
OUT = (-4.0, 2.5, 1.0, -0.7, 6.0)
"""By how much those are out that are wrong, one after the other, mm."""
READ = ("leaning-neck", "redrilled-left", "bolted-left", "turned-left")


def left_out(name: str, every: int, first: int) -> list[tuple[jobs.Path, Any]]:
    """All readings but one of every so many are struck out."""
    count = len(jobs.plain(name)["readings"])
    return [(("readings", at, "struck"), True) for at in range(count) if at % every != first]


def wrong(name: str, every: int, first: int) -> list[tuple[jobs.Path, Any]]:
    """One of every few readings, counted from the first, is out, one by more than the next."""
    readings = jobs.plain(name)["readings"]
    found: list[tuple[jobs.Path, Any]] = []
    for at in range(first, len(readings), every * 5):
        value = readings[at].get("value")
        if isinstance(value, int | float) and value > 20:
            found.append((("readings", at, "value"), value + OUT[len(found) % len(OUT)]))
    return found


@pytest.mark.parametrize("first", [0, 1])
@pytest.mark.parametrize("every", EVERY)
@pytest.mark.parametrize("name", READ)
def test_little_is_read(name: str, every: int, first: int) -> None:
    found = changes.follows(name, *left_out(name, every, first))
    found = {line: _in_short(told) for line, told in found.items() if line not in changes.BLOCKS}
    assert kept.differences_of(f"less/{name}", f"one of {every} from {first}", found, NEAR) == []


@pytest.mark.parametrize("first", [0, 1, 4])
@pytest.mark.parametrize("every", EVERY)
@pytest.mark.parametrize("name", READ)
def test_several_are_wrong(name: str, every: int, first: int) -> None:
    changed = wrong(name, every, first)
    found = changes.follows(name, *changed) if changed else {}
    assert kept.differences_of(f"wrong/{name}", f"one of {5 * every} from {first}", found, NEAR) == []


def _in_short(told: str) -> str:
    """Of a loose point that it is loose: which of several readings as good as each other is proposed, rounding says."""
    return told.partition(" can still move")[0] if " point.loose " in told else told
