"""Changes to a job, one at a time, and what each changes in what is told: the sentences that come and go, and of each
block of the layout how many values it holds, and their sum.

In that sum each value has a weight of its own, so that two that change places are seen.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import msgspec

from geometry.go_or_wait import strip_words, told, verdicts
from geometry.job import Job, NotAJob
from geometry.layout import Layout
from tests.pinned import jobs
from tests.pinned.jobs import GONE, Path, Plain

Sums = dict[str, tuple[int, float]]
WEIGHTS = 13
BLOCKS = [name for name in Layout.__struct_fields__ if name != "findings"]


def sums(layout: Layout) -> Sums:
    """How many numbers each block holds, and their weighted sum."""
    found: Sums = {}
    for name in BLOCKS:
        numbers = list(numbers_in(msgspec.to_builtins(getattr(layout, name), str_keys=True)))
        found[name] = len(numbers), weighted(numbers)
    return found


def weighted(numbers: list[float]) -> float:
    """Their sum, each with a weight by its place."""
    return float(f"{sum(value * (1 + at % WEIGHTS / WEIGHTS) for at, value in enumerate(numbers)):.12g}")


def numbers_in(what: Any) -> Iterator[float]:
    """All numbers of what is built of plain values; a word counts by its length."""
    match what:
        case bool():
            yield float(what)
        case int() | float():
            yield what
        case str():
            yield float(len(what))
        case dict():
            for part in what.values():
                yield from numbers_in(part)
        case list() | tuple():
            for part in what:
                yield from numbers_in(part)


def sentences(job: Job, layout: Layout) -> list[str]:
    """Each finding with its grade and its code, and each verdict."""
    steps = verdicts(job, layout)
    return [
        *(f"{one.grade} {one.code} ({one.where}): {one.text}" for one in layout.findings),
        *(told(job, step, steps) for step in steps),
        strip_words(steps),
    ]


@lru_cache
def _before(name: str) -> tuple[list[str], Sums]:
    layout = jobs.layout(name)
    return sentences(jobs.job(name), layout), sums(layout)


def follows(name: str, *changed: tuple[Path, Any]) -> dict[str, Any]:
    """What a change to a job changes, line by line; what it is refused with, where it is no job any more."""
    try:
        job = jobs.made(jobs.change(jobs.plain(name), *changed))
    except (msgspec.ValidationError, NotAJob) as refused:
        return {"refused": str(refused)}
    layout = jobs.laid_out(name, job)
    (said_before, sums_before), said, now = _before(name), sentences(job, layout), sums(layout)
    gone = [sentence for sentence in said_before if sentence not in said]
    new = [sentence for sentence in said if sentence not in said_before]
    return (
        {f"gone {at}": sentence for at, sentence in enumerate(gone, 1)}
        | {f"new {at}": sentence for at, sentence in enumerate(new, 1)}
        | {block: list(now[block]) for block in BLOCKS if not _same(now[block], sums_before[block])}
    )


def _same(one: tuple[int, float], other: tuple[int, float]) -> bool:
    return one[0] == other[0] and abs(one[1] - other[1]) < SEEN


SEEN = 1e-4
"""A sum that differs by less is the same."""


def without_digits(sentence: str) -> str:
    """A sentence as a form, whatever numbers stand in it."""
    return re.sub(r"[-−]?\d+(?:[.,/ ]\d+)*(?:e-?\d+)?", "#", sentence)


def each_reading(name: str) -> list[tuple[str, int]]:
    """The readings of a job by their names, and where they stand."""
    return [(reading["id"], at) for at, reading in enumerate(jobs.plain(name)["readings"])]


def misread(what: Plain, at: int) -> tuple[Path, Any]:
    """A reading in mm or with a value of its own, misread by a fiftieth and 3 mm; without a value it is struck."""
    value = what["readings"][at].get("value")
    if isinstance(value, int | float):
        return ("readings", at, "value"), round(value * 1.02 + 3, 3)
    return ("readings", at, "struck"), True


__all__ = ["GONE", "each_reading", "follows", "misread", "sentences", "sums", "without_digits"]
