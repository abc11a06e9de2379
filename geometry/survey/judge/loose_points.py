"""Loose points: which way each can move, and a reading that would hold it."""

import numpy as np

from geometry import words
from geometry.frame import heading
from geometry.job.job import Hand
from geometry.layout import Loose
from geometry.survey.adjust.adjustment import Adjusted
from geometry.survey.adjust.datum import Free, datum_transform
from geometry.survey.result import Array

ALONG = 0.5
"""A distance holds a movement well enough where it runs at less than 60 degrees to it."""


def describe_loose(done: Adjusted, solved: list[str], hand: Hand) -> tuple[Loose, ...]:
    """Each loose point of a fit; directions are seen in the fit's own frame."""
    if not done.loose:
        return ()
    cov = datum_transform(done.net, done.x, Free(tuple(solved))).covariance(done.cov) if len(solved) > 1 else done.cov
    return tuple(_one(done, cov, name, solved, hand) for name in done.net.points if name in done.loose)


def _one(done: Adjusted, cov: Array, name: str, solved: list[str], hand: Hand) -> Loose:
    i = 2 * done.net.points.index(name)
    block = done.free[i : i + 2]
    spread = block @ block.T if block.size and np.abs(block).max() > 1e-4 else cov[i : i + 2, i : i + 2]
    values, vectors = np.linalg.eigh(spread)
    direction = complex(*vectors[:, 1])
    both_ways = bool(values[0] > 0.01 * values[1]) and block.shape[1] > 1
    here = complex(*done.place(name))
    known = {other: complex(*done.place(other)) for other in solved}
    return Loose(
        point=name,
        direction=None if both_ways else (direction.real, direction.imag),
        held_by=_held_by(name, here, direction, known, both_ways, hand),
    )


def _held_by(
    name: str, here: complex, direction: complex, known: dict[str, complex], both_ways: bool, hand: Hand
) -> str:
    what = words.called(name, hand)
    sight = {other: heading(here - at) for other, at in known.items() if abs(here - at) > 1.0}
    sight = {other: d for other, d in sight.items() if not other.startswith("pin.")} or sight
    if len(sight) < 2:
        return f"Measure to {what} from two points that are known."
    if both_ways:
        one = _best(sight, direction)
        two = _best({other: d for other, d in sight.items() if other != one}, 1j * sight[one])
        return f"Measure to {what} from {words.called(one, hand)} and from {words.called(two, hand)}."
    best = _best(sight, direction)
    if abs(_part(sight[best], direction)) > ALONG and name.startswith("pin."):
        return f"Measure from {words.called(best, hand)} to the near and the far rim of {what}."
    if abs(_part(sight[best], direction)) > ALONG:
        return f"Measure from {words.called(best, hand)} to {what}."
    far = max(sight, key=lambda other: abs(known[other] - known[best]))
    one, two = words.called(best, hand), words.called(far, hand)
    return f"Lay the straightedge from {one} to {two} and read how far {what} lies off it."


def _best(sight: dict[str, complex], direction: complex) -> str:
    """The point that sights best along a direction; the board's corners, which a rule finds easily, come first."""
    return max(sight, key=lambda other: abs(_part(sight[other], direction)) + 0.1 * other.startswith(("nut.", "end.")))


def _part(d: complex, e: complex) -> float:
    return (d.conjugate() * e).real
