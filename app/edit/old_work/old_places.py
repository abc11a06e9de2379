"""Ways of entering old work besides typing one reading after the other: pointed at on the plan, typed as a list, or a
list of readings still to be taken.

Pointed at or typed as **along and off**, a point has its place from the straightedge along one edge of the board, as
two readings; typed as **x and y** it is read off a sheet that lies in any way, and at least two points on it must be
known from elsewhere.
"""

import csv
import io
from collections.abc import Sequence
from typing import Literal

from app.edit import edits, list_answers
from app.edit.edits import POINTED, replace
from app.edit.old_work import old_entries
from app.edit.old_work.old_kinds import KINDS, AnyKind, new_names, next_group, points_of, to_enter
from app.edit.tools_at_hand import usual_in
from geometry import units, words
from geometry.job import Job, NotAJob, Reading
from geometry.job.measured.kinds import Kind
from geometry.job.sides import Side
from geometry.layout import XY, Layout
from geometry.units import Unit

EYE = 1.0
"""A point that is only pointed at on the plan is taken to lie within so many mm of where it was seen (no source)."""
How = Literal["bass edge", "treble edge", "sheet", "nut"]
OFF_EDGE: dict[Unit, str] = {
    "mm": "1 ; 612.5 ; 35 bass",
    "cm": "1 ; 61.25 ; 3.5 bass",
    "in": "1 ; 24 1/8 ; 1 3/8 bass",
}
FROM_NUT: dict[Unit, str] = {"mm": "1 ; 58.5 ; 71", "cm": "1 ; 5.85 ; 7.1", "in": "1 ; 2 5/16 ; 2 51/64"}
"""A line of a list, in each unit: an example."""
Line = tuple[str, str]
"""The two points that a straightedge runs through."""


def point_at(job: Job, layout: Layout | None, kind: AnyKind, things: Sequence[str | XY]) -> Job:
    """The job with old work where it was pointed at: at points that are there, by name, or at places in the neck frame.

    Raises `NotAJob` where they are too few, or the neck has no place yet.
    """
    old_entries.enough(kind, len(things))
    under, free = KINDS[kind].under, iter(new_names(job, kind, len(things)))
    names: list[str] = []
    made = job
    for thing in things:
        if isinstance(thing, str):
            names.append(thing)
            continue
        name = next(free)
        names.append(name)
        made = _seen_at(made, name, _line_for(layout, kind, thing), layout, thing, inside=under)
    group = next_group(job, kind) if KINDS[kind].grouped else ""
    return old_entries.take(made, kind, _joined_to(job, kind, names), group)


def _joined_to(job: Job, kind: AnyKind, names: Sequence[str]) -> tuple[str, ...]:
    """Holes and metal come to those that are there; an outline given anew takes the place of the old one."""
    there = () if KINDS[kind].outline else points_of(job, kind)
    return tuple(dict.fromkeys((*there, *names)))


def _line_for(layout: Layout | None, kind: AnyKind, at: XY) -> Line:
    """The line that a kind of old work is seen from: an edge of the board; for the headstock the nut, from the corner
    that lies farther off, so that the place lies ahead of that.
    """
    if not KINDS[kind].on_head:
        return "nut.left", "end.left"
    along, _ = _seen_from(layout, ("nut.left", "nut.right"), at)
    back, _ = _seen_from(layout, ("nut.right", "nut.left"), at)
    return ("nut.left", "nut.right") if along >= back else ("nut.right", "nut.left")


def _seen_from(layout: Layout | None, line: Line, at: XY) -> tuple[float, float]:
    """How far a place lies along a line from its first point, and how far to the left of it, mm."""
    ends = [layout.points.get(name) for name in line] if layout and layout.neck else []
    if len(ends) < 2 or ends[0] is None or ends[1] is None:
        raise NotAJob("The neck has no place yet, so nothing can be pointed at; read the board’s corners first")
    start = complex(ends[0].x, ends[0].y)
    way = complex(ends[1].x, ends[1].y) - start
    from_it = (complex(*at) - start) * way.conjugate() / abs(way)
    return from_it.real, from_it.imag


def _seen_at(job: Job, name: str, line: Line, layout: Layout | None, at: XY, *, inside: bool) -> Job:
    along, left = (round(part, 1) for part in _seen_from(layout, line, at))
    side: Side = "left" if left >= 0 else "right"
    if words.across_neck(*line) and side != words.headstock_side(line[0]):
        raise NotAJob("A place behind the nut is not on the headstock; point at the headstock")
    if along <= 0:
        raise NotAJob("A place before the nut is no old work; point at the top")
    job = edits.add(job, "along", (name,), line, value=along, within=EYE, note=POINTED, inside=inside)
    return edits.add(job, "off", (name,), line, side=side, value=abs(left), within=EYE, note=POINTED, inside=inside)


def moved(job: Job, layout: Layout | None, name: str, to: XY) -> Job:
    """The job with a point that was only pointed at somewhere else."""
    for reading in edits.holds(job, name):
        along, left = _seen_from(layout, (reading.from_[0], reading.from_[1]), to)
        if reading.kind == "along":
            job = edits.change(job, reading.id, value=round(max(along, EYE), 1))
        else:
            side: Side = "left" if left >= 0 else "right"
            job = edits.change(job, reading.id, value=abs(round(left, 1)), side=side)
    return job


# a list


def typed_list(job: Job, kind: AnyKind, text: str, how: How, *, inside: bool) -> Job:
    """The job with the points of a list: a name and two numbers a line, parted by tabs, semicolons or commas.

    Raises `NotAJob` naming the line that cannot be taken.
    """
    rows = [(at, cells) for at, cells in enumerate(_cells(text), start=1) if any(cells)]
    if not rows:
        raise NotAJob("There is no line yet; type a name and two numbers, like {OFF_EDGE[job.unit]}")
    group, made = next_group(job, kind) if KINDS[kind].grouped else "", job
    names = []
    for at, cells in rows:
        if len(cells) != 3 or not all(cells):
            raise NotAJob(f"Line {at} has not three parts: a name and two numbers, parted by semicolons")
        name = _name(made, kind, cells[0], group)
        try:
            made = _read(made, name, how, cells[1], cells[2], inside=inside)
        except (NotAJob, units.NotALength) as error:
            raise NotAJob(f"Line {at}: {error}") from None
        names.append(name)
    own = tuple(dict.fromkeys(name for name in names if name.startswith(f"{KINDS[kind].family}.")))
    return _taken(made, kind, own)


def _taken(job: Job, kind: AnyKind, names: tuple[str, ...]) -> Job:
    """The points of a list taken up; of areas and braces each group by itself."""
    if not KINDS[kind].grouped:
        return old_entries.take(job, kind, _joined_to(job, kind, names))
    for group in dict.fromkeys(name.split(".")[1] for name in names):
        job = old_entries.take(job, kind, tuple(name for name in names if name.split(".")[1] == group), group)
    return job


def _cells(text: str) -> list[list[str]]:
    mark = next((mark for mark in ("\t", ";") if mark in text), ",")
    return [[cell.strip() for cell in row] for row in csv.reader(io.StringIO(text.strip()), delimiter=mark)]


def _name(job: Job, kind: AnyKind, typed: str, group: str) -> str:
    """A point as the list calls it: its name, its words, or its number or letter alone."""
    said = " ".join(typed.replace(",", " ").split()).casefold()
    for name in job.points:
        if said in (name.casefold(), words.called(name, job.hand).casefold(), f"{words.called(name, job.hand)}."):
            return name
    family = KINDS[kind].family
    parts = said.replace(".", " ").split()
    if parts[0] in (family, words.called(f"{family}.1", job.hand).removesuffix(" 1")):
        parts = parts[1:]
    first = [family, *([group] if group and len(parts) == 1 else [])]
    if not parts or any(not part.isalnum() for part in parts) or len(first) + len(parts) > 3:
        raise NotAJob(f"“{typed}” is no name for {KINDS[kind].says}; a number is enough, like 1")
    return ".".join((*first, *parts))


def _corners(job: Job) -> tuple[str, str]:
    """The corners of the nut's front, the bass one first."""
    bass = job.bass
    return f"nut.{bass}", f"nut.{words.other_side(bass)}"


def _read(job: Job, name: str, how: How, one: str, other: str, *, inside: bool) -> Job:
    if how == "sheet":
        value = units.keep(one, job.unit), units.keep(other, job.unit)
        return edits.add(job, "at", (name,), value=value, inside=inside, with_=usual_in(job))
    if how == "nut":
        for corner, typed in zip(_corners(job), (one, other), strict=True):
            job = edits.add(job, "distance", (corner, name), value=units.keep(typed, job.unit), with_=usual_in(job))
        return job
    edge = next(side for side in ("left", "right") if f"{words.side(side, job.hand)} edge" == how)
    line = (f"nut.{edge}", f"end.{edge}")
    length, side = list_answers.sided(other, job.hand)
    kept = units.keep(length, job.unit)
    if side is None:
        if units.mm(kept) != 0:
            raise NotAJob(f"“{other}” does not say to which side of the edge; add bass or treble, like 35 bass")
        side = "left"
    tool = usual_in(job)
    job = edits.add(job, "along", (name,), line, value=units.keep(one, job.unit), inside=inside, with_=tool)
    return edits.add(job, "off", (name,), line, side=side, value=kept, inside=inside, with_=tool)


# readings still to be taken


def ask_readings(job: Job, kind: AnyKind) -> tuple[Job, str]:
    """The job with readings still to be taken that would place old work of a kind, and the first one's id.

    What lies under the top is read off a sheet inside, with two old pin holes on it that tie it to the outside; what is
    on the headstock from both corners of the nut's front.
    """
    about = KINDS[kind]
    names = new_names(job, kind, to_enter(job, kind))
    made, first = job, edits.next_id(job)
    if about.under:
        for name in (*_ties(job), *names):
            made = edits.add(made, "at", (name,), inside=True, with_=usual_in(job))
    else:
        for name in names:
            for reading in _asked_of_head(job, kind, name) if about.on_head else _asked(name):
                made = edits.add_reading(made, replace(reading, id=edits.next_id(made), with_=usual_in(job)))
    return (old_entries.take(made, kind, tuple(names)) if kind == "slot" else made), first


def _asked(name: str) -> list[Reading]:
    """Along an edge of the board and off it; old work lies on either side of that, so the side is read as well."""
    line = ("nut.left", "end.left") if not name.endswith("right") else ("nut.right", "end.right")
    kinds: tuple[Kind, ...] = ("along", "off")
    return [Reading(id="new", kind=kind, of=(name,), from_=line) for kind in kinds]


def _asked_of_head(job: Job, kind: AnyKind, name: str) -> list[Reading]:
    """From both corners of the nut: of a hole both rims, which tell its diameter as well."""
    how: Kind = "distance" if KINDS[kind].outline else "rims"
    return [Reading(id="new", kind=how, of=(corner, name)) for corner in _corners(job)]


def _ties(job: Job) -> tuple[str, ...]:
    """Two old pin holes, the outer ones, that are not on an inside sheet already."""
    on_it = {name for reading in job.readings if reading.inside for name in reading.of}
    pins = points_of(job, "pins")
    outer = (pins[0], pins[-1]) if len(pins) > 1 else ("pin.1", "pin.6")
    return tuple(name for name in outer if name not in on_it)
