"""Bounds of the strings: their make, their pull beside each other, their spread, and what they ask for."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from statistics import median

from geometry.findings import Finding, Grade
from geometry.job import Job, String, Strings
from geometry.layout import StringPlan
from geometry.pitch import frequency
from geometry.strings.make import of_usual_make
from geometry.strings.words import listed
from geometry.units import Unit, mm, said

COMPENSATION = (-5.0, 15.0)
"""mm. No string wants its saddle outside this (common practice, no source): what asks for it is a slip."""
NUT_USUAL, NUT_MOST = 1.2, 5.0
"""mm. A nut is hardly ever set back or forward by more than the first, and never by more than the second (common
practice, no source)."""
RELIEF = 0.4
"""mm. More hollow than this is no relief but a neck to be mended (common practice, no source)."""
BEHIND = 15.0
"""mm. No finger presses farther behind its fret (common practice, no source)."""
REFERENCE = (410.0, 450.0)
"""Hz. A4 is hardly ever tuned outside this today, and old pitches are few (common practice, no source)."""
STRETCHES = 3.0
"""A typed stretch ratio is that of another string where it is so many times what is usual, or as small a part (common
practice, no source)."""
THICK_PLAIN, THIN_WOUND = 0.52, 0.42
"""mm. Steel is hardly drawn thicker for a plain string, nor wound thinner (common practice, no source)."""
UNEVEN = 1.7
"""One string of a set pulls at most so many times as hard as the middle one, and no less than that part (common
practice, no source)."""
WIDENS = 35.0
"""mm. The strings spread hardly more than this from nut to saddle (common practice, no source)."""
OFF_THE_OTHERS, FEW = 2.5, 4
"""mm. What is typed for one string lies no farther off the straight line through the others' (common practice, no
source: the second string of a plain set lies 1.7 mm off, a thick bass string 2.1); from so many strings on."""
BASS_HIGHER = (-0.4, 1.3)
"""mm by which the string over fret 12 is higher at the bass than at the treble (common practice, no source)."""
PINS = 24
"""Holes are numbered by strings up to here; what is called by a greater number is called by something else."""


def findings(job: Job, plans: Sequence[StringPlan]) -> tuple[Finding, ...]:
    """What is beyond the bounds of what was typed of the strings, and of what they ask for (`plans`)."""
    strings = job.strings
    if strings is None:
        return ()
    return (
        *_compensation(job, plans),
        *_off_the_others(job, plans),
        *_nut(job, plans),
        *_typed(strings, job.unit),
        *_spreads(strings, job.unit),
        *_makes(strings, plans, job.unit),
        *_beside_each_other(strings, plans),
        *_mixed(strings),
        *_holes(job),
    )


def _compensation(job: Job, plans: Sequence[StringPlan]) -> Iterator[Finding]:
    least, most = COMPENSATION
    beyond = [plan for plan in plans if not least <= plan.compensation <= most]
    if not beyond:
        return
    worst = max(beyond, key=lambda plan: abs(plan.compensation - (least + most) / 2))
    if worst.compensation_from == "typed":
        mend = "Look at the decimal point, the unit and the sign."
    else:
        mend = (
            "Look at its diameter, its pitch and its make, at the heights over frets 1 and 12, and count the frets "
            "again."
        )
    asks = "is given" if worst.compensation_from == "typed" else "asks for"
    yield Finding(
        grade="stop",
        code="compensation.beyond",
        text=f"String {worst.name} {asks} a compensation of {said(worst.compensation, job.unit)}, and no string "
        f"wants less than {said(least, job.unit)} or more than {said(most, job.unit)}. {mend}",
        values={"mm": worst.compensation},
        where=f"string:{worst.name}",
    )


def _off_the_others(job: Job, plans: Sequence[StringPlan]) -> Iterator[Finding]:
    """A typed compensation that lies far off the straight line through those of the other strings."""
    if len(plans) < FEW or any(plan.compensation_from != "typed" for plan in plans):
        return
    values = [plan.compensation for plan in plans]
    offs = [value - _by_the_others(values, i) for i, value in enumerate(values)]
    worst = max(range(len(offs)), key=lambda i: abs(offs[i]))
    if abs(offs[worst]) > OFF_THE_OTHERS:
        plan = plans[worst]
        yield _look(
            "compensation.uneven",
            f"The compensation of string {plan.name}, {said(plan.compensation, job.unit)}, lies "
            f"{said(abs(offs[worst]), job.unit)} off the line of the other strings': look at its digits and its unit.",
            f"string:{plan.name}",
            mm=offs[worst],
        )


def _by_the_others(values: Sequence[float], at: int) -> float:
    """What the straight line of least squares through all values but one has in its place."""
    others = [(float(i), value) for i, value in enumerate(values) if i != at]
    x, y = (sum(column) / len(others) for column in zip(*others, strict=True))
    pull, own = sum((i - x) * (value - y) for i, value in others), sum((i - x) ** 2 for i, _ in others)
    return float(y + pull / own * (at - x))


def height_findings(job: Job, over_12: Sequence[float], assumed: bool) -> tuple[Finding, ...]:
    """Strings that lie much higher over fret 12 on one side than on the other; `over_12` from treble to bass, mm, of
    which nothing is said where any was `assumed`.
    """
    if assumed or len(over_12) < 2:
        return ()
    higher = over_12[-1] - over_12[0]
    if BASS_HIGHER[0] <= higher <= BASS_HIGHER[1]:
        return ()
    side = "bass" if higher > 0 else "treble"
    usual = BASS_HIGHER[1] if higher > 0 else -BASS_HIGHER[0]
    return (
        _look(
            "heights.uneven",
            f"The strings lie {said(abs(higher), job.unit)} higher over fret 12 at the {side} than on the other side, "
            f"and {said(usual, job.unit)} is much: look at both heights, and whether the sides are exchanged.",
            "field:strings.action",
            mm=higher,
        ),
    )


def _nut(job: Job, plans: Sequence[StringPlan]) -> Iterator[Finding]:
    if job.board.zero_fret or not plans:
        return
    worst = max(plans, key=lambda plan: abs(plan.nut_compensation))
    much = abs(worst.nut_compensation)
    if much <= NUT_USUAL:
        return
    never = much > NUT_MOST
    grade: Grade = "stop" if never else "look"
    most = NUT_MOST if never else NUT_USUAL
    way = "nearer to fret 1" if worst.nut_compensation < 0 else "farther from fret 1"
    yield Finding(
        grade=grade,
        code="nut.beyond",
        text=f"At the nut string {worst.name} starts {said(much, job.unit)} {way}, and "
        f"{'never' if never else 'hardly ever'} is a nut moved by more than {said(most, job.unit)}. Look at the nut's "
        "compensation, its unit and its sign; the saddle is placed for it.",
        values={"mm": worst.nut_compensation},
        where="field:strings.nut_compensation",
    )


def _typed(strings: Strings, unit: Unit) -> Iterator[Finding]:
    relief, behind = mm(strings.relief), mm(strings.press_behind)
    if relief > RELIEF:
        yield _look(
            "neck.relief",
            f"A relief of {said(relief, unit)} is more than a neck is given; {said(RELIEF, unit)} is much. Look at the "
            "unit and the decimal point, or mend the neck before a bridge is placed.",
            "field:strings.relief",
            mm=relief,
        )
    if behind > BEHIND:
        yield _look(
            "press.far",
            f"The finger is said to press {said(behind, unit)} behind the fret; {said(BEHIND, unit)} is much. Look at "
            "the unit.",
            "field:strings.press_behind",
            mm=behind,
        )
    if not REFERENCE[0] <= strings.a4 <= REFERENCE[1]:
        yield _look(
            "strings.reference",
            f"The reference A4 is {strings.a4:.0f} Hz, and instruments are tuned between {REFERENCE[0]:.0f} and "
            f"{REFERENCE[1]:.0f} Hz. Look at it: all pulls and compensations follow from it.",
            "field:strings.a4",
            hz=strings.a4,
        )


def _spreads(strings: Strings, unit: Unit) -> Iterator[Finding]:
    if strings.nut is None or strings.saddle is None or len(strings.list) < 2:
        return
    nut, saddle = mm(strings.nut.spread), mm(strings.saddle.spread)
    if saddle < nut:
        said_so = f"narrower at the saddle ({said(saddle, unit)}) than at the nut ({said(nut, unit)})"
    elif saddle - nut > WIDENS:
        said_so = f"{said(saddle - nut, unit)} wider at the saddle than at the nut, where {said(WIDENS, unit)} is much"
    else:
        return
    yield _look(
        "strings.spread",
        f"The strings' spread is {said_so}. Look at both.",
        "field:strings.saddle.spread",
        nut=nut,
        saddle=saddle,
    )


def _makes(strings: Strings, plans: Sequence[StringPlan], unit: Unit) -> Iterator[Finding]:
    """Strings that are made as no string is."""
    odd = [text for string, plan in zip(strings.list, plans, strict=False) if (text := _odd(string, plan, unit))]
    if odd:
        yield _look("strings.make", f"{odd[0]} Look at what is typed of the string.", "field:strings.list")


def _odd(string: String, plan: StringPlan, unit: Unit) -> str:
    """What is odd in a string's make; empty where nothing is."""
    usual = of_usual_make(string)
    if string.stretch_ratio is not None and usual is not None and plan.tension_n is not None:
        ratio = (usual.kappa(plan.tension_n) - 1) / 2
        if not 1 / STRETCHES <= string.stretch_ratio / max(ratio, 1e-6) <= STRETCHES:
            return (
                f"The stretch ratio of string {string.name} is {string.stretch_ratio:g}, and {ratio:.0f} is usual for "
                "its make and pull."
            )
    if string.diameter is None or string.material != "steel":
        return ""
    size = mm(string.diameter)
    if string.build == "plain" and size > THICK_PLAIN:
        return f"String {string.name} is of plain steel, {said(size, unit, 2)} thick; such a thick one is wound."
    if string.build == "wound" and size < THIN_WOUND:
        return f"String {string.name} is wound, and only {said(size, unit, 2)} thick; such a thin one is plain."
    return ""


def _beside_each_other(strings: Strings, plans: Sequence[StringPlan]) -> Iterator[Finding]:
    """A string that pulls quite otherwise than the others, and neighbours that sound alike."""
    pulls = [(plan.tension_n, plan.name) for plan in plans if plan.tension_n is not None]
    if len(pulls) > 2:
        middle = median(pull for pull, _ in pulls)
        pull, name = max(pulls, key=lambda pair: max(pair[0] / middle, middle / max(pair[0], 1e-9)))
        if max(pull / middle, middle / max(pull, 1e-9)) > UNEVEN:
            yield _look(
                "strings.uneven",
                f"String {name} would pull {pull:.0f} N, and the middle one of the set {middle:.0f} N: look at its "
                "diameter, its pitch and whether it is wound.",
                f"string:{name}",
                tension_n=pull,
                middle_n=middle,
            )
    for (here, one), (there, other) in pairwise(_alone(strings)):
        if abs(here / there - 1) < 1e-3:
            yield _look(
                "strings.alike",
                f"Strings {one} and {other} are tuned to the same pitch and are no pair: look at both pitches.",
                f"string:{other}",
            )
            return


def _mixed(strings: Strings) -> Iterator[Finding]:
    """Strings with steel in them among others without."""
    soft = [string.name for string in strings.list if string.material not in ("steel", "silk and steel")]
    hard = [string.name for string in strings.list if string.name not in soft]
    if soft and hard:
        few, what = (soft, "without steel") if len(soft) <= len(hard) else (hard, "of steel")
        yield _look(
            "strings.mixed",
            f"{listed(few).capitalize()} {'is' if len(few) == 1 else 'are'} {what}, unlike the others: look at the "
            "material of each.",
            f"string:{few[0]}",
        )


def _alone(strings: Strings) -> list[tuple[float, str]]:
    """The pitch (Hz) and name of the first string of each course."""
    seen: set[int] = set()
    found = []
    for string in strings.list:
        if string.pitch is not None and (string.course is None or string.course not in seen):
            found.append((frequency(string.pitch, strings.a4), string.name))
        if string.course is not None:
            seen.add(string.course)
    return found


def _holes(job: Job) -> Iterator[Finding]:
    """Old holes that are called by the numbers of strings, more than there are strings."""
    if job.strings is None or not job.strings.list or not job.bridge:
        return
    last = max(_numbers(job.points), default=0)
    count = len(job.strings.list)
    if count < last <= PINS:
        yield _look(
            "strings.count",
            f"The old bridge has a hole called pin.{last}, and the list has {count} strings: look whether one is "
            "missing.",
            "field:strings.list",
            hole=float(last),
            strings=float(count),
        )


def _numbers(names: Iterable[str]) -> Iterator[int]:
    for name in names:
        family, _, number = name.partition(".")
        if family == "pin" and number.isdecimal():
            yield int(number)


def _look(code: str, text: str, where: str, **values: float) -> Finding:
    return Finding(grade="look", code=code, text=text, values=values, where=where)
