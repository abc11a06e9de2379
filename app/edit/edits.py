"""Edits: pure functions that make a new job of a job. What no job can hold raises `NotAJob`, in one sentence."""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any, Literal

import msgspec

from app.edit import list_answers
from app.edit.usual_sizes import usual_now
from geometry import units, words
from geometry.job import Job, NotAJob, Point, Reading, SideHint
from geometry.job.checks import WrongReading, length_between
from geometry.job.measured.kinds import SHAPES, Kind, Shape
from geometry.job.measured.readings import Place
from geometry.job.stringing import HIGHEST_ACTION
from geometry.layout import XY

replace = msgspec.structs.replace
Get = Callable[[Job], Any]
Put = Callable[[Job, Any], Job]
"""What of a job a field shows, and the job with something else typed into it."""
POINTED = "pointed at on the plan"
"""What stands as a note with a reading that nobody took with a rule."""
ON_HEADSTOCK = ("head", "headslot", "post", "screw")
"""What points of the headstock are called: they lie before the nut, where from its corners two places fit as well."""
TWO: dict[units.Unit, str] = {"mm": "12.5 ; 17.5", "cm": "1.25 ; 1.75", "in": "1/2 ; 11/16"}
"""How two values are typed, in a job's unit."""
HEIGHTS: dict[Place, tuple[str, float]] = {
    "fret 1": ("The string over fret 1", HIGHEST_ACTION["fret 1"]),
    "fret 12": ("The string over fret 12", HIGHEST_ACTION["fret 12"]),
    "board end": ("The board over the top", 40.0),
    "bridge": ("The string over the top", 60.0),
    "saddle": ("The straightedge over the top", 60.0),
}
"""Heights no instrument goes beyond, mm (common practice, no source): a slip of the unit shows here."""


def find(job: Job, reading_id: str) -> Reading:
    """A reading by its id; raises KeyError."""
    for reading in job.readings:
        if reading.id == reading_id:
            return reading
    raise KeyError(reading_id)


def change(job: Job, reading_id: str, **fields: Any) -> Job:
    """The job with some fields of one reading changed. Raises `NotAJob`, which names it as a person does."""
    with _named_in_words(job):
        return _with(job, replace(find(job, reading_id), **fields))


@contextmanager
def _named_in_words(job: Job) -> Iterator[None]:
    """What is refused of a reading names it by what it measures, as the window does."""
    try:
        yield
    except WrongReading as wrong:
        raise NotAJob(f"{words.reading_called(job, find(job, wrong.reading_id))}{wrong.fault}") from None


def _with(job: Job, changed: Reading) -> Job:
    """The job with one reading in the place of the one that has its id."""
    return replace(job, readings=tuple(changed if r.id == changed.id else r for r in job.readings))


def set_value(job: Job, reading_id: str, text: str) -> Job:
    """A reading's value as typed; nothing typed: still to be measured. Two values are parted by a semicolon.
    A condition takes an answer instead, and what lies off a straightedge may be typed with its side.

    Raises `NotALength`, `NotAJob`.
    """
    reading = find(job, reading_id)
    shape = SHAPES[reading.kind]
    with _named_in_words(job):
        if shape.values == 0:
            return _with(job, list_answers.answered(reading, text, job))
        if reading.kind == "off" and text.strip() and ";" not in text:
            return _with(job, list_answers.in_line_or_off(reading, " ".join(text.split()), job))
    parts = [part for part in text.split(";") if part.strip()]
    if not parts:
        return change(job, reading_id, value=None)
    if len(parts) != shape.values:
        many = f"two values, like {TWO[job.unit]} ({shape.typed})" if shape.values == 2 else "one value"
        raise NotAJob(f"This reading takes {many}")
    kept = tuple(_kept(part, job, shape) for part in parts)
    if shape.at and reading.at is not None:
        length_between(f"{HEIGHTS[reading.at][0]}", kept[0], 0, HEIGHTS[reading.at][1])
    return change(job, reading_id, value=kept[0] if shape.values == 1 else (kept[0], kept[1]))


def set_fineness(job: Job, reading_id: str, how: str) -> Job:
    """How finely a reading was read: an instrument's name, or a length or degrees for ± that much."""
    from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS

    if how in INSTRUMENTS or how in GAUGES:
        return change(job, reading_id, with_=how, within=None, sigma=None, times=1.0)
    within = _kept(how.lstrip("±+/- "), job, SHAPES[find(job, reading_id).kind])
    return change(job, reading_id, with_=None, within=within, sigma=None, times=1.0)


def _kept(text: str, job: Job, shape: Shape) -> units.Length:
    """What is typed for a reading of this shape, as it is kept: degrees, or a length. Raises `NotALength`."""
    return units.keep_degrees(text) if shape.degrees else units.keep(text, job.unit)


def coarser(job: Job, times: float) -> Job:
    """All readings taken, said to be read so many times as coarsely as they were said to be."""

    def said(reading: Reading) -> Reading:
        return replace(reading, times=min(round(times * reading.times, 2), 20.0)) if reading.taken else reading

    return replace(job, readings=tuple(said(reading) for reading in job.readings))


def strike(job: Job, reading_id: str, why: str = "") -> Job:
    """Take a reading out of the fit; it stays in the job."""
    return change(job, reading_id, struck=True, why=why)


def bring_back(job: Job, reading_id: str) -> Job:
    """Put a struck reading back into the fit."""
    return change(job, reading_id, struck=False, why="")


def remove(job: Job, reading_id: str) -> Job:
    """Take a reading out of the job altogether; points that nothing names any more go with it."""
    kept = tuple(r for r in job.readings if r.id != reading_id)
    return _without_lost_points(replace(job, readings=kept), job)


def next_id(job: Job) -> str:
    """A reading's id that is free: r1, r2 ..."""
    taken = {r.id for r in job.readings}
    return next(name for count in range(1, len(taken) + 2) if (name := f"r{count}") not in taken)


def add(
    job: Job, kind: Kind, of: Iterable[str], from_: Iterable[str] = (), *, after: str | None = None, **fields: Any
) -> Job:
    """A new reading, still without a value; points it names that are not in the job are added."""
    reading = Reading(id=next_id(job), kind=kind, of=tuple(of), from_=tuple(from_), **fields)
    return add_reading(job, reading, after=after)


def add_reading(job: Job, reading: Reading, *, after: str | None = None) -> Job:
    """A reading with a free id put after another, or at the end."""
    points = dict(job.points)
    for name in (*reading.of, *reading.from_):
        points.setdefault(name, _new_point(name, points))
    place = next((at + 1 for at, r in enumerate(job.readings) if r.id == after), len(job.readings))
    readings = (*job.readings[:place], reading, *job.readings[place:])
    return replace(job, points=points, readings=readings)


def _new_point(name: str, known: Mapping[str, Point]) -> Point:
    """A point that is new in the job: where it is called after the headstock, said to lie there."""
    nut: tuple[str, str] = ("nut.left", "nut.right")
    if name.partition(".")[0] not in ON_HEADSTOCK or not known.keys() >= {*nut}:
        return Point()
    return Point(side=(SideHint(of=nut, is_=words.headstock_side(nut[0])),))


def move_near(job: Job, name: str, xy: XY) -> Job:
    """The rough place of a point that no reading holds."""
    near = (round(xy[0], 2), round(xy[1], 2))
    return replace(job, points={**job.points, name: replace(job.points[name], near=near, usual=False)})


def move_placed(job: Job, name: str, step: XY) -> Job:
    """A point known only by `at` moved by a step, in the frame in which it was placed."""
    placed = next(r for r in job.readings if r.kind == "at" and r.of == (name,) and r.taken)
    x, y = (units.mm(part) for part in placed.parts)
    moved = (round(x + step[0], 2), round(y + step[1], 2))
    return change(job, placed.id, value=moved)


def holds(job: Job, name: str) -> tuple[Reading, ...]:
    """The readings taken that name a point."""
    return tuple(r for r in job.readings if r.taken and name in (*r.of, *r.from_))


Movable = Literal["near", "placed", "pointed", "measured"]


def how_movable(job: Job, name: str) -> Movable:
    """What dragging a point does: edits its `near`, the reading it was `placed` by or the two of a point that was only
    `pointed` at, or nothing as it is `measured`.
    """
    held = holds(job, name)
    if not held:
        return "near"
    own = [r for r in held if name in r.of]
    if len(held) == 1 and own and own[0].kind == "at":
        return "placed"
    if len(held) == len(own) == 2 and all(r.note == POINTED for r in own):
        return "pointed"
    return "measured"


def turned(step: XY, angle: float) -> XY:
    """A step turned counter-clockwise."""
    cos, sin = math.cos(angle), math.sin(angle)
    return (step[0] * cos - step[1] * sin, step[0] * sin + step[1] * cos)


def in_block(job: Job, block: str, empty: Callable[[], Any], **fields: Any) -> Job:
    """A block of the job with some fields changed; begun first where it is empty."""
    return replace(job, **{block: replace(getattr(job, block) or empty(), **fields)})


def _without_lost_points(job: Job, before: Job) -> Job:
    named = {name for r in job.readings for name in (*r.of, *r.from_)}
    named |= {name for point in job.points.values() for hint in point.side for name in hint.of}
    if job.old is not None:
        named |= set(job.old.points)
    named |= set(job.hardware.points)
    named |= set(job.floating.points) if job.floating is not None else set()
    named |= set(job.separate.opening) if job.separate is not None else set()
    were = {name for r in before.readings for name in (*r.of, *r.from_)}
    return replace(job, points={n: p for n, p in job.points.items() if n in named or n not in were})


def set_unit(job: Job, unit: units.Unit) -> Job:
    """Another unit for bare numbers; what was typed before keeps its own unit and its value. What nobody typed of the
    sheets, the choice of place, the nut, the tail and the markers is as usual in the new unit.
    """
    begun = {name: getattr(job, name) for name in ("sheets", "choice", "nut", "tail")}
    turned = {name: usual_now(record, job.unit, unit) for name, record in begun.items() if record is not None}
    markers = job.hardware.markers
    if markers is not None:
        kinds = {"side": markers.side, "face": markers.face}
        now = {name: usual_now(record, job.unit, unit) for name, record in kinds.items() if record is not None}
        turned["hardware"] = replace(job.hardware, markers=replace(markers, **now))
    return replace(job, unit=unit, **turned)
