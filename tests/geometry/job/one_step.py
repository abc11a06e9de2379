"""Blocks of a job, each as the last that is taken and as the first that is refused (derived: the one is as the other,
and one step of a rule or one more of the kind farther).
"""

from collections.abc import Callable

from geometry.job import (
    Arch,
    Area,
    Board,
    Brace,
    Bridge,
    Choosing,
    Floating,
    Frets,
    Hardware,
    Headstock,
    Heard,
    Job,
    Kept,
    Moved,
    Old,
    OtherHole,
    Pins,
    Places,
    Point,
    Proof,
    Reading,
    Saddle,
    Scales,
    Separate,
    SideMarkers,
    SlotFront,
    String,
    Strings,
    Tail,
    Through,
    TieBlock,
    TunerPlate,
    Tuners,
    Weights,
)

Make = Callable[[], object]
FOUR = tuple(String(name=name) for name in "1234")
BOARD = ((0.0, 20.0), (0.0, -20.0), (400.0, 20.0), (400.0, -20.0))
PAIR = {name: Point() for name in ("nut.left", "nut.right", "end.left", "end.right", "seam.1")}


def kept(name: str = "first", bridges: tuple[str, ...] = (), **changes: object) -> Kept:
    given: dict[str, object] = {"board": BOARD, "slot": BOARD, "saddle": (640.0, 642.0), "pm95": (0.3, 0.3)}
    kinds = {"bridge": Bridge(), "floating": Floating(), "separate": Separate()}
    places = Places(**given | changes)  # type: ignore[arg-type]  # fields
    return Kept(name=name, when="2026-11-28", places=places, **{one: kinds[one] for one in bridges})  # type: ignore[arg-type]  # kinds


def saddle(made: str, *splits: str, strings: int = 4, **blocks: object) -> Job:
    parted = Saddle(made=made, splits=splits or None)  # type: ignore[arg-type]  # as a file names it
    return Job(saddle=parted, strings=Strings(list=FOUR[:strings]), **blocks)  # type: ignore[arg-type]  # blocks


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


def screws(count: int) -> tuple[tuple[float, float], ...]:
    return tuple((0.0, 3.0 * n - 36.0) for n in range(count))


ARCH = Arch(chord=40.0, rise=0.7)


def many(count: int) -> tuple[Reading, ...]:
    return tuple(Reading(id=f"{n}", kind="fret", fret=12, on="left", value=320.0) for n in range(count))


def traced(count: int) -> Bridge:
    """A bridge of 100 by 26 mm whose left end is given by all but two of these points."""
    end = ((26.0 - 26.0 * n / (count - 3), 50.0) for n in range(count - 2))
    return Bridge(length=100.0, width=26.0, outline="traced", traced=(*end, (0.0, -50.0), (26.0, -50.0)))


STEPS: dict[str, tuple[Make, Make]] = {
    "arch of half a circle": (lambda: Arch(chord=10.0, rise=5.0), lambda: Arch(chord=10.0, rise=5.1)),
    "bridges of a kept placement": (
        lambda: kept(bridges=("floating",)),
        lambda: kept(bridges=("floating", "separate")),
    ),
    "second tie hole over the bridge's bottom": (
        lambda: TieBlock(height=12.0, hole=4.1, hole_from="bottom", holes=2, below=4.0),
        lambda: TieBlock(height=12.0, hole=4.0, hole_from="bottom", holes=2, below=4.0),
    ),
    "arches": (lambda: Board(arch=(ARCH, ARCH)), lambda: Board(arch=(ARCH, ARCH, ARCH))),
    "readings": (lambda: Job(readings=many(4000)), lambda: Job(readings=many(4001))),
    "corners of a traced outline": (lambda: traced(2000), lambda: traced(2001)),
    "fewest corners of a traced outline": (
        lambda: Bridge(length=100.0, width=26.0, outline="traced", traced=((0.0, 50.0), (0.0, -50.0), (26.0, 0.0))),
        lambda: Bridge(length=100.0, width=26.0, outline="traced", traced=((0.0, 50.0), (26.0, -50.0))),
    ),
    "bushing as wide as its post": (lambda: Tuners(post=8.0, bushing=8.0), lambda: Tuners(post=8.0, bushing=7.9)),
    "posts apart": (lambda: Tuners(post=8.0, spacing=8.1), lambda: Tuners(post=8.0, spacing=8.0)),
    "bushings apart": (
        lambda: Tuners(post=6.0, bushing=8.0, spacing=8.1),
        lambda: Tuners(post=6.0, bushing=8.0, spacing=8.0),
    ),
    "posts below the face": (lambda: Tuners(post=8.0, below=4.0), lambda: Tuners(post=8.0, below=3.9)),
    "bushings below the face": (
        lambda: Tuners(post=6.0, bushing=8.0, below=4.0),
        lambda: Tuners(post=6.0, bushing=8.0, below=3.9),
    ),
    "posts a side": (lambda: Tuners(left=(6, 6)), lambda: Tuners(left=(6, 7))),
    "posts a side, right": (lambda: Tuners(right=(12,)), lambda: Tuners(right=(13,))),
    "posts a plate": (lambda: Tuners(left=(1, 1)), lambda: Tuners(left=(1, 0))),
    "plates of one size": (
        lambda: Tuners(left=(1, 1), right=(1,), plate=TunerPlate()),
        lambda: Tuners(left=(1, 1), right=(2,), plate=TunerPlate()),
    ),
    "plates of several": (
        lambda: Tuners(left=(3,), right=(2,), plate=TunerPlate()),
        lambda: Tuners(left=(3,), right=(1,), plate=TunerPlate()),
    ),
    "no plate": (lambda: Tuners(left=(3,), right=(1,)), lambda: Tuners(left=(3,), right=(0,))),
    "posts within the headstock": (
        lambda: Hardware(headstock=Headstock(thickness=14.0), tuners=Tuners(post=8.0, below=10.0)),
        lambda: Hardware(headstock=Headstock(thickness=13.9), tuners=Tuners(post=8.0, below=10.0)),
    ),
    "bushings within the headstock": (
        lambda: Hardware(headstock=Headstock(thickness=15.0), tuners=Tuners(post=8.0, bushing=10.0, below=10.0)),
        lambda: Hardware(headstock=Headstock(thickness=14.9), tuners=Tuners(post=8.0, bushing=10.0, below=10.0)),
    ),
    "plug as wide as its hole": (
        lambda: OtherHole(where="heel", diameter=6.0, plug=6.0),
        lambda: OtherHole(where="heel", diameter=6.0, plug=5.9),
    ),
    "marker below the face": (
        lambda: SideMarkers(diameter=4.0, below=2.0),
        lambda: SideMarkers(diameter=4.0, below=1.9),
    ),
    "marked fret": (lambda: SideMarkers(frets=(1, 36), twice=()), lambda: SideMarkers(frets=(0, 36), twice=())),
    "last marked fret": (lambda: SideMarkers(frets=(36,), twice=()), lambda: SideMarkers(frets=(37,), twice=())),
    "slot of a headstock": (lambda: Headstock(slots=(("a", "b", "c"),)), lambda: Headstock(slots=(("a", "b"),))),
    "middle through points": (
        lambda: Headstock(middle="points", points=("a", "b")),
        lambda: Headstock(middle="points", points=("a", "a")),
    ),
    "middle of edges": (
        lambda: Headstock(middle="edges", edges=(("a", "b"), ("c", "d"))),
        lambda: Headstock(middle="edges", edges=(("a", "b"), ("c", "c"))),
    ),
    "wings leave a middle": (
        lambda: Bridge(length=150.0, wing_length=74.9),
        lambda: Bridge(length=150.0, wing_length=75.0),
    ),
    "belly on a straight bridge": (
        lambda: Bridge(length=100.0, outline="straight", belly_depth=40.0),
        lambda: Bridge(length=100.0, outline="belly", belly_depth=40.0),
    ),
    "pins or a tie block": (lambda: Bridge(pins=Pins()), lambda: Bridge(pins=Pins(), tie=TieBlock())),
    "hole within the tie block": (lambda: TieBlock(height=8.0, hole=7.9), lambda: TieBlock(height=8.0, hole=8.0)),
    "hole from the top": (
        lambda: TieBlock(height=8.0, hole=7.9, hole_from="top"),
        lambda: TieBlock(height=8.0, hole=8.0, hole_from="top"),
    ),
    "second hole": (
        lambda: TieBlock(hole=4.0, holes=2, below=3.9),
        lambda: TieBlock(hole=4.0, holes=2, below=4.0),
    ),
    "a second hole that is none": (
        lambda: TieBlock(hole=4.0, below=9.0),
        lambda: TieBlock(hole=4.0, holes=2, below=9.0),
    ),
    "feet": (lambda: Floating(feet=(20.0, 20.0)), lambda: Floating(feet=(20.0,))),
    "three feet": (lambda: Floating(feet=(20.0,) * 3), lambda: Floating(feet=(20.0,) * 4)),
    "room between feet": (
        lambda: Floating(length=60.0, feet=(30.0, 29.9)),
        lambda: Floating(length=60.0, feet=(30.0, 30.0)),
    ),
    "room beside the middle foot": (
        lambda: Floating(length=60.0, feet=(24.9, 10.0, 5.0)),
        lambda: Floating(length=60.0, feet=(25.0, 10.0, 5.0)),
    ),
    "room on its other side": (
        lambda: Floating(length=60.0, feet=(5.0, 10.0, 24.9)),
        lambda: Floating(length=60.0, feet=(5.0, 10.0, 25.0)),
    ),
    "crown over its feet": (
        lambda: Floating(width=10.0, front_to_crown=10.0),
        lambda: Floating(width=10.0, front_to_crown=10.1),
    ),
    "crown over its bridge": (
        lambda: Job(saddle=Saddle(slot_length=80.0), floating=Floating(length=80.0)),
        lambda: Job(saddle=Saddle(slot_length=80.1), floating=Floating(length=80.0)),
    ),
    "foot mark": (lambda: Floating(marks=(("a", "b", "c"),)), lambda: Floating(marks=(("a", "b", "a"),))),
    "screws of a base": (
        lambda: Separate(screws=screws(24), screw=2.0),
        lambda: Separate(screws=screws(25), screw=2.0),
    ),
    "screws of a base apart": (
        lambda: Separate(screws=((5.0, 0.0), (8.0, 4.0)), screw=5.0),  # 3, 4, 5
        lambda: Separate(screws=((5.0, 0.0), (8.0, 4.0)), screw=5.1),
    ),
    "saddles": (lambda: Separate(saddles=1), lambda: Separate(saddles=0)),
    "most saddles": (lambda: Separate(saddles=24), lambda: Separate(saddles=25)),
    "travel on its base": (
        lambda: Separate(length=44.0, travel=20.0, foremost=24.0),
        lambda: Separate(length=44.0, travel=20.0, foremost=24.1),
    ),
    "opening": (lambda: Separate(opening=("a", "b", "c")), lambda: Separate(opening=("a", "b"))),
    "ferrule as wide as its hole": (
        lambda: Through(diameter=4.0, ferrule=4.0),
        lambda: Through(diameter=4.0, ferrule=3.9),
    ),
    "ferrule in the body": (
        lambda: Separate(body=40.0, through=Through(ferrule_deep=39.9)),
        lambda: Separate(body=40.0, through=Through(ferrule_deep=40.0)),
    ),
    "no ferrule": (
        lambda: Separate(body=10.0, through=Through(ferrule=None)),
        lambda: Separate(body=10.0, through=Through()),
    ),
    "screws of a tail": (
        lambda: Tail(screws=tuple((4.0 * n, 0.0) for n in range(12))),
        lambda: Tail(screws=tuple((4.0 * n, 0.0) for n in range(13))),
    ),
    "screws of a tail apart": (
        lambda: Tail(screws=((5.0, 0.0), (8.0, 4.0)), screw=5.0),
        lambda: Tail(screws=((5.0, 0.0), (8.0, 4.0)), screw=5.1),
    ),
    "a tail or holes through the body": (
        lambda: Job(tail=Tail(), separate=Separate()),
        lambda: Job(tail=Tail(), separate=Separate(through=Through())),
    ),
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
    "one bridge": (lambda: Job(bridge=Bridge()), lambda: Job(bridge=Bridge(), floating=Floating())),
    "two pieces": (lambda: saddle("two", "1"), lambda: saddle("two", "1", "2")),
    "two pieces of strings": (lambda: saddle("two", strings=2), lambda: saddle("two", strings=1)),
    "three pieces": (lambda: saddle("three", "1", "2"), lambda: saddle("three", "1")),
    "three pieces of strings": (lambda: saddle("three", strings=3), lambda: saddle("three", strings=2)),
    "pieces in their order": (lambda: saddle("three", "1", "3"), lambda: saddle("three", "3", "1")),
    "pieces once": (lambda: saddle("three", "2", "3"), lambda: saddle("three", "2", "2")),
    "a piece after the last": (lambda: saddle("two", "3"), lambda: saddle("two", "4")),
    "a piece after a string there is": (lambda: saddle("two", "2"), lambda: saddle("two", "5")),
    "pieces of one": (lambda: saddle("one"), lambda: saddle("one", "2")),
    "pieces each": (lambda: saddle("each"), lambda: saddle("each", "2")),
    "pieces in one slot": (
        lambda: saddle("two", bridge=Bridge()),
        lambda: saddle("two", bridge=Bridge(slot_front=SlotFront(left=8.0, right=8.0))),
    ),
    "steps of a base": (lambda: saddle("one", separate=Separate()), lambda: saddle("steps", separate=Separate())),
    "pieces of a crown": (lambda: saddle("steps", floating=Floating()), lambda: saddle("two", floating=Floating())),
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
