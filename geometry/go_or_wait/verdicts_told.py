"""What may be done now and what must wait, in words: the same on the screen and on every sheet."""

from collections.abc import Sequence
from typing import assert_never

from geometry import words
from geometry.frets.fret_fit import scale_alone
from geometry.go_or_wait.steps import Change, Step, Work
from geometry.go_or_wait.still_wanted import at_most, enough, least, still_wanted, thickness_wanted, wide
from geometry.go_or_wait.verdicts import UNHEARD
from geometry.job import Job, Saddle
from geometry.job.bridges.how_held import how_held
from geometry.proof import filing
from geometry.saddle.in_pieces.pieces import is_parted
from geometry.strings.string_heights import Missing, over_frets
from geometry.units import NOTHING, with_unit
from geometry.units import said as length

DOES: dict[tuple[Work, bool], str] = {
    ("clear", True): "Clear the finish",
    ("clear", False): "Don’t clear the finish yet",
    ("glue", True): "Glue the bridge",
    ("glue", False): "Don’t glue the bridge yet",
    ("pins", True): "Drill the pin holes",
    ("pins", False): "Don’t drill the pin holes yet",
    ("slot", True): "Cut {slots}",
    ("slot", False): "Don’t cut {slots} yet",
    ("fit", True): "Fit the saddle",
    ("fit", False): "Don’t fit the saddle yet",
    ("stand", True): "Stand the bridge and tune it by ear",
    ("stand", False): "Don’t stand the bridge yet",
    ("crown", True): "Cut the crown",
    ("crown", False): "Don’t cut the crown yet",
    ("screws", True): "Drill the base’s screw holes",
    ("screws", False): "Don’t drill the base’s screw holes yet",
    ("through", True): "Drill through the body",
    ("through", False): "Don’t drill through the body yet",
}
IN_SHORT: dict[Work, str] = {
    "clear": "Finish",
    "glue": "Glue",
    "pins": "Pins",
    "slot": "Slot",
    "fit": "Saddle",
    "stand": "Bridge",
    "crown": "Crown",
    "screws": "Screws",
    "through": "Through",
}
UNTOLD: dict[Work, str] = {
    "screws": "where the screw holes are on the base is not told",
    "through": "the body’s thickness is not told",
}
"""What is still to be told before an operation."""
ALONE = {"trial": "A trial saddle alone is", "reading": "That reading alone is", "action": "These heights alone are"}
"""What was named before, and what it is not."""
NOBODY_HEARS = "Nobody hears that: players fretting the same note differ by more"
NO_FINER = "An ear sets it no finer: players fretting the same note differ by as much"


SEVERAL = "the slots"


def _slots(job: Job) -> str:
    """What is cut for the saddle: a slot, or one for each of its pieces."""
    return SEVERAL if job.saddle is not None and is_parted(job.saddle) else "the slot"


def said(job: Job, steps: tuple[Step, ...]) -> tuple[str, ...]:
    """A sentence or two a step: what, why, and what would change it."""
    return tuple(told(job, step, steps) for step in steps)


def told(job: Job, step: Step, steps: tuple[Step, ...] = ()) -> str:
    """One step in words. What would change several steps alike is said where it is said first."""
    return f"{_first(job, step, steps)}{_then(job, step, steps)}"


def _first(job: Job, step: Step, steps: tuple[Step, ...]) -> str:
    """The first sentence: what, and why."""
    cut = _slots(job)
    does = DOES[step.what, step.go].format(slots=cut)
    if step.why == "after":
        slot = step.what == "fit" and any(one.what == "slot" for one in steps)
        if slot:
            return f"{does}: {cut} wait{'' if cut == SEVERAL else 's'}."
        return f"{does}: the {'base' if step.what == 'through' else 'bridge'} waits."
    glue = next((one for one in steps if one.what == "glue"), None)
    if step.what == "clear":
        held = glue is not None and not glue.go
        return (
            f"{does}: it is bared where the bridge is glued, and that waits."
            if held
            else f"{does} where the bridge goes."
        )
    if _same_stop(step, steps):
        return f"{does}: the same STOP."
    return f"{does}: {_reason(job, step)}."


def _then(job: Job, step: Step, steps: tuple[Step, ...]) -> str:
    """The sentences after it: what can be put right afterwards, what would change it, what is to be read before."""
    if step.why == "after" or step.what == "clear" or _same_stop(step, steps):
        return ""
    known = [one for one in _earlier(step, steps) if not one.go and one.why == step.why and one.change == step.change]
    change = "" if step.go or step.change is None or known else _change(job, step, step.change)
    if not step.go and step.change is not None and known and enough(step) < enough(known[0]):
        change = f"{ALONE[step.change.what]} not enough: {still_wanted(job, step)}."
    allowed = _allowed(job, step) if step.why in ("", "wide") else ""
    return f"{allowed and f' {allowed}.'}{change and ' '}{change}{_before_it(job, step)}"


def _earlier(step: Step, steps: tuple[Step, ...]) -> list[Step]:
    """The steps that were told before it."""
    return [one for one in steps[: steps.index(step)] if one.what != "clear"] if step in steps else []


def _same_stop(step: Step, steps: tuple[Step, ...]) -> bool:
    """Whether what forbids it was told before."""
    return step.why == "stop" and any(one.stop == step.stop for one in _earlier(step, steps))


def _before_it(job: Job, step: Step) -> str:
    """What is to be read before a step that can't be undone: a slip that several readings share agrees with itself, and
    so does a scale that was typed where no fret was read.
    """
    if not step.go or step.what not in ("glue", "screws"):
        return ""
    scale = " Nothing checks the scale as typed: read fret 12 on both sides if you can." if scale_alone(job) else ""
    proof = " First read the distances to check: only they show a slip that several readings share."
    return scale + (proof if step.unread else "")


def in_short(job: Job, steps: tuple[Step, ...]) -> tuple[str, ...]:
    """Glue, pin holes and slot in a line each, for a sheet with little room: “Slot: wait, bass string ±2.2 mm.” What a
    trial makes of several is told of the first.
    """
    told = [step for step in steps if step.what in ("glue", "pins", "slot", "stand", "crown", "screws", "through")]
    trials = [_by_trial(job, step) for step in told]
    return tuple(
        f"{IN_SHORT[step.what]}: {_word(step)}, {_briefly(job, step)}{'' if any(trials[:at]) else trials[at]}."
        for at, step in enumerate(told)
    )


def _word(step: Step) -> str:
    if step.why == "stop":
        return "stop"
    return "go" if step.go else "wait"


def not_yet(job: Job, steps: Sequence[Step]) -> tuple[str, ...]:
    """A sentence for each step that waits, for a shop that knows no more of the job: not to do it yet, and why."""
    return tuple(_first(job, step, (step,)) for step in steps if not step.go)


def _briefly(job: Job, step: Step) -> str:
    if step.why == "stop":
        return "read the STOP"
    if step.why == "untold":
        return UNTOLD[step.what]
    if step.why in ("after", "proof"):
        if step.what == "through":
            return "the base waits"
        if step.what == "screws":
            return "not marked where it belongs"
        if step.why == "after":
            return "the bridge waits"
        return "changed since it was read" if step.changed else "not clamped where it belongs"
    if step.why == "aside":
        return "across the neck it is unchecked"
    if step.why in ("accused", "unchecked"):
        return "readings do not agree" if step.why == "accused" else "its readings are unchecked"
    return _pm(job, step)


def _by_trial(job: Job, step: Step) -> str:
    """What a trial makes of its ±, behind that, where it is enough; nothing where something else is told of it."""
    change = step.change
    if step.why not in ("", "wide", "wood") or change is None or change.what != "trial" or not enough(step):
        return ""
    return f"; {how_held(job).trial} makes it ±{wide(job, change.after or 0.0)}" if _narrows(job, step, change) else ""


def _narrows(job: Job, step: Step, change: Change) -> bool:
    """Whether what is told of the ± afterwards is less than what is told of it now."""
    return change.after is not None and wide(job, change.after) != wide(job, step.pm95)


def _reason(job: Job, step: Step) -> str:
    match step.why:
        case "stop":
            return f"STOP, {words.first_small(words.first_sentence(step.stop))}"
        case "unchecked":
            return f"{_known(job, step)}, but nothing checks the readings that decide the {how_held(job).ridges}"
        case "aside":
            return "nothing checks where it lies across the neck; measure the board’s width again"
        case "untold":
            return UNTOLD[step.what]
        case "accused":
            return f"{_known(job, step)}, but readings do not agree"
        case "proof":
            if step.changed:
                return "the layout was changed since its distances were read; lay the new sheet, and read them again"
            if step.what == "screws":
                return "by the distances read the base is marked where it does not belong"
            return "by the distances read before the glue it is clamped where it does not belong"
        case "wood":
            left, moved = length(step.wood or 0.0, job.unit), wide(job, step.pm95)
            return f"{_slots(job)} may still move by {moved}, and {left} of wood lies between it and the pin holes"
        case "" | "wide" | "after":
            return f"{_known(job, step)}{_close_enough(job, step)}"
        case _:
            assert_never(step.why)


def _pm(job: Job, step: Step) -> str:
    """Its ± in few words, with the side or the strings where they are told: none of what is typed."""
    if step.pm95 < NOTHING:
        return "no ± of its own"
    side = f"{_side(job, step)} " if step.side else ""
    if _by_strings(step):
        most = "up to " if len(step.strings) > 1 and step.what != "screws" else ""
        side = f"{words.strings(step.strings)} {most}"
    return f"{side}{_plus_minus(job, step)}"


def _known(job: Job, step: Step) -> str:
    """The same as a sentence: how well the place is known of what is cut, drilled, glued or filed."""
    holes = step.what in ("pins", "through")
    place = "the holes’ place" if holes else "its place"
    if step.pm95 < NOTHING:
        return f"{place} has no ± of its own"
    if _by_strings(step):
        several = len(step.strings) > 1
        place = f"where {words.strings(step.strings)} break{'' if several else 's'}"
        return f"{place} is known to {_plus_minus(job, step)}{' or better' if several else ''}"
    if step.what == "fit":
        return f"each string’s place on it is known to {_plus_minus(job, step)}"
    if step.side is not None and step.cents is not None:
        return f"the {_side(job, step)}’s place is known to {_plus_minus(job, step)}"
    side = f" at {_side(job, step)}" if step.side else ""
    return f"{place}{side} is known to {_plus_minus(job, step)}"


def _side(job: Job, step: Step) -> str:
    """Where along the step its ± is told: what is told in cents, where that side's outer string breaks."""
    side = job.bass_or_treble(step.side or "left")
    return side if step.cents is None else f"{side} string"


def _by_strings(step: Step) -> bool:
    """Whether the ± is that of some strings."""
    return bool(step.strings) and step.what in ("fit", "crown", "screws")


def _plus_minus(job: Job, step: Step) -> str:
    """The ± with its cents; no cents beside a ± that they do not belong to."""
    cents = f" ({step.cents:.1f} cents)" if step.cents is not None else ""
    across = " across the neck" if step.across else ""
    under = "under " if cents and step.pm95 < least(job) / 2 else ""
    return f"{under}±{wide(job, step.pm95)}{across}{cents}"


def _close_enough(job: Job, step: Step) -> str:
    """What is allowed, where nothing can be put right afterwards."""
    if step.what == "pins" or step.across:
        return f"; ±{at_most(job, step.limit)} {'is' if step.go else 'would be'} close enough"
    return "; they follow the base" if step.what == "through" else ""


def _allowed(job: Job, step: Step) -> str:
    """What can still be put right afterwards, without the full stop behind it."""
    if step.across or step.what in ("pins", "through", "fit", "crown"):
        return ""
    if step.what == "glue" and step.cents is None:
        return f"{words.first_large(_slots(job))}, cut later, {_moved(step, at_most(job, step.limit))}"
    if step.what == "screws":
        left = step.takes_up or 0.0
        far = length(left, job.unit) if step.go else at_most(job, left)  # what is enough is told as its reach is
        moved = _moved(step, far) if left >= least(job) else "cannot be moved to make up for that"
        return f"Its saddle {moved}"
    if step.what == "stand":
        return "Slide it for the rest, until the octave is true at fret 12"
    saddle = job.saddle or Saddle()
    fileable = filing.takes_up(saddle) if step.takes_up is None else step.takes_up
    if step.go and step.pm95 > fileable:
        return NO_FINER if (step.cents or 0.0) > UNHEARD else NOBODY_HEARS
    at = f"At {words.strings(step.strings)} the" if step.strings else "The"
    saddle_so_thick = f"{at} {with_unit(saddle.thickness)} saddle"
    if fileable >= least(job):
        for_that = " to make up for that" if step.go else " only"
        so_much = f"{saddle_so_thick} can be filed by ±{at_most(job, fileable)}{for_that}"
    else:
        so_much = f"{saddle_so_thick} is too thin to make up for that by filing"
    thicker = None
    if not step.go and step.spread is not None and not job.carries_slot:
        thicker = filing.thick_enough(step.pm95, saddle, step.spread)
    if thicker is None or step.spread is None:
        return so_much
    room = at_most(job, filing.spread_room(thicker, saddle.peak_at, step.spread))
    return f"{so_much}. A saddle {length(thicker, job.unit, 0)} thick could be filed by ±{room}"


def _moved(step: Step, by: str) -> str:
    """How far something can still be moved afterwards, which is enough or not."""
    return f"can still be moved by ±{by} to make up for that" if step.go else f"can be moved by ±{by} only"


def _change(job: Job, step: Step, change: Change) -> str:
    """What would change the verdict, in a sentence; none of what would narrow a ± by less than is told of it."""
    if change.what == "again":
        return f"First read {words.joined(words.readings_called(job, change.again))} again."
    if change.what == "nothing":
        thicker = change.thicker and thickness_wanted(job, step) is not None  # which the verdict tells
        judge = "" if thicker else " Whether that is good enough is yours to judge."
        return f"No reading and no trial saddle brings it down much.{judge}"
    check = "would check them" if change.checks else "is the first of those that would check them"
    if change.after is not None and not _narrows(job, step, change):
        return ""
    still = still_wanted(job, step)
    down = "" if change.after is None else f"brings the ± down to {wide(job, change.after)}"
    brings = "; ".join(filter(None, (down, still))) if down else check
    if change.what == "action":
        return f"Read {_heights(job, change.missing)}, or with the strings off type what is wanted: that {brings}."
    if change.reading is None:
        return f"{words.first_large(how_held(job).trial)} {brings}."
    more = " once more" if any(one.of_what == change.reading.of_what for one in job.readings) else ""
    return f"Reading {words.quoted(words.reading_inside(change.reading, job.hand))}{more} {brings}."


def _heights(job: Job, missing: tuple[Missing, ...]) -> str:
    """The heights of the strings that nobody read or typed."""
    if len(missing) == (2 if job.board.zero_fret else 4):
        return f"the strings’ height over {'fret 12' if job.board.zero_fret else 'frets 1 and 12'}"
    return f"the string’s height{'s' if len(missing) > 1 else ''} over {over_frets(missing, job.bass)}"


def strip_words(steps: tuple[Step, ...]) -> tuple[str, ...]:
    """In a few words each, what waits first: “Slot: wait”, “Glue: go”; of a bridge with its slot, glue and saddle."""
    shown = [step for step in steps if step.what in ("glue", "slot", "stand", "crown", "screws", "through")]
    if len(shown) == 1:
        shown += [step for step in steps if step.what == "fit"]
    shown.sort(key=lambda step: step.go)
    return tuple(f"{IN_SHORT[step.what]}: {_word(step)}" for step in shown)
