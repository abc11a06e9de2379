"""The strings' part of the layout: what each wants of the saddle, what it gets, and what that costs in cents."""

import math
from collections.abc import Sequence

import msgspec
import numpy as np

from geometry.frame import Array, Points, crossing, unit, xys
from geometry.frets.fret_lines import FretLines
from geometry.job import Action, Job, Saddle, Strings
from geometry.job.sides import Side
from geometry.job.stringing import HIGHEST_ACTION
from geometry.layout import TWO_SIDED_95, StringPlan
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.best_line import best_line
from geometry.saddle.heights.read_heights import action_sd, action_waits_for
from geometry.saddle.in_pieces.pieces import Peaks
from geometry.saddle.saddle_line import SaddleLine, Strung, fit_line
from geometry.saddle.trial_ends import trial_ends
from geometry.strings.compensation import (
    Compensated,
    FretPlaces,
    PlayedStrings,
    at_frets,
    common_names,
    compensate,
    own_frets,
    residual_cents,
    strings_as_played,
)
from geometry.strings.string_heights import Fret
from geometry.strings.trial_saddles import ByEar, Trial, by_ear, with_what_was_heard
from geometry.units import mm

TELLS_SLANT = 0.5
"""The part of the saddle that fretted strings must span to tell drones how it slants (common practice, no source)."""


class WantedCompensation(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """What every string wants, in list order, the strings it was worked out for, and what was heard. `across` (n,) is
    where each string lies on the saddle, from 0 at the first to 1 at the last.
    """

    each: tuple[Compensated, ...]
    ready: PlayedStrings
    heard: tuple[ByEar, ...]
    trials: dict[str, Trial]
    across: Array

    def compensation(self, states: PerturbedStates) -> Array:
        """Each string's compensation in all rows, (rows, n): the saddle's two ends move, the strings between them."""
        base = np.array([one.saddle for one in self.each])
        ends = states.own_rows @ self._ends()
        return np.asarray(base + ends[:, :1] * (1 - self.across) + ends[:, 1:] * self.across)

    def waits_for(self, states: PerturbedStates) -> tuple[str, ...]:
        """The ids of the accused readings of the action, where any compensation is worked out from it."""
        from_action = any(one.source in ("worked out", "by ear") for one in self.each)
        return action_waits_for(states) if from_action else ()

    def _ends(self) -> Array:
        """How the saddle's first and last end move with each of the two unknowns, (2 unknowns, 2 ends), mm.

        An end is as uncertain as the strings near it, which are weighed as a straight line through all of them weighs
        them: their ± is not made finer by being many, for what is wrong with one is mostly wrong with all. How far
        both ends move together follows from what the strings share.
        """
        near = _near(self.across, counting(self.each))
        first, last = near @ np.array([one.pm95 / TWO_SIDED_95 for one in self.each])
        width = len(common_names(self.ready.strings))
        shared = near @ np.array([one.common or (0.0,) * width for one in self.each])
        together = float(shared[0] @ shared[1]) if len(self.each) > 1 else first * last
        follows = min(max(together / first, 0.0), last) if first > 0 else 0.0
        return np.array([[first, follows], [0.0, math.sqrt(max(last**2 - follows**2, 0.0))]])


def _near(across: Array, counts: Array) -> Array:
    """How much each string that `counts` (n,) tells of the saddle's first and last end, (2, n): the weights of a
    straight line's least squares, those below nought left out.
    """
    many, middle = int(counts.sum()), across[counts].mean()
    off = np.where(counts, across - middle, 0.0)
    weights = counts / many + np.outer((across[0], across[-1]) - middle, off) / max(float(off @ off), 1e-9)
    kept = np.maximum(weights, 0.0)
    return np.asarray(kept / kept.sum(axis=1, keepdims=True))


def counting(each: Sequence[Compensated]) -> Array:
    """Which strings ask something of the saddle (n,): all but drones, unless there are none but drones."""
    counts = np.array([one.source != "drone" for one in each])
    return counts if counts.any() else ~counts


def _let_drones_be(each: tuple[Compensated, ...], across: Array) -> tuple[Compensated, ...]:
    """The strings with each drone on the straight line through what the others want, where it moves the saddle not; on
    the level through their mean where they lie too near each other to tell a slant.
    """
    counts = counting(each)
    if counts.all():
        return each
    x, wants = across[counts] - across[counts].mean(), np.array([one.saddle for one in each])[counts]
    slope = float(x @ wants) / float(x @ x) if np.ptp(x) >= TELLS_SLANT else 0.0
    on_line = wants.mean() + slope * (across - across[counts].mean())
    spreads = np.array([one.pm95 for one in each])
    order = np.flatnonzero(counts)[np.argsort(across[counts])]
    pm95 = np.interp(across, across[order], spreads[order])
    return tuple(
        one
        if told
        else msgspec.structs.replace(one, saddle=float(on_line[i]), pm95=float(pm95[i]), common=(), estimated=())
        for i, (one, told) in enumerate(zip(each, counts.tolist(), strict=True))
    )


def own_unknowns(job: Job) -> list[str]:
    """The states' own unknowns: the strings' compensation, in standard deviations. One moves the saddle's first end,
    and the last one with it as far as both are wrong together; the other the last end alone.
    """
    return [] if job.strings is None else ["compensation.0", "compensation.1"]


def compensate_all(
    job: Job, states: PerturbedStates, frame: NeckFrame, bare: Strung, lines: FretLines
) -> WantedCompensation:
    """What every string wants, from the strings, the heights and the frets as they are; `bare` are the strings with no
    compensation at all, in all rows where something was heard.
    """
    if job.strings is None:
        raise AssertionError("no strings, nothing to compensate")
    start, along = bare.start[0][:, None], bare.along[0][:, None]
    places = _from_where_they_begin(
        job.strings, np.abs(along[:, 0]), np.abs(crossing(start, along, lines.on, lines.way) - start)
    )
    ready = strings_as_played(
        job.strings, job.bass, places, measured_action(states), job.board.zero_fret, action_sd(states)
    )
    trials = _trials(job, states, frame, bare)
    heard = by_ear(ready, trials)
    y = bare.nominal[0].imag
    across = (y - y[0]) / (y[-1] - y[0]) if len(y) > 1 else np.full(1, 0.5)
    each = _let_drones_be(with_what_was_heard(compensate(ready), heard), across)
    return WantedCompensation(each=each, ready=ready, heard=heard, trials=trials, across=across)


def _from_where_they_begin(strings: Strings, nominal: Array, frets: Array) -> FretPlaces:
    """The places along the strings, given from the nut's front, from where each begins."""
    first = np.array([string.first for string in strings.list])
    if not first.any():
        return FretPlaces(nominal=nominal, frets=frets)
    begin = np.where(first > 0, frets[range(len(first)), np.maximum(first, 1) - 1], 0.0)
    return FretPlaces(nominal=nominal - begin, frets=frets - begin[:, None], begin=begin, first=first)


def _trials(job: Job, states: PerturbedStates, frame: NeckFrame, bare: Strung) -> dict[str, Trial]:
    """Each string's break point on each trial saddle whose ends are measured."""
    found = {}
    for name in dict.fromkeys(heard.trial for heard in job.strings.heard) if job.strings is not None else ():
        ends = trial_ends(job, states, frame, name)
        if ends is not None:
            left, right = ends
            past = crossing(bare.start, bare.along, right, left - right).real - bare.nominal.real
            found[name] = Trial(past[0], states.sd(past))
    return found


def measured_action(states: PerturbedStates) -> Action | None:
    """The string's heights over frets 1 and 12 as read, those that can be; None where none was."""
    fret1, fret12 = ((_height(states, place, "left"), _height(states, place, "right")) for place in HIGHEST_ACTION)
    if fret1 == fret12 == (None, None):
        return None
    return Action(fret1=fret1, fret12=fret12)


def _height(states: PerturbedStates, place: Fret, side: Side) -> float | None:
    """One height as read, mm; None where it was not, or where no instrument has it."""
    rows = states.unknown(f"height.{place}.{side}")
    return None if rows is None or not 0 <= (value := float(rows[0])) <= HIGHEST_ACTION[place] else value


def lay_line(strung: Strung, saddle: Saddle, weights: Array | None = None) -> SaddleLine:
    """The best straight saddle line within the saddle's thickness, in all rows; `weights` of what the strings ask for.

    The first row decides which strings press against the room's sides; the other rows keep that choice.
    """
    wanted = strung.break_point[0]
    best = best_line(wanted.imag, wanted.real, weights, mm(saddle.thickness), saddle.peak_at, saddle.straight)
    return fit_line(strung, best, saddle.straight, weights)


def describe(
    job: Job, strung: Strung, wanted: WantedCompensation, peaks: Peaks, ends: Points | None
) -> tuple[StringPlan, ...]:
    """The strings as the layout holds them, with the cents that stay on the saddle as it will be. `ends` (rows, n) is
    where they end in the bridge; None where they run on.
    """
    if job.strings is None:
        return ()
    ready = wanted.ready
    at, gets = peaks.at.tolist(), peaks.x - strung.nominal[0].real
    nut = np.array([one.nut for one in wanted.each])
    stays = residual_cents(ready, gets - np.array([one.heard for one in wanted.each]), nut)
    broken, along, own = strung.break_point[0], strung.along[0], own_frets(ready)
    leaves = begins(strung, ready.places) - along * (nut / along.real)
    at_end = xys(ends[0] if ends is not None else broken)
    at_nut, at_saddle = xys(leaves), xys(broken)
    lengths, nominal = np.abs(broken - leaves).tolist(), ready.places.nominal.tolist()
    return tuple(
        StringPlan(
            name=string.name,
            course=string.course if string.course is not None else i + 1,
            diameter=mm(string.diameter) if string.diameter is not None else None,
            nut_xy=at_nut[i],
            break_point=at_saddle[i],
            end=at_end[i],
            length=lengths[i],
            nominal=nominal[i],
            compensation=one.saddle,
            nut_compensation=one.nut,
            compensation_from=one.source,
            compensation_pm95=one.pm95,
            peak=at[i],
            tension_n=one.tension_n,
            cents=at_frets(own[i], stays[i]) if one.tension_n is not None else {},
            cents_before=one.cents_before,
            estimated=one.estimated,
            starts_at=string.first,
            fretted=bool(own[i].any()),
        )
        for i, (string, one) in enumerate(zip(job.strings.list, wanted.each, strict=True))
    )


def begins(strung: Strung, places: FretPlaces) -> Points:
    """Where each string begins in the first row (n,): on the nut's front, or at its fret."""
    begin = np.zeros(strung.start.shape[1]) if places.begin is None else places.begin
    at: Points = strung.start[0] + unit(strung.along[0]) * begin
    return at


def own_peaks(strung: Strung) -> Peaks:
    """Where each string wants to break: it has a saddle of its own, which is set there."""
    wanted = strung.break_point[0].real
    return Peaks(np.full(len(wanted), 0.5), wanted)
