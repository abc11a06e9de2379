"""The few figures that matter, for the strip along the bottom: each with its ± and a word on whether it is well."""

from typing import Literal

import msgspec

from app.say.figures import separate_figures, unchecked
from app.say.figures.verdicts_now import verdicts_now
from export.drawing.marks import Tone
from geometry import units, words
from geometry.findings import is_unsure
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES
from geometry.layout import Layout, accused_in_order, leans_opposite, leans_wrong
from geometry.saddle.saddle_line_told import leans_against
from geometry.saddle.slot_leaning import slot_apart, told_slant

NOT_OF_IT = ("margin.unchecked", "old.unchecked")
"""What may be unchecked without the saddle's place being less sure."""
MILLIMETRES = 1.0
"""Frets that lean by as much, mm, take the tick from the slant (common practice, no source)."""

SLANT = "Slant at the strings"
"""The distances beside it run along the board's edges, which are farther apart."""
Mark = Literal["", "good", "unsure", "look", "stop"]


class KeyFigure(msgspec.Struct, frozen=True, kw_only=True):
    """One cell: `value` stands large, `rest` behind it; `where` is what a click goes to, as a mark's `of`. `short`: the
    title where there is no room for all of it.
    """

    title: str
    value: str
    rest: str
    short: str = ""
    mark: Mark = ""
    tone: Tone = "worked out"
    where: str = ""


def key_figures(job: Job, layout: Layout | None) -> tuple[KeyFigure, ...]:
    """The strip's cells, in their fixed order; what is missing says what it waits for."""
    if layout is None:
        return ()
    return (
        _to_slot(job, layout, "bass"),
        _to_slot(job, layout, "treble"),
        _slant(job, layout),
        *_reach(job, layout),
        *_now(job, layout),
        *_tail(job, layout),
        *_scar(job, layout),
        *_metal(job, layout),
        _readings(job, layout),
    )


def _to_slot(job: Job, layout: Layout, hand: str) -> KeyFigure:
    """How far it is to the slot's front along the edge, and how well in tune the saddle's own ± leaves the outer string
    beside it. Saddles of their own are each moved until theirs is.
    """
    title, short, where = (
        f"Fret 12 to {how_held(job).stop}, {hand} edge",
        f"Fret 12, {hand}",
        f"check:{how_held(job).check}.{hand}",
    )
    check = next((c for c in layout.checks if c.code == f"{how_held(job).check}.{hand}"), None)
    if check is None or layout.saddle is None:
        rest, field = _waits(job, layout)
        return KeyFigure(title=title, short=short, value="–", rest=rest, tone="quiet", where=field or where)
    rest = f"±{units.show_pm(check.pm95, job.unit)} {job.unit}"
    if layout.separate is None:
        at = SIDES.index(job.bass) if hand == "bass" else 1 - SIDES.index(job.bass)
        rest += f" · string {layout.saddle.tune95[at]:.1f} cents"
    waits = layout.saddle.waits_for
    if waits:
        rest, where = f"{rest} · not settled", f"reading:{waits[0]}"
    value = units.show(check.distance, job.unit)
    return KeyFigure(
        title=title, short=short, value=value, rest=rest, where=where, mark="look" if waits else _rests_on(layout)
    )


def _rests_on(layout: Layout) -> Mark:
    """Whether the saddle's place rests on what is usual, or on readings that nothing checks."""
    guessed = any(is_unsure(f) and f.code not in NOT_OF_IT for f in layout.findings)
    checked = layout.saddle is not None and layout.saddle.checked
    return "unsure" if guessed or not checked else ""


def _waits(job: Job, layout: Layout) -> tuple[str, str]:
    """What is waited for, and the field it belongs in."""
    if layout.neck is None:
        return "waits for the board’s readings", ""
    if layout.frets is None:
        return "waits for the frets", ""
    if job.strings is None or not job.strings.list:
        return "waits for the strings", "field:strings.list"
    if not layout.strings:
        return "waits for the strings’ spread", "field:strings.saddle.spread"
    return f"waits for the {how_held(job).ridge}", ""


def _slant(job: Job, layout: Layout) -> KeyFigure:
    saddle = layout.saddle
    if saddle is None:
        return KeyFigure(
            title=SLANT,
            short="Slant",
            value="–",
            rest=f"waits for the {how_held(job).ridge}",
            tone="quiet",
            where="saddle",
        )
    slot, wrong = leans_opposite(layout), leans_wrong(layout)
    way = ", the wrong way" if slot else ", the wrong way for the hand" if wrong else ""
    longer = "neither side longer" if saddle.longer == "neither" else f"{saddle.longer} longer"
    value, pm = units.show(told_slant(saddle, job.unit), job.unit), f"±{units.show_pm(saddle.slant_pm95, job.unit)}"
    rest = f"{pm} {job.unit}, {longer}{way}{_at_edges(job, layout, value)}"
    own = slot_apart(job, saddle)
    if own is not None:
        side = "neither side" if own.longer == "neither" else own.longer
        rest = f"{job.unit}{way}, {side} longer; strings want {value} {pm}"
        rest += "" if saddle.longer == own.longer else f", {longer}"
        value = units.show(own.mm, job.unit)
    against = own is not None or leans_against(job, saddle) or (_frets_lean(layout) and not job.frets.slanted)
    mark: Mark = "stop" if wrong else "look" if saddle.waits_for or against else _rests_on(layout) or "good"
    return KeyFigure(title=SLANT, short="Slant", value=value, rest=rest, mark=mark, where="saddle")


def _at_edges(job: Job, layout: Layout, at_strings: str) -> str:
    """How far apart the two distances beside it are told to be, where that is another figure."""
    codes = [f"{how_held(job).check}.{hand}" for hand in ("bass", "treble")]
    far = {check.code: units.as_shown(check.distance, job.unit) for check in layout.checks if check.code in codes}
    if len(far) < len(codes):
        return ""
    apart = units.show(abs(far[codes[0]] - far[codes[1]]), job.unit)
    return "" if apart == at_strings else f"; {apart} at the edges"


def _frets_lean(layout: Layout) -> bool:
    """Whether the frets lean by millimetres: then so does the saddle, whatever the strings ask for."""
    return layout.frets is not None and abs(layout.frets.slant) >= MILLIMETRES


def _now(job: Job, layout: Layout) -> tuple[KeyFigure, ...]:
    """What may be glued and cut now, and what must wait."""
    from geometry import go_or_wait  # it loads numpy, which the first picture does not wait for

    steps = verdicts_now(job, layout)
    if not steps:
        return ()
    waiting = [step for step in steps if not step.go]
    mark: Mark = "good" if not waiting else "unsure" if all(step.unsure for step in waiting) else "look"
    if any(step.why == "stop" for step in waiting):
        mark = "stop"
    value, *others = go_or_wait.strip_words(steps)
    rest = " ".join(f"· {other}" for other in others)
    tone: Tone = "look" if mark == "stop" else "worked out"
    return (KeyFigure(title="Go or wait", value=value, rest=rest, mark=mark, tone=tone, where="step:bridge"),)


def _reach(job: Job, layout: Layout) -> tuple[KeyFigure, ...]:
    """Where saddles travel: the string with the least reach left."""
    if layout.separate is None:
        return ()
    value, rest, mark = separate_figures.least_reach(job, layout.separate)
    return (KeyFigure(title="Least reach", value=value, rest=rest, mark=mark, where="separate"),)


def _tail(job: Job, layout: Layout) -> tuple[KeyFigure, ...]:
    """How far the tail hangs beside where the strings run true."""
    tail = layout.tail
    if tail is None or tail.off is None:
        return ()
    wrong = any(finding.code == "tail.off" for finding in layout.findings)
    side = job.bass_or_treble("left" if tail.off > 0 else "right")
    rest = f"±{units.show_pm(tail.off_pm95, job.unit)} {job.unit} to the {side}"
    value = units.show(abs(tail.off), job.unit)
    return (KeyFigure(title="Tail off", value=value, rest=rest, mark="look" if wrong else "good", where="tail"),)


def _scar(job: Job, layout: Layout) -> tuple[KeyFigure, ...]:
    if not layout.old.outline or layout.floating is not None:
        return ()
    widths = layout.old.scar_widths
    if not widths:
        if layout.bridge is None:
            return ()
        doubt = any(finding.code == "scar.may_show" for finding in layout.findings)
        sure: Mark = "look" if doubt else "good"
        rest = "not sure" if doubt else ""
        return (KeyFigure(title="Scar", value="none", rest=rest, mark=sure, tone="before", where="scar"),)
    where = max(widths, key=lambda side: widths[side])
    say = {"front": "in front", "back": "behind"}.get(where, f"past the {words.wing(where, job.hand)}")
    value = units.show(widths[where], job.unit)
    return (KeyFigure(title="Scar", value=value, rest=f"{job.unit}, {say}", mark="look", tone="before", where="scar"),)


def _metal(job: Job, layout: Layout) -> tuple[KeyFigure, ...]:
    if not layout.old.metal:
        return ()
    names = {metal.name for metal in layout.old.metal}
    of = {f"reading:{one.id}" for one in job.readings if names.intersection(one.of)}
    unsure = any(f.code == "old.unchecked" and f.where in of for f in layout.findings)
    hit = [f for f in layout.findings if f.code.startswith("metal") and f.grade != "good"]
    count = len(layout.old.metal)
    stop = any(finding.grade == "stop" for finding in hit)
    near = "in the way of a cut or hole" if stop else "near a cut or hole"
    rest = near if hit else "clear, if it lies there" if unsure else "clear of slot and pins"
    mark: Mark = "stop" if stop else "look" if hit else "unsure" if unsure else "good"
    if layout.bridge is None or layout.floating is not None:
        rest, mark = "known", ""
    return (KeyFigure(title="Metal", value=str(count), rest=rest, mark=mark, tone="measured", where="metal"),)


def _readings(job: Job, layout: Layout) -> KeyFigure:
    suspects = accused_in_order(layout.survey)
    if suspects:
        return KeyFigure(
            title="Readings",
            value=str(len(suspects)),
            rest="to look at again",
            mark="look",
            tone="look",
            where=f"reading:{suspects[0]}",
        )
    waiting = [r.id for r in job.readings if not r.taken and not r.struck]
    if waiting:
        asked = all(r.asked for r in job.readings if r.id in waiting)
        rest = "still to be answered" if asked else "still to be measured"
        return KeyFigure(
            title="Readings", value=str(len(waiting)), rest=rest, tone="measured", where=f"reading:{waiting[0]}"
        )
    taken = sum(r.taken for r in job.readings)
    if layout.survey.verdict == "coarse":
        rest = f"agree {layout.survey.coarse:.1f} times worse than said"
        return KeyFigure(title="Readings", value=str(taken), rest=rest, mark="look", tone="look", where="step:measure")
    if not taken:
        return KeyFigure(title="Readings", value="none", rest="taken yet", tone="quiet")
    count = taken - len(unchecked.unchecked(layout))
    rest = f"taken, {'all' if count == taken else count or 'none'} checked by others"
    checked = unchecked.well_checked(job, layout) and unchecked.margins_checked(layout)
    mark: Mark = "good" if checked else "unsure"
    return KeyFigure(title="Readings", value=str(taken), rest=rest, mark=mark, tone="measured")
