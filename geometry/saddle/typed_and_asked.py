"""Typed compensation against what the strings ask for by their make, where that is known.

What was heard may well lie beyond the ± of what is worked out, and on all strings the same way: ends that hold
otherwise, or a finger that presses hard, move all of them. So their common part may be large, and one string against
the others little. **Off** is how far what is typed lies from what is asked for, in the own ± of that.
"""

from collections.abc import Sequence
from itertools import compress
from statistics import median

from geometry import words
from geometry.findings import Finding, look
from geometry.job import Job
from geometry.saddle.string_plans import WantedCompensation
from geometry.strings.compensation import Compensated, compensate
from geometry.strings.trial_saddles import as_if_untyped
from geometry.units import MM_PER, Unit, said, said_pm

ALL, ONE, LEAST = 2.0, 1.25, 1.0
"""What is typed for the middle one of the strings may be off by so many times its ±, for one beside the middle one by
so many, and by less than so many mm nothing is said (common practice, no source)."""
IN_INCHES = 1.3
"""Off by so many ±, and by less than one if the numbers were inches: they were inches (common practice, no source)."""
FEW = 3
"""Of fewer strings none is held against the others."""


def findings(job: Job, wanted: WantedCompensation) -> tuple[Finding, ...]:
    """Typed compensation that is of another unit, of another edge or of another string."""
    typed = [one.source == "typed" and one.tension_n is not None for one in wanted.each]
    if not any(typed):
        return ()
    asked = [*compress(compensate(as_if_untyped(wanted.ready)), typed)]
    pairs = [*zip(compress(wanted.each, typed), asked, strict=True)]
    pairs = [(one, own) for one, own in pairs if own.source == "worked out"]
    if not pairs:
        return ()
    off = _off(pairs)
    middle = median(off) if len(pairs) >= FEW else 0.0
    at = max(range(len(pairs)), key=lambda i: abs(off[i] - middle))
    if abs(middle) > ALL and any(abs(one.saddle - own.saddle) > LEAST for one, own in pairs):
        return (_all(job.unit, pairs, off),)
    if len(pairs) >= FEW and abs(middle) > IN_INCHES and abs(median(_off(pairs, MM_PER["in"]))) < 1:
        return (_all(job.unit, pairs, off),)
    own_part = abs(off[at] - middle)
    if own_part > (ONE if len(pairs) >= FEW else ALL) and own_part * pairs[at][1].pm95 > LEAST:
        return (_one(job.unit, *pairs[at], middle if len(pairs) >= FEW else None),)
    return ()


def _off(pairs: Sequence[tuple[Compensated, Compensated]], times: float = 1.0) -> list[float]:
    return [(times * one.saddle - own.saddle) / own.pm95 for one, own in pairs]


def _one(unit: Unit, typed: Compensated, asked: Compensated, middle: float | None) -> Finding:
    """Of one string; `middle`: how far off the others are, None where they are too few. By that it is told what this
    one would be to go with them: what it asks for by itself may well be what is typed.
    """
    beside = asked.saddle + (middle or 0.0) * asked.pm95
    return look(
        "compensation.against",
        f"The compensation of {words.string(typed.name)} is typed as {said(typed.saddle, unit)}, and "
        f"{'' if middle is None else 'beside the others '}its make and pitch ask for "
        f"{said_pm(asked.pm95, unit, beside)}: look at its digits, and whether it is another string’s. If it was "
        "heard, keep it, and look at the string’s diameter and pitch.",
        f"string:{typed.name}",
        typed=typed.saddle,
        asked=beside,
    )


def _all(unit: Unit, pairs: Sequence[tuple[Compensated, Compensated]], off: Sequence[float]) -> Finding:
    typed, asked = pairs[max(range(len(pairs)), key=lambda i: abs(off[i]))]
    return look(
        "compensation.against",
        f"The compensation that is typed lies to one side of what the strings ask for, that of "
        f"{words.string(typed.name)} most: {said(typed.saddle, unit)} is typed, and "
        f"{said_pm(asked.pm95, unit, asked.saddle)} asked for. Look at the unit, the sign, and from which edge it was "
        "read; if it was heard, keep it.",
        "field:strings.compensation",
        typed=typed.saddle,
        asked=asked.saddle,
    )
