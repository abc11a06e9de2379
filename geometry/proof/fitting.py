"""What a set of distances says of where the bridge is: weighted least squares of its pose with the survey's covariance
and the readings' own, and where it is by each of the faults that may be to blame.

The **misfit** is what was read less what a rule reads where the sheet has the bridge. Its covariance comes from three
sides: the places of the instrument, the rule's own error, which it shares with the survey where the same rule was used
there, and each reading's own.

What may be to blame is told by `faults.py`; here the place is worked out by each.
"""

import math
from statistics import NormalDist
from typing import NamedTuple

import msgspec
import numpy as np

from geometry.frame import Array
from geometry.job import Reading
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.layout import TWO_SIDED_95
from geometry.proof.faults import (
    LAID,
    ROUNDS,
    SCALE,
    SLIP,
    STRETCH,
    TURN,
    Cause,
    Fault,
    chance_of_more,
    likely_faults,
    squares,
    straight,
)
from geometry.proof.proof_places import Places, Spans
from geometry.survey.rows.rows_of_readings import Fineness, fineness

FALSELY = 0.04
"""How often a bridge that is where its sheet has it is not called good, at most, before its bands are rounded to what a
rule shows; half of it for single distances.
"""
WIDE = (100.0, 100.0, math.radians(45.0))
"""Where a bridge could be before anything is read: so far off that it says nothing."""
RULED_OUT = 1e8
"""The variance of a distance that is left out, mm²."""
NO_SIZE, ONE_SIZE, TWO_SIZES = np.zeros((2, 0)), np.ones((2, 1)), np.eye(2)
"""What the unknown sizes of a sheet (none, one both ways, one each way) do to it along and across (2, unknowns)."""
BOTH_WAYS = 2.0
"""A sheet is of one size both ways unless its sizes differ by so many standard deviations: 1 in 20 by chance."""


class Way(msgspec.Struct, frozen=True, eq=False):
    """Where the bridge is by one fault: its `cause`, the distance (`row`) that is misread, the `size` (2,) of the
    sheet's error along the neck and across it, ± `size_pm` (2,); `pose` (3,) along, across (mm) and turn (radians)
    beside the sheet with what is to blame put right or left out, `gain` (3, n) what each misfit does to it, and `grows`
    (2, n) what it does to the size.
    """

    cause: Cause
    row: int | None
    size: Array
    size_pm: Array
    pose: Array
    gain: Array
    grows: Array


class Fit(msgspec.Struct, frozen=True, eq=False):
    """`misfit` (n,) and its covariance (n, n), mm; `ways` where the bridge may be, the likeliest first; none where no
    one fault explains the misfits.
    """

    misfit: Array
    cov: Array
    ways: tuple[Way, ...]


class Noise(NamedTuple):
    """Of readings: the slopes (1, n) and place of a rule that the survey shares, and their own covariance (n, n)."""

    rules: dict[str, Array]
    own: Array


class Hand(NamedTuple):
    """Whose eye read the survey: with which `rules`, and how many times as coarsely as was said. It reads the proof."""

    rules: frozenset[str] = frozenset()
    times: float = 1.0


def hand_of(places: Places) -> Hand:
    """The hand that the survey tells of."""
    surveyed = places.states.surveyed
    rules = frozenset(name[5:] for name in surveyed.extra_at if name.startswith("rule."))
    return Hand(rules, surveyed.report.wider)


def noise_of(spans: Spans, readings: tuple[Reading, ...], hand: Hand) -> Noise:
    """What this hand leaves uncertain of these readings."""
    fine = [fineness(reading) for reading in readings]
    own = np.diag([(hand.times * one.alone) ** 2 for one in fine])
    rules: dict[str, Array] = {}
    for name in dict.fromkeys(one.rule for one in fine if one.rule):
        slope = np.array([_per(one, name) for one in fine]) * spans.length / 1000
        if name in hand.rules:
            rules[name] = slope
        else:
            own = own + np.outer(slope, slope) * INSTRUMENTS[name].per_metre ** 2
    return Noise(rules, own)


def _per(fine: Fineness, rule: str) -> float:
    return 1.0 if fine.rule == rule else 0.0


class Known(NamedTuple):
    """The unknowns that misfits hang on: their covariance (u, u) and how the misfits follow them (u, n)."""

    spread: Array
    slopes: Array


def unknowns(places: Places, spans: Spans, noise: Noise) -> Known:
    """The states' unknowns and behind them the rules' errors that the survey shares."""
    states = places.states
    at = states.surveyed.extra_at
    columns = [at[f"rule.{name}"] for name in noise.rules]
    u, k = len(states.spread), len(columns)
    spread = np.zeros((u + k, u + k))
    spread[:u, :u] = states.spread
    held = [i for i, column in enumerate(states.moved) if column < len(states.surveyed.state)]
    cov = states.surveyed.cov
    cross = cov[np.ix_([states.moved[i] for i in held], columns)]
    spread[np.ix_(held, range(u, u + k))] = cross
    spread[np.ix_(range(u, u + k), held)] = cross.T
    spread[u:, u:] = cov[np.ix_(columns, columns)]
    return Known(spread, np.vstack((spans.slopes, *noise.rules.values())) if k else spans.slopes)


def covariance(known: Known, spans: Spans, noise: Noise) -> Array:
    """Of the misfits (n, n), mm²: what was read with a rule is compared with what the survey has by the same rule."""
    return np.asarray(known.slopes.T @ known.spread @ known.slopes + noise.own + np.diag(spans.extra))


def expected(places: Places, spans: Spans, noise: Noise) -> Array:
    """What a rule reads (n,) where the sheet has the bridge, with the error that the survey finds in that rule."""
    state, at = places.states.surveyed.state, places.states.surveyed.extra_at
    return spans.length + sum((slope * float(state[at[f"rule.{name}"]]) for name, slope in noise.rules.items()), 0.0)


def bands(spans: Spans, cov: Array, count: int) -> Array:
    """How far each distance (n,), mm, may be off by itself, one among so many that are to be read."""
    return np.asarray(np.sqrt(np.diag(cov + laying(spans))) * beyond(FALSELY / 2 / count))


def fit(spans: Spans, misfit: Array, misfit_swapped: Array, cov: Array, *, each_good: bool) -> Fit:
    """What misfits (n,), mm, with this covariance say; `misfit_swapped` are those against a sheet turned over, and
    `each_good` whether each distance is good by itself.
    """
    laid = cov + laying(spans)
    good = each_good and chance_of_more(squares(misfit, laid), len(misfit)) >= FALSELY / 2
    faults = (Fault("good", None),) if good else likely_faults(spans, misfit, misfit_swapped, laid)
    return Fit(misfit, cov, tuple(_way(spans, fault, misfit, misfit_swapped, cov) for fault in faults))


def _way(spans: Spans, fault: Fault, misfit: Array, misfit_swapped: Array, cov: Array) -> Way:
    """Where the bridge is if this is to blame. A sheet of another size is so both ways, unless that is ruled out."""
    lighter = cov.copy()
    if fault.row is not None:
        lighter[fault.row, fault.row] += RULED_OUT
    rest = misfit_swapped if fault.cause == "swapped" else misfit
    weights = np.asarray(np.linalg.inv(lighter), dtype=np.float64)
    if fault.cause != "scale":
        return _solved(spans, fault, rest, weights, NO_SIZE)[0]
    way, spread = _solved(spans, fault, rest, weights, TWO_SIZES)
    differs = np.array((1.0, -1.0))
    if abs(differs @ way.size) < BOTH_WAYS * math.sqrt(differs @ spread @ differs):
        return _solved(spans, fault, rest, weights, ONE_SIZE)[0]
    return way


def _solved(spans: Spans, fault: Fault, rest: Array, weights: Array, sizes: Array) -> tuple[Way, Array]:
    """The place of the bridge by the misfits that a fault leaves (n,), together with the sheet's unknown sizes, and the
    covariance of the size along and across.
    """
    before = _before(sizes)
    found = np.zeros(len(before))
    for _ in range(ROUNDS):
        moves, straightened = straight(spans, rest, found[:3])
        moves = np.column_stack((moves, spans.stretch @ sizes))
        held = before + moves.T @ weights @ moves
        gain = np.asarray(np.linalg.solve(held, moves.T @ weights), dtype=np.float64)
        found = gain @ straightened
    spread = np.asarray(sizes @ np.linalg.inv(held)[3:, 3:] @ sizes.T)
    pm = TWO_SIDED_95 * np.sqrt(np.diag(spread))
    return Way(fault.cause, fault.row, sizes @ found[3:], pm, found[:3], gain[:3], sizes @ gain[3:]), spread


def _before(sizes: Array) -> Array:
    """How surely a bridge's pose, and behind it the sheet's sizes, are known before anything is read: the inverse of
    their covariance. Beside a sheet of another size the bridge is laid as nearly as ever.
    """
    pose, count = (np.array((SLIP, SLIP, TURN)) / 10 if sizes.size else np.array(WIDE)), sizes.shape[1]
    before = np.zeros((3 + count, 3 + count))
    before[:3, :3] = np.diag(1 / np.square(pose))
    before[3:, 3:] = np.linalg.inv(STRETCH if count == 2 else SCALE**2 * np.eye(count))
    return before


def laying(spans: Spans) -> Array:
    """The covariance (n, n) of distances to a bridge that was laid and clamped as nearly as a hand can."""
    return np.asarray((spans.moves * np.square(LAID)) @ spans.moves.T)


def beyond(chance: float) -> float:
    """From how many standard deviations on, either way, something happens this rarely."""
    return NormalDist().inv_cdf(1 - chance / 2)
