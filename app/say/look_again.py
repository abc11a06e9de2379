"""What is to be looked at again, and what to measure next."""

from typing import TYPE_CHECKING

from geometry import units, words
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout, accused_in_order

if TYPE_CHECKING:
    from geometry.advice import Advice  # it brings numpy with it, which the window loads later


def look_again(job: Job, layout: Layout | None) -> tuple[str, str]:
    """A heading and a sentence or two; both empty where nothing is wrong."""
    if layout is None:
        return "", ""
    survey = layout.survey
    names = accused_in_order(survey)
    if not names and survey.verdict == "coarse":
        return "Read more coarsely than was said", survey.why
    if not names:
        waiting = any(not r.taken and not r.struck for r in job.readings)
        open_still = survey.verdict in ("loose", "either side") and not waiting
        return ("Not settled yet", survey.why) if open_still else ("", "")
    first = next(r for r in job.readings if r.id == names[0])
    called = words.reading_called(job, first)
    if survey.verdict == "misread" and survey.why.startswith(f"{called}: "):
        why = survey.why.removeprefix(f"{called}: ")
        return f"Look again: {words.reading_inside(first, job.hand)}", words.first_large(why)
    return "Look again", survey.why


def next_reading(job: Job, advice: "Advice", layout: Layout | None = None) -> str:
    """What to measure next and what it is good for, in one sentence; while the saddle waits for a reading to be looked
    at again, nothing is promised of its ±.
    """
    gains = []
    taken = [r for r in job.readings if r.taken]
    waits = layout is not None and layout.saddle is not None and layout.saddle.waits_for
    if advice.saddle_before is not None and advice.saddle_after is not None and not waits:
        before, after = (units.show_pm(pm, job.unit) for pm in (advice.saddle_before, advice.saddle_after))
        side = job.bass_or_treble(advice.side or job.bass)
        if before != after:
            gains.append(f"the {how_held(job).ridge}’s ±{before} at {side} becomes ±{after} {job.unit}")
    if advice.checks:
        names = [words.called(name, job.hand) for name in advice.checks[:3]]
        gains.append(f"it would show a slip at {words.joined(names)}")
    new = advice.reading
    again = any((r.kind, r.of, r.from_, r.fret, r.on) == (new.kind, new.of, new.from_, new.fret, new.on) for r in taken)
    said = words.reading(new, job.hand) + (", once more" if again else "")
    return f"{said}: {words.joined(gains)}." if gains else f"{said}."
