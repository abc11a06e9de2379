"""The one reading or trial that would change a verdict most, worked out and not guessed: each reading that a hand could
take is weighed as the advice weighs it, and a trial saddle is tried on the job as if it had been heard. The cheapest
that is enough comes first: the strings' heights that nobody read or typed, for the action that is wanted has only to
be typed; then a reading; then a trial saddle.
"""

import math
from collections.abc import Sequence
from typing import Literal

import msgspec
import numpy as np

from geometry.advice import advise
from geometry.advice.candidates import numbered, usual_rule
from geometry.advice.weighing import SADDLE, Weighing
from geometry.bridge.bridge_outline import corners
from geometry.bridge.seat_bridge import across
from geometry.go_or_wait.steps import Change, Step, Why
from geometry.go_or_wait.still_wanted import thickness_wanted
from geometry.go_or_wait.verdicts import HEARD, asking, verdicts
from geometry.job import Action, Bridge, Heard, Job, Point, Reading, Saddle
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, Layout, StringPlan
from geometry.neck.laid_sheet import lay_sheet
from geometry.placed.place_everything import PlacedInstrument, place_everything
from geometry.saddle.saddle_line import beyond_sheet
from geometry.spacing import CENTS
from geometry.strings.string_heights import FRETS, Fret, Missing, usual_action
from geometry.survey.result import Array, Surveyed
from geometry.survey.surveying import survey
from geometry.units import Length
from geometry.work_out import lay_out

KNOWN: tuple[Why, ...] = ("stop", "accused", "aside", "proof", "after", "untold")
"""What waits for these says itself what is to be done."""
Tried = Literal["action", "trial"]
WORTH = 0.9
"""A change is named that brings a ± to this part of what it is, or to less."""
FRONT = (0.0, -50.0), (0.0, 50.0)
"""Where a bridge without corners of its own is looked at, in its own frame, mm."""
ALIKE = 0.01
"""Two ± are of one thing where they differ by this part at most."""


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
    return tuple(step if step.go else seen.changed(step) for step in steps)


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
        wanted = with_action(job, layout, self.placed)
        self.wanted = place_everything(wanted, surveyed) if wanted is not None else None
        self._stopped: dict[float, bool] = {}

    def changed(self, step: Step) -> Step:
        """The step with what would change it; a saddle so thick as makes up for what is left is tried as well."""
        step = msgspec.structs.replace(step, change=self.change(step) or self._nothing(step))
        thick = thickness_wanted(self.job, step)
        if step.change is None or thick is None or not self._stops(thick):
            return step
        return msgspec.structs.replace(step, change=msgspec.structs.replace(step.change, thicker=False))

    def _stops(self, thickness: float) -> bool:
        """Whether the slot of a saddle so thick (mm) brings a stop that the present one does not: it has no wood."""
        if thickness not in self._stopped:
            saddle = msgspec.structs.replace(self.job.saddle or Saddle(), thickness=thickness)
            tried = lay_out(msgspec.structs.replace(self.job, saddle=saddle), self.surveyed)
            before = {finding.code for finding in self.layout.findings if finding.grade == "stop"}
            self._stopped[thickness] = any(f.grade == "stop" and f.code not in before for f in tried.findings)
        return self._stopped[thickness]

    def change(self, step: Step) -> Change | None:
        if step.why in KNOWN:
            return step.change
        if step.why == "unchecked":
            return self._check()
        if step.what in ("fit", "crown"):
            action, reading = self._fitted(step, "action", self.wanted), None
            trial = self._fitted(step, "trial", self.tried)
        else:
            action, reading = self._placed(step, "action", self.wanted), self._reading(step)
            trial = self._placed(step, "trial", self.tried)
        return _cheapest([one for one in (action, reading, trial) if one is not None], step.limit)

    def _nothing(self, step: Step) -> Change | None:
        """That nothing changes what is cut or filed for the saddle, which then is no more to wait for."""
        told = step.why == "wide" and step.what in ("slot", "fit") and not step.across
        return Change(what="nothing", after=step.pm95) if told else None

    def _check(self) -> Change | None:
        """The reading after which a gross error in one that decides the saddle would show, or the first of several."""
        advised = advise(self.job, self.layout, self.surveyed).advice
        at_once = next((one for one in advised if SADDLE in one.checks), None)
        found = at_once or next(iter(advised), None)
        return None if found is None else Change(what="reading", reading=found.reading, checks=at_once is not None)

    def _own(self, step: Step) -> Array | None:
        """What the step's ± is of; None where that is of something else than the places known here, for nothing could
        then be promised of it.
        """
        value = _value(self.placed, step, self.job.bridge)
        if value is None or not np.isclose(self.placed.states.pm95(value), step.pm95, rtol=ALIKE).any():
            return None
        return value

    def _placed(self, step: Step, what: Tried, as_tried: PlacedInstrument | None) -> Change | None:
        """What it brings to a step's place."""
        after = math.inf if self._own(step) is None else _pm95(as_tried, step, self.job.bridge)
        return self._worth(step, what, after)

    def _reading(self, step: Step) -> Change | None:
        """Of all readings that a hand could take the one that brings the least ± (at the side where that is widest)."""
        value = self._own(step)
        if value is None or not self.weighing.readings:
            return None
        after = _after(self.weighing, self.placed, value)
        best = int(after.argmin())
        if after[best] > WORTH * step.pm95:
            return None
        reading = numbered(self.job, self.weighing.readings[best])
        return Change(what="reading", reading=reading, after=float(after[best]))

    def _fitted(self, step: Step, what: Tried, as_tried: PlacedInstrument | None) -> Change | None:
        """What it brings to the string that is known worst."""
        if as_tried is None or as_tried.saddle is None:
            return None
        return self._worth(step, what, max(one.pm95 for one in as_tried.saddle.wanted.each))

    def _worth(self, step: Step, what: Tried, after: float) -> Change | None:
        """What is tried as a change, where it brings enough to be named."""
        missing = _missing(self.placed) if what == "action" else ()
        limit = self._heard_limit(step) if what == "trial" else None
        return Change(what=what, missing=missing, after=after, limit=limit) if after <= WORTH * step.pm95 else None

    def _heard_limit(self, step: Step) -> float | None:
        """What is allowed once every string was heard, by the shortest of them; None where that is no more than now."""
        if step.what not in ("slot", "fit", "crown") and not (step.what == "glue" and step.cents is not None):
            return None
        heard = HEARD * min(string.length for string in asking(self.layout)) / CENTS
        return heard if heard > step.limit else None


def _cheapest(found: Sequence[Change], limit: float) -> Change | None:
    """Of changes, the cheapest first, the first that is enough, else the first that brings nearly the most."""
    least = min((one.after or 0.0 for one in found), default=0.0)
    nearly = least / WORTH
    return next((one for one in found if (one.after or 0.0) <= max(one.limit or limit, nearly)), None)


def _pm95(placed: PlacedInstrument | None, step: Step, bridge: Bridge | None) -> float:
    """The ± of a step on an instrument that was tried; without end where that was not, or could not be placed."""
    value = None if placed is None else _value(placed, step, bridge)
    return math.inf if placed is None or value is None else float(placed.states.pm95(value).max())


def _value(placed: PlacedInstrument, step: Step, bridge: Bridge | None) -> Array | None:
    """What a step's ± is of, in all rows (rows, k), mm: the place of the saddle, of the pin holes or of the bridge's
    front corners, from where the sheet puts it; across the neck of all corners. None where nothing of it has a place.
    """
    if placed.saddle is None or placed.neck is None:
        return None
    frame, saddle, seated = placed.neck.frame, placed.saddle, placed.saddle.seated
    if not step.across and (step.what in ("slot", "screws") or step.cents is not None or step.why == "wood"):
        return beyond_sheet(frame, saddle.line)
    if step.what == "pins":
        places = saddle.pins
    else:
        of_it = FRONT if bridge is None else corners(bridge) if step.across else corners(bridge)[:2]
        places = None if seated is None else np.array([seated.place(*corner) for corner in of_it]).T
    if places is None:
        return None
    return across(frame, places) if step.across else lay_sheet(frame).beyond(places)


def _after(seen: Weighing, placed: PlacedInstrument, value: Array) -> Array:
    """The ± (candidates,) of a value (rows, k) after each reading that could be taken, the widest of its k."""
    slopes = np.zeros((value.shape[1], len(seen.cov)))
    held = [k for k, column in enumerate(placed.states.moved) if column < slopes.shape[1]]
    slopes[:, [placed.states.moved[k] for k in held]] = placed.states.gradient(value)[held].T
    narrowed = (slopes @ seen.carried) ** 2 / seen.after
    variance = placed.states.sd(value)[:, None] ** 2 - narrowed
    return np.asarray(TWO_SIDED_95 * np.sqrt(np.maximum(variance, 0.0)).max(axis=0))


def with_action(job: Job, layout: Layout, placed: PlacedInstrument) -> Job | None:
    """The job as it would be with the strings' heights typed that are missing, as they are usual for its strings; None
    where none is, or nothing of the strings is known.
    """
    strings, missing = job.strings, _missing(placed)
    if strings is None or not missing or not layout.strings:
        return None
    nominal = np.array([string.nominal for string in layout.strings])
    usual, typed = usual_action(strings, job.bass == "left", nominal), strings.action or Action()
    pairs = {"fret 1": (usual.fret1, typed.fret1), "fret 12": (usual.fret12, typed.fret12)}

    def height(fret: Fret, at: int) -> Length | None:
        theirs, own = pairs[fret]
        return theirs[at] if (fret, SIDES[at]) in missing else own[at]

    over = {fret: (height(fret, 0), height(fret, 1)) for fret in FRETS}
    action = Action(fret1=over["fret 1"], fret12=over["fret 12"])
    return msgspec.structs.replace(job, strings=msgspec.structs.replace(strings, action=action))


def _missing(placed: PlacedInstrument) -> tuple[Missing, ...]:
    """The strings' heights that nobody read or typed."""
    return () if placed.saddle is None else placed.saddle.wanted.ready.missing


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
