"""What is worked out of a floating bridge and of a tail, as rows of the job sheet: a name, a value, its ±, and what is
said of it.
"""

from export.drills import nearest_inch, nearest_metric
from export.templates.written.moved_told import moved, turned
from geometry import words
from geometry.floating.sliding import slide_told, told_at
from geometry.floating.stands_told import is_in_place
from geometry.forces import force
from geometry.job import Job
from geometry.layout import FloatingPlan, Layout, TailPlan
from geometry.tail.tail_told import said_breaks
from geometry.units import show, show_pm, shows

Rows = list[list[str]]
ALONG = ("toward the tail", "toward the nut")
"""The ways along the neck, of what is positive and of what is negative."""


def rows(job: Job, layout: Layout) -> Rows:
    """How far the bridge may be slid and turned and what that does; where the tail belongs and how it hangs."""
    standing = _standing(job, layout.floating) if layout.floating is not None else []
    today = layout.floating.today if layout.floating is not None else None
    if today is not None and is_in_place(layout):
        pm = show_pm(max(today.along_pm95), job.unit)
        standing = [["Where the bridge stands", "", pm, "where it belongs, as well as that is known"], *standing]
    return standing + (_tail(job, layout.tail) if layout.tail is not None else [])


def _standing(job: Job, plan: FloatingPlan) -> Rows:
    bass = 0 if job.bass == "left" else 1
    found = [
        [f"Feet, {side} end", "", show_pm(plan.window[at], job.unit), "the window to slide it in, along the neck"]
        for side, at in (("bass", bass), ("treble", 1 - bass))
    ]
    at_feet = f"±{show_pm(plan.feet_pm95, job.unit)} {job.unit} at its outer feet"
    if plan.turns and job.strings is not None and len(job.strings.list) > 1:
        found.append(["It may be turned by", "", f"{plan.turn_pm95:.1f}°", at_feet])
    slide = slide_told(job.unit, plan.cents_per_mm.values())
    if slide is not None:
        found.append(
            [f"A slide of {slide[0]}", f"{slide[1]} cents", "", f"at {told_at(job, plan)}, flatter toward the tail"]
        )
    return found


def moved_rows(job: Job, plan: FloatingPlan) -> Rows:
    """From where the bridge stands today to where it belongs: a name, how far, which way."""
    today, bass = plan.today, 0 if job.bass == "left" else 1
    if today is None:
        return []
    rows = [
        moved(f"Its {side} foot, along the neck", today.along[at], today.along_pm95[at], job.unit, ALONG)
        for side, at in (("bass", bass), ("treble", 1 - bass))
    ]
    sides = (f"to the {job.bass_or_treble('left')} side", f"to the {job.bass_or_treble('right')} side")
    across = moved("Across the neck", today.across, today.across_pm95, job.unit, sides)
    return [*rows, across, turned(today.turn, today.turn_pm95)]


def _tail(job: Job, tail: TailPlan) -> Rows:
    side = job.bass_or_treble("left" if tail.middle[1] > 0 else "right")
    place = f"{show(abs(tail.middle[1]), job.unit, 1)} {job.unit}"
    by = "the pulls balance" if tail.by == "pulls" else "the outer strings’ middle carried on"
    lies = f"to the {side} of the centre line" if shows(tail.middle[1], job.unit) else "on the centre line"
    found = [["Tail’s middle belongs", place, show_pm(tail.across_pm95, job.unit), f"{lies}; {by}"]]
    if tail.off is not None:
        to = job.bass_or_treble("left" if tail.off > 0 else "right")
        off = f"{show(abs(tail.off), job.unit, 1)} {job.unit}"
        push = "" if tail.push is None else f"; pulls the bridge with {force(abs(tail.push), job.unit, tail.push_pm95)}"
        found.append(["The tail hangs off by", off, show_pm(tail.off_pm95, job.unit), f"to the {to}{push}"])
    breaks, wide = said_breaks(tail)
    if breaks:
        down = "" if tail.down is None else f"presses the bridge down with {force(tail.down, job.unit)}"
        found.append(["Strings break over it by", f"{breaks}°", wide, down])
    return found


def tail_holes(job: Job, tail: TailPlan) -> Rows:
    """The tailpiece's screw holes and the strap pin's, as the table of holes has them."""
    found = []
    for hole in (*tail.screws, *((tail.pin,) if tail.pin is not None else ())):
        metric, inch = nearest_metric(hole.diameter), nearest_inch(hole.diameter)
        size = f"{show(hole.diameter, job.unit, 1)} {job.unit}"
        own = hole in tail.screws
        name, place = (f"Tail, {hole.name}", "") if own else (words.first_large(hole.name), "into the body’s end")
        found.append([name, "1", size, metric.name, f"{inch.name} ({inch.diameter:.2f} mm)", place])
    return found
