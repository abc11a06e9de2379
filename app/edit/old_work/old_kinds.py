"""The kinds of old work, on the top and on the headstock: what each is called, what its points are called, and how many
there must be.

A **family** is what a kind's points are called before the first stop: `brace.1.a`. Of some kinds each point is a thing
by itself, of others its points in order are one outline or line, and of areas and braces there may be several such,
told apart by a number.
"""

from typing import Literal, NamedTuple

from geometry.job import Headstock, Job, Old

OldKind = Literal["footprint", "pins", "holes", "slot", "metal", "bare", "area", "plate", "brace"]
HeadKind = Literal["outline", "headslot", "posts", "screws"]
AnyKind = OldKind | HeadKind
LETTERS = "abcdefghijklmnopqrstuvwxyz"


class Kind(NamedTuple):
    """`says` in a sentence, `one` of its points; `least` and `usual` numbers of points of one, `most` if there is one;
    `grouped`: there may be several; `under`: it lies under the top; `on_head`: on the headstock, read from the nut.
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
    on_head: bool = False


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
HEAD_KINDS: dict[HeadKind, Kind] = {
    "posts": Kind("old post holes", "hole", "post", 1, 6, outline=False, on_head=True),
    "outline": Kind("the headstock’s outline", "corner", "head", 3, 4, on_head=True),
    "headslot": Kind("a slot in the headstock", "corner", "headslot", 3, 4, grouped=True, on_head=True),
    "screws": Kind("old screw holes", "hole", "screw", 1, 2, outline=False, on_head=True),
}
KINDS: dict[AnyKind, Kind] = dict((*OLD_KINDS.items(), *HEAD_KINDS.items()))


def of_family(job: Job, family: str) -> list[str]:
    """The points of a family in the order of their numbers and letters."""
    found = [name for name in job.points if name.startswith(f"{family}.")]
    return sorted(found, key=lambda name: [(len(part), part) for part in name.split(".")])


def to_enter(job: Job, kind: AnyKind) -> int:
    """How many points of a kind are entered at once: of post holes as many as strings from the nut have none yet."""
    if kind != "posts":
        return KINDS[kind].usual
    posts = sum(string.starts_at is None for string in job.strings.list) if job.strings else KINDS[kind].usual
    return max(1, posts - len(of_family(job, KINDS[kind].family)))


def new_names(job: Job, kind: AnyKind, count: int) -> list[str]:
    """So many free names of a kind's points: the next numbers, the slot's two ends, or letters of a new group, which of
    a slot in the headstock are numbers.
    """
    family = KINDS[kind].family
    if kind == "slot":
        return ["slot.left", "slot.right"][:count]
    if KINDS[kind].grouped:
        group = next_group(job, kind)
        return [f"{family}.{group}.{at + 1 if KINDS[kind].on_head else _letter(at)}" for at in range(count)]
    names = (f"{family}.{number}" for number in range(1, len(job.points) + count + 1))
    return [name for name in names if name not in job.points][:count]


def next_group(job: Job, kind: AnyKind) -> str:
    """The first number that no area, brace or slot has."""
    taken = {name.split(".")[1] for name in of_family(job, KINDS[kind].family)}
    taken |= set(groups(job, kind))
    return next(str(number) for number in range(1, len(taken) + 2) if str(number) not in taken)


def groups(job: Job, kind: AnyKind) -> tuple[str, ...]:
    """The areas or braces that there are, by name."""
    if job.old is None:
        return ()
    return tuple(job.old.areas if kind == "area" else job.old.braces if kind == "brace" else ())


def points_of(job: Job, kind: AnyKind) -> tuple[str, ...]:
    """The points that a kind of old work stands on now."""
    old, head = job.old or Old(), job.hardware.headstock or Headstock()
    of_kind: dict[AnyKind, tuple[str, ...]] = {
        "footprint": old.outline,
        "pins": tuple(old.pins),
        "holes": tuple(old.holes),
        "slot": old.slot.of if old.slot else (),
        "metal": tuple(old.metal),
        "bare": old.bare,
        "area": tuple(point for area in old.areas.values() for point in area.of),
        "plate": old.plate,
        "brace": tuple(point for brace in old.braces.values() for point in brace.of),
        "outline": head.outline,
        "headslot": tuple(point for ring in head.slots for point in ring),
        "posts": tuple(head.posts),
        "screws": tuple(head.screws),
    }
    return of_kind[kind]


def _letter(at: int) -> str:
    """A to z, then numbers: a line or outline may have any number of points."""
    return LETTERS[at] if at < len(LETTERS) else str(at + 1)
