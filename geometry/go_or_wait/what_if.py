"""The one reading or trial that would change a verdict most, worked out and not guessed: each reading that a hand could
take is weighed as the advice weighs it, and a trial saddle is tried on the job as if it had been heard. Where nobody
read or typed any height of the strings, the action that is wanted comes first: it has only to be typed.
"""

import math

import msgspec
import numpy as np

from geometry.advice import advise
from geometry.advice.candidates import numbered, usual_rule
from geometry.advice.weighing import SADDLE, Weighing
from geometry.bridge.seat_bridge import across
from geometry.go_or_wait.verdicts import Change, Step, Why, verdicts
from geometry.job import Heard, Job, Point, Reading
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, Layout, StringPlan
from geometry.neck.laid_sheet import lay_sheet
from geometry.placed.place_everything import PlacedInstrument, place_everything
from geometry.saddle.saddle_line import beyond_sheet
from geometry.spacing import CENTS
from geometry.strings.string_heights import usual_action
from geometry.survey.result import Array, Surveyed
from geometry.survey.surveying import survey

KNOWN: tuple[Why, ...] = ("stop", "accused", "aside", "proof", "after", "untold")
"""What waits for these says itself what is to be done."""
WORTH = 0.9
"""A change is named that brings a ± to this part of what it is, or to less."""


def with_changes(
    job: Job, layout: Layout, steps: tuple[Step, ...], surveyed: Surveyed | None = None
) -> tuple[Step, ...]:
    """The steps that wait with what would change them most; `surveyed` spares solving the job again."""
    if all(step.go or step.why in KNOWN for step in steps):
        return steps
    found = survey(job) if surveyed is None else surveyed
    if not found.fits:
        return steps
    seen = _Seen(job, layout, found)
    return tuple(step if step.go else msgspec.structs.replace(step, change=seen.change(step)) for step in steps)


def worked_out(job: Job, layout: Layout, surveyed: Surveyed | None = None) -> tuple[Step, ...]:
    """All verdicts, each with what would change it: for paper, and for when the hands are idle."""
    return with_changes(job, layout, verdicts(job, layout), surveyed)


class _Seen:
    """A job as it is, and as it would be with a trial saddle heard; each is looked at when it is first asked for."""

    def __init__(self, job: Job, layout: Layout, surveyed: Surveyed) -> None:
        self.job, self.layout, self.surveyed = job, layout, surveyed
        self.placed = place_everything(job, surveyed)
        self.weighing = Weighing(job, layout, self.placed)
        tried = with_trial(job, layout)
        self.tried = place_everything(tried, survey(tried)) if tried is not None else None
        wanted = with_action(job, layout)
        self.wanted = place_everything(wanted, surveyed) if wanted is not None else None

    def change(self, step: Step) -> Change | None:
        if step.why in KNOWN:
            return step.change
        if step.why == "unchecked":
            return self._check()
        if step.what in ("fit", "crown"):
            return self._heard(step)
        action = self._typed(step)
        if action is not None and step.limit is not None and (action.after or 0.0) <= step.limit:
            return action
        found = [one for one in (action, self._trial(step), self._reading(step)) if one is not None]
        return min(found, key=lambda one: one.after or 0.0, default=None)

    def _check(self) -> Change | None:
        """The reading after which a gross error in one that decides the saddle would show, or the first of several."""
        advised = advise(self.job, self.layout, self.surveyed).advice
        at_once = next((one for one in advised if SADDLE in one.checks), None)
        found = at_once or next(iter(advised), None)
        return None if found is None else Change(what="reading", reading=found.reading, checks=at_once is not None)

    def _trial(self, step: Step) -> Change | None:
        after = _pm95(self.tried, step)
        return Change(what="trial", after=after) if after <= WORTH * step.pm95 else None

    def _typed(self, step: Step) -> Change | None:
        after = _pm95(self.wanted, step)
        return Change(what="action", after=after) if after <= WORTH * step.pm95 else None

    def _reading(self, step: Step) -> Change | None:
        """Of all readings that a hand could take the one that brings the least ± (at the side where that is widest)."""
        value = _value(self.placed, step)
        if value is None or not self.weighing.readings:
            return None
        after = _after(self.weighing, self.placed, value)
        best = int(after.argmin())
        if after[best] > WORTH * step.pm95:
            return None
        reading = numbered(self.job, self.weighing.readings[best])
        return Change(what="reading", reading=reading, after=float(after[best]))

    def _heard(self, step: Step) -> Change | None:
        """What hearing the strings on a trial saddle brings to the string that is known worst."""
        if self.tried is None or self.tried.saddle is None:
            return None
        after = max(one.pm95 for one in self.tried.saddle.wanted.each)
        return Change(what="trial", after=after) if after <= WORTH * step.pm95 else None


def _pm95(placed: PlacedInstrument | None, step: Step) -> float:
    """The ± of a step on an instrument that was tried; without end where that was not, or could not be placed."""
    value = None if placed is None else _value(placed, step)
    return math.inf if placed is None or value is None else float(placed.states.pm95(value).max())


def _value(placed: PlacedInstrument, step: Step) -> Array | None:
    """What a step's ± is of, in all rows (rows, k), mm: the saddle's place, or that of the bridge's front, from where
    the sheet puts it.
    """
    if placed.saddle is None or placed.neck is None:
        return None
    seated = placed.saddle.seated
    if step.across:
        front = None if seated is None else np.array([seated.place(0.0, left) for left in (-50.0, 50.0)]).T
        return None if front is None else across(placed.neck.frame, front)
    if step.what in ("slot", "screws") or step.cents is not None or step.why == "wood":
        return beyond_sheet(placed.neck.frame, placed.saddle.line)
    front = None if seated is None else np.array([seated.place(0.0, left) for left in (-50.0, 50.0)]).T
    return None if front is None else lay_sheet(placed.neck.frame).beyond(front)


def _after(seen: Weighing, placed: PlacedInstrument, value: Array) -> Array:
    """The ± (candidates,) of a value (rows, k) after each reading that could be taken, the widest of its k."""
    slopes = np.zeros((value.shape[1], len(seen.cov)))
    held = [k for k, column in enumerate(placed.states.moved) if column < slopes.shape[1]]
    slopes[:, [placed.states.moved[k] for k in held]] = placed.states.gradient(value)[held].T
    narrowed = (slopes @ seen.carried) ** 2 / seen.after
    variance = placed.states.sd(value)[:, None] ** 2 - narrowed
    return np.asarray(TWO_SIDED_95 * np.sqrt(np.maximum(variance, 0.0)).max(axis=0))


def with_action(job: Job, layout: Layout) -> Job | None:
    """The job as it would be with the action typed that is usual for its strings; None where any height was read or
    typed, or nothing of the strings is known.
    """
    strings = job.strings
    read = any(reading.kind == "height" and reading.taken for reading in job.readings)
    if strings is None or read or strings.action is not None or strings.height is not None or not layout.strings:
        return None
    nominal = np.array([string.nominal for string in layout.strings])
    action = usual_action(strings, job.bass == "left", nominal)
    return msgspec.structs.replace(job, strings=msgspec.structs.replace(strings, action=action))


def with_trial(job: Job, layout: Layout) -> Job | None:
    """The job as it would be with a trial saddle set where the saddle is expected, its ends read from both corners of
    the nut, and every string heard an octave over its open note as the sums have it, but drones and those that have no
    such fret. None where the strings are not known.
    """
    saddle, neck = layout.saddle, layout.neck
    if saddle is None or neck is None or job.strings is None or not layout.strings or job.frets.count < 12:
        return None
    name = str(next(n for n in range(1, 1000) if f"trial.{n}.left" not in job.points))
    ends = dict(zip(SIDES, saddle.at_strings, strict=True))
    rule = usual_rule(job)
    read = [
        Reading(
            id=f"trial.{name}.{end}.{corner}",
            kind="distance",
            of=(f"nut.{corner}", f"trial.{name}.{end}"),
            value=abs(complex(*at) - complex(*neck.nut[SIDES.index(corner)])),
            with_=rule,
        )
        for end, at in ends.items()
        for corner in SIDES
    ]
    heard = tuple(
        Heard(string=one.name, trial=name, fret=_octave(one), against="open", cents=_expected(layout, i))
        for i, one in enumerate(layout.strings)
        if one.fretted and _octave(one) <= job.frets.count
    )
    points = {f"trial.{name}.{end}": Point(near=at) for end, at in ends.items()}
    return msgspec.structs.replace(
        job,
        points=job.points | points,
        readings=(*job.readings, *read),
        strings=msgspec.structs.replace(job.strings, heard=(*job.strings.heard, *heard)),
    )


def _octave(string: StringPlan) -> int:
    """The fret an octave over the open string."""
    return 12 + string.starts_at


def _expected(layout: Layout, index: int) -> float:
    """What a tuner would show an octave up on a string on a saddle laid along the saddle line, by the sums, cents."""
    string, saddle = layout.strings[index], layout.saddle
    assert saddle is not None
    (ax, ay), (bx, by) = saddle.at_strings
    x, y = string.break_point
    off = ax + (y - ay) * (bx - ax) / (by - ay) - x if ay != by else 0.0
    return min(max(string.cents.get(_octave(string), 0.0) - CENTS / string.length * off, -200.0), 200.0)
