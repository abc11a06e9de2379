"""The worked example's ten steps: what is said, the card it is said on, what it points at, and what the hand does.

A step that waits for the hand goes on by itself once it is done; one that only shows something has a button for it.
"""

from collections.abc import Callable
from typing import NamedTuple

from geometry import words
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import mm

READ = 8
"""So many looks in a row at one dot, about a second, are enough to read what stands beside it."""
NEAR = 1.0
"""A value this near to what the others say, mm, is the reading taken again."""


class Seen(NamedTuple):
    """What the hand can have changed: the job and its layout, the open card, the reading in hand, the plan's scale,
    and how often in a row the pointer was found on one dot of the plan.
    """

    job: Job
    layout: Layout | None
    card: str
    reading: str
    scale: float
    stayed: int


class TourStep(NamedTuple):
    """`says` tells what to do, out of what is seen as the step begins. `points_at`: `row`, `plan`, `step:Strings`,
    `figure:slot` of the strip, `named:Seated` of the open card, or nothing. `done`: whether the hand did it, from what
    was seen at the beginning and what is seen now; None where there is nothing to do.
    """

    says: Callable[[Seen], str]
    card: str
    points_at: str = ""
    done: Callable[[Seen, Seen], bool] | None = None


def _suspect(seen: Seen) -> str:
    """The id of the accused reading; empty while there is none."""
    suspects = seen.layout.survey.suspects if seen.layout is not None else ()
    return suspects[0] if suspects else ""


def read_again(seen: Seen) -> str:
    """What a rule with half millimetres shows for the accused reading: what the others say of it."""
    layout, suspect = seen.layout, _suspect(seen)
    if layout is None or not suspect:
        return ""
    fit = next(fit for fit in layout.readings if fit.id == suspect)
    off = fit.w * fit.sigma / fit.redundancy**0.5 if fit.w else fit.residual
    return f"{round(2 * (fit.value + off)) / 2:g}"


def _called(seen: Seen) -> str:
    suspect = _suspect(seen)
    found = next((reading for reading in seen.job.readings if reading.id == suspect), None)
    return words.reading(found, seen.job.hand) if found is not None else "the reading with the triangle"


def _said(text: str) -> Callable[[Seen], str]:
    return lambda _seen: text


def _typed_again(before: Seen, now: Seen) -> bool:
    """Whether the accused reading has about the value that the others say, whatever it was typed in."""
    suspect, wanted = _suspect(before), read_again(before)
    found = next((reading for reading in now.job.readings if reading.id == suspect), None)
    if found is None or not found.parts or not wanted:
        return False
    return abs(mm(found.parts[0]) - float(wanted)) < NEAR and not _suspect(now)


TOUR = (
    TourStep(
        _said(
            "A sample job: a bridge is off and must go back. Each line is one reading, typed as the rule showed it. "
            "Press Down, or click another line, and watch the plan: the reading in hand is drawn as it is taken."
        ),
        "Measure",
        "row",
        lambda before, now: now.reading not in ("", before.reading),
    ),
    TourStep(
        _said(
            "Dots on the plan are points that were read. Turn the wheel over the plan, or press + on it, to come "
            "nearer; then point at a dot and stay there: its name comes up, and how well it is known."
        ),
        "Measure",
        "plan",
        lambda before, now: now.scale > before.scale * 1.05 and now.stayed >= READ,
    ),
    TourStep(
        _said(
            "One reading here is wrong; a triangle marks it. Click Readings at the foot, on the right: it leads there. "
            "Where it is out of sight, “more” brings it."
        ),
        "Measure",
        "figure:readings",
        lambda _before, now: bool(now.reading) and now.reading == _suspect(now),
    ),
    TourStep(
        lambda seen: (
            f"{words.first_large(_called(seen))}: lay the straightedge on again. This time the rule shows "
            f"{read_again(seen)}. Type {read_again(seen)} and press Enter."
        ),
        "Measure",
        "row",
        _typed_again,
    ),
    TourStep(
        _said(
            "The triangle is gone and the bars are short. Nothing you do is final: press Ctrl+Z to take the value "
            "back. The slip returns, and so does the triangle."
        ),
        "Measure",
        "row",
        lambda _before, now: bool(_suspect(now)),
    ),
    TourStep(
        _said("Press Ctrl+Shift+Z: the value you typed is there again. Then go on to the strings: click Strings."),
        "Measure",
        "step:Strings",
        lambda _before, now: now.card == "Strings" and not _suspect(now),
    ),
    TourStep(
        _said(
            "What the strings are, and how high they lie, decides how far back each one breaks. What is only estimated "
            "here makes the ± wide. Now click Bridge."
        ),
        "Strings",
        "step:Bridge",
        lambda _before, now: now.card == "Bridge",
    ),
    TourStep(
        _said(
            "The slot follows the saddle line; teal is worked out, brown was there before. Under Seated choose “turned "
            "with the slot” and watch the bridge and the scar. Choose what you like better, then press Next."
        ),
        "Bridge",
        "named:Seated",
    ),
    TourStep(
        _said(
            "Along the foot stand the distances a rule can check before the glue, each with its ±. Click “Fret 12 to "
            "slot front”: both its ends are marked on the plan, and the one at the slot in the detail. Then press Next."
        ),
        "Bridge",
        "figure:slot",
    ),
    TourStep(
        _said(
            "Tick “Job sheet” as well: it tells the rest of the work. Print the template at 100 %, lay a rule on its "
            "scales, both ways, and tape it on. The sample stays as it was: what you did is only yours if you save it."
        ),
        "Sheets",
        "named:Export files",
    ),
)
