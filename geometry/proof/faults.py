"""Which of the usual **faults** explain what does not fit: tape that slipped, a sheet printed at another size or turned
over, one distance misread.

A fault is judged by how likely the misfits are if it alone is to blame, whatever its size: their density with its usual
size as its standard deviation (R. E. Kass and A. E. Raftery, Bayes factors, J. Am. Stat. Assoc. 90, 773, 1995; from
memory). One that needs fewer numbers to explain the same is so the likelier. Tape that slipped may have shifted and
turned the sheet, or turned it alone; it is as likely as both together, half of the times one, half the other.
"""

import math
from collections import defaultdict
from itertools import accumulate
from typing import Literal, NamedTuple

import numpy as np

from geometry.frame import Array
from geometry.proof.proof_places import Spans

Cause = Literal["good", "slipped", "scale", "swapped", "reading", "unclear"]
SLIP, TURN, SCALE, MISREAD = 3.0, math.radians(1.5), 0.01, 10.0
"""The usual sizes of faults, one standard deviation: tape that slipped (mm and radians), a sheet printed at another
size (a part of the whole), a misreading (mm). Common practice, no source."""
FED = 0.003
"""What paper that is fed too fast or too slowly errs by, each way by itself, one standard deviation, as a part of the
whole (common practice, no source)."""
STRETCH = SCALE**2 * np.ones((2, 2)) + FED**2 * np.eye(2)
"""The covariance (2, 2) of a sheet's error along the neck and across it."""
LAID = (0.15, 0.15, math.radians(0.05))
"""How nearly a sheet is laid and a bridge clamped to its lines, one standard deviation along and across (mm) and
turned: what is nearer than this is right (common practice, no source)."""
UNEXPLAINED = 0.001
"""A fault explains nothing where what it leaves would come by chance this rarely."""
SURE = 0.95
"""So many faults are named, the likeliest first, that one of them is to blame this surely: 19 times in 20, as a ±."""
ROUNDS = 3
"""From one to the next the place changes by less than a hundredth of a mm after so many (tried)."""


class Fault(NamedTuple):
    """What may be to blame, and the distance that is misread."""

    cause: Cause
    row: int | None


class _Weighed(NamedTuple):
    """A fault, the logarithm of how likely the misfits are by it, and how rarely chance leaves as much beside it."""

    cause: Cause
    row: int | None
    likely: float
    chance: float


def likely_faults(spans: Spans, misfit: Array, misfit_swapped: Array, cov: Array) -> tuple[Fault, ...]:
    """The faults that may be to blame for misfits (n,), mm, of this covariance (n, n), the likeliest first; none where
    the likeliest explains nothing. `misfit_swapped` (n,) are those against a sheet turned over.
    """
    every = _every(spans, misfit, misfit_swapped, cov)
    best = max(every, key=lambda fault: fault.likely)
    if best.chance < UNEXPLAINED:
        return ()
    shares: defaultdict[Fault, float] = defaultdict(float)
    for cause, row, likely, chance in every:
        shares[Fault(cause, row)] += math.exp(likely - best.likely) if chance >= UNEXPLAINED else 0.0
    ranked = sorted(shares.items(), key=lambda one: -one[1])
    before = [0.0, *accumulate(share for _, share in ranked)]
    return tuple(fault for (fault, _), sure in zip(ranked, before, strict=False) if sure < SURE * before[-1])


def _every(spans: Spans, misfit: Array, misfit_swapped: Array, cov: Array) -> list[_Weighed]:
    n = len(misfit)
    slopes, rest = straight(spans, misfit, np.zeros(3))
    for _ in range(ROUNDS):
        held = np.diag(1 / np.square((SLIP, SLIP, TURN))) + slopes.T @ np.linalg.solve(cov, slopes)
        pose = np.asarray(np.linalg.solve(held, slopes.T @ np.linalg.solve(cov, rest)), dtype=np.float64)
        slopes, rest = straight(spans, misfit, pose)
    turned = slopes[:, 2]
    found = [
        _weighed("slipped", rest, cov + (slopes * np.square((SLIP, SLIP, TURN))) @ slopes.T, 0.5),
        _weighed("slipped", rest, cov + np.outer(turned, turned) * TURN**2, 0.5),
        _weighed("scale", misfit, cov + spans.stretch @ STRETCH @ spans.stretch.T),
        _weighed("swapped", misfit_swapped, cov),
    ]
    for row in range(n):
        alone = np.zeros((n, n))
        alone[row, row] = MISREAD**2
        found.append(_weighed("reading", misfit, cov + alone, 1 / n)._replace(row=row))
    return found


def _weighed(cause: Cause, rest: Array, cov: Array, part: float = 1.0) -> _Weighed:
    left = squares(rest, cov)
    likely = -(left + float(np.linalg.slogdet(cov)[1])) / 2 + math.log(part)
    return _Weighed(cause, None, likely, chance_of_more(left, len(rest)))


def straight(spans: Spans, misfit: Array, pose: Array) -> tuple[Array, Array]:
    """The distances as straight functions of a bridge's pose near this one (3,): their slopes (n, 3), and the misfits
    (n,) as such functions would leave them.
    """
    bent = spans.bends @ pose
    return spans.moves + bent, misfit + bent @ pose / 2


def squares(misfit: Array, cov: Array) -> float:
    """The sum of squares of misfits (n,) in their standard deviations."""
    return float(misfit @ np.linalg.solve(cov, misfit))


def chance_of_more(squares: float, dof: int) -> float:
    """How often a sum of squares of so many degrees of freedom is larger by chance (chi-square distribution)."""
    from scipy.special import chdtrc

    return float(chdtrc(dof, squares)) if dof > 0 else 1.0
