"""The kinds of old work: what each is called, what its points are called, and how many there must be.

A **family** is what a kind's points are called before the first stop: `brace.1.a`. Of some kinds each point is a thing
by itself, of others its points in order are one outline or line, and of areas and braces there may be several such,
told apart by a number.
"""

from typing import Literal, NamedTuple

from geometry.job import Job

OldKind = Literal["footprint", "pins", "holes", "slot", "metal", "bare", "area", "plate", "brace"]
LETTERS = "abcdefghijklmnopqrstuvwxyz"


class Kind(NamedTuple):
    """`says` in a sentence, `one` of its points; `least` and `usual` numbers of points of one, `most` if there is one;
    `grouped`: there may be several; `under`: it lies under the top.
    """

    says: str
    one: str
    family: str
    least: int
    usual: int
    most: int | None = None
    grouped: bool = False
    under: bool = False
    outline: bool = True


OLD_KINDS: dict[OldKind, Kind] = {
    "footprint": Kind("the old footprint", "corner", "old", 3, 4),
    "pins": Kind("old pin holes", "hole", "pin", 1, 2, outline=False),
    "holes": Kind("other old holes", "hole", "hole", 1, 1, outline=False),
    "slot": Kind("the old slot", "end", "slot", 2, 2, most=2),
    "metal": Kind("metal", "spot", "metal", 1, 1, outline=False),
    "bare": Kind("the edge of the finish", "point", "bare", 3, 4),
    "area": Kind("a discoloured or damaged area", "point", "area", 3, 4, grouped=True),
    "plate": Kind("the plate", "corner", "plate", 3, 4, under=True),
    "brace": Kind("a brace", "point along its middle", "brace", 2, 2, grouped=True, under=True),
}
FAMILIES = tuple(kind.family for kind in OLD_KINDS.values())
"""What the points of old work are called."""


def of_family(job: Job, family: str) -> list[str]:
    """The points of a family in the order of their numbers and letters."""
    found = [name for name in job.points if name.startswith(f"{family}.")]
    return sorted(found, key=lambda name: [(len(part), part) for part in name.split(".")])


def new_names(job: Job, kind: OldKind, count: int) -> list[str]:
    """So many free names of a kind's points: the next numbers, the slot's two ends, or letters of a new group."""
    family = OLD_KINDS[kind].family
    if kind == "slot":
        return ["slot.left", "slot.right"][:count]
    if OLD_KINDS[kind].grouped:
        group = next_group(job, kind)
        return [f"{family}.{group}.{_letter(at)}" for at in range(count)]
    names = (f"{family}.{number}" for number in range(1, len(job.points) + count + 1))
    return [name for name in names if name not in job.points][:count]


def next_group(job: Job, kind: OldKind) -> str:
    """The first number that no area or brace has."""
    taken = {name.split(".")[1] for name in of_family(job, OLD_KINDS[kind].family)}
    taken |= set(groups(job, kind))
    return next(str(number) for number in range(1, len(taken) + 2) if str(number) not in taken)


def groups(job: Job, kind: OldKind) -> tuple[str, ...]:
    """The areas or braces that there are, by name."""
    if job.old is None:
        return ()
    return tuple(job.old.areas if kind == "area" else job.old.braces if kind == "brace" else ())


def points_of(job: Job, kind: OldKind) -> tuple[str, ...]:
    """The points that a kind of old work stands on now."""
    old = job.old
    if old is None:
        return ()
    return {
        "footprint": old.outline,
        "pins": tuple(old.pins),
        "holes": tuple(old.holes),
        "slot": old.slot.of if old.slot else (),
        "metal": tuple(old.metal),
        "bare": old.bare,
        "area": tuple(point for area in old.areas.values() for point in area.of),
        "plate": old.plate,
        "brace": tuple(point for brace in old.braces.values() for point in brace.of),
    }[kind]


def _letter(at: int) -> str:
    """A to z, then numbers: a line or outline may have any number of points."""
    return LETTERS[at] if at < len(LETTERS) else str(at + 1)
