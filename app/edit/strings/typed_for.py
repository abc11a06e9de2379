"""For which strings a compensation was **typed**: it belongs to those it was found on, whatever set is chosen since."""

from typing import NamedTuple

from app.edit.strings.string_entries import bare, block
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
    """What is known after a change of the job, which itself tells what was typed for which string."""
    now = block(job)
    if not isinstance(now.compensation, tuple):
        if len(now.list) == len(old.strings):
            return old._replace(aside=True, went=False)
        return old._replace(went=not old.aside and any(value is not None for value in old.given))
    return TypedFor(now.compensation, now.typed_for or now.list)


def told(typed: TypedFor, job: Job) -> str:
    """What the person should know of it; "" where each was typed for the string that it is in force for."""
    if typed.went:
        return "The compensation that was typed went with the strings before; Undo brings it back."
    if not isinstance(block(job).compensation, tuple):
        return ""
    pairs = zip(typed.given, typed.strings, block(job).list, strict=False)
    names = [now.name for value, then, now in pairs if value is not None and bare(then) != bare(now)]
    if not names:
        return ""
    return f"The compensation of {words.strings(names)} was typed for other strings, and is still in force."
