"""What the person should know of braces and plate: what would be cut, what comes too near to tell, what is clear.

A pin hole through a brace weakens what holds the top, and so does a slot that goes through the bridge. A pin must go
through the plate, for the string's ball end bears on it (common practice, no source).
"""

from collections.abc import Iterator, Sequence

from geometry import words
from geometry.findings import Finding, Grade
from geometry.job import Job
from geometry.layout import Consequences, Gap
from geometry.units import mm, said, said_pm


def findings(job: Job, found: Consequences) -> Iterator[Finding]:
    """One finding for the braces, one for the plate."""
    pins = [gap for gap in found.gaps if gap.new != "slot"]
    braces = [gap for gap in pins if gap.old.startswith("brace:")]
    if braces:
        yield _brace(job, min(braces, key=lambda gap: gap.mm - gap.pm95))
    slot = [gap for gap in found.gaps if gap.new == "slot" and gap.old.startswith("brace:")]
    if slot:
        yield from _slot(job, slot)
    plate = [gap for gap in pins if gap.old == "plate"]
    if plate:
        yield _plate(job, min(plate, key=lambda gap: gap.mm - gap.pm95))


def _brace(job: Job, gap: Gap) -> Finding:
    brace, pin, near = words.brace(gap.old.removeprefix("brace:")), _pin(gap), said_pm(gap.pm95, job.unit, gap.mm)
    into = said_pm(gap.pm95, job.unit, -gap.mm)
    return _judged(
        gap,
        "brace.pin",
        stop=f"{pin} runs {into} into {brace}. Move the pins or the bridge.",
        look=f"{pin} clears {brace} by {near}: too little to be sure. Look inside with a mirror, or drill a fine hole "
        "first.",
        good=f"The new pin holes clear the braces by {near} or more.",
    )


def _judged(gap: Gap, code: str, *, stop: str, look: str, good: str) -> Finding:
    """One of three sentences: the gap is none, less than its ±, or more."""
    grade: Grade
    grade, text = ("stop", stop) if gap.mm <= 0 else ("look", look) if gap.mm < gap.pm95 else ("good", good)
    return Finding(grade=grade, code=code, text=text, values={"mm": gap.mm, "pm95": gap.pm95}, where="bridge")


def _slot(job: Job, gaps: Sequence[Gap]) -> Iterator[Finding]:
    """The slot over a brace matters where it goes through the bridge into the top."""
    worst = min(gaps, key=lambda gap: gap.mm - gap.pm95)
    deep = through(job)
    if worst.mm >= worst.pm95 or deep is False:
        return
    brace = words.brace(worst.old.removeprefix("brace:"))
    values = {"mm": worst.mm, "pm95": worst.pm95}
    if deep and worst.mm <= 0:
        text = f"The slot goes through the bridge and runs into {brace}. Cut it less deep, or move the bridge."
        yield Finding(grade="stop", code="brace.slot", text=text, values=values, where="slot")
        return
    lies = "lies over" if worst.mm <= 0 else "comes too near to be sure to"
    text = f"The slot {lies} {brace}: it must not go through the bridge. Type the slot’s depth and the thickness there."
    yield Finding(grade="look", code="brace.slot", text=text, values=values, where="field:saddle.slot_depth")


def through(job: Job) -> bool | None:
    """Whether the slot goes through the bridge into the top; None where its depth or the thickness is not known."""
    deep = job.saddle.slot_depth if job.saddle is not None else None
    thick = [mm(one) for one in (job.bridge.thicknesses if job.bridge is not None else ()) if one is not None]
    return None if deep is None or not thick else mm(deep) >= min(thick)


def _plate(job: Job, gap: Gap) -> Finding:
    pin, inside = _pin(gap), said_pm(gap.pm95, job.unit, gap.mm)
    return _judged(
        gap,
        "plate.pin",
        stop=f"{pin} reaches {said(-gap.mm, job.unit)} past the plate’s edge: the ball end of its string would bear on "
        "the bare top. Make the plate larger, or move the pins.",
        look=f"{pin} lies {inside} inside the plate’s edge: too little to be sure. Look inside with a mirror.",
        good=f"All new pin holes go through the plate, {inside} inside its edge or more.",
    )


def _pin(gap: Gap) -> str:
    return f"The new pin hole of {words.string(gap.new.removeprefix('pin:'))}"
