"""Screw holes as they are typed: so far behind x so far across, and the side: “4.5 x 33 treble; 4.5 x 33 bass”."""

from collections.abc import Iterable

from geometry import units
from geometry.job import Job, NotAJob
from geometry.units import Length, Unit, mm

Place = tuple[Length, Length]
"""How far behind, and how far across, + to the left."""
LIKE: dict[Unit, str] = {"mm": "4.5 x 33 treble", "cm": "0.45 x 3.3 treble", "in": "3/16 x 1 5/16 treble"}
"""A place as it may be typed, in the job's unit."""


def two_like(job: Job) -> str:
    """Two places as they may be typed, one on each side."""
    return f"{LIKE[job.unit]}; {LIKE[job.unit].replace('treble', 'bass')}"


def said(job: Job, places: Iterable[Place]) -> str:
    """The places as they would be typed again."""
    return "; ".join(_said(job, *at) for at in places)


def _said(job: Job, behind: Length, across: Length) -> str:
    off = mm(across)
    text = units.typed(across, job.unit).lstrip("-−+ ")
    side = f" {job.bass_or_treble('left' if off > 0 else 'right')}" if off else ""
    return f"{units.typed(behind, job.unit)} x {text}{side}"


def typed(job: Job, text: str) -> tuple[Place, ...]:
    """Raises `NotAJob` or `NotALength` for what is no list of places."""
    places = [part for part in text.replace("×", "x").split(";") if part.strip()]
    return tuple(_typed(job, part) for part in places)


def _typed(job: Job, text: str) -> Place:
    behind, cross, rest = text.partition("x")
    *across, side = rest.split() or [""]
    hand = side.lower()
    if hand not in ("bass", "treble"):
        across, hand = [*across, side], ""
    if not cross or not " ".join(across).strip():
        raise NotAJob(f"“{text.strip()}” is not the place of a screw hole; write it like {LIKE[job.unit]}")
    off = units.keep(" ".join(across), job.unit)
    if mm(off) and not hand:
        raise NotAJob(f"“{text.strip()}” does not say to which side of the middle; write bass or treble behind it")
    if mm(off) < 0:
        raise NotAJob(f"“{text.strip()}” has a minus and a side of the middle; leave the minus out")
    right = hand and job.bass_or_treble("right") == hand
    return units.keep(behind.strip(), job.unit), _negative(off) if right else off


def _negative(length: Length) -> Length:
    return -length if isinstance(length, float | int) else f"-{length}"
