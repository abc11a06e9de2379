"""Each limit that a typed number meets: what is told only below it, what only above it, and which of both on it.

The limits were found by going through the numbers (`tests/pinned/limits.py`) and looked at; those that are told to a
person stand in docs/numbers.md, and are held to it elsewhere.
"""

import pytest

from tests.pinned import kept, limits
from tests.pinned.limits import Limit, aside, at_limit, differ, told

PATHS = {f"{name}, {called}": (name, path, beside) for name, called, path, beside, _ in limits.numbers()}
KEPT = kept.read(limits.FILE)


@pytest.mark.parametrize("line", KEPT)
def test_both_sides_of_a_limit(line: str) -> None:
    name, path, beside = PATHS[line.partition(" | ")[0]]
    limit = Limit(*KEPT[line])
    off = aside(limit.value)
    below, above = (told(name, path, beside, limit.value + by) for by in (-off, off))
    assert differ(below, above) == (limit.below, limit.above)
    if limit.at:
        assert at_limit(told(name, path, beside, limit.value), below, above) == limit.at


def test_most_numbers_have_limits() -> None:
    """derived: a number that may be anything is one for which no length is refused; there are a few."""
    have = {line.partition(" | ")[0] for line in KEPT}
    assert len(have) > 0.8 * len(PATHS)
    assert any(Limit(*kept_).at for kept_ in KEPT.values())


def test_a_limit_that_moves_is_seen() -> None:
    line = next(line for line in KEPT if line.startswith("leaning-neck, bridge.width"))
    name, path, beside = PATHS[line.partition(" | ")[0]]
    limit = Limit(*KEPT[line])
    moved = limit.value * 1.01
    below, above = (told(name, path, beside, moved + by) for by in (-aside(moved), aside(moved)))
    assert differ(below, above) != (limit.below, limit.above)
