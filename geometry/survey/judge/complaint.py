"""What is wrong with one reading, and what to do about it, in words."""

from collections.abc import Sequence

from geometry import units, words
from geometry.job import Job, Reading
from geometry.job.measured.kinds import SHAPES
from geometry.layout import Why
from geometry.units import Unit

FAR_OUT = 1000.0
"""An error beyond this (mm) is longer than most instruments: its size tells nothing any more."""
OTHER_SIDE = 0.1
"""A point lies on the other side where what the others say differs from its mirror by less than this share."""
LIKE = 0.02
"""A slip of the decimal point or the unit explains a value that it brings within this share of what the others say."""
NEAR_A_STEP = 0.06
"""A slip in counting explains an error that lies within this share of a whole step."""
STRIKE = "or strike it out."


def length(value: float, unit: Unit) -> str:
    """A length with its unit, without a sign."""
    return f"{units.show(abs(value), unit)} {unit}"


def at_least(error: float, unit: Unit) -> str:
    """How far out something is at least, as far as its size tells anything."""
    return f"by {length(error, unit)} or more" if abs(error) <= FAR_OUT else "by more than the whole instrument"


def complaint(job: Job, taken: Reading, error: float, pm95: float | None = None) -> Why:
    """What is wrong with a reading that is out by `error` mm (reading less truth), and what to do about it.

    `pm95`: the ± of what the others say of it, mm.
    """
    of, unit, more = words.reading_called(job, taken), job.unit, "more" if error > 0 else "less"
    much, shape = words.much(taken, error) or length(error, unit), SHAPES[taken.kind]
    if shape.amiss:
        return Why(of=of, what=shape.amiss.format(much=much, more=more), then=f"{shape.again}, {STRIKE}")
    says = None
    if _says(taken, error):
        beside = words.side_read(taken, job.hand)
        says = f"they say {_value(units.mm(taken.parts[0]) - error, unit, pm95)}{f' {beside}' if beside else ''}"
    reads = f"reads {much if abs(error) <= FAR_OUT else 'far'} {more} than the others allow"
    return Why(of=of, what=reads, how=says, then=f"{_slip(job, taken, error)}{STRIKE}")


def complaint_of_laying(job: Job, ids: Sequence[str], error: float) -> Why:
    """What is wrong with all readings of one laying of the rule, out by `error` mm alike (readings less truth)."""
    more = "more" if error > 0 else "less"
    much = length(error, job.unit) if abs(error) <= FAR_OUT else "far"
    step = _step(job, error)
    begun = f"That is near {step}: perhaps it began at a mark, and that was not taken off. " if step else ""
    return Why(
        what=f"{words.first_large(words.laying_called(job, ids))}, read {much} {more} than the others allow",
        how="the rule did not begin where it is said to",
        then=f"{begun}Look at its end and at the edge it was laid on, and read them again.",
    )


def _value(value: float, unit: Unit, pm95: float | None) -> str:
    return length(value, unit) if pm95 is None else f"{units.show(value, unit)} ±{units.show_pm(pm95, unit)} {unit}"


def _says(taken: Reading, error: float) -> bool:
    """Whether what the others say of a reading is a length at all, and one number."""
    return len(taken.parts) == 1 and 0 < units.mm(taken.parts[0]) - error < FAR_OUT


def _slip(job: Job, taken: Reading, error: float) -> str:
    """What slip would explain the error, and what to do before the reading is struck out."""
    value = units.mm(taken.parts[0])
    truth = value - error
    if taken.kind == "off" and truth < 0 and abs(value + truth) < OTHER_SIDE * value:
        other = words.beside(words.other_side(taken.side or "left"), taken.from_[0], taken.from_[1], job.hand)
        return f"It fits if it lies {other}. Look at the side again, "
    for factor, wrong in ((10.0, "one place too far right"), (0.1, "one place too far left")):
        if truth > 0 and abs(value / truth / factor - 1) < LIKE:
            return f"Its decimal point may be {wrong}. Look at it again, "
    if abs(value - units.INCH * truth) < LIKE * abs(value) or abs(value * units.INCH - truth) < LIKE * abs(truth):
        return "Its unit may be the wrong one, mm or inches. Look at it again, "
    step = _step(job, error)
    return f"That is near {step}: perhaps a slip in counting. Read it again, " if step else "Read it again, "


def _step(job: Job, error: float) -> str:
    """The whole step of the job's rule that an error (mm) lies near, in words; empty for none."""
    step, text = (units.INCH, "an inch") if job.unit == "in" else (10.0, "a whole centimetre")
    return text if abs(abs(error) - step) < NEAR_A_STEP * step else ""
