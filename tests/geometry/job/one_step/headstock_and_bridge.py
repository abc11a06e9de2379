"""Headstock, bridges of every kind, their tails and their saddles, each at its limit."""

from geometry.job import (
    Arch,
    Board,
    Bridge,
    Floating,
    Hardware,
    Headstock,
    Job,
    OtherHole,
    Pins,
    Saddle,
    Separate,
    SideMarkers,
    SlotFront,
    Strings,
    Tail,
    Through,
    TieBlock,
    TunerPlate,
    Tuners,
)
from tests.geometry.job.one_step.strings_and_readings import FOUR, Steps


def saddle(made: str, *splits: str, strings: int = 4, **blocks: object) -> Job:
    parted = Saddle(made=made, splits=splits or None)  # type: ignore[arg-type]  # as a file names it
    return Job(saddle=parted, strings=Strings(list=FOUR[:strings]), **blocks)  # type: ignore[arg-type]  # blocks


def screws(count: int) -> tuple[tuple[float, float], ...]:
    return tuple((0.0, 3.0 * n - 36.0) for n in range(count))


ARCH = Arch(chord=40.0, rise=0.7)


def traced(count: int) -> Bridge:
    """A bridge of 100 by 26 mm whose left end is given by all but two of these points."""
    end = ((26.0 - 26.0 * n / (count - 3), 50.0) for n in range(count - 2))
    return Bridge(length=100.0, width=26.0, outline="traced", traced=(*end, (0.0, -50.0), (26.0, -50.0)))


STEPS: Steps = {
    "arch of half a circle": (lambda: Arch(chord=10.0, rise=5.0), lambda: Arch(chord=10.0, rise=5.1)),
    "second tie hole over the bridge's bottom": (
        lambda: TieBlock(height=12.0, hole=4.1, hole_from="bottom", holes=2, below=4.0),
        lambda: TieBlock(height=12.0, hole=4.0, hole_from="bottom", holes=2, below=4.0),
    ),
    "arches": (lambda: Board(arch=(ARCH, ARCH)), lambda: Board(arch=(ARCH, ARCH, ARCH))),
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
}
