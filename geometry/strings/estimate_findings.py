"""What the person should know of the strings beside their pull: what was estimated, and heights that cannot be."""

from collections.abc import Sequence

from geometry import words
from geometry.findings import Finding, Grade
from geometry.job.stringing import String, Strings
from geometry.strings.played import PlayedStrings
from geometry.strings.string_heights import over_frets
from geometry.units import Unit, said, said_pm

UNPLAYABLE = 5.0
"""mm of string over fret 12 beyond which an instrument can hardly be fretted (common practice, no source)."""
LIES_ON = 0.4
"""mm of string over fret 12 below which it rattles on the frets (common practice, no source)."""
SUNK = 0.2
"""mm by which the nut may come out below the frets' plane before a reading is doubted: it follows from two heights
(common practice, no source)."""
WIDE = 1.0
"""mm: beyond this ± an estimate is worth looking at (common practice, no source)."""


def estimate_findings(
    strings: Strings,
    names: Sequence[str],
    pm95: Sequence[float],
    unit: Unit = "mm",
    trial: str = "a trial saddle",
    *,
    shared: str = "saddle",
) -> tuple[Finding, ...]:
    """What was estimated for the strings `names`, whose compensation was worked out with the ± `pm95` (mm) each; what
    they are heard on is called `trial`. `shared`: what they break on in one line, whose own ± may be
    less than one string's; "" where each has its own.
    """
    of = {s.name: s for s in strings.list}
    wound = [(n, pm) for n, pm in zip(names, pm95, strict=True) if _wound_steel(of[n])]
    soft = [(n, pm) for n, pm in zip(names, pm95, strict=True) if _soft(of[n])]
    plain = [(n, pm) for n, pm in zip(names, pm95, strict=True) if _plain_steel(of[n])]
    found = []
    if wound:
        text = (
            f"The stretch of {words.strings([n for n, _ in wound])} is estimated: no measured figure for "
            f"wound steel was found to check it against. {_own(wound, unit, shared)} A core’s diameter narrows it. "
            f"{words.first_large(trial)} and a tuner settle it."
        )
        found.append(_estimate("strings.wound", text, wound))
    if plain:
        text = (
            f"How stiffly {words.strings([n for n, _ in plain])} bend{'s' if len(plain) == 1 else ''} over nut and "
            f"{shared or 'saddle'} is guessed, for no figure measured on plain steel was found. "
            f"{_own(plain, unit, shared)} {words.first_large(trial)} and a tuner settle it."
        )
        found.append(_estimate("strings.ends", text, plain))
    if soft:
        text = (
            f"Mass and stretch of {words.strings([n for n, _ in soft])} are those usual for the material. "
            f"{_own(soft, unit, shared)} The stretch ratio, measured on the string, narrows it."
        )
        found.append(_estimate("strings.estimated", text, soft))
    return tuple(found)


def _wound_steel(string: String) -> bool:
    return string.build == "wound" and string.material in ("steel", "silk and steel") and string.stretch_ratio is None


def _plain_steel(string: String) -> bool:
    return string.build == "plain" and string.material in ("steel", "silk and steel")


def _soft(string: String) -> bool:
    return string.material not in ("steel", "silk and steel") and string.stretch_ratio is None


def _own(strings: Sequence[tuple[str, float]], unit: Unit, shared: str) -> str:
    """How well the place is known that one string asks for by itself; the own ± of a line they share may be less."""
    worst = said_pm(max(pm for _, pm in strings), unit)
    if not shared:
        return f"Such a string’s saddle is placed to ±{worst}."
    asks = "The place that it wants" if len(strings) == 1 else "The place that each of them wants"
    return f"{asks} is sure to ±{worst}; the {shared}, which all share, has a ± of its own."


def _estimate(code: str, text: str, strings: Sequence[tuple[str, float]]) -> Finding:
    worst = max(pm for _, pm in strings)
    grade: Grade = "look" if worst > WIDE else "good"
    return Finding(grade=grade, code=code, text=text, values={"pm95": worst}, where="field:strings.list")


def height_findings(ready: PlayedStrings, unit: Unit = "mm") -> tuple[Finding, ...]:
    """Heights that nobody measured, that would lay a string on the frets, cannot be fretted, or fall to the bridge."""
    over_12, names = ready.over_12.tolist(), [string.name for string in ready.strings.list]
    found = []
    if ready.missing:
        found.append(_assumed(ready, over_12, unit))
    most, worst = max(zip(over_12, names, strict=True), key=lambda pair: pair[0])
    if most > UNPLAYABLE:
        text = (
            f"{words.first_large(words.string(worst))} lies {said(most, unit)} over fret 12, which can hardly "
            "be played. Look at the neck angle before a bridge is placed."
        )
        found.append(_height("stop", "heights.high", text, most))
    low = ready.low.tolist()
    touching = [s for s, near, far in zip(names, low, over_12, strict=True) if near < -SUNK or far < LIES_ON]
    falling = [s for s, near, far in zip(names, low, over_12, strict=True) if near > far]
    if touching:
        text = (
            f"With these heights {words.strings(touching)} would lie on the frets; check whether the readings at fret "
            "1 and fret 12, or bass and treble, are exchanged."
        )
        found.append(_height("stop", "heights.low", text, min(over_12)))
    elif falling:
        text = (
            f"With these heights {words.strings(falling)} would lie lower over fret 12 than at the nut; check whether "
            "the readings at fret 1 and fret 12 are exchanged."
        )
        found.append(_height("stop", "heights.falling", text, min(over_12)))
    return tuple(found)


def _assumed(ready: PlayedStrings, over_12: list[float], unit: Unit) -> Finding:
    """Which heights nobody measured, and what is taken instead: over fret 12 alone, where a person can judge it."""
    taken = f"{said(over_12[0], unit)} of string over fret 12 at treble and {said(over_12[-1], unit)} at bass"
    if len(ready.missing) >= (2 if ready.zero_fret else 4):
        either, both = ("fret 12", "fret 12") if ready.zero_fret else ("fret 1 or fret 12", "fret 1 and fret 12")
        text = (
            f"No string’s height over {either} was measured: {taken} are assumed. Read the string over "
            f"{both} on both sides; with the strings off, type the action that is wanted."
        )
    else:
        one = len(ready.missing) == 1
        far = [
            f"{said(height, unit)} over fret 12 at {'bass' if side == ready.bass else 'treble'}"
            for height, side in ((over_12[0], words.other_side(ready.bass)), (over_12[-1], ready.bass))
            if ("fret 12", side) in ready.missing
        ]
        over = f": {words.joined(far)}" if far else ""
        text = (
            f"The string’s height{'' if one else 's'} over {over_frets(ready.missing, ready.bass)} "
            f"{'is' if one else 'are'} missing, so the usual {'one is' if one else 'ones are'} assumed there{over}. "
            f"Read or type {'it' if one else 'them'} to narrow the saddle’s ±."
        )
    return Finding(grade="look", code="heights.assumed", text=text, where="field:strings.action")


def _height(grade: Grade, code: str, text: str, value: float) -> Finding:
    return Finding(grade=grade, code=code, text=text, values={"over_12": value}, where="field:strings.action")
