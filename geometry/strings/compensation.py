"""Compensation: how far past its nominal place each string's break point must lie for its notes to be in tune.

The best place is the one with the least weighted sum of squared cents over the chosen frets, the open string being in
tune. Cents are those of `geometry.strings.stretch`. Arrays run over strings from treble to bass and over frets from 1.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

import msgspec
import numpy as np

from geometry.job.stringing import WORKED_OUT, WorkedOut
from geometry.layout import TWO_SIDED_95
from geometry.strings.causes_of_doubt import CAUSES, SET, SHARED, common_names, groups, unsure
from geometry.strings.played import FretPlaces, PlayedStrings, strings_as_played
from geometry.strings.stretch import Array, Setup, fretted_cents
from geometry.strings.string_heights import shares_to_bass
from geometry.strings.string_make import Make
from geometry.strings.usual_compensation import usual, usual_pm95
from geometry.units import Length, mm

__all__ = [
    "Compensated",
    "FretPlaces",
    "PlayedStrings",
    "asked_of_saddle",
    "at_frets",
    "common_names",
    "compensate",
    "own_frets",
    "residual_cents",
    "strings_as_played",
]

BEST_OVER = 12
"""A string's own frets 1 to this are weighed alike where the job says nothing else (as in Anderson & Beausoleil
2024)."""
STEP, ROUNDS = 0.1, 2
"""mm over which the slope of the cents is taken, and how often it is taken anew."""
RIDGE = 1e-6
"""Keeps saddle and nut apart where the chosen frets cannot, at no cost to the answer (cents²/mm²; 80 is usual)."""
AT_END = np.array([[[1.0], [0.0]], [[0.0], [1.0]]])
"""A move of 1 at the saddle alone, and at the nut alone, (ends, 2, 1)."""
LEAST95 = 0.5
"""mm, 95 %: nothing finer is claimed for a string that is worked out, for the equation has been held against one real
instrument, and that with nylon strings (common practice, no source)."""
Source = Literal["typed", "worked out", "by ear", "common practice", "drone"]


class Compensated(msgspec.Struct, frozen=True, kw_only=True):
    """One string's compensation at `saddle` and `nut` (mm, positive = string longer), and what stays.

    `pm95` (mm) is the 95 % spread of `saddle` by what was not known or measured, 0 where it was typed. `cents` maps a
    fret to what stays with this compensation, `cents_before` to what it would be with none at all; both empty, and
    `tension_n` None, where the string's make is not known. `estimated` says what was not known. `heard` (mm) is how far
    the ear moved the place the equation gives: `residual_cents` wants that much taken off the saddle's place. `common`
    (mm) are the parts of its standard deviation that move several strings together, with their signs, in the order of
    `common_names`; empty where there are none.
    """

    name: str
    saddle: float
    nut: float
    pm95: float
    source: Source
    tension_n: float | None = None
    cents: dict[int, float] = {}
    cents_before: dict[int, float] = {}
    estimated: tuple[str, ...] = ()
    heard: float = 0.0
    common: tuple[float, ...] = ()


def compensate(ready: PlayedStrings) -> tuple[Compensated, ...]:
    """Every string's compensation, in list order (treble to bass).

    What is typed is kept; what is to be worked out is, for strings whose make and pitch are known; for the others it is
    the usual figure of common practice.
    """
    given = ready.strings.compensation
    if not isinstance(given, tuple):
        return _compensate(ready, given)
    typed = _compensate(ready, tuple(0.0 if value is None else value for value in given))
    if None not in given:
        return typed
    free = _compensate(ready, WORKED_OUT)
    return tuple(one if value is None else own for value, own, one in zip(given, typed, free, strict=True))


def asked_of_saddle(ready: PlayedStrings) -> Array:
    """What each string asks of the saddle (strings,), mm, whatever was typed there: as `compensate` has it of strings
    whose compensation is to be worked out, without the rest.
    """
    begun = _begun(ready, WORKED_OUT)
    found, stays, slope, _ = _nearly(ready, begun)
    found[begun.ends] -= _step(slope, stays, begun.weights)
    sources = _sources(ready, begun)
    by_habit = [source in ("common practice", "drone") for source in sources]
    return np.where(by_habit, usual(ready.strings), found[0]) if any(by_habit) else found[0]


class _Begun(NamedTuple):
    """Where the places begin, saddle and nut (2, strings), mm, what of them is free, and the frets' weights."""

    start: Array
    free: tuple[bool, bool]
    weights: Array

    @property
    def ends(self) -> list[int]:
        return [end for end in (0, 1) if self.free[end]]


def _begun(ready: PlayedStrings, compensation: WorkedOut | tuple[Length, ...]) -> _Begun:
    count = len(ready.strings.list)
    saddle, nut = _typed(compensation, count), _typed(_at_nut(ready), count)
    start = np.array([given if given is not None else np.zeros(count) for given in (saddle, nut)])
    return _Begun(start, (saddle is None, nut is None), _weights(ready))


def _sources(ready: PlayedStrings, begun: _Begun) -> list[Source]:
    weighed, stopped = (np.asarray(one.any(axis=1)) for one in (begun.weights, own_frets(ready)))
    each = zip(np.logical_and(ready.known, weighed).tolist(), stopped.tolist(), strict=True)
    return [_source(begun.free[0], known, is_stopped) for known, is_stopped in each]


def _compensate(ready: PlayedStrings, compensation: WorkedOut | tuple[Length, ...]) -> tuple[Compensated, ...]:
    """The same where all strings' compensation is typed, or none."""
    strings, begun = ready.strings, _begun(ready, compensation)
    found, stays, before, moves = _best(ready, begun)
    spreads = np.maximum(TWO_SIDED_95 * np.sqrt((moves**2).sum(axis=0)), LEAST95)
    own, sources = own_frets(ready), _sources(ready, begun)
    by_habit = usual(strings) if {"common practice", "drone"}.intersection(sources) else found[0]
    habit_pm95 = usual_pm95(strings)
    common = _common(ready, moves, habit_pm95 / TWO_SIDED_95, sources)
    each = []
    for index, (string, source) in enumerate(zip(strings.list, sources, strict=True)):
        known, habit = bool(ready.known[index]), source in ("common practice", "drone")
        each.append(
            Compensated(
                name=string.name,
                saddle=float(by_habit[index] if habit else found[0, index]),
                nut=float(found[1, index] if known or not begun.free[1] else 0.0),
                pm95=0.0 if source == "typed" else float((habit_pm95 if habit else spreads)[index]),
                source=source,
                tension_n=float(ready.tension[index]) if known else None,
                cents=at_frets(own[index], stays[index]) if known else {},
                cents_before=at_frets(own[index], before[index]) if known else {},
                estimated=_estimated(ready.makes[index], ready.heights_assumed),
                common=common[index],
            )
        )
    return tuple(each)


def own_frets(ready: PlayedStrings) -> Array:
    """The frets at which each string is stopped (strings, frets): those beyond where it begins, none of a drone."""
    return np.logical_and(ready.places.own, [[string.fretted] for string in ready.strings.list])


def at_frets(own: Array, cents: Array) -> dict[int, float]:
    """The cents (frets,) at each of a string's own frets (frets,), by the fret's number."""
    return {fret: value for fret, (is_own, value) in enumerate(zip(own, cents.tolist(), strict=True), 1) if is_own}


def _common(ready: PlayedStrings, moves: Array, habit_sd: Array, sources: Sequence[Source]) -> list[tuple[float, ...]]:
    """Each string's parts of its standard deviation (mm) that it shares, in the order of `common_names`."""
    kinds, share = groups(ready.strings), shares_to_bass(ready.strings)
    found: list[tuple[float, ...]] = []
    for index, (string, source) in enumerate(zip(ready.strings.list, sources, strict=True)):
        own = (string.material, string.build)
        if source == "worked out":
            alike = (float(moves[SET, index]) if group == own else 0.0 for group in kinds)
            found.append((*moves[SHARED, index].tolist(), 0.0, 0.0, *alike))
        elif source in ("common practice", "drone"):
            treble, bass = habit_sd[index] * (1 - share[index]), habit_sd[index] * share[index]
            found.append((0.0, 0.0, 0.0, float(treble), float(bass), *(0.0 for _ in kinds)))
        else:
            found.append(())
    return found


def _source(free: bool, known: bool, stopped: bool) -> Source:
    """Where a string's place comes from; one that is `stopped` at no fret is a drone."""
    return "typed" if not free else "drone" if not stopped else "worked out" if known else "common practice"


def residual_cents(ready: PlayedStrings, saddle: Array, nut: Array | None = None) -> Array:
    """What stays in cents, (..., strings, frets), with the break points `saddle` (..., strings) mm past the nominal.

    `nut` alike, 0 if not given. NaN for strings whose make or pitch is not known, and at frets that are not a string's
    own.
    """
    saddle = np.asarray(saddle, dtype=np.float64)
    short = np.zeros(len(ready.known)) if nut is None else np.asarray(nut, dtype=np.float64)
    cents = fretted_cents(ready.setup, saddle[..., None], short[..., None])
    return np.where(np.logical_and(ready.known[:, None], own_frets(ready)), cents, np.nan)


def _weights(ready: PlayedStrings) -> Array:
    """How much each fret counts for each string (strings, frets); those that are not its own not at all."""
    given, own = ready.strings.weights, own_frets(ready)
    if given is None:
        steps = np.cumsum(ready.places.own, axis=1)
        return np.logical_and(own, steps <= BEST_OVER).astype(np.float64)
    weights = np.zeros(own.shape)
    for fret, weight in given.items():
        if fret <= own.shape[1]:
            weights[:, fret - 1] = weight
    return np.where(own, weights, 0.0)


def _at_nut(ready: PlayedStrings) -> WorkedOut | tuple[Length, ...] | float:
    """The nut's compensation as given; one number for all is that of the nut, not of a string's own small one."""
    given = 0.0 if ready.zero_fret else ready.strings.nut_compensation
    if ready.places.first is None or isinstance(given, (str, tuple)):
        return given
    return tuple(0.0 if string.first else given for string in ready.strings.list)


def _typed(given: WorkedOut | tuple[Length, ...] | float, count: int) -> Array | None:
    if isinstance(given, str):
        return None
    return np.array([mm(value) for value in given]) if isinstance(given, tuple) else np.full(count, float(given))


def _best(ready: PlayedStrings, begun: _Begun) -> tuple[Array, Array, Array, Array]:
    """Saddle and nut (2, strings) of least squares, what stays and what there was with neither (strings, frets), and
    how the place of the first end that is free moves with each thing that is not known (causes, strings), mm.
    """
    found, stays, slope, before = _nearly(ready, begun)
    if before is None:
        before = fretted_cents(ready.setup, *np.zeros((*found.shape, 1)))
    if not begun.ends:
        return found, stays, before, np.zeros((CAUSES, len(stays)))
    moves = _moves(ready, found, slope, begun.weights)
    step = _step(slope, stays, begun.weights)
    found[begun.ends] -= step
    return found, stays - (step[..., None] * slope).sum(axis=0), before, moves


def _nearly(ready: PlayedStrings, begun: _Begun) -> tuple[Array, Array, Array, Array | None]:
    """Saddle and nut (2, strings) one step short of least squares, the cents there (strings, frets), their slope, and
    the cents with neither, where they were met.

    Gauss-Newton at the `ends` (0 saddle, 1 nut) that are free: the equation is so nearly straight that two rounds
    leave a hundredth of a micrometre.
    """
    found, before, ends = begun.start.copy(), None, begun.ends
    for _ in range(ROUNDS - 1 if ends else 0):
        (cents,), slope = _look(ready.setup, found, ends)
        before = cents if before is None and not begun.start.any() else before
        found[ends] -= _step(slope, cents, begun.weights)
    (stays,), slope = _look(ready.setup, found, ends)
    return found, stays, slope, before


def _moves(ready: PlayedStrings, found: Array, slope: Array, weights: Array) -> Array:
    """How the place of the first end that is free moves with each cause (causes, strings), mm: where it moves most
    within what the heights may be, and never by more in all than a usual figure may be out.
    """
    cents = fretted_cents(unsure(ready), found[0][:, None], found[1][:, None])
    tried = -_step(slope, cents[:, 1:] - cents[:, :1], weights)[..., 0, :]
    moves = np.take_along_axis(tried, np.abs(tried).argmax(axis=0)[None], axis=0)[0]
    total = TWO_SIDED_95 * np.sqrt((moves**2).sum(axis=0))
    return np.asarray(moves * np.minimum(1.0, usual_pm95(ready.strings) / np.maximum(total, 1e-9)))


def _look(s: Setup, at: Array, ends: list[int]) -> tuple[Array, Array]:
    """The cents (1, strings, frets) at saddle and nut `at` (2, strings), and their slopes (ends, strings, frets)."""
    places = np.array([at + STEP * AT_END[end] for end in ends] + [at])
    cents, count = fretted_cents(s, places[:, 0, :, None], places[:, 1, :, None]), len(ends)
    return cents[count:], (cents[:count] - cents[count]) / STEP


def _step(slope: Array, cents: Array, weights: Array) -> Array:
    """How far the ends are to go back, (..., ends, strings), for the least squares of `cents` (..., strings, frets) by
    their `slope` (ends, strings, frets): one normal equation, or two, solved by Cramer's rule.
    """
    weighed = slope * weights
    pull, own = (weighed * cents[..., None, :, :]).sum(axis=-1), (weighed * slope).sum(axis=2) + RIDGE
    if len(slope) == 1:
        return np.asarray(pull / own)
    both = (weighed[0] * slope[1]).sum(axis=1)
    return np.asarray((own[::-1] * pull - both * pull[..., ::-1, :]) / (own[0] * own[1] - both * both))


def _estimated(made: Make | None, heights_assumed: bool) -> tuple[str, ...]:
    if made is None:
        return ("everything",)
    return (*made.estimated, "heights") if heights_assumed else made.estimated
