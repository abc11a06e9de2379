"""Bounds of what the strings ask for of saddle and nut, of their spread, and of how they are played."""

from collections.abc import Iterator, Sequence

from geometry import words
from geometry.findings import Finding, Grade, look
from geometry.job import Job, Strings
from geometry.layout import StringPlan
from geometry.units import Unit, mm, said

COMPENSATION = (-5.0, 15.0)
"""mm. No string wants its saddle outside this (common practice, no source): what asks for it is a slip."""
NUT_USUAL, NUT_BACK, NUT_MOST = 1.2, 0.4, 5.0
"""mm. A nut is rarely set nearer to fret 1 by more than the first, or typed farther from it by more than the second,
and never moved by more than the third (common practice, no source)."""
RELIEF = 0.4
"""mm. More hollow than this is no relief but a neck to be mended (common practice, no source)."""
BEHIND = 15.0
"""mm. No finger presses farther behind its fret (common practice, no source)."""
REFERENCE = (412.0, 450.0)
"""Hz. A4 is rarely tuned outside this today, and old pitches are few (common practice, no source)."""
WIDENS = 35.0
"""mm. The strings rarely spread more than this from nut to saddle (common practice, no source)."""
OFF_THE_OTHERS, FEW = 2.5, 4
"""mm. What is typed for one string lies no farther off the straight line through the others' (common practice, no
source: the second string of a plain set lies 1.7 mm off, a thick bass string 2.1); from so many strings on."""


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
        text=f"{words.first_large(words.string(worst.name))} {asks} a compensation of "
        f"{said(worst.compensation, job.unit)}, and no string needs less than {said(least, job.unit)} or "
        f"more than {said(most, job.unit)}. {mend}",
        values={"mm": worst.compensation},
        where=f"string:{worst.name}",
    )


def _off_the_others(job: Job, plans: Sequence[StringPlan]) -> Iterator[Finding]:
    """A typed compensation that lies far off the straight line through those of the other strings; one that starts at a
    fret is tuned high and does not lie on it. Strings of known make are held against what they ask for instead
    (`typed_and_asked`): a plain string beside wound ones is off that line by right.
    """
    plans = [plan for plan in plans if not plan.starts_at]
    if len(plans) < FEW or any(plan.compensation_from != "typed" for plan in plans):
        return
    if all(plan.tension_n is not None for plan in plans):
        return
    values = [plan.compensation for plan in plans]
    offs = [value - _by_the_others(values, i) for i, value in enumerate(values)]
    worst = max(range(len(offs)), key=lambda i: abs(offs[i]))
    if abs(offs[worst]) > OFF_THE_OTHERS:
        plan = plans[worst]
        yield look(
            "compensation.uneven",
            f"The compensation of {words.string(plan.name)}, {said(plan.compensation, job.unit)}, lies "
            f"{said(abs(offs[worst]), job.unit)} off the line of the other strings’: look at its digits and its unit.",
            f"string:{plan.name}",
            mm=offs[worst],
        )


def _by_the_others(values: Sequence[float], at: int) -> float:
    """What the straight line of least squares through all values but one has in its place."""
    others = [(float(i), value) for i, value in enumerate(values) if i != at]
    x, y = (sum(column) / len(others) for column in zip(*others, strict=True))
    pull, own = sum((i - x) * (value - y) for i, value in others), sum((i - x) ** 2 for i, _ in others)
    return float(y + pull / own * (at - x))


def _nut(job: Job, plans: Sequence[StringPlan]) -> Iterator[Finding]:
    if job.board.zero_fret or not plans:
        return
    typed = job.strings is not None and not isinstance(job.strings.nut_compensation, str)
    back = NUT_BACK if typed else NUT_USUAL
    worst = max(plans, key=lambda plan: abs(plan.nut_compensation) / (back if plan.nut_compensation > 0 else NUT_USUAL))
    much, farther = abs(worst.nut_compensation), worst.nut_compensation > 0
    usual = back if farther else NUT_USUAL
    if much <= usual:
        return
    never = much > NUT_MOST
    grade: Grade = "stop" if never else "look"
    most = NUT_MOST if never else usual
    way = "farther from fret 1" if farther else "nearer to fret 1"
    yield Finding(
        grade=grade,
        code="nut.beyond",
        text=f"At the nut {words.string(worst.name)} starts {said(much, job.unit)} {way}, and "
        f"{'no nut is' if never else 'few nuts are'} moved {'' if never else 'that way '}by more than "
        f"{said(most, job.unit)}. Look at the nut’s compensation, its unit and its sign (minus is nearer to fret 1); "
        "the saddle is placed for it.",
        values={"mm": worst.nut_compensation},
        where="field:strings.nut_compensation",
    )


def _typed(strings: Strings, unit: Unit) -> Iterator[Finding]:
    relief, behind = mm(strings.relief), mm(strings.press_behind)
    if relief > RELIEF:
        yield look(
            "neck.relief",
            f"A relief of {said(relief, unit)} is more than a neck is given; few have more than "
            f"{said(RELIEF, unit)}. Look at the unit and the decimal point, or mend the neck before a bridge "
            "is placed.",
            "field:strings.relief",
            mm=relief,
        )
    if behind > BEHIND:
        yield look(
            "press.far",
            f"The finger is said to press {said(behind, unit)} behind the fret; more than "
            f"{said(BEHIND, unit)} is unusual. Look at the unit.",
            "field:strings.press_behind",
            mm=behind,
        )
    if not REFERENCE[0] <= strings.a4 <= REFERENCE[1]:
        yield look(
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
        said_so = (
            f"{said(saddle - nut, unit)} wider at the saddle than at the nut, and more than "
            f"{said(WIDENS, unit)} is unusual"
        )
    else:
        return
    yield look(
        "strings.spread",
        f"The strings’ spread is {said_so}. Look at both.",
        "field:strings.saddle.spread",
        nut=nut,
        saddle=saddle,
    )
