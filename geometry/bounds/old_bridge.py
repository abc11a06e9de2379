"""Bounds of the old work: where the new bridge lies against it, and whether it was a bridge's at all."""

import math
from collections.abc import Iterator

from geometry import words
from geometry.bounds import odd_holes
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import BridgePlan, OldPlan
from geometry.units import said

FAR = 10.0
"""mm. A bridge is rarely moved farther from where it was, along the strings (common practice, no source)."""
ASIDE = 30.0
"""mm. An old bridge rarely stood farther beside the neck's middle (common practice, no source)."""
UNLIKE = 6.0
"""mm. Opposite sides of an old footprint, and its diagonals, differ by no more (common practice, no source)."""
HOLE_OUTSIDE = 5.0
"""mm. An old pin hole lies no farther outside the old footprint (common practice, no source)."""


def findings(job: Job, bridge: BridgePlan, old: OldPlan) -> tuple[Finding, ...]:
    """A new place far from the old one, and old work that was read or named wrong."""
    return (*_far(job, bridge, old), *_old(job, old))


def _far(job: Job, bridge: BridgePlan, old: OldPlan) -> Iterator[Finding]:
    """The new place against the old, along the strings: by the front edges, the back edges or the pin holes, whichever
    are nearest to each other, for the new bridge may be wider than the old.
    """
    moves = []
    if len(old.outline) > 2:
        x = sorted(at[0] for at in old.outline)
        new = sorted(corner[0] for corner in bridge.corners)
        moves += [(sum(new[:2]) - sum(x[:2])) / 2, (sum(new[2:]) - sum(x[-2:])) / 2]
    if old.pins and bridge.pins:
        holes, pins = ([hole.at[0] for hole in row] for row in (bridge.pins, old.pins))
        moves.append(sum(holes) / len(holes) - sum(pins) / len(pins))
    moved = min(moves, key=abs, default=0.0)
    if abs(moved) <= FAR:
        return
    way = "farther from the nut than" if moved > 0 else "nearer to the nut than"
    yield Finding(
        grade="look",
        code="bridge.far",
        text=f"The new place lies {said(abs(moved), job.unit)} {way} the old one. Look again before you cut, drill or "
        "glue: count the frets, look at their unit and spacing, at the strings’ compensation and at the old bridge.",
        values={"mm": moved},
        where="bridge",
        large=True,
    )


def _old(job: Job, old: OldPlan) -> Iterator[Finding]:
    """An old footprint that is no bridge's, or stood beside the neck; holes outside it, or of no hole's size."""
    yield from odd_holes.of_top(job, old)
    corners = [complex(*at) for at in old.outline]
    if len(corners) < 3:
        return
    aside = sum(corners).imag / len(corners)
    if abs(aside) > ASIDE:
        side = job.bass_or_treble("left" if aside > 0 else "right")
        yield _about_old(
            "old.aside",
            f"The old footprint lies {said(abs(aside), job.unit)} to the {side} of the neck’s middle: look at the "
            "sides of its readings.",
            aside,
        )
    unlike = _unlike(corners)
    if unlike > UNLIKE:
        yield _about_old(
            "old.askew",
            "The old footprint has not the shape of a bridge: two opposite sides, or its diagonals, differ "
            f"by {said(unlike, job.unit)}. Look at the readings to its corners, and at their order.",
            unlike,
        )
    outside, name = max(((_outside(complex(*hole.at), corners), hole.name) for hole in old.pins), default=(0.0, ""))
    if outside > HOLE_OUTSIDE:
        yield _about_old(
            "old.hole_outside",
            f"{_hole(job, name)} lies {said(outside, job.unit)} outside the old footprint: look at its readings.",
            outside,
        )


def _about_old(code: str, text: str, value: float) -> Finding:
    return Finding(grade="look", code=code, text=text, values={"mm": value}, where="field:old.outline")


def _hole(job: Job, name: str) -> str:
    """An old hole at the beginning of a sentence: “Old pin hole 3”."""
    called = words.called(name, job.hand)
    return f"The old hole {called}" if words.is_own(name) else words.first_large(called)


def _unlike(corners: list[complex]) -> float:
    """By how much the opposite sides and the diagonals of four corners differ at most, mm; 0 for any other number."""
    if len(corners) != 4:
        return 0.0
    a, b, c, d = corners
    return max(abs(abs(b - a) - abs(d - c)), abs(abs(c - b) - abs(a - d)), abs(abs(c - a) - abs(d - b)))


def _outside(spot: complex, corners: list[complex]) -> float:
    """How far a spot lies outside the corners joined in their order, mm; 0 within."""
    within, near = False, math.inf
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        side = b - a
        part = ((spot - a) * side.conjugate()).real / max(abs(side) ** 2, 1e-9)
        near = min(near, abs(spot - a - side * min(max(part, 0.0), 1.0)))
        if (a.imag > spot.imag) != (b.imag > spot.imag):
            within ^= spot.real < a.real + (spot.imag - a.imag) * side.real / side.imag
    return 0.0 if within else near
