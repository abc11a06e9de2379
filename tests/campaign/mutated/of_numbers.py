"""What a hand gets wrong in a number, and what a **mutation** is: one slip of a person at one value of a right job.

A mutation takes a job and gives another; None where the job has nothing that it could change. What the job itself
refuses (`NotAJob`) is let through to the caller: a refusal is a word too.
"""

import random
import re
from collections.abc import Callable
from typing import NamedTuple

from geometry.job import Job
from geometry.units import Length, show_number

Chance = random.Random


class Mutated(NamedTuple):
    """A job with one slip; `what` says where, `reading` is the reading's id, or empty."""

    job: Job
    what: str
    reading: str = ""


Mutation = Callable[[Job, Chance], Mutated | None]


def digits_exchanged(text: str, chance: Chance) -> str:
    """Two neighbouring digits change places."""
    pairs = [i for i in range(len(text) - 1) if text[i : i + 2].isdigit() and text[i] != text[i + 1]]
    if not pairs:
        return text
    i = chance.choice(pairs)
    return text[:i] + text[i + 1] + text[i] + text[i + 2 :]


def digit_misread(text: str, chance: Chance) -> str:
    """One digit is another."""
    places = [i for i, letter in enumerate(text) if letter.isdigit()]
    i = chance.choice(places)
    return text[:i] + chance.choice([d for d in "0123456789" if d != text[i]]) + text[i + 1 :]


def point_slipped(text: str, chance: Chance) -> str:
    """Ten times as much, or a tenth."""
    number, unit = _parted(text)
    return show_number(number * chance.choice((10, 0.1))) + unit


def digit_too_many(text: str, chance: Chance) -> str:
    """A digit typed twice, or left out."""
    places = [i for i, letter in enumerate(text) if letter.isdigit()]
    i = chance.choice(places)
    return text[: i + 1] + text[i:] if chance.random() < 0.5 or len(places) < 2 else text[:i] + text[i + 1 :]


def unit_slipped(text: str, chance: Chance) -> str:
    """The same number in another unit."""
    number, unit = _parted(text)
    return (
        f"{show_number(number)} {chance.choice([one for one in ('mm', 'cm', 'in') if one != (unit.strip() or 'mm')])}"
    )


NUMBERS: dict[str, Callable[[str, Chance], str]] = {
    "digits exchanged": digits_exchanged,
    "digit misread": digit_misread,
    "point slipped": point_slipped,
    "digit too many": digit_too_many,
    "unit slipped": unit_slipped,
}


def _parted(text: str) -> tuple[float, str]:
    """A length's number, fractions reckoned, and its unit with the blank before it."""
    number, unit = re.fullmatch(r"([-\d. /]*\d)(\s*[a-z\"]*)", text).groups()  # type: ignore[union-attr]  # as we write
    total = 0.0
    for part in number.split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1)
    return total, unit


def slip_of(value: Length, how: str, chance: Chance) -> Length | None:
    """A length with one slip; None where it stays the same or is no number any more."""
    text = value if isinstance(value, str) else show_number(value)
    typed = NUMBERS[how](text, chance)
    if typed == text or re.search(r"/0*(\D|$)", typed):
        return None
    try:
        return float(typed)
    except ValueError:
        return typed
