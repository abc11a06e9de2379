"""Jobs that can be made but that nobody would make: blocks missing in every combination, values at the ends of what is
allowed, and readings of which any are missing. For hypothesis.
"""

import math
from typing import Any

import msgspec
from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import (
    Action,
    Arch,
    Board,
    Bridge,
    Frets,
    Heard,
    Heights,
    Job,
    Nut,
    Old,
    OldMetal,
    OldPin,
    Pins,
    Point,
    Reading,
    Saddle,
    Scales,
    SlotFront,
    Spread,
    String,
    Strings,
    TieBlock,
)
from geometry.job.job import MOST_OFF, WIDTHS
from geometry.strings.usual_sets import SETS

PLACES: dict[str, tuple[float, float]] = {
    "nut.left": (0.3, 22.0),
    "nut.right": (-0.3, -22.0),
    "end.left": (440.5, 28.4),
    "end.right": (439.5, -27.8),
    "fret12.left": (322.0, 26.2),
    "fret12.right": (322.4, -26.4),
    "edge.left.1": (200.0, 25.0),
    "thread.left.nut": (0.0, 18.5),
    "thread.left.end": (440.0, 24.0),
    "thread.right.nut": (0.0, -18.5),
    "thread.right.end": (440.0, -24.0),
    "seam.1": (520.0, 2.0),
    "seam.2": (760.0, 5.0),
    "old.1": (632.0, 76.0),
    "old.2": (631.0, -75.0),
    "old.3": (657.0, -76.0),
    "old.4": (658.0, 75.0),
    "pin.1": (650.0, -27.0),
    "metal.1": (655.0, -60.0),
    "trial.1.left": (646.0, 40.0),
    "trial.1.right": (648.0, -40.0),
}


def ends(*values: float) -> st.SearchStrategy[float]:
    """One of these values, or one between the least and the greatest."""
    return st.sampled_from(values) | st.floats(min(values), max(values))


def pairs(*values: float) -> st.SearchStrategy[tuple[float, float]]:
    return st.tuples(ends(*values), ends(*values))


def rarely_none(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """These values, and once in a while none at all."""
    return st.integers(0, 7).flatmap(lambda number: values if number else st.none())


STRING = st.builds(
    String,
    name=st.just(""),
    course=st.none() | st.integers(1, 3),
    pitch=st.none() | st.sampled_from(["E4", "E2", "A0", "C7", "440 Hz"]),
    material=st.sampled_from(["steel", "nylon", "gut", "fluorocarbon", "silk and steel"]),
    build=st.sampled_from(["plain", "wound"]),
    diameter=st.none() | ends(0.1, 0.5, 4.0),
    kg_per_m=st.none() | ends(1e-5, 5e-3, 0.1),
    stretch_ratio=st.none() | ends(1.0, 30.0, 1000.0),
    starts_at=st.none() | st.integers(1, 12),
    fretted=st.sampled_from([True, True, False]),
)


@st.composite
def string_lists(draw: Any) -> tuple[String, ...]:
    usual = draw(
        st.sampled_from(
            [
                "steel 12-54",
                "nylon 0.70-1.10",
                "steel twelve 10-46",
                "ukulele nylon 0.60-0.90",
                "short fifth steel 10-24",
                "drones steel 10-22",
                "",
            ]
        )
    )
    if usual:
        return SETS[usual].strings
    odd = draw(st.lists(STRING, max_size=12))
    listed = tuple(
        String(**{name: getattr(s, name) for name in s.__struct_fields__} | {"name": str(i)}) for i, s in enumerate(odd)
    )
    at_nut = draw(st.integers(0, len(listed) - 1)) if listed else 0
    return tuple(replace(s, starts_at=None) if i == at_nut else _across(draw, s) for i, s in enumerate(listed))


def _across(draw: Any, string: String) -> String:
    """A string that may start so far from its neighbour, or from the board's edge."""
    how = draw(st.sampled_from(["", "from_neighbour", "from_edge"]))
    return replace(string, **{how: draw(ends(0.5, 8.0, 80.0))}) if how and string.first else string


def _can_be_heard(heard: Heard, listed: tuple[String, ...]) -> bool:
    return any(s.name == heard.string and s.fretted and s.first < heard.fret for s in listed)


@st.composite
def strings(draw: Any) -> Strings:
    listed = draw(string_lists())
    given = st.builds(Spread, spread=ends(5.0, 36.0, 200.0), spacing=st.sampled_from(["gaps", "centres"]))
    spread = rarely_none(given)
    typed = st.tuples(*[ends(-15.0, 2.0, 25.0)] * len(listed))
    heard = st.builds(
        Heard,
        string=st.sampled_from([s.name for s in listed] or [""]),
        cents=ends(-200.0, 3.0, 200.0),
        trial=st.sampled_from(["1", "2"]),
        fret=st.integers(1, 36),
        against=st.sampled_from(["open", "harmonic"]),
    )
    return Strings(
        list=listed,
        a4=draw(ends(300.0, 440.0, 600.0)),
        nut=draw(spread),
        saddle=draw(spread),
        shift=draw(ends(-20.0, 0.0, 20.0)),
        height=draw(st.none() | st.builds(Heights, nut=ends(0.0, 5.0), saddle=ends(0.0, 4.0, 30.0))),
        action=draw(st.none() | st.builds(Action, fret1=pairs(0.0, 0.5, 5.0), fret12=pairs(0.0, 2.0, 12.0))),
        relief=draw(ends(0.0, 0.2, 3.0)),
        press_behind=draw(ends(0.0, 8.0, 25.0)),
        compensation=draw(st.just("worked out") | typed),
        nut_compensation=draw(st.just("worked out") | st.just(0.0) | ends(-15.0, 25.0) | typed),
        weights=draw(st.none() | st.dictionaries(st.integers(1, 36), ends(0.0, 1.0, 1000.0), max_size=4)),
        replaces=draw(st.none() | st.just(SETS["nylon 0.75-1.15"].strings) | st.just(())),
        heard=tuple(one for one in draw(st.lists(heard, max_size=3)) if _can_be_heard(one, listed)),
    )


BRIDGES = st.builds(
    lambda belly_depth, length, **rest: Bridge(
        belly_depth=belly_depth and min(belly_depth, 0.3 * length),
        length=length,
        **rest | {"tie": rest["tie"] if rest["pins"] is None else None},
    ),
    outline=st.sampled_from(["straight", "belly"]),
    length=ends(30.0, 152.0, 400.0),
    width=ends(5.0, 26.0, 120.0),
    thickness=st.none() | ends(2.0, 9.0, 40.0),
    belly_depth=st.none() | ends(0.0, 10.0, 60.0),
    seat=st.sampled_from(["square", "with slot", "old footprint"]),
    slot_front=st.none() | st.builds(SlotFront, left=ends(0.0, 8.0, 60.0), right=ends(0.0, 8.0, 60.0)),
    pins=st.none()
    | st.builds(
        Pins,
        behind_slot=ends(0.5, 5.0, 60.0),
        row=st.sampled_from(["slot", "bridge"]),
        diameter=ends(1.0, 12.0),
        second_row=ends(0.0, 40.0),
    ),
    tie=st.none()
    | st.builds(
        TieBlock,
        behind_slot=ends(1.0, 8.0, 60.0),
        depth=ends(2.0, 9.0, 60.0),
        holes=st.sampled_from([1, 2]),
        spacing=ends(1.0, 4.0, 20.0),
        length=st.none() | ends(10.0, 300.0),
    ),
)
OLDS = st.builds(
    Old,
    outline=st.permutations(["old.1", "old.2", "old.3", "old.4"]).flatmap(
        lambda names: st.integers(0, 4).map(lambda count: tuple(names[:count]))
    ),
    pins=st.just({}) | st.just({"pin.1": OldPin(diameter=5.0)}),
    metal=st.just({}) | st.builds(lambda room: {"metal.1": OldMetal(keep_out=room)}, ends(0.0, 60.0)),
)


@st.composite
def frets(draw: Any) -> Frets:
    """Frets of any sort; once in a while slanted ones, of which something is declared."""
    scale = ends(200.0, 640.0, 1500.0)
    made = Frets(
        count=draw(st.integers(1, 36)),
        spacing=draw(st.sampled_from(["equal", "eighteen", "measured"])),
        nominal=draw(st.sampled_from(["octave", "best"])),
        scale=draw(st.none() | scale),
    )
    if draw(st.integers(0, 3)):
        return made
    declared = st.builds(Scales, left=st.none() | scale, right=st.none() | scale)
    square = st.none() | st.integers(0, made.count)
    return replace(made, slanted=True, scales=draw(st.none() | declared), square_fret=draw(square))


def drawn_blocks(draw: Any) -> dict[str, Any]:
    """One of each block, with as many frets as strings start at."""
    blocks = {name: draw(values) for name, values in BLOCKS.items()}
    listed = blocks["strings"].list if blocks["strings"] is not None else ()
    count = max([blocks["frets"].count, *(string.first for string in listed)])
    return going_together(blocks | {"frets": replace(blocks["frets"], count=count)})


RADII = st.none() | ends(30.0, 305.0, 5000.0) | pairs(30.0, 250.0, 5000.0)
ARCHES = st.lists(st.builds(Arch, chord=ends(10.0, 40.0, 150.0), rise=ends(0.02, 0.9, 5.0)), min_size=1, max_size=2)
BOARDS = st.tuples(st.sampled_from(["bisector", "nut to fret 12", "midpoints", "threads"]), st.booleans()).flatmap(
    lambda given: (
        st.builds(Board, centre=st.just(given[0]), zero_fret=st.just(given[1]), radius=RADII)
        | st.builds(Board, centre=st.just(given[0]), zero_fret=st.just(given[1]), arch=ARCHES.map(tuple))
    )
)
NUTS = st.builds(
    Nut,
    thickness=ends(1.0, 5.0, 20.0),
    height=st.none() | ends(2.0, 8.0, 30.0),
    bed=st.none() | ends(0.0, 5.0, 20.0) | st.tuples(st.none() | ends(0.0, 5.0, 20.0), ends(0.0, 5.0, 20.0)),
    fret_height=st.none() | ends(0.2, 1.0, 3.0),
    over_fret1=st.tuples(*[st.none() | ends(0.0, 0.4, 5.0)] * 2),
    clearance=ends(0.0, 1.0),
    back_angle=ends(0.0, 8.0, 45.0),
    below_fret=ends(0.0, 0.5, 3.0),
)
BLOCKS: dict[str, st.SearchStrategy[Any]] = {
    "unit": st.sampled_from(["mm", "cm", "in"]),
    "hand": st.sampled_from(["left", "right"]),
    "board": BOARDS,
    "nut": st.none() | NUTS,
    "frets": frets(),
    "strings": rarely_none(strings()),
    "saddle": st.none()
    | st.builds(
        Saddle,
        thickness=ends(0.5, 3.0, 15.0),
        peak_at=ends(0.0, 0.5, 1.0),
        slot_length=st.none() | ends(10.0, 76.0, 300.0),
        slot_depth=st.none() | ends(0.5, 6.0, 30.0),
        straight=st.booleans(),
        made=st.sampled_from(["one", "one", "two", "three", "each", "steps"]),
        wall=ends(0.0, 2.0, 20.0),
    ),
    "bridge": rarely_none(BRIDGES),
    "old": rarely_none(OLDS),
}


def going_together(blocks: dict[str, Any]) -> dict[str, Any]:
    """The blocks with a saddle of one piece, where no other can be made of these strings on this bridge."""
    saddle, bridge, strings = blocks["saddle"], blocks["bridge"], blocks["strings"]
    if saddle is None or saddle.made in ("one", "steps"):
        return blocks
    cut = bridge is not None and bridge.slot_front is not None
    few = strings is not None and len(strings.list) < {"two": 2, "three": 3}.get(saddle.made, 1)
    return blocks | {"saddle": msgspec.structs.replace(saddle, made="one")} if cut or few else blocks


def readings() -> list[Reading]:
    """Every kind of reading that the layout stands on, with values as an instrument would give them."""
    found: list[Reading] = []

    def read(**what: Any) -> None:
        found.append(Reading(id=f"r{len(found) + 1}", **what))

    def apart(a: str, b: str) -> float:
        (ax, ay), (bx, by) = PLACES[a], PLACES[b]
        return round(math.hypot(ax - bx, ay - by), 1)

    board = ["nut.left", "nut.right", "end.left", "end.right"]
    for i, a in enumerate(board):
        for b in board[i + 1 :]:
            read(kind="distance", of=(a, b), value=apart(a, b))
    for name in PLACES:
        if name not in board:
            read(kind="distance", of=("end.left", name), value=apart("end.left", name))
            read(kind="distance", of=("end.right", name), value=apart("end.right", name))
    for on in ("left", "right", "centre"):
        for fret in (1, 5, 7, 12):
            value = 642.0 * (1 - 2 ** (-fret / 12)) + (0.3 if on == "left" else 0.0)
            read(kind="fret", fret=fret, on=on, value=round(value, 1), laid=f"frets {on}")
    for at, value in (("fret 1", 0.6), ("fret 12", 2.1), ("board end", 6.0), ("bridge", 12.5)):
        for on in ("left", "right"):
            read(kind="height", at=at, on=on, value=value)
    return found


READINGS = readings()
OFF_CORNERS = ("fret12", "edge", "thread", "seam", "old", "pin", "metal", "trial")
"""The sorts of points that two distances lead to, and that may lie on either side of the board's end."""
SORTS = 4
"""So many sorts of them are read in one job: a survey tries the image of each, which takes longest where all are."""


@st.composite
def jobs(draw: Any) -> Job:
    """Any of the readings, some of them odd, with any of the blocks."""
    number = st.integers(0, len(READINGS) - 1)
    dropped = draw(st.sets(number, max_size=6) | st.sets(number))
    unread = tuple(f"{sort}." for sort in draw(st.permutations(OFF_CORNERS))[SORTS:])
    taken = [r for i, r in enumerate(READINGS) if i not in dropped and not any(at.startswith(unread) for at in r.of)]
    odd = draw(st.dictionaries(st.integers(0, 60), ends(0.01, 1.0, 100.0, 5000.0), max_size=2))
    made = [_with_value(reading, odd.get(i)) for i, reading in enumerate(taken)]
    blocks = drawn_blocks(draw)
    return Job(points={name: Point() for name in PLACES}, readings=tuple(made), **blocks)


def _with_value(reading: Reading, value: float | None) -> Reading:
    if value is None or (reading.kind == "distance" and frozenset(reading.of) in WIDTHS):
        return reading
    if reading.kind == "off" and value > MOST_OFF:
        return reading
    fields = {name: getattr(reading, name) for name in reading.__struct_fields__}
    return Reading(**fields | {"value": value})
