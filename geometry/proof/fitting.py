"""What a set of distances says of where the bridge is: weighted least squares of its pose with the survey's covariance
and the readings' own, and which of the usual faults explains best what does not fit.

The **misfit** is what was read less what a rule reads where the sheet has the bridge. Its covariance comes from three
sides: the places of the instrument, the rule's own error, which it shares with the survey where the same rule was used
there, and each reading's own.

A fault is judged by how likely the misfits are if it alone is to blame, whatever its size: their density with its usual
size as its standard deviation (R. E. Kass and A. E. Raftery, Bayes factors, J. Am. Stat. Assoc. 90, 773, 1995; from
memory). One that needs fewer numbers to explain the same is so the likelier.
"""

import math
from statistics import NormalDist
from typing import Literal, NamedTuple

import msgspec
import numpy as np

from geometry.frame import Array
from geometry.job import Reading
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.proof.places import Places, Spans
from geometry.survey.rows.rows_of_readings import Fineness, fineness

Cause = Literal["good", "slipped", "scale", "swapped", "reading", "unclear"]
FALSELY = 0.04
"""How often a bridge that is where its sheet has it is not called good, at most; half of it for single distances."""
SLIP, TURN, SCALE, MISREAD = 3.0, math.radians(1.5), 0.01, 10.0
"""The usual sizes of faults, one standard deviation: tape that slipped (mm and radians), a sheet printed at another
size (a part of the whole), a misreading (mm). Common practice, no source."""
LAID = (0.15, 0.15, math.radians(0.05))
"""How nearly a sheet is laid and a bridge clamped to its lines, one standard deviation along and across (mm) and
turned: what is nearer than this is right (common practice, no source)."""
WIDE = (100.0, 100.0, math.radians(45.0))
"""Where a bridge could be before anything is read: so far off that it says nothing."""
UNEXPLAINED = 0.001
"""A fault explains nothing where what it leaves would come by chance this rarely."""
AS_LIKELY = 3.0
"""Two faults of which one is less than this many times as likely as the other are both named."""


class Fit(msgspec.Struct, frozen=True, eq=False):
    """`misfit` (n,) and its covariance (n, n), mm; `band` (n,) within which each is good; `cause` and the next
    likeliest, where that is nearly as likely; `row` the distance that is misread, `size` of the scale's error. `pose`
    (3,) along, across (mm) and turn (radians) with what is to blame put right or left out, `gain` (3, n) what each
    misfit does to it, and `grows` (n,) what it does to the size.
    """

    misfit: Array
    cov: Array
    band: Array
    cause: Cause
    also: Cause | None
    row: int | None
    size: float
    pose: Array
    gain: Array
    grows: Array


class Noise(NamedTuple):
    """Of readings: the slopes (1, n) and place of a rule that the survey shares, and their own covariance (n, n)."""

    rules: dict[str, Array]
    own: Array


def noise_of(spans: Spans, readings: tuple[Reading, ...], shared: frozenset[str]) -> Noise:
    """`shared` names the rules that the survey was read with."""
    fine = [fineness(reading) for reading in readings]
    own = np.diag([one.alone**2 for one in fine])
    rules: dict[str, Array] = {}
    for name in dict.fromkeys(one.rule for one in fine if one.rule):
        slope = np.array([_per(one, name) for one in fine]) * spans.length / 1000
        if name in shared:
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


def shared_rules(places: Places) -> frozenset[str]:
    """The rules that the survey was read with."""
    return frozenset(name[5:] for name in places.states.surveyed.extra_at if name.startswith("rule."))


def covariance(known: Known, spans: Spans, noise: Noise) -> Array:
    """Of the misfits (n, n), mm²: what was read with a rule is compared with what the survey has by the same rule."""
    return np.asarray(known.slopes.T @ known.spread @ known.slopes + noise.own + np.diag(spans.extra))


def expected(places: Places, spans: Spans, noise: Noise) -> Array:
    """What a rule reads (n,) where the sheet has the bridge, with the error that the survey finds in that rule."""
    state, at = places.states.surveyed.state, places.states.surveyed.extra_at
    return spans.length + sum((slope * float(state[at[f"rule.{name}"]]) for name, slope in noise.rules.items()), 0.0)


def fit(spans: Spans, misfit: Array, misfit_swapped: Array, cov: Array) -> Fit:
    """What misfits (n,), mm, with this covariance say; `misfit_swapped` are those against a sheet turned over."""
    laid = cov + laying(spans)
    band = np.sqrt(np.diag(laid)) * beyond(FALSELY / 2 / len(misfit))
    good = bool((np.abs(misfit) <= band).all()) and _chance(_squares(misfit, laid), len(misfit)) >= FALSELY / 2
    cause, also, row = ("good", None, None) if good else _likeliest(spans, misfit, misfit_swapped, laid)
    size, lighter = 0.0, cov
    if cause == "reading" and row is not None:
        lighter = cov.copy()
        lighter[row, row] += 1e8
    rest = misfit_swapped if cause == "swapped" else misfit
    moves, wide = spans.moves, list(WIDE)
    if cause == "scale":
        moves, wide = np.column_stack((moves, spans.scale)), [SLIP / 10, SLIP / 10, TURN / 10, 0.1]
    weights = np.linalg.inv(lighter)
    held = np.diag(1 / np.square(wide)) + moves.T @ weights @ moves
    gain = np.asarray(np.linalg.solve(held, moves.T @ weights), dtype=np.float64)
    pose = gain @ rest
    grows = np.zeros(len(misfit))
    if cause == "scale":
        size, grows = float(pose[3]), gain[3]
    return Fit(misfit, cov, band, cause, also, row, size, pose[:3], gain[:3], grows)


def laying(spans: Spans) -> Array:
    """The covariance (n, n) of distances to a bridge that was laid and clamped as nearly as a hand can."""
    return np.asarray((spans.moves * np.square(LAID)) @ spans.moves.T)


def beyond(chance: float) -> float:
    """From how many standard deviations on, either way, something happens this rarely."""
    return NormalDist().inv_cdf(1 - chance / 2)


def _squares(misfit: Array, cov: Array) -> float:
    return float(misfit @ np.linalg.solve(cov, misfit))


def _chance(squares: float, dof: int) -> float:
    """How often a sum of squares of so many degrees of freedom is larger by chance (chi-square distribution)."""
    from scipy.special import chdtrc

    return float(chdtrc(dof, squares)) if dof > 0 else 1.0


def _likeliest(
    spans: Spans, misfit: Array, misfit_swapped: Array, cov: Array
) -> tuple[Cause, Cause | None, int | None]:
    """Which fault explains the misfits best, the next where it is nearly as likely, and the reading that is misread."""
    n = len(misfit)
    sizes = np.square((SLIP, SLIP, TURN))
    faults: list[tuple[float, Cause, int | None, float, int]] = []

    def add(cause: Cause, rest: Array, wider: Array, taken: int, row: int | None = None, part: float = 1.0) -> None:
        whole = cov + wider
        squares = _squares(rest, whole)
        likely = -(squares + float(np.linalg.slogdet(whole)[1])) / 2 + math.log(part)
        faults.append((likely, cause, row, _chance(squares, n), taken))

    add("slipped", misfit, (spans.moves * sizes) @ spans.moves.T, 3)
    add("scale", misfit, np.outer(spans.scale, spans.scale) * SCALE**2, 1)
    add("swapped", misfit_swapped, np.zeros((n, n)), 0)
    for row in range(n):
        alone = np.zeros((n, n))
        alone[row, row] = MISREAD**2
        add("reading", misfit, alone, 1, row, 1 / n)
    faults.sort(key=lambda fault: -fault[0])
    best = faults[0]
    if best[3] < UNEXPLAINED:
        return "unclear", None, None
    other = next((fault for fault in faults[1:] if fault[1] != best[1]), None)
    near = other is not None and best[0] - other[0] < math.log(AS_LIKELY)
    return best[1], other[1] if near and other is not None else None, best[2]
