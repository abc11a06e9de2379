"""Jobs that stand for many states of the work: the sample jobs, one in which nearly every field says something, and
each of these with one thing changed.

A **change** is found by going through the fields of a job: a switch is turned, each other choice is taken, a number
made an eighth larger, a count one more or less, a block or the last of a list left out, a reading left out, misread or
struck. What no sample job holds is put in from `MORE`. Of the many numbers made larger, values left out and readings
only some are tried, for all take their time. One job meets each change, told by both their names: the first, as if by
chance, in which it changes anything.
"""

import copy
import json
import zlib
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import msgspec
from msgspec import inspect

from app.file import samples
from geometry.job import Job
from geometry.survey import survey
from geometry.survey.result import Surveyed
from geometry.units import mm
from tests.geometry.held.fullest_job import fullest
from tests.geometry.held.more_values import MORE

Plain = dict[str, Any]
Path = tuple[str | int, ...]
Change = tuple[Path, Any]
GONE = "gone"
"""Stands where a change takes something out."""
FULLEST = "fullest"
NAMES = (*(path.name.removesuffix(".job.json") for path in samples.paths()), FULLEST)
CHANGED = "changed"
"""What a number became."""
BY_ALL = ("hand =",)
"""Changes that all jobs meet; each other one is met by one of them."""
LEFT_ALONE = ("offsquare", "title", "note", "points", "readings", "kept", "proof", "sheets")
"""Blocks whose fields are words, or are changed in ways of their own, or are laid out nowhere."""


@lru_cache
def plain(name: str) -> Plain:
    """What a job's file holds."""
    if name == FULLEST:
        return fullest()
    path = samples.find(name)
    assert path is not None
    found: Plain = json.loads(path.read_text(encoding="utf-8"))
    return found


def made(what: Plain) -> Job:
    """A job of what a file holds; raises what the file would be refused with."""
    return msgspec.convert(what, Job, str_keys=True)


@lru_cache
def as_made(name: str) -> Job:
    """A job as it is."""
    return made(plain(name))


@lru_cache
def surveyed(name: str) -> Surveyed:
    """The survey of a job as it is."""
    return survey(as_made(name))


def changed(what: Any, path: Path, value: Any) -> Any:
    """A copy with another value at this path; blocks that are not there are begun."""
    first: Any = path[0]
    rest, found = path[1:], copy.copy(what)
    if rest:
        inside = found[first] if isinstance(found, list) else found.get(first, {})
        found[first] = changed(inside, rest, value)
    elif value != GONE:
        found[first] = value
    elif isinstance(found, list) or first in found:
        del found[first]
    return found


@lru_cache
def changes() -> dict[str, tuple[str, Change]]:
    """Each change by its name: which job it changes, and how; of every job that may meet it."""
    found = dict[str, tuple[str, Change]]()
    for name in NAMES:
        for told, change in (*_of_fields(plain(name)), *_of_readings(plain(name)), *_of_more(plain(name))):
            found.setdefault(f"{name}: {told}", (name, change))
    return found


@lru_cache
def alike() -> tuple[tuple[str, ...], ...]:
    """The names of changes, those of one change to several jobs together in an order as if by chance; but those that
    all jobs meet are each alone.
    """
    meet = dict[str, list[tuple[int, str]]]()
    for name, (job, _) in changes().items():
        told = name.removeprefix(f"{job}: ")
        meet.setdefault(name if told.startswith(BY_ALL) else told, []).append((_by_chance(f"{told}{job}"), name))
    return tuple(tuple(name for _, name in sorted(names)) for names in meet.values())


def _by_chance(words: str) -> int:
    """A number that follows from the words, as if by chance, and is the same wherever this runs."""
    return zlib.crc32(words.encode())


def _of_more(what: Plain) -> Iterator[tuple[str, Change]]:
    """Values that no sample job holds, where the block that they belong to is there."""
    for (block, *rest), values in MORE.items():
        if block in what or not rest:
            yield from ((f"{_told((block, *rest))} = {json.dumps(value)}", ((block, *rest), value)) for value in values)


def _of_readings(what: Plain) -> Iterator[tuple[str, Change]]:
    """Of some kinds of readings of points one left out or misread by 3 mm, and of each kind one struck."""
    for at, reading in enumerate(what["readings"]):
        of = ",".join(sorted({name.partition(".")[0] for name in reading.get("of", ())}))
        sort = f"{reading['kind']} {of or reading.get('at', '')} {reading.get('on', '')}".strip()
        path: Path = ("readings", at)
        yield f"{reading['kind']} struck", ((*path, "struck"), True)
        chance = _by_chance(sort) % 4
        if isinstance(reading.get("value"), int | float) and chance == 0:
            yield f"{sort} misread", ((*path, "value"), reading["value"] + 3)
        elif chance == 1:
            yield f"{sort} left out", (path, GONE)


def _of_fields(what: Plain) -> Iterator[tuple[str, Change]]:
    whole = inspect.type_info(Job)
    assert isinstance(whole, inspect.StructType)
    for path, value in _of_struct(what, whole, ()):
        told = f"{_told(path)} = {_in_short(value)}"
        if not (told.endswith((CHANGED, json.dumps(GONE))) and _by_chance(told) % 2):
            yield told, (path, value)


def _told(path: Path) -> str:
    return ".".join(str(step) for step in path)


def _in_short(value: Any) -> str:
    return CHANGED if isinstance(value, int | float) and not isinstance(value, bool) else json.dumps(value)


def _of_struct(what: Plain, of: inspect.StructType, path: Path) -> Iterator[Change]:
    for field in of.fields:
        if path or field.name not in LEFT_ALONE:
            given = what.get(field.encode_name)
            default = field.default if field.default is not msgspec.NODEFAULT else None
            yield from _of_value(given, default, field.type, (*path, field.encode_name))


def _of_value(given: Any, default: Any, of: inspect.Type, path: Path) -> Iterator[Change]:
    """What may stand in place of a value; `given` is None where the file does not hold it."""
    if given is not None and isinstance(path[-1], str):
        yield path, GONE
    for kind in of.types if isinstance(of, inspect.UnionType) else (of,):
        match kind:
            case inspect.StructType():
                if isinstance(given, dict):
                    yield from _of_struct(given, kind, path)
                elif given is None and not any(field.required for field in kind.fields):
                    yield path, {}
            case inspect.DictType(value_type=inspect.StructType() as inner) if isinstance(given, dict):
                for name in list(given)[:1]:
                    yield from _of_value(given[name], None, inner, (*path, name))
            case inspect.VarTupleType() | inspect.TupleType() if isinstance(given, list) and given:
                yield from _of_list(given, kind, path)
            case _:
                yield from _of_plain(default if given is None else given, kind, path)


def _of_list(given: list[Any], of: inspect.VarTupleType | inspect.TupleType, path: Path) -> Iterator[Change]:
    """The last of a list, and the list without it; of few, each."""
    if isinstance(of, inspect.TupleType):
        for at, kind in enumerate(of.item_types):
            yield from _of_value(given[at], None, kind, (*path, at))
        return
    yield (*path, len(given) - 1), GONE
    yield from _of_value(given[-1], None, of.item_type, (*path, len(given) - 1))


def _of_plain(value: Any, of: inspect.Type, path: Path) -> Iterator[Change]:
    match of:
        case inspect.BoolType():
            yield path, not value
        case inspect.LiteralType(values=choices) if isinstance(choices[0], str):
            yield from ((path, choice) for choice in choices if choice != value)
        case inspect.IntType() if isinstance(value, int):
            yield path, value + 1
            yield path, value - 1
        case inspect.FloatType() if isinstance(value, int | float) and not isinstance(value, bool):
            yield path, round(value * 1.125 if value else 0.75, 6)
        case inspect.StrType() if isinstance(value, str) and value[:1].isdigit() and value[-1:] in ("n", "m"):
            yield path, round(mm(value) * 1.125, 6)


__all__ = ["FULLEST", "GONE", "NAMES", "as_made", "changed", "changes", "made", "plain", "surveyed"]
