"""Compensation: how far past its nominal place each string's break point must lie for its notes to be in tune.

The best place is the one with the least weighted sum of squared cents over the chosen frets, the open string being in
tune. Cents are those of `geometry.strings.stretch`. Arrays run over strings from treble to bass and over frets from 1.
"""

from typing import Literal

import msgspec
import numpy as np

from geometry.job.stringing import WORKED_OUT, Action, Strings
from geometry.layout import Side
from geometry.strings.heights import assumed, heights, sag, spread
from geometry.strings.line import Line, best_line
from geometry.strings.make import Make, make
from geometry.strings.practice import PM95, usual
from geometry.strings.stretch import TWO_SIDED_95, Array, Setup, fretted_cents
from geometry.strings.tension import tensions
from geometry.units import Length, mm

__all__ = ["Compensated", "FretPlaces", "Line", "best_line", "compensate", "residual_cents", "tensions"]

BEST_OVER = 12
"""The frets 1 to this are weighed alike where the job says nothing else (as in Anderson & Beausoleil 2024)."""
STEP, ROUNDS = 0.1, 3
"""mm over which the slope of the cents is taken, and how often it is taken anew."""
RIDGE = 1e-6
"""Keeps saddle and nut apart where the chosen frets cannot, at no cost to the answer (cents²/mm²; 80 is usual)."""
MOST_BEHIND = 0.75
"""The finger stays within this part of the room behind its fret (common practice, no source)."""
HEIGHTS = slice(3, 5)
"""Which of the causes in `_spread` are the heights, common to all strings."""
Source = Literal["typed", "worked out", "by ear", "common practice"]


class FretPlaces(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Along each string from the nut's front, mm: the `nominal` place (strings,) and the `frets` (strings, frets)."""

    nominal: Array
    frets: Array


class Compensated(msgspec.Struct, frozen=True, kw_only=True):
    """One string's compensation at `saddle` and `nut` (mm, positive = string longer), and what stays.

    `pm95` (mm) is the 95 % spread of `saddle` by what was not known or measured, 0 where it was typed. `cents` maps a
    fret to what stays with this compensation, `cents_before` to what it would be with none at all; both empty, and
    `tension_n` None, where the string's make is not known. `estimated` says what was not known. `heard` (mm) is how far
    the ear moved the place the equation gives: `residual_cents` wants that much taken off the saddle's place. `common`
    (mm) are the parts of its standard deviation that move all strings together: the two heights, with their signs.
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


class _Ready(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The strings as arrays; `known` (strings,) says which have a make and a pitch, others stand in with a dummy."""

    setup: Setup
    makes: tuple[Make | None, ...]
    tension: Array
    known: Array


def compensate(
    strings: Strings, bass: Side, places: FretPlaces, action: Action | None = None, zero_fret: bool = False
) -> tuple[Compensated, ...]:
    """Every string's compensation, in list order (treble to bass).

    `action` (measured heights) stands before the job's own. What is typed is kept; what is to be worked out is, for
    strings whose make and pitch are known; for the others it is the usual figure of common practice.
    """
    if not strings.list:
        return ()
    ready = _ready(strings, bass, places, action, zero_fret)
    weights = _weights(strings.weights, places.frets.shape[1])
    start = _typed(strings.compensation, len(strings.list)), _typed(strings.nut_compensation, len(strings.list))
    free = np.array([start[0] is None, start[1] is None])
    first = [given if given is not None else np.zeros(len(strings.list)) for given in start]
    saddle, nut, slope, before = _best(ready.setup, weights, first[0], first[1], free)
    stays, moves = _spread(ready, weights, saddle, nut, slope, spread(strings, action))
    spreads = TWO_SIDED_95 * np.sqrt((moves**2).sum(axis=0))
    by_habit, counted = usual(strings), range(1, places.frets.shape[1] + 1)
    found = []
    for index, string in enumerate(strings.list):
        known = bool(ready.known[index])
        source: Source = "typed" if not free[0] else "worked out" if known and weights.any() else "common practice"
        habit = source == "common practice"
        found.append(
            Compensated(
                name=string.name,
                saddle=float(by_habit[index] if habit else saddle[index]),
                nut=float(nut[index] if known or not free[1] else 0.0),
                pm95={"typed": 0.0, "worked out": float(spreads[index]), "common practice": PM95}[source],
                source=source,
                tension_n=float(ready.tension[index]) if known else None,
                cents=dict(zip(counted, stays[index].tolist(), strict=True)) if known else {},
                cents_before=dict(zip(counted, before[index].tolist(), strict=True)) if known else {},
                estimated=_estimated(ready.makes[index], assumed(strings, action)),
                common=tuple(moves[HEIGHTS, index].tolist()) if source == "worked out" else (),
            )
        )
    return tuple(found)


def residual_cents(
    strings: Strings,
    bass: Side,
    places: FretPlaces,
    saddle: Array,
    nut: Array | None = None,
    action: Action | None = None,
    zero_fret: bool = False,
) -> Array:
    """What stays in cents, (..., strings, frets), with the break points `saddle` (..., strings) mm past the nominal.

    `nut` alike, 0 if not given. NaN for strings whose make or pitch is not known.
    """
    saddle = np.asarray(saddle, dtype=np.float64)
    if not strings.list:
        return np.zeros((*saddle.shape, places.frets.shape[1]))
    ready = _ready(strings, bass, places, action, zero_fret)
    short = np.zeros(len(strings.list)) if nut is None else np.asarray(nut, dtype=np.float64)
    cents = fretted_cents(ready.setup, saddle[..., None], short[..., None])
    return np.where(ready.known[:, None], cents, np.nan)


def _ready(strings: Strings, bass: Side, places: FretPlaces, action: Action | None, zero_fret: bool) -> _Ready:
    makes = tuple(make(string) for string in strings.list)
    tension = tensions(strings.list, strings.a4, places.nominal)
    known = ~np.isnan(tension)
    kappa = [m.kappa(t) if m is not None and t == t else 1.0 for m, t in zip(makes, tension.tolist(), strict=True)]
    rho = [m.rho if m is not None else 0.1 for m in makes]
    low, rise = heights(strings, bass == "left", places.nominal, action, zero_fret)
    nominal = places.nominal[:, None]
    gaps = np.diff(places.frets, axis=1, prepend=0.0)
    setup = Setup(
        nominal=nominal,
        frets=places.frets,
        height=low[:, None],
        rise=rise[:, None],
        sag=sag(places.frets, nominal, mm(strings.relief)),
        behind=np.clip(mm(strings.press_behind), 0.0, MOST_BEHIND * np.maximum(gaps, 0.0)),
        kappa=np.array(kappa)[:, None],
        rho=np.array(rho)[:, None],
    )
    return _Ready(setup=setup, makes=makes, tension=tension, known=known)


def _weights(given: dict[int, float] | None, frets: int) -> Array:
    weights = np.zeros(frets)
    if given is None:
        weights[:BEST_OVER] = 1.0
    else:
        for fret, weight in given.items():
            if fret <= frets:
                weights[fret - 1] = weight
    return weights


def _typed(given: str | tuple[Length, ...] | float, count: int) -> Array | None:
    if given == WORKED_OUT or isinstance(given, str):
        return None
    return np.array([mm(value) for value in given]) if isinstance(given, tuple) else np.full(count, float(given))


def _best(s: Setup, weights: Array, saddle: Array, nut: Array, free: Array) -> tuple[Array, Array, Array, Array]:
    """Saddle and nut (strings,) of least squares, the slopes (2, strings, frets), and the cents with neither.

    Gauss-Newton: the equation is so nearly straight that three rounds leave well under a micrometre.
    """
    found, steps = np.stack((saddle, nut)), np.zeros((4, 2, 1))
    steps[1, 0], steps[2, 1] = STEP, STEP
    before, slope = np.zeros(0), np.zeros(0)
    for count in range(ROUNDS if free.any() and weights.any() else 1):
        at = found + steps
        at[3] = 0.0
        cents = fretted_cents(s, at[:, 0, :, None], at[:, 1, :, None])
        slope = (cents[1:3] - cents[0]) / STEP * free[:, None, None]
        inner = np.einsum("isf,jsf,f->sij", slope, slope, weights) + RIDGE * np.eye(2)
        pull = np.einsum("isf,sf,f->si", slope, cents[0], weights)
        found = found - np.linalg.solve(inner, pull[..., None])[..., 0].T
        if count == 0:
            before = cents[3]
    return found[0], found[1], slope, before


def _spread(
    ready: _Ready, weights: Array, saddle: Array, nut: Array, slope: Array, moves_of_heights: Array
) -> tuple[Array, Array]:
    """What stays (strings, frets) at the best place, and how that place moves (causes, strings), mm.

    Each thing that is not known is moved by its standard deviation on its own; its moves add up in squares.
    """
    s = ready.setup
    unknown = np.array([_unknowns(made) for made in ready.makes]).T[..., None]
    one = np.ones_like(s.kappa)
    kappa = np.stack((one, 1 + unknown[0], (1 + unknown[1]) ** 2, one, one, one, 1 / (1 + unknown[3])))
    rho = np.stack((one, one, 1 + unknown[1], 1 + unknown[2], one, one, one))
    low, rise = np.zeros((7, 1, 1)), np.zeros((7, 1, 1))
    low[1:][HEIGHTS, 0, 0], rise[1:][HEIGHTS, 0, 0] = moves_of_heights.T
    moved = msgspec.structs.replace(
        s, kappa=s.kappa * kappa, rho=s.rho * rho, height=s.height + low, rise=s.rise + rise
    )
    cents = fretted_cents(moved, saddle[:, None], nut[:, None])
    inner = np.einsum("sf,sf,f->s", slope[0], slope[0], weights)
    moves = np.einsum("ksf,sf,f->ks", cents[1:] - cents[0], slope[0], weights) / np.maximum(inner, 1e-12)
    return cents[0], moves


def _unknowns(made: Make | None) -> tuple[float, float, float, float]:
    """Relative spreads of stretch, core, bending radius, and of the mass as it acts on E A / T."""
    if made is None:
        return 0.0, 0.0, 0.0, 0.0
    return made.stretch_sd, made.core_sd, made.rho_sd, made.mass_sd if made.ratio is None else 0.0


def _estimated(made: Make | None, heights_assumed: bool) -> tuple[str, ...]:
    if made is None:
        return ("everything",)
    return (*made.estimated, "heights") if heights_assumed else made.estimated
