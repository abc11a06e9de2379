"""Which distances to read: the few that reveal the most of what can go wrong.

A set is as good as what it reveals worst: a bridge that is 1 mm off along or across, or turned by half a degree, a
sheet that is 1 % too small, a sheet turned over, one distance misread by 5 mm. Each counts in standard deviations with
which the set would show it, all of the others allowed for.
"""

import math
from collections.abc import Callable
from functools import cache, partial

import msgspec
import numpy as np

from geometry.advice.candidates import CALIPER, RULE, SHORT, usual_caliper, usual_rule
from geometry.frame import Array
from geometry.job import Job, Reading
from geometry.job.measured.proof import ON_BOARD
from geometry.proof.fitting import covariance, hand_of, noise_of, unknowns
from geometry.proof.proof_places import Places, Spans, spans
from geometry.survey.judge.suspects import SHOWS
from geometry.words import other_side

LEAST, MOST = 4, 6
"""So many distances are read at least and at most."""
OFF, TURNED, SMALL, MISREAD = 1.0, math.radians(0.5), 0.01, 5.0
"""What is to be revealed: mm along or across, radians, a part of the sheet's size, a misreading in mm."""
STARTS = 4
"""From so many sets exchanging begins (tried: as good as all sets one by one on a small job)."""
SEEN = 0.2
"""A sheet turned over that changes no distance by this, mm, cannot be told and need not be."""
ON_NEW = ("bridge.front", "bridge.slot", "base.front", "base.back")
"""Pairs of places that a distance goes to, left and right; those that there are."""
Pair = tuple[str, str]
Set = tuple[int, ...]
"""Some of the candidates, by their numbers, rising."""


def candidates(job: Job, places: Places) -> tuple[Pair, ...]:
    """All distances that a hand could read: from the board's places to the bridge's front corners, the slot's ends and
    the outer pin holes, and across the bridge; ordered by bass and treble, so that a mirrored job has the same.
    """
    pins = [name for name in places.new if name.startswith("bridge.pin.")]
    stops = [f"{at}.{side}" for at in ON_NEW for side in ("left", "right")]
    stops += list(dict.fromkeys((*pins[:1], *pins[-1:])))
    pairs = [(a, b) for a in ON_BOARD for b in stops if places.has(a, b)]
    across = [(f"{at}.{job.bass}", f"{at}.{other_side(job.bass)}") for at in ("bridge.front", "bridge.slot")]
    pairs += [(a, b) for a, b in across if places.has(a, b)]
    far = {pair: float(abs(places.row(pair[1])[0] - places.row(pair[0])[0])) for pair in pairs}
    hand = {"left": job.bass_or_treble("left"), "right": job.bass_or_treble("right")}

    def by_hand(pair: Pair) -> tuple[str, ...]:
        return tuple(".".join(hand.get(part, part) for part in name.split(".")) for name in pair)

    return tuple(sorted((pair for pair in pairs if SHORT < far[pair] < RULE), key=by_hand))


def as_readings(job: Job, pairs: tuple[Pair, ...], lengths: Array) -> tuple[Reading, ...]:
    """Distances still to be read, with the instruments that are usual for as long ones."""
    caliper, rule = usual_caliper(job), usual_rule(job)
    return tuple(
        Reading(id=code(pair), kind="distance", of=pair, with_=caliper if length <= CALIPER else rule)
        for pair, length in zip(pairs, lengths.tolist(), strict=True)
    )


def code(pair: Pair) -> str:
    """What a distance of the proof is called in the job file."""
    return "–".join(pair)


class Weighed(msgspec.Struct, frozen=True, eq=False):
    """All candidates as they would be read, with the covariance of their misfits (n, n)."""

    readings: tuple[Reading, ...]
    spans: Spans
    cov: Array

    def worst(self, sets: Array) -> Array:
        """What each of these sets (m, k) of candidates reveals worst, in standard deviations (m,)."""
        cov = self.cov[sets[:, :, None], sets[:, None, :]]
        weights = np.linalg.inv(cov)
        moves = np.concatenate((self.spans.moves[sets], self.spans.scale[sets][:, :, None]), axis=2)
        sizes = np.array([OFF, OFF, TURNED, SMALL])
        moves = moves * sizes
        pull = moves.transpose(0, 2, 1) @ weights
        shows = 1 / np.sqrt(np.diagonal(np.linalg.inv(pull @ moves + 1e-9 * np.eye(4)), axis1=1, axis2=2))
        three = pull[:, :3]
        inside = np.linalg.inv(three @ moves[:, :, :3] + 1e-9 * np.eye(3))
        left = weights - three.transpose(0, 2, 1) @ inside @ three
        misread = MISREAD * np.sqrt(np.maximum(np.diagonal(left, axis1=1, axis2=2), 0.0)).min(axis=1)
        found = [shows.min(axis=1), misread]
        change = self.spans.swapped - self.spans.length
        if np.abs(change).max() >= SEEN:
            over = change[sets]
            found.append(np.sqrt(np.maximum(((left @ over[:, :, None])[:, :, 0] * over).sum(axis=1), 0.0)))
        return np.asarray(np.round(np.min(found, axis=0), 6))


def weigh(job: Job, places: Places, pairs: tuple[Pair, ...]) -> Weighed:
    """The candidates, each as it would be read."""
    found = spans(places, pairs)
    readings = as_readings(job, pairs, found.length)
    noise = noise_of(found, readings, hand_of(places))
    return Weighed(readings, found, covariance(unknowns(places, found, noise), found, noise))


def choose(weighed: Weighed) -> Set:
    """The fewest distances, `LEAST` to `MOST`, that would show all that is to be revealed, or the best `MOST`."""
    n = len(weighed.spans.pairs)
    if n <= LEAST:
        return tuple(range(n))
    best, shows = _best_of(weighed, min(MOST, n))
    for size in range(LEAST, min(MOST, n)):
        if shows < SHOWS:
            return best  # what so many do not show, fewer do not show either
        fewer, shows_less = _best_of(weighed, size)
        if shows_less >= SHOWS:
            return fewer
    return best


def _best_of(weighed: Weighed, size: int) -> tuple[Set, float]:
    """A set of a size from which no single exchange leads to a better one, the best of a few begun anew; and what it
    reveals worst.
    """
    moves = np.column_stack((weighed.spans.moves, weighed.spans.scale)) * np.array([OFF, OFF, TURNED, SMALL])
    n = len(moves)
    exchanged = cache(partial(_exchanged, weighed))  # several beginnings come to the same sets
    begun = (_improved(exchanged, _spread(weighed, moves, size, first)) for first in range(0, n, max(n // STARTS, 1)))
    return max(begun, key=lambda found: found[1])


def _spread(weighed: Weighed, moves: Array, size: int, first: int) -> Set:
    """A set to begin with: from the first on always the one that leaves least to know of pose and scale together."""
    chosen = [first]
    while len(chosen) < size:
        free = np.array([i for i in range(len(moves)) if i not in chosen])
        sets = np.column_stack((np.tile(chosen, (len(free), 1)), free))
        slopes = moves[sets]
        weighted = np.linalg.solve(weighed.cov[sets[:, :, None], sets[:, None, :]], slopes)
        held = slopes.transpose(0, 2, 1) @ weighted + 1e-3 * np.eye(4)
        chosen.append(int(free[np.round(np.linalg.slogdet(held)[1], 6).argmax()]))
    return tuple(sorted(chosen))


def _improved(exchanged: Callable[[Set], tuple[Set, float]], start: Set) -> tuple[Set, float]:
    """The set after exchanging one distance for another as long as that makes it better; and what it reveals worst."""
    here, (there, shows) = start, exchanged(start)
    while there != here:
        here, (there, shows) = there, exchanged(there)
    return here, shows


def _exchanged(weighed: Weighed, here: Set) -> tuple[Set, float]:
    """The best set that a single exchange leads to, the same one where none is better; and what it reveals worst."""
    others = [new for new in range(len(weighed.spans.pairs)) if new not in here]
    near = np.tile(here, (1 + len(here) * len(others), 1))  # the set itself is the first
    for i, block in enumerate(np.split(near[1:], len(here))):
        block[:, i] = others
    near.sort(axis=1)
    scores = weighed.worst(near)
    best = int(scores.argmax())
    return tuple(near[best].tolist()), float(scores[best])
