"""What is to be looked at again, and what to measure next."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from msgspec import structs

from geometry import units, words
from geometry.job import Job, Reading
from geometry.job.bridges.how_held import how_held
from geometry.layout import Layout, accused_in_order

if TYPE_CHECKING:
    from geometry.advice import Advice  # it brings numpy with it, which the window loads later


HEIGHTS = (
    "The strings’ height over frets 1 and 12, on both sides: it is assumed, and the saddle’s ± narrows with it. Where "
    "the strings are off, type the action that is wanted on the Strings card."
)
"""What is said where no reading of a place is worth taking, and heights are missing."""


class LookAgain(NamedTuple):
    """What is to be looked at again: a heading and a sentence or two, the same `in_few_words`, and the `readings` that
    these speak of, in their order: what can be done beside the words is done to these, and to no others. `coarse`: all
    were read more coarsely than was said, and none is named. All empty where nothing is wrong.
    """

    head: str = ""
    body: str = ""
    in_few_words: str = ""
    readings: tuple[str, ...] = ()
    coarse: bool = False


class MeasureNext(NamedTuple):
    """What to measure next and why, and that reading, as it is `named`; where none is worth it why not."""

    said: str = ""
    reading: Reading | None = None
    named: str = ""


def look_again(job: Job, layout: Layout | None) -> LookAgain:
    """What is wrong comes before what only waits for another reading."""
    if layout is None:
        return LookAgain()
    survey = layout.survey
    names = accused_in_order(survey)
    why = structs.replace(survey.why, of=None, what=words.first_large(survey.why.what))  # the heading says of which
    few = f"{why.counted or why.what}."
    if not names and survey.verdict == "coarse":
        return LookAgain("Read more coarsely than was said", why.whole, few, coarse=True)
    if not names:
        waiting = any(not r.taken and not r.struck for r in job.readings)
        open_still = survey.verdict in ("loose", "either side") and not waiting
        return LookAgain("Not settled yet", why.whole, few) if open_still else LookAgain()
    first = next(r for r in job.readings if r.id == names[0])
    head = f"Look again: {words.reading_headed(job, first)}" if survey.why.of else "Look again"
    return LookAgain(head, why.whole, few, names)


def measure_next(job: Job, layout: Layout) -> MeasureNext:
    """What to measure next; nothing while the list waits."""
    if not job.readings or any(not r.taken and not r.struck for r in job.readings):
        return MeasureNext()  # the list itself says what is next
    from geometry.advice import advise

    found = advise(job, layout)
    if found.advice:
        best = found.advice[0]
        return MeasureNext(next_reading(job, best, layout), best.reading, _named(job, best.reading))
    if look_again(job, layout).head:
        return MeasureNext()  # it is not said twice
    assumed = any(finding.code == "heights.assumed" for finding in layout.findings)
    return MeasureNext(HEIGHTS if assumed else found.enough)


def next_reading(job: Job, advice: "Advice", layout: Layout | None = None) -> str:
    """What to measure next and what it is good for, in one sentence; while the saddle waits for a reading to be looked
    at again, nothing is promised of its ±.
    """
    gains = [*_surer(job, advice, layout), *_shows(job, advice)]
    said = _named(job, advice.reading)
    return f"{said}: {words.joined(gains)}." if gains else f"{said}."


def _named(job: Job, new: Reading) -> str:
    """A reading to take, as the table would have it, and whether it was taken before."""
    again = any(r.of_what == new.of_what for r in job.readings if r.taken)
    return words.reading(new, job.hand) + (", once more" if again else "")


def _surer(job: Job, advice: "Advice", layout: Layout | None) -> Iterator[str]:
    """What it does to the saddle's ±: from what to what, or where that is less than shows, by which part."""
    if advice.saddle_before is None or advice.saddle_after is None:
        return
    ridge, side = how_held(job).ridge, job.bass_or_treble(advice.side or job.bass)
    if layout is not None and layout.saddle is not None and layout.saddle.waits_for:
        yield f"the {ridge}’s place at {side} would be surer"
        return
    before, after = (units.show_pm(pm, job.unit) for pm in (advice.saddle_before, advice.saddle_after))
    becomes = f"{after} {job.unit}" if before != after else ""
    part = f"{1 - advice.saddle_after / advice.saddle_before:.0%}".replace("%", " %")
    yield f"the {ridge}’s ±{before} at {side} becomes {f'±{becomes}' if becomes else f'{part} narrower'}"


def _shows(job: Job, advice: "Advice") -> Iterator[str]:
    """Where a slip would show that does not now: at which points, else in which readings."""
    names = [words.called(name, job.hand) for name in advice.checks[:3]]
    names = names or words.readings_called(job, advice.shows[:3])
    if names:
        yield f"it would show a slip {'at' if advice.checks else 'in'} {words.joined(names)}"
