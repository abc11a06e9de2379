"""A new job: the hand, the strings, and a list of readings to take, still without values."""

from geometry.job import Job, String, Strings
from geometry.job.job import Hand
from geometry.strings.sets import SETS
from geometry.units import Unit


class NotBegun(ValueError):
    """A new job cannot be made like this; the message says what there is instead."""


def begin(*, hand: Hand = "right", strings: int = 6, string_set: str | None = None, unit: Unit = "mm") -> Job:
    """A job with its hand, its strings and its unit. Without a set the strings have numbers only.

    Raises `NotBegun` where there is no such set or no such number of strings.
    """
    return Job(unit=unit, hand=hand, strings=Strings(list=_strings(strings, string_set)))


def _strings(count: int, string_set: str | None) -> tuple[String, ...]:
    if not 1 <= count <= 12:
        raise NotBegun(f"a job has 1 to 12 strings, not {count}")
    if string_set is None:
        return tuple(String(name=str(number)) for number in range(1, count + 1))
    if string_set not in SETS:
        raise NotBegun(f"there is no set of strings “{string_set}”; there are: {', '.join(SETS)}")
    return SETS[string_set].strings
