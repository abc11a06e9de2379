"""What the Bridge card asks of saddles on bases that are screwed down, and how it is put back."""

from typing import Any

from app.edit.bridge import screw_places
from app.edit.edits import Get, Put, replace
from app.edit.headstock.hardware_entries import points_said, points_typed
from app.edit.usual_sizes import usual
from geometry import units, words
from geometry.job import Job, NotAJob, Separate, Through
from geometry.job.bridges.separate import SETS
from geometry.layout import Layout
from geometry.units import said_pm

BASES = [("one", "one base for all"), ("one a string", "one base a string")]
SET = [
    ("square", "square to the neck"),
    ("saddle line", "along the saddle line"),
    ("most reach", "at the slant with the most reach"),
    ("along string", "each along its string"),
]
FROM = [("base front", "the base’s front edge"), ("foremost", "the foremost break point")]


def _of(job: Job) -> Separate:
    """The block, or one as it is begun."""
    return job.separate or usual(Separate(), job.unit)


def put(job: Job, **fields: Any) -> Job:
    """Some fields of the block changed."""
    return replace(job, separate=replace(_of(job), **fields))


def bases(job: Job) -> str:
    return _of(job).bases


def put_bases(job: Job, value: Any) -> Job:
    """How many bases; a way to be set that such bases have not falls back to square."""
    now = _of(job).set
    return put(job, bases=value, set=now if now in SETS[value] else "square")


def how_set(job: Job) -> str:
    return _of(job).set


def put_how_set(job: Job, value: Any) -> Job:
    """How the base is set; a way that only the other kind of bases has chooses that kind."""
    now = _of(job).bases
    kind = now if value in SETS[now] else next(kind for kind, ways in SETS.items() if value in ways)
    return put(job, bases=kind, set=value)


def saddles(job: Job) -> float | None:
    return _of(job).saddles


def put_saddles(job: Job, value: Any) -> Job:
    if value is not None and value != int(value):
        raise NotAJob(f"{units.show_number(value)} saddles cannot be; type a whole number")
    return put(job, saddles=None if value is None else int(value))


def has_through(job: Job) -> bool:
    return _of(job).through is not None


def put_has_through(job: Job, on: Any) -> Job:
    return put(job, through=usual(Through(), job.unit) if on else None)


def through(name: str) -> tuple[Get, Put]:
    """A field of the through holes; putting it begins them."""

    def get(job: Job) -> Any:
        return getattr(_of(job).through or usual(Through(), job.unit), name)

    def put_it(job: Job, value: Any) -> Job:
        return put(job, through=replace(_of(job).through or usual(Through(), job.unit), **{name: value}))

    return get, put_it


# screw holes as they are typed


def screws(job: Job) -> str:
    """“4.5 x 33 treble; 4.5 x 33 bass”."""
    return screw_places.said(job, _of(job).screws)


def put_screws(job: Job, text: str) -> Job:
    """Raises `NotAJob` or `NotALength` for what is no list of places."""
    return put(job, screws=screw_places.typed(job, text))


# the opening's points


def opening(job: Job) -> str:
    return points_said(_of(job).opening, "opening")


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
