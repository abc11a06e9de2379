"""What is to be said of a tailpiece: one that pulls the bridge sideways, strings that hardly break over it, a place
that is not known or cannot be.
"""

import math
from collections.abc import Iterator

from geometry import words
from geometry.findings import Finding, look
from geometry.forces import force
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import TailPlan
from geometry.units import said, said_angle, said_pm, shows

SHALLOW, STEEP = 4.0, 20.0
"""Degrees. Strings that break less over a bridge that they alone hold let it rattle and walk; more steeply they press
a thin top or a head in (common practice, no source)."""
SLIDES = 0.1
"""A push across the neck from this part of what the strings press down with is looked at: a foot slips where it comes
to what wood bears on a finish, about 0.3 (from memory), and a blow does the rest (common practice, no source)."""
TURNS = 4.0
"""Degrees. A string that turns sideways at the saddle by more wears its notch (common practice, no source)."""
SEEN = 0.5
"""A tail that is off by less, mm, is where it belongs as well as a hand can put it (common practice, no source)."""

PINNED = look(
    "tail.pinned",
    "The strings end in the bridge, by its pin holes: there is nothing behind it for a tailpiece to hold. Take the pin "
    "holes out, or the tail.",
    "field:bridge.pins",
)


def nowhere(job: Job) -> Finding:
    """What is still to be told before the tail has a place."""
    listed = next((name for name in ("tail.left", "tail.middle", "tail.right") if name in job.points), "")
    return look(
        "tail.missing",
        f"How far the tail stands behind the {how_held(job).ridge} is not known yet: type it, or read where the outer "
        "strings end.",
        f"point:{listed}" if listed else "field:tail.behind",
    )


def before(job: Job, by: float, point: str | None) -> Finding:
    """A tail in front of the saddle, by the readings to a point of it or, where there is none, by what was typed."""
    was, mend = "read", "look at the readings to its points"
    if point is None:
        was, mend = "typed", "give a longer distance, for it must reach behind every string’s break"
    return Finding(
        grade="stop",
        code="tail.before",
        text=f"The tail was {was} {said(by, job.unit)} in front of the {how_held(job).ridge}, and a tailpiece stands "
        f"behind it: {mend}.",
        values={"mm": by},
        where="field:tail.behind" if point is None else f"point:{point}",
    )


def told_twice(behind: float, job: Job, read: float, points: tuple[str, ...]) -> Finding:
    """The tail's place given as a distance, `behind` the saddle line, and read as points `read` behind it; both mm."""
    return look(
        "tail.told_twice",
        f"Where the strings end is told twice: read as points {said(read, job.unit)} behind the "
        f"{how_held(job).ridge}, and typed as {said(behind, job.unit)}. The points are used: take out the typed "
        f"distance, or the readings to {words.joined([words.called(point, job.hand) for point in points])}.",
        "field:tail.behind",
        read=read,
        typed=behind,
    )


def under_bridge(screws: list[int]) -> Finding:
    """Screw holes of the tailpiece, by their numbers, that lie under the bridge or in front of it."""
    many = len(screws) > 1
    what = f"Screw holes {words.joined([str(n) for n in screws])}" if many else f"Screw hole {screws[0]}"
    return Finding(
        grade="stop",
        code="tail.screw_before",
        text=f"{what} of the tailpiece would lie under the bridge or in front of it, where no tailpiece reaches: look "
        f"at how far behind the strings’ end {'they are' if many else 'it is'}, and at the sign.",
        values={"count": float(len(screws))},
        where="field:tail.screws",
    )


def findings(job: Job, plan: TailPlan) -> Iterator[Finding]:
    """Where the tail belongs and how far off it stands; how the strings run over the bridge."""
    yield _place(job, plan)
    yield from _breaks(job, plan)
    if not is_off(job, plan):
        yield from _turns(job, plan)


def is_off(job: Job, plan: TailPlan) -> bool:
    """Whether it is to be moved: it hangs off by more than is known of it, and than a hand can set it or than the
    bridge bears.
    """
    if plan.off is None or abs(plan.off) <= plan.off_pm95:
        return False
    return abs(plan.off) > SEEN or _walks(job, plan)


def _walks(job: Job, plan: TailPlan) -> bool:
    """Whether a push may move the bridge, which only one does that the strings alone hold."""
    return (
        job.held == "strings"
        and plan.down is not None
        and plan.push is not None
        and abs(plan.push) > SLIDES * plan.down
    )


def _place(job: Job, plan: TailPlan) -> Finding:
    side = job.bass_or_treble("left" if plan.middle[1] > 0 else "right")
    true = (
        "there the strings’ pulls across the neck balance"
        if plan.by == "pulls"
        else "by the middle of the outer strings, for not every string’s pull is known"
    )
    values = {"across": plan.middle[1], "pm95": plan.across_pm95}
    pm = said_pm(plan.across_pm95, job.unit)
    place = f"{said_pm(plan.across_pm95, job.unit, abs(plan.middle[1]))} to the {side} of the neck centre line"
    if not shows(plan.middle[1], job.unit):
        place = f"on the neck centre line, within ±{pm}"
    belongs = f"The tail’s middle belongs {place}: {true}."
    if plan.off is None:
        return Finding(grade="good", code="tail.place", text=belongs, values=values, where="tail")
    push = plan.push or 0.0
    values |= {"off": plan.off, "off_pm95": plan.off_pm95, "push_n": push}
    if abs(plan.off) <= plan.off_pm95:
        text = f"The tail stands where the strings run true, within ±{said_pm(plan.off_pm95, job.unit)}."
        return Finding(grade="good", code="tail.true", text=text, values=values, where="tail")
    to = job.bass_or_treble("left" if plan.off > 0 else "right")
    pulls = ""
    if plan.push is not None:
        way = job.bass_or_treble("left" if push > 0 else "right")
        pulls = f", and pulls the bridge to the {way} side by {force(abs(push), job.unit, plan.push_pm95)}"
    stands = (
        f"The tail stands {said_pm(plan.off_pm95, job.unit, abs(plan.off))} to the {to} of where the strings run "
        f"true{pulls}"
    )
    if not is_off(job, plan):
        text = f"{stands}: as near as a hand can set it."
        return Finding(grade="good", code="tail.true", text=text, values=values, where="tail")
    presses = (
        f" The strings press it down with {force(plan.down or 0.0, job.unit)}: it may walk."
        if _walks(job, plan)
        else ""
    )
    text = f"{stands}.{presses} Move it, or its string holes."
    return Finding(grade="look", code="tail.off", text=text, values=values, where="tail")


def said_breaks(plan: TailPlan) -> tuple[str, str]:
    """How steeply the strings break, and the widest ±, both in whole degrees: 8 to 9, and 1. Empty where that is not
    known.
    """
    breaks = [string.breaks for string in plan.strings if string.breaks is not None]
    if not breaks:
        return "", ""
    low, high = f"{min(breaks):.0f}", f"{max(breaks):.0f}"
    wide = math.ceil(max(string.breaks_pm95 for string in plan.strings) - 1e-9)
    return low if low == high else f"{low} to {high}", f"{wide}"


def _breaks(job: Job, plan: TailPlan) -> Iterator[Finding]:
    known = [(string.breaks, string.name, string.breaks_pm95) for string in plan.strings if string.breaks is not None]
    if not known:
        return
    least, most = min(known), max(known)
    values = {"least": least[0], "most": most[0], "down_n": plan.down or 0.0}
    down = f"; together they press it down with {force(plan.down, job.unit)}" if plan.down is not None else ""
    if least[0] < SHALLOW:
        text = (
            f"{words.first_large(words.string(least[1]))} breaks over the bridge by only "
            f"{said_angle(least[0], least[2])}{down}: less than {SHALLOW:g}° {how_held(job).shallow}. Set the tail "
            "lower, or nearer."
        )
        yield Finding(grade="look", code="tail.shallow", text=text, values=values, where="field:tail.under")
    elif most[0] > STEEP:
        text = (
            f"{words.first_large(words.string(most[1]))} breaks over the bridge by "
            f"{said_angle(most[0], most[2])}{down}: more than {STEEP:g}° {how_held(job).steep}. Set the tail "
            "higher, or farther back."
        )
        yield Finding(grade="look", code="tail.steep", text=text, values=values, where="field:tail.under")
    else:
        breaks, wide = said_breaks(plan)
        text = f"The strings break over the bridge by {breaks} ±{wide}°{down}."
        yield Finding(grade="good", code="tail.breaks", text=text, values=values, where="tail")


def _turns(job: Job, plan: TailPlan) -> Iterator[Finding]:
    worst = max(plan.strings, key=lambda string: abs(string.sideways))
    if abs(worst.sideways) <= TURNS:
        return
    to = job.bass_or_treble("left" if worst.sideways > 0 else "right")
    bare = job.floating is not None and not job.floating.notched
    mend = " Cut a notch for each string, or" if bare else " Look at the tail’s spread, and"
    yield look(
        "tail.turns",
        f"{words.first_large(words.string(worst.name))} turns {abs(worst.sideways):.1f}° to the {to} at the "
        f"{how_held(job).ridge}, and more than {TURNS:g}° wears a notch and lets a string slip.{mend} set the "
        "tail farther back.",
        "field:tail.spread",
        degrees=worst.sideways,
    )
