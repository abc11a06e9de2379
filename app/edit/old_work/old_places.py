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
from app.edit.old_work.old_kinds import OLD_KINDS, OldKind, new_names, next_group, points_of
from app.edit.tools_at_hand import usual_in
from geometry import units, words
from geometry.job import Job, NotAJob, Reading
from geometry.job.measured.kinds import Kind
from geometry.job.sides import Side
from geometry.layout import XY, Layout

EYE = 1.0
"""A point that is only pointed at on the plan is taken to lie within so many mm of where it was seen (no source)."""
How = Literal["bass edge", "treble edge", "sheet"]


def point_at(job: Job, layout: Layout | None, kind: OldKind, things: Sequence[str | XY]) -> Job:
    """The job with old work where it was pointed at: at points that are there, by name, or at places in the neck frame.

    Raises `NotAJob` where they are too few, or the neck has no place yet.
    """
    old_entries.enough(kind, len(things))
    under, free = OLD_KINDS[kind].under, iter(new_names(job, kind, len(things)))
    names: list[str] = []
    made = job
    for thing in things:
        if isinstance(thing, str):
            names.append(thing)
            continue
        name = next(free)
        names.append(name)
        made = _from_edge(made, name, "left", _seen_from(layout, thing), inside=under)
    group = next_group(job, kind) if OLD_KINDS[kind].grouped else ""
    return old_entries.take(made, kind, _joined_to(job, kind, names), group)


def _joined_to(job: Job, kind: OldKind, names: Sequence[str]) -> tuple[str, ...]:
    """Holes and metal come to those that are there; an outline given anew takes the place of the old one."""
    there = () if OLD_KINDS[kind].outline else points_of(job, kind)
    return tuple(dict.fromkeys((*there, *names)))


def _seen_from(layout: Layout | None, at: XY) -> tuple[float, float]:
    """How far a place lies along the left edge from the nut, and how far to the left of it, mm."""
    ends = [layout.points.get(name) for name in ("nut.left", "end.left")] if layout and layout.neck else []
    if len(ends) < 2 or ends[0] is None or ends[1] is None:
        raise NotAJob("The neck has no place yet, so nothing can be pointed at; read the board’s corners first")
    start = complex(ends[0].x, ends[0].y)
    way = complex(ends[1].x, ends[1].y) - start
    from_it = (complex(*at) - start) * way.conjugate() / abs(way)
    return from_it.real, from_it.imag


def _from_edge(job: Job, name: str, edge: Side, place: tuple[float, float], *, inside: bool) -> Job:
    along, left = round(place[0], 1), round(place[1], 1)
    if along <= 0:
        raise NotAJob("A place before the nut is no old work; point at the top")
    line = (f"nut.{edge}", f"end.{edge}")
    side: Side = "left" if left >= 0 else "right"
    job = edits.add(job, "along", (name,), line, value=along, within=EYE, note=POINTED, inside=inside)
    return edits.add(job, "off", (name,), line, side=side, value=abs(left), within=EYE, note=POINTED, inside=inside)


def moved(job: Job, layout: Layout | None, name: str, to: XY) -> Job:
    """The job with a point that was only pointed at somewhere else."""
    along, left = _seen_from(layout, to)
    side: Side = "left" if left >= 0 else "right"
    for reading in edits.holds(job, name):
        if reading.kind == "along":
            job = edits.change(job, reading.id, value=round(max(along, EYE), 1))
        else:
            job = edits.change(job, reading.id, value=abs(round(left, 1)), side=side)
    return job


# a list


def typed_list(job: Job, kind: OldKind, text: str, how: How, *, inside: bool) -> Job:
    """The job with the points of a list: a name and two numbers a line, parted by tabs, semicolons or commas.

    Raises `NotAJob` naming the line that cannot be taken.
    """
    rows = [(at, cells) for at, cells in enumerate(_cells(text), start=1) if any(cells)]
    if not rows:
        raise NotAJob("There is no line yet; type a name and two numbers, like 1 ; 612.5 ; 35 bass")
    group, made = next_group(job, kind) if OLD_KINDS[kind].grouped else "", job
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
    own = tuple(dict.fromkeys(name for name in names if name.startswith(f"{OLD_KINDS[kind].family}.")))
    return _taken(made, kind, own)


def _taken(job: Job, kind: OldKind, names: tuple[str, ...]) -> Job:
    """The points of a list taken up; of areas and braces each group by itself."""
    if not OLD_KINDS[kind].grouped:
        return old_entries.take(job, kind, _joined_to(job, kind, names))
    for group in dict.fromkeys(name.split(".")[1] for name in names):
        job = old_entries.take(job, kind, tuple(name for name in names if name.split(".")[1] == group), group)
    return job


def _cells(text: str) -> list[list[str]]:
    mark = next((mark for mark in ("\t", ";") if mark in text), ",")
    return [[cell.strip() for cell in row] for row in csv.reader(io.StringIO(text.strip()), delimiter=mark)]


def _name(job: Job, kind: OldKind, typed: str, group: str) -> str:
    """A point as the list calls it: its name, its words, or its number or letter alone."""
    said = " ".join(typed.replace(",", " ").split()).casefold()
    for name in job.points:
        if said in (name.casefold(), words.called(name, job.hand).casefold(), f"{words.called(name, job.hand)}."):
            return name
    family = OLD_KINDS[kind].family
    parts = said.replace(".", " ").split()
    if parts[0] in (family, words.called(f"{family}.1", job.hand).removesuffix(" 1")):
        parts = parts[1:]
    first = [family, *([group] if group and len(parts) == 1 else [])]
    if not parts or any(not part.isalnum() for part in parts) or len(first) + len(parts) > 3:
        raise NotAJob(f"“{typed}” is no name for {OLD_KINDS[kind].says}; a number is enough, like 1")
    return ".".join((*first, *parts))


def _read(job: Job, name: str, how: How, one: str, other: str, *, inside: bool) -> Job:
    if how == "sheet":
        value = units.keep(one, job.unit), units.keep(other, job.unit)
        return edits.add(job, "at", (name,), value=value, inside=inside, with_=usual_in(job))
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


def ask_readings(job: Job, kind: OldKind) -> tuple[Job, str]:
    """The job with readings still to be taken that would place old work of a kind, and the first one's id.

    What lies under the top is read off a sheet inside, with two old pin holes on it that tie it to the outside.
    """
    about = OLD_KINDS[kind]
    names = new_names(job, kind, about.usual)
    made, first = job, edits.next_id(job)
    if about.under:
        for name in (*_ties(job), *names):
            made = edits.add(made, "at", (name,), inside=True, with_=usual_in(job))
    else:
        for name in names:
            for reading in _asked(name):
                made = edits.add_reading(made, replace(reading, id=edits.next_id(made), with_=usual_in(job)))
    return (old_entries.take(made, kind, tuple(names)) if kind == "slot" else made), first


def _asked(name: str) -> list[Reading]:
    """Along an edge of the board and off it; old work lies on either side of that, so the side is read as well."""
    line = ("nut.left", "end.left") if not name.endswith("right") else ("nut.right", "end.right")
    kinds: tuple[Kind, ...] = ("along", "off")
    return [Reading(id="new", kind=kind, of=(name,), from_=line) for kind in kinds]


def _ties(job: Job) -> tuple[str, ...]:
    """Two old pin holes, the outer ones, that are not on an inside sheet already."""
    on_it = {name for reading in job.readings if reading.inside for name in reading.of}
    pins = points_of(job, "pins")
    outer = (pins[0], pins[-1]) if len(pins) > 1 else ("pin.1", "pin.6")
    return tuple(name for name in outer if name not in on_it)
