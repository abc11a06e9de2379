"""Strings and frets, old work, kept placements, the proof and readings, each at its limit."""

from collections.abc import Callable

from geometry.job import (
    Area,
    Brace,
    Bridge,
    Choosing,
    Floating,
    Frets,
    Heard,
    Job,
    Kept,
    Moved,
    Old,
    Places,
    Point,
    Proof,
    Reading,
    Scales,
    Separate,
    String,
    Strings,
    Weights,
)

Make = Callable[[], object]
Steps = dict[str, tuple[Make, Make]]
"""By what is stepped: the last that is taken, and the first that is refused."""
FOUR = tuple(String(name=name) for name in "1234")
BOARD = ((0.0, 20.0), (0.0, -20.0), (400.0, 20.0), (400.0, -20.0))
PAIR = {name: Point() for name in ("nut.left", "nut.right", "end.left", "end.right", "seam.1")}


def kept(name: str = "first", bridges: tuple[str, ...] = (), **changes: object) -> Kept:
    given: dict[str, object] = {"board": BOARD, "slot": BOARD, "saddle": (640.0, 642.0), "pm95": (0.3, 0.3)}
    kinds = {"bridge": Bridge(), "floating": Floating(), "separate": Separate()}
    places = Places(**given | changes)  # type: ignore[arg-type]  # fields
    return Kept(name=name, when="2026-11-28", places=places, **{one: kinds[one] for one in bridges})  # type: ignore[arg-type]  # kinds


def many(count: int) -> tuple[Reading, ...]:
    return tuple(Reading(id=f"{n}", kind="fret", fret=12, on="left", value=320.0) for n in range(count))


def heard(fret: int, **string: object) -> Strings:
    first = String(name="1", **string)  # type: ignore[arg-type]  # the fields of a string
    return Strings(list=(first, String(name="2")), heard=(Heard(string="1", cents=1.0, trial="1", fret=fret),))


def proof(count: int, day: str = "2026-11-28") -> Proof:
    readings = (Reading(id=f"{n}", kind="distance", of=("nut.left", "bridge.front.left")) for n in range(count))
    return Proof(stage="built", when=day, readings=tuple(readings))


def off(value: float, **changes: object) -> Job:
    edge = ("nut.left", "end.left")
    given: dict[str, object] = {"id": "r", "kind": "off", "of": ("seam.1",), "from_": edge, "side": "left"}
    return Job(points=PAIR, readings=(Reading(**given | {"value": value} | changes),))  # type: ignore[arg-type]  # fields


def rims(near: float, far: float) -> Reading:
    return Reading(id="r", kind="rims", of=("a", "b"), value=(near, far))


def distance(value: float) -> Reading:
    return Reading(id="r", kind="distance", of=("a", "b"), value=value)


def fret(number: int) -> Reading:
    return Reading(id="r", kind="fret", fret=number, on="left", value=30.0)


STEPS: Steps = {
    "bridges of a kept placement": (
        lambda: kept(bridges=("floating",)),
        lambda: kept(bridges=("floating", "separate")),
    ),
    "readings": (lambda: Job(readings=many(4000)), lambda: Job(readings=many(4001))),
    "core as thick as its string": (
        lambda: String(name="1", diameter=1.0, core=1.0),
        lambda: String(name="1", diameter=1.0, core=1.01),
    ),
    "a string starts": (lambda: String(name="1", starts_at=1), lambda: String(name="1", starts_at=0)),
    "where it starts": (
        lambda: String(name="1", starts_at=5, from_edge=2.0),
        lambda: String(name="1", starts_at=5, from_edge=2.0, from_neighbour=2.0),
    ),
    "where it starts, at a fret": (
        lambda: String(name="1", starts_at=5, from_neighbour=2.0),
        lambda: String(name="1", from_neighbour=2.0),
    ),
    "starts on the board": (
        lambda: Job(frets=Frets(count=5), strings=Strings(list=(FOUR[0], String(name="5", starts_at=5)))),
        lambda: Job(frets=Frets(count=4), strings=Strings(list=(FOUR[0], String(name="5", starts_at=5)))),
    ),
    "one begins at the nut": (
        lambda: Strings(list=(FOUR[0], String(name="5", starts_at=5))),
        lambda: Strings(list=(String(name="5", starts_at=5),)),
    ),
    "compensation a string": (
        lambda: Strings(list=FOUR, compensation=(1.0,) * 4),
        lambda: Strings(list=FOUR, compensation=(1.0,) * 3),
    ),
    "heard above its start": (lambda: heard(6, starts_at=5), lambda: heard(5, starts_at=5)),
    "heard from the nut": (lambda: heard(1), lambda: heard(0)),
    "heard on a fretted string": (lambda: heard(12), lambda: heard(12, fretted=False)),
    "square fret on the board": (
        lambda: Frets(count=12, slanted=True, square_fret=12),
        lambda: Frets(count=12, slanted=True, square_fret=13),
    ),
    "square fret of slanted ones": (lambda: Frets(slanted=True, square_fret=7), lambda: Frets(square_fret=7)),
    "scales of slanted ones": (
        lambda: Frets(slanted=True, scales=Scales(left=640.0)),
        lambda: Frets(scales=Scales(left=640.0)),
    ),
    "row of holes": (lambda: Old(row=2), lambda: Old(row=1)),
    "longest row": (lambda: Old(row=24), lambda: Old(row=25)),
    "brace": (lambda: Brace(of=("a", "b")), lambda: Brace(of=("a",))),
    "area": (lambda: Area(of=("a", "b", "c")), lambda: Area(of=("a", "b"))),
    "kept placements": (
        lambda: Job(kept=tuple(kept(f"{n}") for n in range(12))),
        lambda: Job(kept=tuple(kept(f"{n}") for n in range(13))),
    ),
    "kept names": (lambda: Job(kept=(kept("a"), kept("b"))), lambda: Job(kept=(kept("a"), kept("a")))),
    "kept name": (lambda: kept("a"), lambda: kept(" ")),
    "kept board": (
        lambda: kept(board=((0.0, 10.0), (0.0, 0.0), (400.0, 10.0), (400.0, 0.0))),
        lambda: kept(board=((0.0, 9.9), (0.0, 0.0), (400.0, 10.0), (400.0, 0.0))),
    ),
    "kept board's end": (
        lambda: kept(board=((0.0, 20.0), (0.0, 0.0), (400.0, 10.0), (400.0, 0.0))),
        lambda: kept(board=((0.0, 20.0), (0.0, 0.0), (400.0, 9.9), (400.0, 0.0))),
    ),
    "kept pins": (lambda: kept(pins=((0.0, 0.0),) * 64), lambda: kept(pins=((0.0, 0.0),) * 65)),
    "kept slots": (lambda: kept(slots=(BOARD,) * 64), lambda: kept(slots=(BOARD,) * 65)),
    "weights": (
        lambda: Weights(tune=0.0, margins=0.0, scar=0.0, holes=0.0, clearance=0.0, looks=0.1),
        lambda: Weights(tune=0.0, margins=0.0, scar=0.0, holes=0.0, clearance=0.0, looks=0.0),
    ),
    "proof's distances": (lambda: proof(40), lambda: proof(41)),
    "proof's day": (lambda: proof(1, "2026-12-31"), lambda: proof(1, "2026-13-01")),
    "a point off the board": (lambda: off(1200.0), lambda: off(1200.1)),
    "a struck one": (lambda: off(1300.0, struck=True), lambda: off(1300.0)),
    "one off another line": (lambda: off(1300.0, from_=("nut.left", "seam.1"), of=("end.left",)), lambda: off(1300.0)),
    "rims": (lambda: rims(5.0, 5.1), lambda: rims(5.0, 5.0)),
    "distance": (lambda: distance(0.1), lambda: distance(0.0)),
    "fret": (lambda: fret(1), lambda: fret(0)),
    "last fret": (lambda: fret(36), lambda: fret(37)),
    "moved": (lambda: Moved(along=60.0), lambda: Moved(along=60.1)),
    "choosing": (lambda: Choosing(along=30.0), lambda: Choosing(along=30.1)),
}
