"""What is to be looked at again, in the person's words: readings by what they measure, sides by bass and treble."""

import re
from typing import TYPE_CHECKING

from app import words
from geometry import units
from geometry.job import Job
from geometry.layout import Layout

if TYPE_CHECKING:
    from geometry.advice import Advice  # it brings numpy with it, which the window loads later

WEAK = 1e-3
"""A redundancy number below this tells nothing of the size of an error."""


def look_again(job: Job, layout: Layout | None) -> tuple[str, str]:
    """A heading and a sentence or two; both empty where nothing is wrong."""
    if layout is None:
        return "", ""
    survey = layout.survey
    names = survey.suspects or tuple(name for group in survey.groups for name in group)
    if not names:
        waiting = any(not r.taken and not r.struck for r in job.readings)
        open_still = survey.verdict in ("loose", "either side") and not waiting
        return ("Not settled yet", by_name(survey.why, job)) if open_still else ("", "")
    suspects = [r for r in job.readings if r.id in names]
    if survey.verdict == "misread" and len(suspects) == 1 and (said := _by_how_much(job, layout, suspects[0].id)):
        return f"Look again: {small(words.reading(suspects[0], job.hand))}", said
    return "Look again", by_name(survey.why, job)


def next_reading(job: Job, advice: "Advice") -> str:
    """What to measure next and what it is good for, in one sentence."""
    gains = []
    taken = [r for r in job.readings if r.taken]
    if advice.saddle_before is not None and advice.saddle_after is not None:
        before, after = (units.show(pm, job.unit, 2) for pm in (advice.saddle_before, advice.saddle_after))
        if before != after:
            gains.append(f"the saddle's ±{before} becomes ±{after} {job.unit}")
    if advice.checks:
        names = [words.point(name, job.hand) for name in advice.checks[:3]]
        gains.append(f"a slip at {words.joined(names)} would show")
    new = advice.reading
    again = any((r.kind, r.of, r.from_, r.fret, r.on) == (new.kind, new.of, new.from_, new.fret, new.on) for r in taken)
    said = words.reading(new, job.hand) + (", once more" if again else "")
    return f"{said}: {words.joined(gains)}." if gains else f"{said}."


def by_name(text: str, job: Job) -> str:
    """A sentence with the readings' ids put into words."""
    named = {r.id: f"“{small(words.reading(r, job.hand))}”" for r in job.readings}
    return re.sub(r"\b[A-Za-z]+\d+\b", lambda found: named.get(found[0], found[0]), text)


def _by_how_much(job: Job, layout: Layout, reading_id: str) -> str:
    """The error that the others give the reading: −v / r (W. Baarda 1968)."""
    fits = [f for f in layout.readings if f.id == reading_id and f.redundancy > WEAK]
    if not fits:
        return ""
    worst = max(fits, key=lambda f: abs(f.w or 0.0))
    error = -worst.residual / worst.redundancy
    much = f"{units.show(abs(error), job.unit)} {job.unit}"
    return f"{much} {'more' if error > 0 else 'less'} than the other readings allow. Read it again, or strike it out."


def small(text: str) -> str:
    """With a small first letter, as in the middle of a sentence."""
    return text[:1].lower() + text[1:]
