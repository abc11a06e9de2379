"""Bounds of old holes: such as are of no hole's size, and one that is unlike the others of its kind.

A radius typed for a diameter halves it; a fraction misread, such as 3/32 for 3/64 in, doubles it.
"""

from collections.abc import Iterator, Sequence
from itertools import chain, islice
from typing import NamedTuple

import numpy as np

from geometry import words
from geometry.bounds.saddle_and_bridge import odd_size
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.layout import HeadstockPlan, Hole, OldPlan
from geometry.median import median
from geometry.units import said

UNLIKE = 1.5
"""Old holes of one kind on an instrument differ by no more than so many times, worn or not (common practice, no
source)."""
PINS = (2.0, 12.0)
"""mm. Old, worn pin holes are as wide as this (common practice, no source)."""
OTHERS = (0.8, 20.0)
"""mm. The same of other old holes in a top, screws' as a rule (common practice, no source)."""
POSTS = (4.5, 13.0)
"""mm. The same of a tuner's post, or of the hole in a slotted headstock's side (common practice, no source)."""
SCREWS = (0.8, 5.0)
"""mm. The same of screws that hold tuners (common practice, no source)."""


class _Kind(NamedTuple):
    """Holes of one kind, how wide such are, and where their sizes are typed; whether they are `alike`."""

    holes: Sequence[Hole]
    usual: tuple[float, float]
    field: str
    alike: bool = True


def of_top(job: Job, old: OldPlan) -> Iterator[Finding]:
    """Old pin holes, and the others in the top, which need not be alike."""
    pins = [hole for hole in old.pins if not hole.assumed]
    return _findings(job, (_Kind(pins, PINS, "old.pins"), _Kind(old.holes, OTHERS, "old.holes", alike=False)))


def of_headstock(job: Job, plan: HeadstockPlan | None) -> Iterator[Finding]:
    """Old post and screw holes of a headstock."""
    kinds = (
        ()
        if plan is None
        else (
            _Kind(plan.old_posts, POSTS, "headstock.posts"),
            _Kind(plan.old_screws, SCREWS, "headstock.screws"),
        )
    )
    return _findings(job, kinds)


def _findings(job: Job, kinds: Sequence[_Kind]) -> Iterator[Finding]:
    """One a kind: of a size that is none, or else of one that is unlike the others."""
    for kind in kinds:
        odd = (odd_size(job, _called(job, hole), "wide", hole.diameter, kind.usual, kind.field) for hole in kind.holes)
        yield from islice(chain(chain.from_iterable(odd), _unlike(job, kind)), 1)


def _unlike(job: Job, kind: _Kind) -> Iterator[Finding]:
    if not kind.alike or len(kind.holes) < 2:
        return
    middle = _middle(kind.holes)
    odd = max(kind.holes, key=lambda hole: _times(hole.diameter, middle))
    rest = [hole for hole in kind.holes if hole is not odd]
    others = _middle(rest)
    if _times(odd.diameter, others) > UNLIKE:
        whose = "the others" if len(rest) > 1 else words.called(rest[0].name, job.hand)
        yield look(
            f"{kind.field}_unlike",
            f"{_called(job, odd)} is {said(odd.diameter, job.unit)} wide, and {whose} {said(others, job.unit)}: look "
            "at both, whether a radius was typed for a diameter, and at the rims where they were read.",
            f"point:{odd.name}",
            mm=odd.diameter,
            others=others,
        )


def _middle(holes: Sequence[Hole]) -> float:
    return median(np.array([hole.diameter for hole in holes]))


def _times(one: float, other: float) -> float:
    return max(one, other) / max(min(one, other), 1e-6)


def _called(job: Job, hole: Hole) -> str:
    """An old hole at the beginning of a sentence: “Old pin hole 3”."""
    called = words.called(hole.name, job.hand)
    return f"The old hole {called}" if words.is_own(hole.name) else words.first_large(called)
