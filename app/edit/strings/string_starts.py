"""Where a string begins, as the Strings card says it and puts it back: at the nut, or at a fret and how far across."""

from typing import Literal

from app.edit.strings.string_entries import block, put, put_string
from geometry import words
from geometry.job import Job, NotAJob, String
from geometry.units import Length

Across = Literal["others", "neighbour", "edge"]
ACROSS: list[tuple[Across, str]] = [
    ("others", "as the others do"),
    ("neighbour", "so far from its neighbour"),
    ("edge", "so far from the board’s edge"),
]
"""How it lies across the board where it starts."""
USUAL_FRET, USUAL_BESIDE = 5, {"neighbour": 10.0, "edge": 3.0}
"""The fret a short string starts at as a rule, and what it is begun with across, mm (common practice, no source)."""
AT_NUT = ("", "nut", "0", "–", "-")


def starts(job: Job, at: int) -> bool:
    """Whether a string begins at a fret."""
    return bool(block(job).list[at].first)


def spread_said(job: Job) -> str:
    """Between which strings the spread is read, where some start at a fret; "" where all begin at the nut."""
    listed = block(job).list
    begin = [string.name for string in listed if not string.first]
    if not begin or len(begin) == len(listed):
        return ""
    at_nut = words.strings((begin[0], begin[-1])) if len(begin) > 1 else words.string(begin[0])
    return (
        f"At the nut between {at_nut}, the outer ones that begin there; at the bridge between "
        f"{words.strings((listed[0].name, listed[-1].name))}."
    )


def start_said(string: String) -> str:
    """Where a string begins, in a cell."""
    return str(string.first) if string.first else "nut"


def put_start_typed(job: Job, at: int, text: str) -> Job:
    """Where a string begins, from what was typed. Raises `NotAJob`."""
    said = text.strip().casefold()
    if said in AT_NUT:
        return at_nut(job, at)
    if not said.isdecimal():
        raise NotAJob(f"“{text.strip()}” is no fret; type its number, or nut")
    return put_string(job, at, starts_at=int(said))


def at_nut(job: Job, at: int) -> Job:
    """The string begins at the nut."""
    return put_string(job, at, starts_at=None, from_neighbour=None, from_edge=None)


def tick_start(job: Job, at: int, on: bool) -> Job:
    """The string begins at a fret, or at the nut again; the last that begins at the nut stays there."""
    others = any(not string.first for index, string in enumerate(block(job).list) if index != at)
    if not on or not others:
        return at_nut(job, at)
    fret = min(USUAL_FRET, job.frets.count)
    name = block(job).list[at].name
    heard = tuple(one for one in block(job).heard if one.string != name or one.fret > fret)
    return put_string(put(job, heard=heard), at, starts_at=fret)


def make_drone(job: Job, at: int, on: bool) -> Job:
    """A drone, or a string that is fretted; what was heard of it at a fret goes with the frets."""
    name = block(job).list[at].name
    heard = tuple(one for one in block(job).heard if not on or one.string != name)
    return put_string(put(job, heard=heard), at, fretted=not on)


def across(job: Job, at: int) -> Across:
    """How it is said where a string lies at its fret."""
    string = block(job).list[at]
    return "neighbour" if string.from_neighbour is not None else "edge" if string.from_edge is not None else "others"


def put_across(job: Job, at: int, how: Across) -> Job:
    """Another way to say where a string lies at its fret, begun with a usual distance."""
    if how == across(job, at) or not starts(job, at):
        return job
    return put_string(
        job,
        at,
        from_neighbour=USUAL_BESIDE["neighbour"] if how == "neighbour" else None,
        from_edge=USUAL_BESIDE["edge"] if how == "edge" else None,
    )


def beside(job: Job, at: int) -> Length | None:
    """How far it lies from its neighbour or from the edge."""
    string = block(job).list[at]
    return string.from_neighbour if string.from_neighbour is not None else string.from_edge


def put_beside(job: Job, at: int, value: Length) -> Job:
    """The same changed. Raises `NotAJob`."""
    how = across(job, at)
    return job if how == "others" else put_string(job, at, **{f"from_{how}": value})
