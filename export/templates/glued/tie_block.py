"""The tie block from behind, full size: where its holes come out of its back face, with X, Y and Z in a table.

Drawn as an eye behind the tail sees it, looking toward the nut: up is up, and the instrument's left lies at the right.
"""

from itertools import pairwise

from export.drawing.dimension import cross, dimension
from export.drawing.flatten import around, polyline
from export.drawing.marks import XY, Anchor, Circle, Line, Mark, Text
from export.drills import nearest_inch, nearest_metric
from export.errors import ExportError
from export.hole_table import Bored, Table
from export.records import SCALES, Figure, Stamp
from export.templates import parts
from geometry.job import Job
from geometry.job.told_by_rule import places_of
from geometry.layout import Layout, TieHole, TiePlan
from geometry.units import named, show

LETTER_IN = 2.4
"""How far from an end the middle of the letter for its side stands, mm."""
LETTERS = 2.4
"""Height of the strings' names, mm."""
UNDER, ROW = -2.4, LETTERS + 1.6
"""Where the first row of names has its upper edge and how far below it the second, mm: clear of the middle's line and
of each other, so that none is moved out of its row.
"""
APART = 6.0
"""Names nearer to each other than this, mm, stand in two rows."""
DATUM = "bridge’s middle at its bottom, seen from behind"
"""What X and Y of a file are counted from, in words."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all templates are drawn by the same call
    """The back face with its holes. Raises `ExportError` where the bridge has no tie block."""
    tie = layout.bridge.tie if layout.bridge is not None else None
    if tie is None:
        lacks = "this one has none" if layout.bridge is not None else "there is no bridge yet"
        raise ExportError(f"The tie-block template needs a bridge with a tie block; {lacks}")
    ring: list[XY] = [(tie.right, 0.0), (tie.left, 0.0), (tie.left, tie.height), (tie.right, tie.height)]
    marks = [
        Mark(shape=polyline(ring, closed=True), purpose="cut", of="tie block"),
        *(mark for hole in tie.holes for mark in _hole(hole)),
        *_names(tie),
        *_sizes(job, tie, ring),
        *_sides(job, tie),
        Mark(shape=Line((0.0, -1.5), (0.0, tie.height + 6.0)), purpose="centre", of="middle"),
        *parts.seen_from((tie.right, tie.height + 18.0), "SEEN FROM BEHIND", "the nut lies beyond the paper"),
    ]
    two = next((hole for hole in tie.holes if not hole.leaves), None)
    own = "upper one, which" if two is not None and two.up < tie.holes[0].up else "one that"
    notes = (
        SCALES,
        "Cut out, stick on the block’s back face with its lower edge on the bridge’s bottom and its middle on the "
        "bridge’s, and drill level, along each string, from both faces toward the middle.",
        f"Numbers in {named(job.unit)}.",
        *((f"Of a string’s two holes it leaves the block by the {own} lies on its path.",) if two else ()),
    )
    return Figure(
        title="Tie block",
        marks=tuple(marks),
        keep=(around(ring).grown(3.0),),
        notes=notes,
        seen="behind",
        kept=("tie block",),
        loose=True,
        nowhere=True,
        bored=tuple(_bored(job, tie, hole) for hole in tie.holes),
        tables=(table(job, tie),),
        datum=(DATUM, (0.0, 0.0)),
    )


def table(job: Job, tie: TiePlan) -> Table:
    """The holes' places: X behind the bridge's front, at the block's face and at its back; Y from the bridge's middle
    to the bass, at both; Z over the bridge's bottom.
    """
    way = 1.0 if job.bass == "left" else -1.0
    rows, places = [], places_of(job)
    for number, hole in enumerate(tie.holes, 1):
        metric, inch = nearest_metric(hole.diameter).name, nearest_inch(hole.diameter).name
        drills = (inch, metric) if job.unit == "in" else (metric, inch)
        numbers = (way * across_front(tie, hole), way * hole.across, hole.up)
        rows.append((str(number), _called(hole), *(show(value, job.unit, places) for value in numbers), *drills))
    face, back = (show(value, job.unit, places) for value in (tie.front_x, tie.back_x))
    return Table(
        title=f"Tie holes, {job.unit}",
        head=("", "", "Y face", "Y back", "Z", "drill", "or"),
        rows=tuple(rows),
        sides="sseeess",
        below=(
            (f"X behind the bridge’s front: {face} at the block’s face, {back} at its back.", False),
            ("Y from the bridge’s middle to BASS, Z over the bridge’s bottom.", False),
        ),
    )


def across_front(tie: TiePlan, hole: TieHole) -> float:
    """Where a hole goes in at the block's front face, from the bridge's middle to the left, mm."""
    left, right = complex(*tie.corners[3]), complex(*tie.corners[2])
    leftward = (left - right) / abs(left - right)
    return hole.across + ((complex(*hole.front) - complex(*hole.back)) * leftward.conjugate()).real


def _called(hole: TieHole) -> str:
    return f"string {hole.string}" if hole.leaves else f"string {hole.string}, second"


def _bored(job: Job, tie: TiePlan, hole: TieHole) -> Bored:
    """A hole in the back face's own frame."""
    return Bored(
        name=f"tie hole, {_called(hole)}",
        at=(hole.across, hole.up),
        diameter=hole.diameter,
        drill=(nearest_metric(hole.diameter).name, nearest_inch(hole.diameter).name),
        depth=f"through, {show(tie.back_x - tie.front_x, job.unit)} {job.unit}, along its string",
    )


def _hole(hole: TieHole) -> list[Mark]:
    at, of = (hole.across, hole.up), f"tie:{hole.string}"
    return [
        Mark(shape=Circle(at, hole.diameter / 2), purpose="drill", of=of),
        *cross(at, hole.diameter / 2 + 1.0, "centre", of=of, weight=0.75),
    ]


def _names(tie: TiePlan) -> list[Mark]:
    """The strings' names under the block, under the hole that each leaves from; in two rows where holes are near."""
    holes = sorted((hole for hole in tie.holes if hole.leaves), key=lambda hole: hole.across)
    near = any(other.across - one.across < APART for one, other in pairwise(holes))
    return [
        Mark(
            shape=Text((hole.across, UNDER - ROW * (near and at % 2)), hole.string, LETTERS, 0.0, "mt", bold=True),
            purpose="note",
            of="string",
        )
        for at, hole in enumerate(holes)
    ]


def _sizes(job: Job, tie: TiePlan, ring: list[XY]) -> list[Mark]:
    """The block's length and height, and the holes' height at the outermost."""
    low_right, low_left, top_left, _ = ring
    long, high = show(tie.left - tie.right, job.unit), show(tie.height, job.unit)
    of = "field:bridge.tie"
    marks = dimension(low_right, low_left, long, off=-13.0, height=2.5, of=of)
    return [*marks, *dimension(low_left, top_left, high, off=-7.0, height=2.5, of=of)]


def _sides(job: Job, tie: TiePlan) -> list[Mark]:
    """BASS and TREBLE over the block's ends, as they lie seen from behind, and their first letters inside them."""
    marks = []
    ends: tuple[tuple[str, float, Anchor], ...] = (("left", tie.left, "eb"), ("right", tie.right, "sb"))
    for side, x, anchor in ends:
        name, inward = job.bass_or_treble(side).upper(), -LETTER_IN if side == "left" else LETTER_IN
        text = Text((x, tie.height + 4.0), name, 5.0, 0.0, anchor, bold=True)
        own = Text((x + inward, tie.height / 2), name[0], LETTERS, 0.0, "mm", bold=True)
        marks += [Mark(shape=text, purpose="note"), Mark(shape=own, purpose="note", of="tie block")]
    return marks
