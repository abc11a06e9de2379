"""What points, lines and sides are called: bass and treble by the job's hand."""

import re
from collections.abc import Callable

from geometry.job.bridges.floating import TODAY
from geometry.job.job import Hand
from geometry.job.sides import SIDES, Side
from geometry.words.joined_words import first_large, quoted

PLACES = {
    "nut": "nut",
    "end": "board end",
    "fret12": "fret 12",
    "seam": "seam",
    "old": "old footprint",
    "pin": "old pin hole",
    "metal": "metal",
    "body": "body outline",
    "thread": "thread",
    "trial": "trial saddle",
    "slot": "slot",
    "opening": "opening",
    "hole": "old hole",
    "bare": "edge of the finish",
    "area": "area",
    "plate": "plate",
    "brace": "brace",
    "head": "headstock",
    "headslot": "headstock slot",
    "post": "old post hole",
    "screw": "old screw hole",
    "foot": "foot’s front corner",
    "mark": "foot mark",
    "soundhole": "sound hole",
    "tail": "tail",
}
_ALONG = ("nut", "fret12", "end")
"""The board's corners and fret 12, from the nut to the tail."""
_NUMBER_OR_LETTER = re.compile(r"[0-9]+|[a-z]")
"""What a part of a point's name is that needs no quotes in a sentence."""


def side(which: str, hand: Hand) -> str:
    """Left or right as bass or treble; anything else as it is."""
    if which not in SIDES:
        return "middle" if which == "centre" else which
    return "bass" if (which == "right") == (hand == "right") else "treble"


def wing(where: str, hand: Hand) -> str:
    """Where a scar is beside the bridge: `left wing` is “treble wing”; “front” and “back” are themselves."""
    return " ".join(side(part, hand) for part in where.split())


def point(name: str, hand: Hand) -> str:
    """A point's name in a table: `nut.left` is “nut, treble”, `seam.1` “seam 1”; a person's own name is itself."""
    return _point(name, hand, ", ", str)


def point_headed(name: str, hand: Hand) -> str:
    """A point's name at the beginning of a line: “Nut, treble”; a person's own name is itself."""
    return name if is_own(name) else first_large(point(name, hand))


def called(name: str, hand: Hand) -> str:
    """A point's name in a sentence: `nut.left` is “nut treble”; a person's own name stands in quotes."""
    return _point(name, hand, " ", quoted)


def _point(name: str, hand: Hand, before_side: str, own: Callable[[str], str]) -> str:
    first, *rest = name.split(".")
    if first == "edge" and len(rest) == 2 and rest[0] in SIDES:
        return f"{side(rest[0], hand)} edge {_part(rest[1], own)}"
    if is_own(name):
        return own(name)
    said = PLACES[first]
    for at, part in enumerate(rest):
        if first == "headslot" and at == 1:
            said += " corner"
        plain = at > 0 and _NUMBER_OR_LETTER.fullmatch(part)  # the letters along a brace or round an area
        said += f"{before_side}{side(part, hand)}" if part in SIDES else f" {part if plain else _part(part, own)}"
    return said


def _part(part: str, own: Callable[[str], str]) -> str:
    """One part of a name: “middle”, a number, or what a person made up."""
    if part in ("centre", "middle"):
        return "middle"
    return part if part.isascii() and part.isdigit() else own(part)


def trial(name: str) -> str:
    """A trial saddle in a sentence: “trial saddle 1”; or the floating bridge that is its own trial."""
    return "the bridge as it stands today" if name == TODAY else f"{PLACES['trial']} {_part(name, quoted)}"


def brace(name: str) -> str:
    """A brace in a sentence: “brace 1”, “the brace “long””."""
    return _of_several("brace", name)


def area(name: str) -> str:
    """A discoloured or damaged area in a sentence: “area 1”, “the area “burn””."""
    return _of_several("area", name)


def _of_several(what: str, name: str) -> str:
    return f"{what} {name}" if _NUMBER_OR_LETTER.fullmatch(name) else f"the {what} {quoted(name)}"


def is_own(name: str) -> bool:
    """Whether a person made this name of a point up, so that it has no other words than itself."""
    first, *rest = name.split(".")
    if first == "edge":
        return len(rest) != 2 or rest[0] not in SIDES
    return first not in PLACES or not rest


def line(a: str, b: str, hand: Hand) -> str:
    """The line through two points in a table: nut, treble edge, seam, “old footprint 1 to 4”."""
    return _known_line(a, b, hand) or span(a, b, hand)


def line_called(a: str, b: str, hand: Hand) -> str:
    """The line through two points in a sentence: “the treble edge”, “the line from seam 1 to nut bass”."""
    known = _known_line(a, b, hand)
    return f"the {known}" if known else f"the line from {called(a, hand)} to {called(b, hand)}"


def beside(which: Side, a: str, b: str, hand: Hand) -> str:
    """On which side of the line from one point to another, in a sentence: “on the bass side of the treble edge”.

    `which` is the side as one sights from a to b; bass and treble tell it where that is known to run along the neck,
    headstock and body where it is known to lie across it.
    """
    if along_neck(a, b) or across_neck(a, b):
        return f"on the {side_typed(which, a, b, hand)} side of {line_called(a, b, hand)}"
    return f"to the {which} of the line from {called(a, hand)} to {called(b, hand)}, as you sight along it"


def side_typed(which: Side, a: str, b: str, hand: Hand) -> str:
    """The side of the line from one point to another, as it is typed: “bass”; of one across the neck “headstock” or
    “body”; else “left” as one sights along it.
    """
    if across_neck(a, b):
        return "headstock" if which == headstock_side(a) else "body"
    return side(sighted(which, a, b), hand) if along_neck(a, b) else which


def sides_typed(a: str, b: str, hand: Hand) -> tuple[str, str]:
    """Both sides of a line as they are typed: bass before treble, and headstock before body."""
    told = {side_typed(which, a, b, hand): None for which in SIDES}
    one, other = sorted(told, key=("bass", "headstock", "left", "treble", "body", "right").index)
    return one, other


def across_neck(a: str, b: str) -> bool:
    """Whether a line is known to lie across the neck, from one edge to the other at one place."""
    (first, *rest_a), (second, *rest_b) = a.split("."), b.split(".")
    return first == second and first in _ALONG and {*rest_a, *rest_b} == {*SIDES} and len(rest_a) == len(rest_b) == 1


def headstock_side(start: str) -> Side:
    """The side toward the headstock, as one sights along a line across the neck from its first point."""
    return "right" if start.endswith(".left") else "left"


def along_neck(a: str, b: str) -> bool:
    """Whether a line is known to run along the neck, through places of one edge."""
    (first, *rest_a), (second, *rest_b) = a.split("."), b.split(".")
    return first in _ALONG and second in _ALONG and first != second and rest_a == rest_b


def sighted(which: Side, a: str, b: str) -> Side:
    """A side of the instrument as one sights from a to b, and the other way round: another one on a line to the nut."""
    return other_side(which) if toward_nut(a, b) else which


def toward_nut(a: str, b: str) -> bool:
    """Whether a line is known to run along the neck, and from the body to the nut."""
    return along_neck(a, b) and _ALONG.index(a.split(".")[0]) > _ALONG.index(b.split(".")[0])


def other_side(which: Side) -> Side:
    """Right for left, left for right."""
    return "right" if which == "left" else "left"


def _known_line(a: str, b: str, hand: Hand) -> str:
    """What the trade calls the line through two points; empty where it has no name."""
    heads, tails = (a.split(".")[0], b.split(".")[0]), (a.split(".")[-1], b.split(".")[-1])
    if heads[0] == heads[1] and heads[0] in ("nut", "end", "fret12") and tails[0] != tails[1]:
        return PLACES[heads[0]]
    on = edge_side(a), edge_side(b)
    if on[0] and on[0] == on[1]:
        return f"{side(on[0], hand)} edge"
    if heads == ("seam", "seam"):
        return "seam"
    return ""


def span(a: str, b: str, hand: Hand) -> str:
    """From point to point; of two of a kind the second goes by its number: “old footprint 1 to 4”."""
    (first, *rest_a), (second, *rest_b) = a.split("."), b.split(".")
    numbers = first == second and all(rest and all(part.isdigit() for part in rest) for rest in (rest_a, rest_b))
    of_a_kind = numbers and rest_a[:-1] == rest_b[:-1]
    return f"{point(a, hand)} to {rest_b[-1] if of_a_kind else point(b, hand)}"


def edge_side(name: str) -> str:
    """Which side of the board a point's name says that it lies on; empty where it says none."""
    parts = name.split(".")
    if parts[0] == "edge" and len(parts) == 3:
        return parts[1]
    return parts[1] if parts[0] in ("nut", "end", "fret12") and len(parts) == 2 else ""
