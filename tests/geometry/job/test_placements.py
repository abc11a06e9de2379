"""What no kept placement can be."""

from typing import Any

import pytest

from geometry.job import Job, Kept, NotAJob, Places
from geometry.job.placements import LONGEST_NAME, MOST_KEPT, MOST_PARTS

FOUR = ((0.0, 22.0), (0.0, -22.0), (400.0, 28.0), (400.0, -28.0))
SLOT = ((644.0, 38.0), (646.0, -38.0), (649.0, -38.0), (647.0, 38.0))


def places(**changes: Any) -> Places:
    return Places(**({"board": FOUR, "slot": SLOT, "saddle": (645.0, 647.0), "pm95": (0.5, 0.4)} | changes))


def kept(name: str = "A", **changes: Any) -> Kept:
    return Kept(name=name, places=changes.pop("places", places()), **changes)


def test_a_name_and_a_day() -> None:
    assert kept("As it was, ½ mm", when="2026-03-14").when == "2026-03-14"
    assert kept("x" * LONGEST_NAME).when == ""


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"name": " "}, "A kept placement has no name; give it one"),
        ({"name": "x" * (LONGEST_NAME + 1)}, "has more than 40 characters; shorten it"),
        ({"name": "a\nb"}, "holds a character that cannot be printed"),
        ({"when": "14.3.2026"}, "“14.3.2026”, should be written as in 2026-03-14"),
    ],
)
def test_what_is_refused_of_a_name_and_a_day(wrong: dict[str, Any], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        kept(**wrong)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"slot": ((6440.0, 38.0), *SLOT[1:])}, "A place in a kept placement is 6440, but must lie between"),
        ({"saddle": (float("nan"), 647.0)}, "is not a number"),
        ({"pm95": (-0.1, 0.4)}, "A ± in a kept placement is -0.1"),
        ({"checks": {"end.slot.left": (190.0, -1.0)}}, "A ± in a kept placement is -1"),
        ({"board": (FOUR[0], FOUR[0], *FOUR[2:])}, "has two places in one"),
        ({"pins": ((650.0, 0.0),) * (MOST_PARTS + 1)}, "more than 64 pins"),
    ],
)
def test_what_is_refused_of_places(wrong: dict[str, Any], says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        places(**wrong)


def test_a_job_keeps_no_more_than_can_be_told_apart() -> None:
    many = tuple(kept(str(number)) for number in range(MOST_KEPT + 1))
    assert len(Job(kept=many[:-1]).kept) == MOST_KEPT
    with pytest.raises(NotAJob, match="keeps 13 placements, and no more than 12 can be; drop one first"):
        Job(kept=many)


def test_no_two_of_one_name() -> None:
    with pytest.raises(NotAJob, match="Two kept placements are called “A”; give one of them another name"):
        Job(kept=(kept(), kept()))
