"""What the Bridge card asks of saddles on bases that are screwed down, and how it is put back."""

from typing import Any

from app.edit.edits import Get, Put, replace
from app.edit.hardware_entries import points_said, points_typed
from geometry import units, words
from geometry.job import Job, NotAJob, Separate, Through
from geometry.job.bridges.separate import SETS
from geometry.layout import Layout
from geometry.units import Length, mm, said_pm

USUAL = Separate()
BASES = [("one", "one base for all"), ("one a string", "one base a string")]
SET = [
    ("square", "square to the neck"),
    ("saddle line", "along the saddle line"),
    ("most reach", "at the slant with the most reach"),
    ("along string", "each along its string"),
]
FROM = [("base front", "the base's front edge"), ("foremost", "the foremost break point")]


def put(job: Job, **fields: Any) -> Job:
    """Some fields of the block changed."""
    return replace(job, separate=replace(job.separate or USUAL, **fields))


def bases(job: Job) -> str:
    return (job.separate or USUAL).bases


def put_bases(job: Job, value: Any) -> Job:
    """How many bases; a way to be set that such bases have not falls back to square."""
    now = (job.separate or USUAL).set
    return put(job, bases=value, set=now if now in SETS[value] else "square")


def how_set(job: Job) -> str:
    return (job.separate or USUAL).set


def put_how_set(job: Job, value: Any) -> Job:
    """How the base is set; a way that only the other kind of bases has chooses that kind."""
    now = (job.separate or USUAL).bases
    kind = now if value in SETS[now] else next(kind for kind, ways in SETS.items() if value in ways)
    return put(job, bases=kind, set=value)


def saddles(job: Job) -> float | None:
    return (job.separate or USUAL).saddles


def put_saddles(job: Job, value: Any) -> Job:
    if value is not None and value != int(value):
        raise NotAJob(f"{units.show_number(value)} saddles cannot be; type a whole number")
    return put(job, saddles=None if value is None else int(value))


def has_through(job: Job) -> bool:
    return (job.separate or USUAL).through is not None


def put_has_through(job: Job, on: Any) -> Job:
    return put(job, through=Through() if on else None)


def through(name: str) -> tuple[Get, Put]:
    """A field of the through holes; putting it begins them."""

    def get(job: Job) -> Any:
        return getattr((job.separate or USUAL).through or Through(), name)

    def put_it(job: Job, value: Any) -> Job:
        return put(job, through=replace((job.separate or USUAL).through or Through(), **{name: value}))

    return get, put_it


# screw holes as they are typed: behind x across, and the side


def screws(job: Job) -> str:
    """“4.5 x 33 treble; 4.5 x 33 bass”."""
    return "; ".join(_screw(job, *at) for at in (job.separate or USUAL).screws)


def _screw(job: Job, behind: Length, across: Length) -> str:
    off = mm(across)
    text = units.typed(across, job.unit).lstrip("-−+ ")
    side = f" {job.bass_or_treble('left' if off > 0 else 'right')}" if off else ""
    return f"{units.typed(behind, job.unit)} x {text}{side}"


def put_screws(job: Job, text: str) -> Job:
    """Raises `NotAJob` or `NotALength` for what is no list of places."""
    places = [part for part in text.replace("×", "x").split(";") if part.strip()]
    return put(job, screws=tuple(_typed(job, part) for part in places))


def _typed(job: Job, text: str) -> tuple[Length, Length]:
    behind, cross, rest = text.partition("x")
    *across, side = rest.split() or [""]
    hand = side.lower()
    if hand not in ("bass", "treble"):
        across, hand = [*across, side], ""
    if not cross or not " ".join(across).strip():
        raise NotAJob(f"“{text.strip()}” is not the place of a screw hole; write it like 4.5 x 33 treble")
    off = units.keep(" ".join(across), job.unit)
    if mm(off) and not hand:
        raise NotAJob(f"“{text.strip()}” does not say to which side of the middle; write bass or treble behind it")
    right = hand and job.bass_or_treble("right") == hand
    return units.keep(behind.strip(), job.unit), _negative(off) if right else off


def _negative(length: Length) -> Length:
    return -length if isinstance(length, float | int) else f"-{length}"


# the opening's points


def opening(job: Job) -> str:
    return points_said((job.separate or USUAL).opening, "opening")


def put_opening(job: Job, text: str) -> Job:
    return put(job, opening=points_typed(job, text, "opening"))


def reach(job: Job, layout: Layout | None) -> str:
    """What is left of each saddle's travel, a line a string; empty while it has no place."""
    plan = layout.separate if layout is not None else None
    if plan is None:
        return ""
    unit = job.unit
    lines = [
        f"{words.first_large(words.string(one.string))}: {units.said(one.ahead, unit)} ahead, "
        f"{units.said(one.behind, unit)} behind, ±{said_pm(one.pm95, unit)}"
        f"{'' if one.reached == 'reached' else NOT[one.reached]}."
        for one in plan.saddles
    ]
    return "\n".join([*lines, f"A travel of {said_pm(plan.travel, unit)} would just do."])


NOT = {"thin": ", may just miss", "unsure": ", may not reach", "out": ", cannot reach"}
"""What is said behind a saddle that falls short."""
