"""What is worked out of a job as a few sums, one a block of the layout.

In a sum each number has a weight by its place, so that two that change places are seen. Words count by what does not
change when a sentence is put better: a name (of a verdict, a code, a side) by its letters; a sentence by the numbers
and the sides in it.
"""

import re
import zlib
from collections.abc import Iterator
from typing import Any

import msgspec
from msgspec.structs import replace

from geometry.go_or_wait import told, verdicts
from geometry.job import Job
from geometry.layout import Layout

Sums = dict[str, float]
"""By block."""
WEIGHTS = 13
COUNT = 1000.0
"""What a sum gains for each number in it."""
FIGURES = 3
"""Decimals that a sum keeps."""
NEAR, STEADY = 0.008, 0.002
"""By how much sums may differ where another processor rounds differently; and by how much those may that are held, on
the processors that are tried.
"""
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_SIDE = re.compile(r"\b(bass|treble|left|right|front|back|counter-clockwise|clockwise)\b")
BLOCKS = tuple(name for name in Layout.__struct_fields__ if name not in ("frame", "findings"))


def sums(job: Job, layout: Layout, before: Layout | None = None) -> Sums:
    """The sums of what was worked out, of all blocks or of those that are not as `before`; `told` is of findings and
    verdicts.
    """
    if layout.separate is not None:  # walls of one size, left and right, come in an order that rounding decides
        walls = tuple(sorted(layout.separate.walls, key=lambda wall: (wall.new, wall.old)))
        layout = replace(layout, separate=replace(layout.separate, walls=walls))
    names = [name for name in BLOCKS if before is None or getattr(layout, name) != getattr(before, name)]
    steps = verdicts(job, layout)
    told_of = [*layout.findings, *steps, *(told(job, step, steps) for step in steps)]
    return {name: whole(getattr(layout, name)) for name in names} | {"told": whole(told_of)}


def whole(what: object) -> float:
    """The sum of all that something holds, each number with a weight by its place."""
    numbers = numbers_in(msgspec.to_builtins(what, str_keys=True, enc_hook=float))
    return round(sum(COUNT + value * (1 + at % WEIGHTS / WEIGHTS) for at, value in enumerate(numbers)), FIGURES)


def numbers_in(what: Any) -> Iterator[float]:
    """All numbers of what is built of plain values, and what its words count."""
    match what:
        case bool():
            yield float(what)
        case int() | float():
            yield what
        case str():
            yield from _of_words(what)
        case dict():
            for part in what.values():
                yield from numbers_in(part)
        case list() | tuple():
            for part in what:
                yield from numbers_in(part)


def _of_words(words: str) -> Iterator[float]:
    if " " not in words:
        yield _letters(words)
        return
    yield from (float(number.replace(",", ".")) for number in _NUMBER.findall(words))
    yield from (_letters(side) for side in _SIDE.findall(words))


def _letters(name: str) -> float:
    return float(zlib.crc32(name.encode()) % 997)


def alike(one: float, other: float, near: float = NEAR) -> bool:
    """Whether two sums are near enough the same."""
    return abs(one - other) <= near
