"""How hard the strings pull, alone and together, against the set they replace, and against what steel wire bears."""

import math
from collections.abc import Iterator

import numpy as np

from geometry import words
from geometry.findings import Finding, Grade
from geometry.forces import POUNDS, force, in_unit
from geometry.job.stringing import String, Strings
from geometry.layout import TWO_SIDED_95
from geometry.pitch import frequency
from geometry.strings.stretch import Array
from geometry.strings.string_make import Make, make
from geometry.strings.wire_strength import tensile_strength
from geometry.units import Unit, said

MUCH_HEAVIER, HEAVIER, LIGHTER = 1.5, 1.05, 0.85
"""Against the set it replaces: beyond the first an old top is in danger, beyond the others the neck and the top move
enough to be looked at (common practice, no source)."""
HARDEST, SLACKEST = 250.0, 15.0
"""N on one string; outside this the diameter or the pitch is more likely wrong (common practice, no source)."""
YIELDS = 0.75
"""Part of its strength from which music wire stretches for good: the upper figure of 65-75 % in Shigley, Mechanical
Engineering Design, 9th ed., table 10-5."""


def tensions(strings: tuple[String, ...], a4: float, lengths: Array) -> Array:
    """Each open string's pull (N), T = m (2 L f)²; `lengths` (strings,) mm. NaN where mass or pitch is not known."""
    found = [
        np.nan if (made := make(s)) is None or s.pitch is None else made.mass * (2 * frequency(s.pitch, a4)) ** 2
        for s in strings
    ]
    return np.asarray(np.array(found, dtype=np.float64) * (lengths / 1000) ** 2)


def tension_findings(strings: Strings, lengths: Array, unit: Unit = "mm") -> tuple[Finding, ...]:
    """What the person should know of the strings' pull; `lengths` (strings,) mm, the open strings'."""
    pull = tensions(strings.list, strings.a4, lengths).tolist()
    found: list[Finding] = []
    loose: list[tuple[str, float]] = []
    for string, n in zip(strings.list, pull, strict=True):
        made = make(string)
        if made is None or n != n:
            continue
        breaks = _breaking(string, made, n, unit)
        found += breaks
        if not breaks and not SLACKEST <= n <= HARDEST:
            loose.append((string.name, n))
    return (*found, *_odd_pulls(loose, unit), *_together(strings, lengths, pull, unit))


def _odd_pulls(pulls: list[tuple[str, float]], unit: Unit) -> Iterator[Finding]:
    """Strings by name that would pull (N) as hardly any does: those that are too slack together, and those too hard."""
    for few, side in (
        (f"few pull under {force(SLACKEST, unit)}", [one for one in pulls if one[1] < SLACKEST]),
        (f"few pull over {force(HARDEST, unit)}", [one for one in pulls if one[1] > HARDEST]),
    ):
        if not side:
            continue
        outward = math.floor if side[0][1] < SLACKEST else math.ceil  # no figure reads as the bound that it is beyond
        (least, name), (most, _) = (in_unit(end(pull for _, pull in side), unit) for end in (min, max))
        low, high = (f"{outward(10 * one) / 10:.1f}" for one in (least, most))
        many = f"{low if low == high else f'{low} to {high}'} {name}"
        their, s = ("its", "") if len(side) == 1 else ("their", "s")
        yield Finding(
            grade="look",
            code="strings.pull",
            text=f"{words.first_large(words.strings([name for name, _ in side]))} would pull "
            f"{many}, and {few}: look at {their} diameter{s} and pitch"
            f"{'es' if s else ''}.",
            values={"tension_n": side[0][1]},
            where=f"string:{side[0][0]}",
        )


def _breaking(string: String, made: Make, pull: float, unit: Unit) -> tuple[Finding, ...]:
    """Steel only: the stress in the wire, or in the core of a wound string, against the least strength of its gauge."""
    if not made.steel_core or made.core is None:
        return ()
    stress = pull / (math.pi / 4 * made.core**2)
    least = tensile_strength(made.core)
    part = stress / least
    guessed = string.build == "wound" and string.core is None
    values = {"stress_mpa": stress, "strength_mpa": least, "part": part, "tension_n": pull}
    wire = (
        f"its core, taken as {said(made.core, unit, 2)},"
        if guessed
        else "its core"
        if string.build == "wound"
        else "it"
    )
    if part >= 1:
        grade: Grade = "look" if guessed else "stop"
        text = (
            f"{words.first_large(words.string(string.name))} would break: at {string.pitch} {wire} is "
            f"stressed to {stress:.0f} N/mm², and music wire of that gauge bears {least:.0f} (ASTM A228/A228M-18). "
            "Take a lower pitch or another gauge."
        )
        return (_about(string, grade, "strings.break", text, values),)
    # cores of wound strings are commonly stressed to four fifths of their strength
    if part > YIELDS and string.build == "plain":
        text = (
            f"{words.first_large(words.string(string.name))} is near breaking: at {string.pitch} it is "
            f"stressed to {100 * part:.0f} % of the least strength of its gauge (ASTM A228/A228M-18). Tune it up "
            "slowly, or take a lower pitch."
        )
        return (_about(string, "look", "strings.near_break", text, values),)
    return ()


def _together(strings: Strings, lengths: Array, pull: list[float], unit: Unit) -> tuple[Finding, ...]:
    unknown = [s.name for s, n in zip(strings.list, pull, strict=True) if n != n]
    if unknown:
        text = (
            f"The pull of {words.strings(unknown)} is not known: give pitch, and diameter or mass. What the set "
            "pulls together is not worked out."
        )
        return (_whole("look", "strings.unknown", text, {}),)
    total, wide = sum(pull), _pm95(strings, pull)
    newtons, pounds, pm = f"{total:.0f} N", f"{total * POUNDS:.0f} lb", f"±{math.ceil(100 * wide / total - 1e-9)} %"
    own, other = (pounds, newtons) if unit == "in" else (newtons, pounds)
    text = f"Together the strings pull {own} {pm} ({total / 9.80665:.0f} kg, {other})"
    before = _replaced(strings, lengths)
    if before is None:
        return (_whole("good", "strings.total", text + ".", {"total_n": total, "pm95": wide}),)
    return (_compared(text, total, before, unit),)


def _pm95(strings: Strings, pull: list[float]) -> float:
    """The 95 % half-width of what all pull together, N: a density that is wrong is wrong for all strings alike."""
    makes = (make(string) for string in strings.list)
    return TWO_SIDED_95 * sum(made.mass_sd * n for made, n in zip(makes, pull, strict=True) if made is not None)


def _replaced(strings: Strings, lengths: Array) -> float | None:
    """What the set that is replaced pulls in all (N), or None where that is not known."""
    if not strings.replaces:
        return None
    count = len(strings.replaces)
    same = lengths if len(lengths) == count else np.full(count, float(lengths.mean()))
    total = float(tensions(strings.replaces, strings.a4, same).sum())
    return None if total != total else total


def _compared(text: str, total: float, before: float, unit: Unit) -> Finding:
    ratio = total / before
    values = {"total_n": total, "before_n": before, "ratio": ratio}
    if LIGHTER <= ratio <= HEAVIER:
        return _whole("good", "strings.total", f"{text}, much the same as the set they replace.", values)
    share = f"{100 * abs(ratio - 1):.0f} % {'more' if ratio > 1 else 'less'}"
    text = f"{text}, {share} than the set they replace ({force(before, unit, places=0)})"
    if ratio > MUCH_HEAVIER:
        mend = "An old top and its braces are not made for that; take a lighter set."
        return _whole("stop", "strings.much_heavier", f"{text}. {mend}", values)
    if ratio > HEAVIER:
        mend = "Look at the braces, the belly and the neck angle of a light old top before it is strung up."
        return _whole("look", "strings.heavier", f"{text}. {mend}", values)
    mend = "The neck will come back and the action fall; measure both again once it is strung."
    return _whole("look", "strings.lighter", f"{text}. {mend}", values)


def _about(string: String, grade: Grade, code: str, text: str, values: dict[str, float]) -> Finding:
    return Finding(grade=grade, code=code, text=text, values=values, where=f"string:{string.name}")


def _whole(grade: Grade, code: str, text: str, values: dict[str, float]) -> Finding:
    return Finding(grade=grade, code=code, text=text, values=values, where="field:strings.list")
