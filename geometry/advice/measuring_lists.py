"""**Measuring lists**: what to measure on an instrument, one reading after the other, values still to be filled in.

Each list holds the board square by both diagonals: its four sides alone fold like a gate. Readings stand in an order
that lays the straightedge and the rule down as seldom as can be; what one laying gives shares its `laid`. How the
bridge is held decides what an old one has left: a footprint and pin holes where it was glued; where it stood, its
**foot marks**; where it was screwed down, the screws' holes. Behind one that the strings hold a **tail** holds them.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import Literal

import msgspec

from geometry import words
from geometry.advice.usual_places import about
from geometry.job import Held, Point, Reading
from geometry.job.job import Hand
from geometry.job.measured.kinds import Kind
from geometry.job.measured.readings import Place
from geometry.job.sides import SIDES, Side
from geometry.units import Unit

Name = Literal["bridge only", "neck and bridge", "whole top with old work"]
FRETS = (1, 3, 5, 7, 9, 12)
FRONT = ("old.1", "old.2")
"""The front corners of the old footprint, left and right; its corners run on to back right, `old.3`, and back left."""
FEET: dict[Side, str] = {"left": "foot.left", "right": "foot.right"}
"""The outer front corners of the feet of a bridge that stands today."""
TAIL: dict[Side, str] = {"left": "tail.left", "right": "tail.right"}
"""Where the outer strings end at the tailpiece."""
BODY_END: dict[Side, str] = {"left": "body.1", "right": "body.2"}
"""Two places on the body's end, on either side of its middle: between them a strap pin stands."""
MARKS = ("mark.1", "mark.2", "mark.3", "mark.4")
"""The outermost corners of what feet left on the top: front left, front right, back right, back left."""
SEAM = ("seam.1", "seam.2")
BESIDES = {
    "seam": "the seam",
    "old": "the old footprint",
    "pin": "its pin holes",
    "foot": "where the bridge stands today",
    "tail": "where the strings end behind it",
    "mark": "the marks that feet have left on the top",
    "body": "the body’s end for a strap pin",
    "hole": "the holes of the old screws",
}
"""What a list holds besides the board, by the kind of its points."""
SCREWS = ("hole.1", "hole.2", "hole.3", "hole.4")
"""The outermost screw holes of a base, in the same order."""


class MeasuringList(msgspec.Struct, frozen=True, kw_only=True):
    """One list: what it is good for in one line, its points, and its readings with value null."""

    name: Name
    says: str
    points: dict[str, Point]
    readings: tuple[Reading, ...]


class Need(msgspec.Struct, frozen=True):
    """One reading that a list asks for; `fine` says whether a caliper takes it."""

    kind: Kind
    of: tuple[str, ...] = ()
    laid_from: tuple[str, ...] = ()
    laid: str | None = None
    side: Side | None = None
    fret: int | None = None
    at: Place | None = None
    on: Side | None = None
    fine: bool = False


def measuring_list(
    name: Name,
    hand: Hand,
    strings: int,
    unit: Unit = "mm",
    pins: bool = True,
    scale: float = 650.0,
    strings_on: bool = True,
    held: Held = "glue",
) -> MeasuringList:
    """A list for an instrument of that hand and so many strings; `pins`: whether its bridge has pin holes; `held`: how
    that is held. Where the bridge is off there are no strings (`strings_on` False): the straightedge on the frets
    stands in for their heights, and no bridge stands on its feet.

    The instruments named are the usual ones for the unit; a reading may be taken with another. Points are drawn about
    where they lie on an instrument of that scale (mm) until they are measured.
    """
    asked = LISTS_BY_HELD[held][name](hand, strings if pins else 0)
    rule = "rule 1/64" if unit == "in" else "rule 0.5"
    readings = tuple(
        Reading(
            id=f"r{number}",
            kind=need.kind,
            of=need.of,
            from_=need.laid_from,
            side=need.side,
            fret=need.fret,
            at=need.at,
            on=need.on,
            laid=need.laid,
            asked=need.kind == "inline",
            with_=None if need.kind == "inline" else "caliper 0.1" if need.fine else rule,
        )
        for number, need in enumerate(asked if strings_on else _strings_off(asked), 1)
    )
    names = dict.fromkeys(name for reading in readings for name in (*reading.of, *reading.from_))
    points = {name: Point(near=about(name, hand, scale), usual=True) for name in names}
    return MeasuringList(name=name, says=_says(name, points), points=points, readings=readings)


def _says(name: Name, points: Iterable[str]) -> str:
    """What a list with these points is good for, or what it holds besides the neck, the frets and the heights."""
    kinds = dict.fromkeys(point.partition(".")[0] for point in points)
    more = [says for kind, says in BESIDES.items() if kind in kinds]
    match name:
        case "bridge only":
            return "The board’s corners and the frets: enough to place a bridge when nothing of the old one matters."
        case "neck and bridge" if more:
            return f"The neck, the frets, the heights, {words.joined(more)}."
        case "neck and bridge":
            return "The neck, the frets and the heights: the saddle as well as a rule can place it."
        case "whole top with old work":
            return f"Also {words.joined(more)}."


def _board() -> Iterator[Need]:
    """The board's four sides and both diagonals."""
    yield Need("distance", ("nut.left", "nut.right"), fine=True)
    yield Need("distance", ("end.left", "end.right"), fine=True)
    for side in SIDES:
        yield Need("distance", (f"nut.{side}", f"end.{side}"))
    yield Need("distance", ("nut.left", "end.right"))
    yield Need("distance", ("nut.right", "end.left"))


def _frets(counted: tuple[int, ...]) -> Iterator[Need]:
    for side in SIDES:
        for fret in counted:
            yield Need("fret", fret=fret, on=side, laid=f"frets {side}")


def _heights() -> Iterator[Need]:
    places: tuple[Place, ...] = ("fret 1", "fret 12", "board end", "bridge")
    for place in places:
        for side in SIDES:
            yield Need("height", at=place, on=side, fine=place.startswith("fret"))


def _strings_off(needs: Iterator[Need]) -> Iterator[Need]:
    """What can be read with no strings on: no action, the straightedge over the top in the strings' stead, and nothing
    of a bridge that stands by their pull nor of a tailpiece that hangs by it.
    """
    for need in needs:
        if {*FEET.values(), *TAIL.values()}.intersection(need.of):
            continue
        if need.kind != "height" or need.at == "board end":
            yield need
        elif need.at == "bridge":
            yield msgspec.structs.replace(need, at="saddle")


def _bridge_only(_hand: Hand, _strings: int) -> Iterator[Need]:
    yield from _board()
    yield from _frets(FRETS)


def _neck_and_bridge(_hand: Hand, _strings: int) -> Iterator[Need]:
    yield from _board()
    yield Need("distance", ("fret12.left", "fret12.right"), fine=True)
    for side in SIDES:
        edge = (f"nut.{side}", f"end.{side}")
        yield Need("inline", (f"fret12.{side}",), edge)
        yield Need("along", (f"fret12.{side}",), edge, laid=f"edge {side}")
        # the bridge is set from the board's end: without this a slip that all lengths to it share would not show
        yield Need("along", (f"fret12.{side}",), edge[::-1])
    yield from _frets(FRETS)
    yield from _heights()


def _whole_top(hand: Hand, strings: int) -> Iterator[Need]:
    yield from _neck_and_bridge(hand, strings)
    yield from _over_the_top("left", seen=SEAM, corners=("old.1", "old.4"))
    yield from _over_the_top("right", seen=SEAM, corners=("old.2", "old.3"))
    yield Need("distance", SEAM)
    for a, b in (("old.1", "old.2"), ("old.4", "old.3"), ("old.1", "old.3"), ("old.2", "old.4")):
        yield Need("distance", (a, b))
    for a, b in (("old.1", "old.4"), ("old.2", "old.3")):
        yield Need("distance", (a, b), fine=True)
    yield from _pins(hand, strings)


def _standing(hand: Hand, strings: int) -> Iterator[Need]:
    """The neck, where a bridge stands today that nothing but the strings holds, and where these end behind it."""
    yield from _neck_and_bridge(hand, strings)
    for side in SIDES:
        yield from _over_the_top(side, (TAIL[side],), (FEET[side],), front=None)
    yield from _feet_and_tail()


def _feet_and_tail() -> Iterator[Need]:
    yield Need("distance", (FEET["left"], FEET["right"]))
    yield Need("distance", (TAIL["left"], TAIL["right"]), fine=True)


def _top_with_marks(hand: Hand, strings: int) -> Iterator[Need]:
    yield from _neck_and_bridge(hand, strings)
    front_left, front_right, back_right, back_left = MARKS
    ends: dict[Side, tuple[str, str]] = {"left": (front_left, back_left), "right": (front_right, back_right)}
    for side, marks in ends.items():
        yield from _over_the_top(side, (*SEAM, TAIL[side]), (FEET[side], *marks, BODY_END[side]), front=None)
    yield from _feet_and_tail()
    yield from _between(MARKS)


def _top_with_screws(hand: Hand, strings: int) -> Iterator[Need]:
    yield from _neck_and_bridge(hand, strings)
    front_left, front_right, back_right, back_left = SCREWS
    yield from _over_the_top("left", SEAM, (front_left, back_left), front=None)
    yield from _over_the_top("right", SEAM, (front_right, back_right), front=None)
    yield from _between(SCREWS, fine=True)


def _between(corners: tuple[str, str, str, str], fine: bool = False) -> Iterator[Need]:
    """The seam, and four corners by their four sides and a diagonal; `fine`: a caliper spans them."""
    front_left, front_right, back_right, back_left = corners
    yield Need("distance", SEAM)
    for a, b in ((front_left, front_right), (back_left, back_right), (front_left, back_right)):
        yield Need("distance", (a, b), fine=fine)
    for a, b in ((front_left, back_left), (front_right, back_right)):
        yield Need("distance", (a, b), fine=True)


def _over_the_top(
    side: Side, seen: tuple[str, ...], corners: tuple[str, ...], front: tuple[str, str] | None = FRONT
) -> Iterator[Need]:
    """The straightedge once along one edge of the board and over the top: first all along it, then all off it."""
    edge, laid = (f"nut.{side}", f"end.{side}"), f"edge {side}"
    inward: Side = "right" if side == "left" else "left"
    if front is not None:
        yield Need("meets", front, edge, laid=laid)
    for name in (*corners, *seen):
        yield Need("along", (name,), edge, laid=laid)
    for name in corners:
        yield Need("off", (name,), edge, side=side)
    for name in seen:
        yield Need("off", (name,), edge, side=inward)


def _pins(hand: Hand, strings: int) -> Iterator[Need]:
    """The outer pin holes, each from the corners of the old footprint on its side and from one on the other."""
    treble, bass = (
        (("old.1", "old.4"), ("old.2", "old.3")) if hand == "right" else (("old.2", "old.3"), ("old.1", "old.4"))
    )
    for pin, near, far in (("pin.1", treble, bass), (f"pin.{strings}", bass, treble)) if strings > 1 else ():
        for corner in near:
            yield Need("rims", (corner, pin), fine=True)
        yield Need("rims", (far[0], pin))


Lists = dict[Name, Callable[[Hand, int], Iterator[Need]]]
LISTS: Lists = {
    "bridge only": _bridge_only,
    "neck and bridge": _neck_and_bridge,
    "whole top with old work": _whole_top,
}
"""Each list by name: what it asks for by hand and number of strings."""
LISTS_BY_HELD: dict[Held, Lists] = {
    "glue": LISTS,
    "strings": {**LISTS, "neck and bridge": _standing, "whole top with old work": _top_with_marks},
    "screws": {**LISTS, "whole top with old work": _top_with_screws},
}
"""The lists by how the bridge is held."""
