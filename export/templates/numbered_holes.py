"""The holes and the slot of bridge and plate as their tables list them, and their numbers on the drawing."""

import math
from collections.abc import Sequence
from functools import cache

import msgspec

from export.drawing.dimension import cross
from export.drawing.marks import XY, Anchor, Circle, Mark, Text
from export.drawing.room import clear_words
from export.drawing.room.clear_words import lines_of
from export.drawing.typeface import text_box
from export.drills import Drill, for_pin, nearest_names
from export.hole_table import REAMED, Bored, Table, paper_table
from export.machine.machine_file import DATUM, datum_of
from export.paper.furniture import marks_box
from export.records import Figure
from geometry.job import Job
from geometry.job.told_by_rule import places_of
from geometry.layout import Hole, Layout
from geometry.units import mm

BESIDE = 1.0
"""From a hole's cross to its number, mm."""
BETWEEN = 0.6
"""And from its rim, where the number stands between the arms of the cross, mm."""
OFF_LINES = 0.7
"""How far numbers stand off the lines of the part, mm: a thick line is 0.5 mm wide."""
PART = ("bridge", "clearing", "plate", "base", "slot", "saddle")
"""What the lines of a part are of."""
OLD = ("old", "bare", "old slot", "old pin", "old hole")
"""What the old footprint and its holes are of: a dot of theirs beside a number would read as its own."""
REAM = "Pin holes: drill undersize, with the drill that is listed, then ream each until its pin seats."
CROSS = 1.4
"""How far a hole's cross reaches beyond its edge, mm."""


def pins(job: Job, layout: Layout) -> list[Bored]:
    """The pin holes, at the size they are reamed to."""
    found = layout.bridge.pins if layout.bridge else ()
    return [
        Bored(name=REAMED.format(pin.name), at=pin.at, diameter=pin.diameter, drill=pin_drill(job, pin.diameter))
        for pin in found
    ]


def pin_drill(job: Job, diameter: float) -> tuple[str, str]:
    """The names of the drills for a pin hole before it is reamed, metric and inch."""
    metric, inch = pin_drills(job, diameter)
    return metric.name, inch.name


def pin_drills(job: Job, diameter: float) -> tuple[Drill, Drill]:
    """The drills themselves."""
    kept = job.bridge.pins if job.bridge else None
    small = mm(kept.small_end) if kept is not None and kept.small_end is not None else None
    return for_pin(diameter, small)


def slot(job: Job, layout: Layout) -> list[Bored]:
    """The slot by the middles of its two ends, or each of several, counted from the treble; its depth where the job has
    it.
    """
    slots = layout.saddle.slots if layout.saddle is not None else ()
    numbers = [""] if len(slots) == 1 else [f" {number}" for number in range(1, len(slots) + 1)]
    called = [f"slot{number} mid" for number in numbers]
    return [end for name, corners in zip(called, slots, strict=True) for end in _ends(job, name, *corners)]


def _ends(job: Job, name: str, fl: XY, fr: XY, br: XY, bl: XY) -> list[Bored]:
    ends = (("left", (fl, bl)), ("right", (fr, br)))
    return [
        Bored(
            name=f"{name}, {job.bass_or_treble(side)}",
            at=((a[0] + b[0]) / 2, (a[1] + b[1]) / 2),
            diameter=math.dist(fl, bl),
            depth="by your saddle",
            deep=slot_depth(job),
        )
        for side, (a, b) in ends
    ]


def slot_depth(job: Job) -> float | None:
    """From the bridge's top, mm; None where the job does not have it."""
    kept = job.saddle.slot_depth if job.saddle else None
    return mm(kept) if kept is not None else None


def plain(job: Job, holes: Sequence[Hole], called: str) -> list[Bored]:
    """Holes that are drilled to their size, by the side they are on."""
    return [
        Bored(
            name=f"{called}, {job.bass_or_treble(hole.name)}",
            at=hole.at,
            diameter=hole.diameter,
            drill=nearest_names(hole.diameter),
        )
        for hole in holes
    ]


def numbers(bored: Sequence[Bored], part: Sequence[Mark] = ()) -> list[Mark]:
    """Each hole's number in the table, beside it, clear of other holes and of the lines of the `part`: those of all
    holes as large to the tail, or all in the same other place, else each in the first place that is clear; and those of
    a slot's ends, its left one first, beyond them and behind the saddle line, or where another slot is beyond, before
    their own.
    """
    lines = lines_of([mark for mark in part if _keeps_off(mark)])
    holes = [one for one in bored if one.drill is not None]
    ends = [at for at, one in enumerate(bored) if one.drill is None]
    outward = dict.fromkeys(ends[::2], 1.0) | dict.fromkeys(ends[1::2], -1.0)
    outermost = {max(ends, key=lambda at: way * bored[at].at[1]) for way in (1.0, -1.0) if ends}
    beside = [at for at in range(len(bored)) if at not in outward]

    @cache
    def is_clear(at: int, way: Way) -> bool:
        text, others = _beside(bored[at], way, str(at + 1)), [other for other in holes if other is not bored[at]]
        return _is_clear(text, others) and clear_words.is_clear(text, lines, OFF_LINES)

    @cache
    def in_common(diameter: float) -> Way | None:
        alike = [at for at in beside if bored[at].diameter == diameter]
        return next((way for way in WAYS if all(is_clear(at, way) for at in alike)), None)

    texts = []
    for at, one in enumerate(bored):
        if at in outward:
            place = _beyond if at in outermost else _before
            texts.append(place(one, str(at + 1), outward[at]))
            continue
        way = in_common(one.diameter) or next((way for way in WAYS if is_clear(at, way)), WAYS[0])
        texts.append(_beside(one, way, str(at + 1)))
    return [Mark(shape=text, purpose="note", of="number") for text in texts]


def _keeps_off(mark: Mark) -> bool:
    """Whether numbers keep off it: lines of the part, and what is old."""
    of = mark.of.partition(":")[0]
    return of in OLD or (of in PART and not isinstance(mark.shape, (Circle, Text)))


def _beyond(end: Bored, number: str, outward: float) -> Text:
    at = (end.at[0] + BESIDE, end.at[1] + outward * BESIDE)
    return Text(at, number, 2.1, 0.0, "sb" if outward > 0 else "st")


def _before(end: Bored, number: str, outward: float) -> Text:
    """Beside the number of how far the slot's front lies behind the bridge's, which stands at its end."""
    at = (end.at[0] - end.diameter / 2 - BESIDE, end.at[1] - outward * 4.5)
    return Text(at, number, 2.1, 0.0, "em")


Way = tuple[XY, Anchor, float]
"""To which side of a hole, how words stand there, and how much farther off than usual, mm."""
WAYS: tuple[Way, ...] = (
    ((1.0, 0.0), "sm", 0.0),
    ((1.0, 0.0), "sm", -0.5),
    ((-1.0, 0.0), "em", 0.0),
    ((1.0, 1.0), "sb", 0.0),
    ((1.0, -1.0), "st", 0.0),
    ((-1.0, 1.0), "eb", 0.0),
    ((-1.0, -1.0), "et", 0.0),
    ((0.0, 1.0), "mb", 0.0),
    ((0.0, -1.0), "mt", 0.0),
    ((1.0, 0.0), "sm", 0.8),
    ((1.0, 0.0), "sm", 1.6),
)
"""To the tail, to the nut, between the arms of the cross, to the left and to the right, and past a line at the tail."""


def _beside(one: Bored, way: Way, number: str) -> Text:
    (ux, uy), anchor, more = way
    off = (one.diameter / 2 + BETWEEN) * math.sqrt(0.5) if ux and uy else one.diameter / 2 + CROSS + BESIDE + more
    return Text((one.at[0] + ux * off, one.at[1] + uy * off), number, 2.1, 0.0, anchor)


def _is_clear(text: Text, others: Sequence[Bored]) -> bool:
    ground = text_box(text)
    return all(
        math.dist(other.at, (min(max(other.at[0], ground.x0), ground.x1), min(max(other.at[1], ground.y0), ground.y1)))
        > other.diameter / 2 + CROSS
        for other in others
    )


def with_tables(job: Job, layout: Layout, figure: Figure, *tables: Table) -> Figure:
    """A part's figure with its tables, the one of its holes last; X and Y from the datum of its file for a machine,
    which is marked where it lies on the part.
    """
    if not figure.bored:
        return msgspec.structs.replace(figure, tables=tables)
    called, datum = datum_of(figure, layout, job.sheets.datum)
    up, down = (job.bass_or_treble(side) for side in (("right", "left") if figure.mirror else ("left", "right")))
    marks = _marked(datum, figure.mirror) if _near(datum, figure) else []
    where = f"the cross at the front’s {down} corner" if called == "lower left corner" else f"the {called}"
    listed = paper_table(figure.bored, datum, where, up, job.unit, mirror=figure.mirror, places=places_of(job))
    return msgspec.structs.replace(figure, marks=(*figure.marks, *marks), tables=(*tables, listed))


def with_hole_table(job: Job, layout: Layout, figure: Figure) -> Figure:
    """A template's figure with the table of its holes last; X and Y from the datum of its file for a machine, which is
    marked where the drawing's corner is all there is to count from.
    """
    if not figure.bored:
        return figure
    called, datum = datum_of(figure, layout, job.sheets.datum)
    corner = called == "lower left corner"
    where = {"board end": "the board end on the neck centre line", "lower left corner": "the cross at X 0 Y 0"}
    up = job.bass_or_treble("right" if figure.mirror else "left")
    from_ = where.get(called, f"the {called}")
    listed = paper_table(figure.bored, datum, from_, up, job.unit, mirror=figure.mirror, places=places_of(job))
    marks = (*figure.marks, *(_marked(datum, figure.mirror) if corner else ()))
    return msgspec.structs.replace(figure, marks=marks, tables=(*figure.tables, listed))


def _near(datum: XY, figure: Figure) -> bool:
    ground = marks_box([mark for mark in figure.marks if mark.of in figure.kept])
    return ground.x0 <= datum[0] <= ground.x1 and ground.y0 <= datum[1] <= ground.y1


def _marked(datum: XY, mirror: bool) -> list[Mark]:
    """The datum's cross, and what it stands for toward its lower left."""
    at = (datum[0] - 2.5, datum[1] + (4.0 if mirror else -4.0))
    text = Text(at, "X 0 Y 0", 2.1, 0.0, "em")
    return [
        *cross(datum, 3.0, "register", turn=math.pi / 4, of=DATUM),
        Mark(shape=text, purpose="note", of=DATUM),
    ]
