"""For which strings a compensation was **typed**: it belongs to those it was found on, whatever set is chosen since."""

from typing import NamedTuple

from app.edit.edits import replace
from app.edit.strings.string_entries import block
from geometry import words
from geometry.job import Job, String
from geometry.units import Length


class TypedFor(NamedTuple):
    """`given`: each string's compensation as it was typed last, None where it was worked out; `strings`: what it was
    typed for. `aside`: all was said to be worked out since; `went`: another number of strings came instead.
    """

    given: tuple[Length | None, ...] = ()
    strings: tuple[String, ...] = ()
    aside: bool = False
    went: bool = False


def followed(old: TypedFor, job: Job) -> TypedFor:
    """What is known after a change of the job: what stays as it was typed keeps the string that it was typed for."""
    now = block(job)
    if not isinstance(now.compensation, tuple):
        if len(now.list) == len(old.strings):
            return old._replace(aside=True, went=False)
        return old._replace(went=not old.aside and any(value is not None for value in old.given))
    if len(now.list) != len(old.given):
        return TypedFor(now.compensation, now.list)
    known = [(value, _make(string)) for value, string in zip(old.given, old.strings, strict=True)]
    strings = tuple(
        old.strings[at] if value == old.given[at] and (value, _make(string)) not in known else string
        for at, (value, string) in enumerate(zip(now.compensation, now.list, strict=True))
    )
    return TypedFor(now.compensation, strings)


def told(typed: TypedFor, job: Job) -> str:
    """What the person should know of it; "" where each was typed for the string that it is in force for."""
    if typed.went:
        return "The compensation that was typed went with the strings before; Undo brings it back."
    if not isinstance(block(job).compensation, tuple):
        return ""
    pairs = zip(typed.given, typed.strings, block(job).list, strict=False)
    names = [now.name for value, then, now in pairs if value is not None and _make(then) != _make(now)]
    if not names:
        return ""
    return f"The compensation of {words.strings(names)} was typed for other strings, and is still in force."


def _make(string: String) -> String:
    """The string as it is bought: without its name, its pair and where it begins."""
    return replace(string, name="", course=None, starts_at=None, from_neighbour=None, from_edge=None, fretted=True)
