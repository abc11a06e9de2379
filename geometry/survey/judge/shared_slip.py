"""A slip that all lengths from the nut to the board's end share, told by fret 12 to the board's end.

Lengths that are all out alike, by a tape's hook or a mark that was not taken off, agree with each other: what
contradicts them is fewer, and is accused. Where that is fret 12 to the board's end on both sides alike, either may be
out, and that must be said before a right reading is struck out.
"""

from collections.abc import Mapping

from geometry.job import Job, Reading
from geometry.job.sides import SIDES
from geometry.layout import Why
from geometry.survey.judge.complaint import FAR_OUT, length

LIKE, AT_LEAST = 0.5, 1.0
"""Both are out alike where they differ by less than this share of the larger, or by less than this, mm (common
practice, no source)."""


def shared_slip(job: Job, readings: Mapping[str, Reading], errors: Mapping[str, float]) -> Why | None:
    """What may be out instead of the readings accused, by `errors` (reading less truth, mm), in plain sentences; None
    where they are not fret 12 to the board's end on both sides, out alike.
    """
    sides = [side for name in errors for side in SIDES if _is_to_end(readings[name], side)]
    out = list(errors.values())
    if len(sides) != len(out) or set(sides) != set(SIDES) or min(out) * max(out) <= 0:
        return None
    widest, mean = max(map(abs, out)), sum(out) / len(out)
    if max(out) - min(out) > max(AT_LEAST, LIKE * widest) or widest > FAR_OUT:
        return None
    here, there = ("more", "too little") if mean > 0 else ("less", "too much")
    much = length(mean, job.unit)
    return Why(
        what=f"Fret 12 to the board’s end reads {much} {here} on both sides than the others allow",
        then=f"Either both are out, or all lengths from the nut to the board’s end read as much {there}: a tape’s "
        "hook, a worn end, a mark that was not taken off. Read all of them again, with another rule, before any is "
        "struck out.",
    )


def _is_to_end(reading: Reading, side: str) -> bool:
    """Whether it reads from fret 12 to the board's end, from point to point or along the edge."""
    end, twelfth = f"end.{side}", f"fret12.{side}"
    along = reading.kind == "along" and reading.of == (twelfth,) and reading.from_[:1] == (end,)
    return along or (reading.kind == "distance" and set(reading.of) == {twelfth, end})
