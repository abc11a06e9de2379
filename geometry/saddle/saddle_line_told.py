"""What is to be said of the saddle line: whether it is known and checked, how it leans, which side is longer."""

from geometry import words
from geometry.findings import Finding
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import SaddlePlan
from geometry.layout.measured import GROSS
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.saddle_line import LEVEL, SaddleLine
from geometry.saddle.slot_leaning import slot_slant, told_slant, wanted_slant
from geometry.units import said

MOST_PM95 = 50.0
"""A saddle that may lie farther off than this, mm, has no place (common practice, no source)."""
LEANS = 0.4
"""A slant from which on a saddle is said to lean, mm (common practice, no source)."""


def place_unknown(states: PerturbedStates, job: Job, line: SaddleLine) -> Finding | None:
    """What is said instead of a saddle's place that is known so badly that it would mislead; None where it is not."""
    length = line.from_nut
    pm95 = float(states.pm95(length).max())
    if pm95 <= MOST_PM95:
        return None
    waits = states.waits_for(length)
    again = (
        f"read {words.several(words.readings_called(job, waits), 4)} again"
        if waits
        else "read more of the board and of the frets"
    )
    return Finding(
        grade="stop",
        code="saddle.lost",
        text=f"The {how_held(job).ridge} has no place yet: by the readings it could lie more than "
        f"{said(MOST_PM95, job.unit)} off. First {again}.",
        values={"pm95": pm95},
        where=f"reading:{waits[0]}" if waits else "step:measure",
    )


def findings(job: Job, plan: SaddlePlan) -> tuple[Finding, ...]:
    """A slot that leans the wrong way or cannot follow the line; else which side is longer."""
    leaning = (*_leans(job, plan), *_left_over(job, plan)) or _slant(job, plan)
    return (*_unsettled(job, plan), *_unchecked(job, plan), *leaning)


def _unchecked(job: Job, plan: SaddlePlan) -> tuple[Finding, ...]:
    """A saddle that no reading too many checks."""
    if plan.checked or plan.waits_for:
        return ()
    kind = how_held(job)
    whose, them = ("The saddles’ places are", "them") if kind.several else (f"The {kind.ridge}’s place is", "it")
    return (
        Finding(
            grade="look",
            code="saddle.unchecked",
            text=f"{whose} not checked: one of the readings that hold {them} could be out by {said(GROSS, job.unit)} "
            "or more, and nothing would show it. Take one more, such as a diagonal of the board or another fret.",
            where="step:measure",
        ),
    )


def _unsettled(job: Job, plan: SaddlePlan) -> tuple[Finding, ...]:
    """A saddle that hangs on readings that are accused."""
    if not plan.waits_for:
        return ()
    waits, many = words.by_layings(job, plan.waits_for), len(plan.waits_for) > 1
    return (
        Finding(
            grade="look",
            code="saddle.unsettled",
            text=f"The {how_held(job).ridge} is not settled until {words.several(waits, 4)} {'are' if many else 'is'} "
            f"read again: its ± covers the place with and without {'them' if many else 'it'}.",
            values={"pm95": max(plan.pm95)},
            where=f"reading:{plan.waits_for[0]}",
        ),
    )


def slot_leans(job: Job, plan: SaddlePlan) -> float | None:
    """How much farther a slot that comes with the bridge stands on the bass side, mm, where it leans the wrong way."""
    leaning, wanted = slot_slant(job, plan), wanted_slant(plan)
    return leaning if min(abs(leaning), abs(wanted)) > LEANS and leaning * wanted < 0 else None


def _leans(job: Job, plan: SaddlePlan) -> tuple[Finding, ...]:
    """A slot that leans the other way than the strings want, cut or moved with the bridge."""
    leaning = slot_leans(job, plan)
    if leaning is None:
        return ()
    cut_longer = "treble" if plan.longer == "bass" else "bass"
    return (
        Finding(
            grade="stop",
            code="slot.leans",
            text=f"The slot leans the wrong way for a {job.hand}-handed instrument: it stands "
            f"{said(abs(leaning), job.unit)} farther on the {cut_longer} side, and the strings want "
            f"{said(told_slant(plan, job.unit), job.unit)} more on the {plan.longer} side. "
            f"{_mended(job)}.",
            values={"slant": wanted_slant(plan), "cut": leaning},
            where="saddle",
        ),
    )


def _left_over(job: Job, plan: SaddlePlan) -> tuple[Finding, ...]:
    """How far a slot that comes with the bridge stands from the line, where a rule could see it."""
    worst = max(plan.left_over, key=abs)
    if abs(worst) < LEVEL:
        return ()
    cents = max(plan.left_over_cents, key=abs)
    what = "The slot as cut" if _is_cut(job) else "The slot that moves with the bridge"
    return (
        Finding(
            grade="look",
            code="slot.left_over",
            text=f"{what} cannot follow the saddle line: {said(abs(worst), job.unit, 2)} is left over at the outer "
            f"strings, {abs(cents):.1f} cents at fret 12 before any filing. {_mended(job, seated=True)}.",
            values={"mm": worst, "cents": cents},
            where="saddle",
        ),
    )


def _is_cut(job: Job) -> bool:
    return job.bridge is not None and job.bridge.slot_front is not None


def _mended(job: Job, *, seated: bool = False) -> str:
    """What mends a slot that comes with the bridge; `seated`: whether the bridge's seat would as well."""
    if not _is_cut(job):
        return "Let the slot stay with the strings, or move the bridge less"
    moved = job.bridge is not None and job.bridge.moved is not None
    by_seat = seated and job.bridge is not None and job.bridge.seat != "with slot"
    first = "move the bridge less, or " if moved else "seat the bridge with the slot, or " if by_seat else ""
    return words.first_large(f"{first}fill the slot and cut it anew")


def _slant(job: Job, plan: SaddlePlan) -> tuple[Finding, ...]:
    """Which side stands farther, by the strings and by the hand's left and right."""
    if plan.longer == "neither":
        return ()
    against = leans_against(job, plan)
    usual = " Most instruments want it the other way: check whether bass and treble are exchanged." if against else ""
    stands = "The saddles stand" if how_held(job).several else f"The {how_held(job).ridge} stands"
    side = job.bass if plan.longer == "bass" else ("left" if job.bass == "right" else "right")
    return (
        Finding(
            grade="look" if against else "good",
            code="saddle.slant",
            text=f"{stands} {said(told_slant(plan, job.unit), job.unit)} farther on the {plan.longer} side, the "
            f"{side} as you sight down the neck.{usual}",
            values={"slant": wanted_slant(plan)},
            where="saddle",
        ),
    )


def leans_against(job: Job, plan: SaddlePlan) -> bool:
    """Whether it leans, as far as a hand could tell, the other way than most do and than the frets are meant to."""
    return plan.longer == "treble" and plan.slant > LEANS and not job.frets.slanted
