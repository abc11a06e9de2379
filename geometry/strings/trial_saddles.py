"""Compensation by ear: what a tuner showed on a trial saddle, and how it is weighed against what is worked out.

To take the readings: leave the bridge loose or the slot uncut, lay a trial saddle (a length of bone or hard rod) on the
top or on the bridge where the saddle is expected, hold the strings down behind it, bring them to pitch, and mark where
the trial saddle lies. Then fret at the twelfth and compare with the open string or its harmonic there.

A fretted pitch differs by 2 cents (one standard deviation) between players fretting the same note, so one player's ear
is never taken as finer than that, however often the note is read (R. M. Mottola, "Same-fretted-note intonation
variability of the steel string acoustic guitar").
"""

import math
from collections.abc import Mapping
from typing import NamedTuple

import msgspec
import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.job.stringing import WORKED_OUT, Heard, Strings
from geometry.layout import TWO_SIDED_95
from geometry.spacing import CENTS
from geometry.strings.compensation import Compensated, PlayedStrings, compensate, residual_cents
from geometry.strings.stretch import Array
from geometry.units import Unit, said

EAR_CENTS = 2.0
"""One standard deviation of a fretted pitch between players: Mottola, see above."""


class Trial(NamedTuple):
    """A trial saddle as the strings met it: each one's break point `at`, mm past the nominal place, and its standard
    deviation `sd` (strings,), which is that of the saddle's ends as measured.
    """

    at: Array
    sd: Array


class ByEar(msgspec.Struct, frozen=True, kw_only=True):
    """One string's compensation as heard, as worked out, and both together; mm past the nominal place, ± 95 %.

    `worked_out` is None where the string's make is not known. `move` is how far the break point must go from the last
    trial saddle (+ toward the tail). `disagree` says that ear and sum differ by more than both their ± allow; the ±
    of the place taken is then widened until it covers both.
    """

    name: str
    heard: float
    heard_pm95: float
    worked_out: float | None
    worked_out_pm95: float
    taken: float
    taken_pm95: float
    move: float
    disagree: bool


def by_ear(ready: PlayedStrings, trials: Mapping[str, Trial]) -> tuple[ByEar, ...]:
    """Every string that was heard on a trial saddle whose place is known, in list order; `trials` by name. What was
    heard counts as the strings' answer at that fret; the best place over all frets follows from it by the same
    equation that is used without the ear.
    """
    count = ready.places.frets.shape[1]
    heard = [one for one in ready.strings.heard if one.trial in trials and one.fret <= count]
    if not heard:
        return ()
    best = compensate(as_if_untyped(ready))
    nut = np.array([one.nut for one in best])
    found = []
    for index, string in enumerate(ready.strings.list):
        own = [one for one in heard if one.string == string.name]
        if own:
            at = np.array([trials[one.trial].at[index] for one in own])
            sd = np.array([trials[one.trial].sd[index] for one in own])
            cents = residual_cents(ready, np.repeat(at[:, None], len(nut), axis=1), nut)[:, index]
            found.append(_one(ready, index, best[index], own, Trial(at, sd), cents))
    return tuple(found)


def as_if_untyped(ready: PlayedStrings) -> PlayedStrings:
    """The same strings with their compensation to be worked out, whatever was typed."""
    strings = msgspec.structs.replace(ready.strings, compensation=WORKED_OUT, typed_for=None)
    return msgspec.structs.replace(ready, strings=strings)


def _one(ready: PlayedStrings, index: int, best: Compensated, own: list[Heard], met: Trial, expected: Array) -> ByEar:
    """Weigh one string's readings `own`, taken on the places `met` (readings,); `expected` (readings, frets)."""
    at, nominal = met.at, float(ready.places.nominal[index])
    frets = np.array([heard.fret for heard in own])
    slope = CENTS * (1 / (nominal + at) - 1 / (nominal + at - ready.places.frets[index, frets - 1]))
    harmonic = _octave_harmonic(ready, index)
    cents = np.array([heard.cents + (harmonic if heard.against == "harmonic" else 0.0) for heard in own])
    if best.source == "worked out":
        # at the best place this fret keeps a little; the ear moves the place by what it hears beyond that
        wants = best.saddle + (expected[np.arange(len(own)), frets - 1] - cents) / slope
    else:
        wants = at - cents / slope
    # neither the player's ear nor a trial saddle's place gets finer by reading it again
    place_sd = math.sqrt(float(np.average(met.sd**2, weights=slope**2)))
    heard_sd = math.hypot(EAR_CENTS / float(np.abs(slope).max()), place_sd)
    return _together(best, float(np.average(wants, weights=slope**2)), heard_sd, float(at[-1]))


def _octave_harmonic(ready: PlayedStrings, index: int) -> float:
    """How sharp the harmonic at the twelfth fret is of the open string's octave, cents: 0 for a limp string.

    Partials of a string pinned at one end and clamped at the other: 1 + B + (1 + q² pi²/2) B² (Anderson & Beausoleil
    2024, appendix A).
    """
    if not ready.known[index]:
        return 0.0
    s = ready.setup
    b = float(np.sqrt(s.kappa[index, 0]) * s.rho[index, 0] / (2 * s.nominal[index, 0]))
    return CENTS * float(np.log1p(1.5 * np.pi**2 * b * b / (1 + b)))


def _together(best: Compensated, heard: float, heard_sd: float, trial_at: float) -> ByEar:
    """The mean of ear and equation, each weighed by its own spread."""
    known = best.source == "worked out"
    taken, pm95, disagree = heard, TWO_SIDED_95 * heard_sd, False
    if known:
        model_sd = max(best.pm95 / TWO_SIDED_95, 1e-6)
        share = heard_sd**2 / (heard_sd**2 + model_sd**2)
        taken = share * best.saddle + (1 - share) * heard
        both_sd = float(np.hypot(heard_sd, model_sd))
        pm95 = TWO_SIDED_95 * model_sd * heard_sd / both_sd
        disagree = abs(best.saddle - heard) > TWO_SIDED_95 * both_sd
        if disagree:
            pm95 = max(abs(best.saddle - taken), abs(heard - taken))
    return ByEar(
        name=best.name,
        heard=heard,
        heard_pm95=TWO_SIDED_95 * heard_sd,
        worked_out=best.saddle if known else None,
        worked_out_pm95=best.pm95,
        taken=taken,
        # heard_sd is 2 cents in mm and the trial saddle's place: no finer ± is claimed for what an ear had a part in
        taken_pm95=max(pm95, heard_sd),
        move=taken - trial_at,
        disagree=disagree,
    )


def with_what_was_heard(compensated: tuple[Compensated, ...], heard: tuple[ByEar, ...]) -> tuple[Compensated, ...]:
    """The compensation with what was heard put in; a string whose compensation was typed keeps it.

    What stays in cents keeps its shape over the frets: the ear moves the place, not the string.
    """
    by_name = {one.name: one for one in heard}
    found = []
    for one in compensated:
        ear = by_name.get(one.name)
        if ear is not None and one.source != "typed":
            one = msgspec.structs.replace(
                one, saddle=ear.taken, pm95=ear.taken_pm95, source="by ear", heard=ear.taken - one.saddle, common=()
            )
        found.append(one)
    return tuple(found)


def hearing_findings(
    strings: Strings, heard: tuple[ByEar, ...], trials: Mapping[str, Trial], unit: Unit = "mm"
) -> tuple[Finding, ...]:
    """Trial saddles whose place is not known, and strings on which the ear and the equation disagree."""
    found = [
        Finding(
            grade="look",
            code="heard.no_trial",
            text=f"What was heard on {words.trial(name)} is not used yet: measure where its two ends stand.",
            where="field:strings.heard",
        )
        for name in dict.fromkeys(one.trial for one in strings.heard)
        if name not in trials
    ]
    for one in heard:
        if one.disagree and one.worked_out is not None:
            found.append(
                Finding(
                    grade="look",
                    code="heard.disagrees",
                    text=f"{words.first_large(words.string(one.name))}: by ear its compensation is "
                    f"{said(one.heard, unit)} (± {said(one.heard_pm95, unit)}), and it is worked out as "
                    f"{said(one.worked_out, unit)} (± {said(one.worked_out_pm95, unit)}). "
                    f"{said(one.taken, unit)} is used; look at where it was heard, the string’s gauge "
                    "and the heights.",
                    values={"heard": one.heard, "worked_out": one.worked_out, "taken": one.taken},
                    where=f"string:{one.name}",
                )
            )
    return tuple(found)
