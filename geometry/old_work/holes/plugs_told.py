"""What is said of plugs: for which old holes, and of what size."""

import re

from geometry import words
from geometry.job import Job
from geometry.old_work.holes.assumed_holes import PIN, after
from geometry.old_work.holes.old_holes_told import assumed_called, hole_called
from geometry.units import Unit, said, show_number

_HOLE = re.compile(r"hole\.[0-9]+")


def plugged(job: Job, names: tuple[str, ...]) -> list[str]:
    """Old holes in a sentence: pin holes and others together by their numbers; assumed pin holes by how many they are
    where they are all that stand between two that are told as well, else by their own numbers.
    """
    numbered = [name for name in names if PIN.fullmatch(name)]
    numbers = [name.removeprefix("pin.") for name in numbered]
    assumed = [(name, *after(job, name)) for name in names if after(job, name)[1]]
    row = job.old.row if job.old is not None else None
    between = [
        name for name, first, _ in assumed if first in numbered and any(_row(one) > _row(first) for one in numbered)
    ]
    if row is None or len(between) < row - 2:
        between = []
    pins = f"old pin hole{'s' if len(numbers) > 1 else ''} {words.joined(numbers)}"
    pins += f" with {len(between)} assumed between them" if between else ""
    by_themselves: dict[str, list[str]] = {}
    for name, first, step in assumed:
        if name not in between:
            by_themselves.setdefault(first, []).append(step)
    others = [name for name in names if not PIN.fullmatch(name) and not after(job, name)[1]]
    holes = [name.removeprefix("hole.") for name in others if _HOLE.fullmatch(name)]
    if len(holes) > 1:
        others = [name for name in others if not _HOLE.fullmatch(name)]
    return [
        *([pins] if numbers else []),
        *(assumed_called(job, first, steps) for first, steps in by_themselves.items()),
        *([f"old holes {words.joined(holes)}"] if len(holes) > 1 else []),
        *(hole_called(job, name) for name in others),
    ]


def _row(pin: str) -> int:
    """Where a numbered pin hole stands in its row."""
    return int(pin.removeprefix("pin."))


def plug_size(diameter: float, unit: Unit) -> str:
    """A plug cutter's size: 8 mm, 3/8 in."""
    return said(diameter, "in") if unit == "in" else f"{show_number(diameter)} mm"
