"""A kept placement beside the present one, in words: the rows of its table, and what stands below it."""

from string import ascii_uppercase

from geometry import words
from geometry.job import Job, Kept
from geometry.job.sides import SIDES
from geometry.placed.kept_placements import HEARD, SEEN, Comparison, Difference
from geometry.units import Unit, as_shown, said, show, show_pm

Row = tuple[str, str, str, str]
"""What it is, how it was, how it is now, and how far now stands from then."""
HEADS = ("", "kept", "now", "now is")
SAME = "the same"
ALIKE = 0.05
"""Two check distances to one edge tell of one move where they differ by less, mm: no rule shows it."""
CENTS = (
    "Sharper and flatter: what the move by itself does at fret 12. Other strings or heights change the notes as well."
)
LENGTHS: dict[Unit, str] = {"mm": "mm", "cm": "cm", "in": "inches"}


def rows(job: Job, found: Comparison) -> list[Row]:
    """A comparison as a table: places, then check distances."""
    return [*place_rows(job, found), *check_rows(job, found)]


def place_rows(job: Job, found: Comparison) -> list[Row]:
    """Slot, saddle, corners and scar, bass before treble."""
    return [_row(job, one) for one in _places(found)]


def _places(found: Comparison) -> list[Difference]:
    return [one for one in found.differences if not one.code.startswith("check.")]


def check_rows(job: Job, found: Comparison) -> list[Row]:
    """Check distances; those that did not change are left out."""
    return [_row(job, one) for one in _checks(found) if abs(_along(one, job.unit) or 0.0) >= SEEN[job.unit]]


def _checks(found: Comparison) -> list[Difference]:
    """The check distances, each edge once: from the board's end as well only where that tells of another move."""
    checks = {one.code: one for one in found.differences if one.code.startswith("check.")}
    return [one for one in checks.values() if not _told_already(one, checks.get(one.code.replace(".end.", ".fret12.")))]


def _told_already(one: Difference, from_fret: Difference | None) -> bool:
    if from_fret is None or from_fret is one:
        return False
    moved, told = (
        other.now - other.then for other in (one, from_fret) if other.now is not None and other.then is not None
    )
    return abs(moved - told) < ALIKE


def _row(job: Job, one: Difference) -> Row:
    then, now = _value(one.then, one.then_pm95, job.unit), _value(one.now, one.now_pm95, job.unit)
    return one.name, then, now, _says(job, one)


def below(job: Job, found: Comparison) -> tuple[str, ...]:
    """What is said under the table: checks that are as they were, and a board that was read anew."""
    checks = _checks(found)
    same = sum(abs(_along(one, job.unit) or 0.0) < SEEN[job.unit] for one in checks)
    said_of = [CENTS] if any(abs(one.cents or 0.0) >= HEARD for one in found.differences) else []
    if same:
        which = "all" if same == len(checks) else f"{same} of {len(checks)}"
        said_of.append(f"Check distances and margins that are the same: {which}.")
    if any(_rounded_otherwise(one, job.unit) for one in (*_places(found), *checks)):
        step = said(2 * SEEN[job.unit], job.unit)
        said_of.append(f"Lengths are rounded: two figures of one move may differ by {step}.")
    if found.neck_differs >= SEEN[job.unit]:
        off = said(found.neck_differs, job.unit)
        said_of.append(f"The board was read anew since: its corners lie up to {off} from where they lay.")
    return tuple(said_of)


def _value(length: float | None, pm95: float | None, unit: Unit) -> str:
    if length is None:
        return ""
    return show(length, unit) + (f" ±{show_pm(pm95, unit)}" if pm95 is not None else "")


def _along(one: Difference, unit: Unit) -> float | None:
    """How far now stands from then: of what is a length by itself, as the two figures beside it say."""
    if one.then is None or one.now is None:
        return one.along
    return as_shown(one.now, unit) - as_shown(one.then, unit)


def _rounded_otherwise(one: Difference, unit: Unit) -> bool:
    """Whether the figures shown of a length make another difference than its own, rounded."""
    shown = _along(one, unit)
    return one.along is not None and shown is not None and abs(shown - as_shown(one.along, unit)) >= SEEN[unit]


def _says(job: Job, one: Difference) -> str:
    """How far, and which way, in words: “0.8 mm farther, 2.1 cents flatter”."""
    if one.code.startswith("scar.") and one.along is None:
        return "the old footprint was not known then" if one.then is None else "the old footprint is not known now"
    long, short = ("longer", "shorter") if one.code.startswith("check.") else ("wider", "narrower")
    if one.code.startswith(("slot.", "saddle.", "corner.")):
        long, short = "farther from the nut", "nearer the nut"
    parts = [_way(_along(one, job.unit), long, short, job.unit)]
    if one.across is not None:
        to_left, to_right = (f"to {words.side(side, job.hand)}" for side in SIDES)
        parts.append(_way(one.across, to_left, to_right, job.unit))
    if one.cents is not None and abs(one.cents) >= HEARD:
        parts.append(f"{abs(one.cents):.1f} cents {'sharper' if one.cents > 0 else 'flatter'}")
    return ", ".join(filter(None, parts)) or SAME


def _way(off: float | None, more: str, less: str, unit: Unit) -> str:
    if off is None or abs(off) < SEEN[unit]:
        return ""
    return f"{said(abs(off), unit)} {more if off > 0 else less}"


def letter(job: Job, kept: Kept) -> str:
    """By what one of several kept placements is told apart, on the plan and in lists; nothing where it is alone."""
    return ascii_uppercase[job.kept.index(kept)] if len(job.kept) > 1 else ""


def lettered(job: Job, kept: Kept, called: str) -> str:
    """What it is called, behind its letter where it has one: “B: As it was”."""
    return ": ".join(filter(None, (letter(job, kept), called)))


def heading(job: Job, kept: Kept) -> str:
    """A kept placement in words: “As it was, kept 2026-03-14”."""
    return lettered(job, kept, f"{kept.name}, kept {kept.when}" if kept.when else kept.name)


def title(job: Job, kept: Kept) -> str:
    """What stands over a comparison on paper: “Beside the placement “As it was”, kept 2026-03-14. Lengths in mm”."""
    when = f", kept {kept.when}" if kept.when else ""
    called = f"“{kept.name}”"
    return f"Beside the placement {lettered(job, kept, called)}{when}. Lengths in {LENGTHS[job.unit]}"
