"""A slotted headstock: a strip a side that folds over its edge, and the posts' axes on the sheets of its face and back.

Its posts are drilled from the sides, so that nothing of them is drilled in the face. A strip lies with one half on the
face, the other half down the edge; it is as long as the edge from corner to corner, and is drawn as the headstock lies,
the nut to the right.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from export.drawing.dimension import arrow, cross
from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Anchor, Circle, Line, Mark, Text
from export.drills import nearest_names
from export.errors import ExportError
from export.hole_table import Bored, Table
from export.records import Figure, Stamp
from export.templates.hardware.headstock_notes import how_to_bore, order, posts_of
from geometry import words
from geometry.hardware.head_sides import depth_below
from geometry.job import Job, Tuners
from geometry.job.sides import SIDES
from geometry.job.told_by_rule import places_of
from geometry.layout import Bore, HeadSide, HeadstockPlan, Layout, Post
from geometry.units import mm, show, show_size

ON_FACE, PAST_HOLE, APART = 14.0, 6.0, 12.0
"""How far a strip lies on the face, how far past its holes it hangs down where the headstock's thickness is not known,
and how far the strips lie from each other, mm.
"""
SLOT = "into the slot"
LETTERS, ROOM = 2.3, 4.0
"""Height of the letters, and how far a seam stays from a hole, mm."""


def draw(job: Job, layout: Layout, stamp: Stamp) -> Figure:  # noqa: ARG001  # all are drawn by the same call
    """Both strips. Raises `ExportError` where the headstock is solid, where there are no new posts, or where their
    depth or a side's edge is not known.
    """
    found, tuners, below = posts_of(layout), job.hardware.tuners, depth_below(job)
    if tuners is None or tuners.roller is None:
        raise ExportError(
            "The strips for the headstock’s sides need a slotted headstock: type the roller on the Headstock card"
        )
    if below is None:
        raise ExportError(
            "The strips for the headstock’s sides need to know how deep the posts lie: type the headstock’s thickness, "
            "or their depth, on the Headstock card"
        )
    marks, bored, rows, y = [], [], [], 0.0
    for side in SIDES:
        row = [post for post in found.posts if post.side == side]
        if not row:
            continue
        strip = _Strip(job, tuners, _known(job, found, row), row, below, y)
        marks += strip.marks()
        bored += strip.bored()
        rows += strip.rows()
        y -= 2 * ON_FACE + APART
    sides = tuple(side.side for side in found.sides)
    return Figure(
        title="Headstock, sides",
        marks=tuple(marks),
        keep=_whole(marks),
        notes=_notes(job, tuners, found, below),
        kept=tuple(f"strip {side}" for side in sides),
        loose=True,
        nowhere=True,
        bored=tuple(bored),
        tables=(_table(job, found, rows),),
    )


def _known(job: Job, found: HeadstockPlan, row: Sequence[Post]) -> HeadSide:
    """The side of a row, whose edge runs past all of its posts. Raises `ExportError` where it does not."""
    name = job.bass_or_treble(row[0].side)
    side = next((one for one in found.sides if one.side == row[0].side), None)
    if side is None:
        raise ExportError(
            f"The strips for the headstock’s sides need its {name} edge: read the outline, or name points along it"
        )
    for post, bore in zip(row, side.bores, strict=True):
        if bore is None:
            raise ExportError(
                f"The {name} post {post.string}".rstrip()
                + " lies past the ends of the headstock’s edge there: read the "
                "outline on to where the post is, or name points farther along that edge"
            )
    return side


class _Hole(NamedTuple):
    """A hole in a side, with the number that is printed by it: so far along the edge, so far below the face, so wide
    (mm), how deep in words, of what.
    """

    number: str
    name: str
    along: float
    below: float
    wide: float
    depth: str
    of: str

    @property
    def drills(self) -> tuple[str, str]:
        return nearest_names(self.wide)


class _Strip:
    """A side's strip at a height on the sheet: `out` is the way down the edge, up for the left side."""

    def __init__(self, job: Job, tuners: Tuners, side: HeadSide, row: Sequence[Post], below: float, y: float) -> None:
        self.job, self.tuners, self.side, self.row, self.y = job, tuners, side, row, y
        self.out = 1.0 if side.side == "left" else -1.0
        self.below, self.of = below, f"strip {side.side}"
        self.bores = [bore for bore in side.bores if bore is not None]
        head = job.hardware.headstock
        thick = mm(head.thickness) if head is not None and head.thickness is not None else None
        self.deep = thick or below + max(bore.diameter for bore in self.bores) / 2 + PAST_HOLE
        pieces = [math.dist(a, b) for a, b in pairwise(side.edge)]
        self.corners = [sum(pieces[:at]) for at in range(len(side.edge))]

    def at(self, along: float, below: float) -> XY:
        """A place so far along the edge and so far below the face, less than 0 on the face."""
        return -along, self.y + self.out * below

    def holes(self) -> list[_Hole]:
        """The posts' holes, then the plates' screws."""
        hand, plate = self.job.bass_or_treble(self.side.side), self.tuners.plate
        found = [
            _Hole(
                post.string,
                f"{hand} post",
                bore.along[0],
                self.below,
                post.diameter,
                "into the slot",
                self.of,
            )
            for post, bore in zip(self.row, self.bores, strict=True)
        ]
        if plate is None:
            return found
        wide = mm(plate.screw_hole)
        screws = [(along, self.below + lower) for along, lower in self.side.screws]
        return found + [_Hole("", "plate screw", *at, wide, "as its screw", "screw") for at in screws]

    def bored(self) -> list[Bored]:
        """The holes as a file for a machine lists them."""
        return [
            Bored(
                name=one.name,
                number=one.number,
                at=self.at(one.along, one.below),
                diameter=one.wide,
                drill=one.drills,
                depth=one.depth,
            )
            for one in self.holes()
        ]

    def rows(self) -> list[tuple[str, ...]]:
        """The holes as the sheet's table lists them: along the edge and below the face."""
        found, fine = [], places_of(self.job)
        for one in self.holes():
            places = [show(value, self.job.unit, fine) for value in (one.along, one.below)]
            drills = one.drills if self.job.unit == "mm" else one.drills[::-1]
            found.append(
                (f"{one.name} {one.number}".rstrip(), *places, show_size(one.wide, self.job.unit), *drills, one.depth)
            )
        return found

    def marks(self) -> list[Mark]:
        """The strip with its fold, its corners, the holes, old ones, and its words."""
        long = self.corners[-1]
        ring = [self.at(*at) for at in ((0.0, -ON_FACE), (long, -ON_FACE), (long, self.deep), (0.0, self.deep))]
        marks = [
            Mark(shape=polyline(ring, closed=True), purpose="cut", of=self.of),
            Mark(shape=Line(self.at(0.0, 0.0), self.at(long, 0.0)), purpose="lay", of="fold"),
        ]
        marks += self._corners()
        for bore in self.side.old:
            marks += self._old(bore)
        for one in self.holes():
            marks.append(Mark(shape=Circle(self.at(one.along, one.below), one.wide / 2), purpose="drill", of=one.of))
        for post, bore in zip(self.row, self.bores, strict=True):
            marks += self._post(post, bore)
        return marks + self._words()

    def _corners(self) -> list[Mark]:
        """The edge's corners by name, those at the strip's ends low down the edge; between them a tick over the face,
        where the strip is snipped.
        """
        marks, last = [], len(self.corners) - 1
        for number, (name, along) in enumerate(zip(self.side.corners, self.corners, strict=True)):
            says, depth = words.called(name, self.job.hand), self.deep - 2.2
            if 0 < number < last:
                depth = -6.5
                tick = Line(self.at(along, 0.0), self.at(along, -ON_FACE))
                marks.append(Mark(shape=tick, purpose="mark", of=f"corner:{name}"))
            x, y = self.at(along, depth)
            text = Text((x + 1.2, y), says, LETTERS, 0.0, "sm") if number == last else None
            text = text or Text((x - 1.2, y), says, LETTERS, 0.0, "em")
            marks.append(Mark(shape=text, purpose="note", of=self.of))
        return marks

    def _old(self, bore: Bore) -> list[Mark]:
        """Where an old hole is along the edge; how deep it lies nobody read."""
        half, of = bore.diameter / 2, f"old:{bore.hole}"
        lines = [Line(self.at(x, 0.0), self.at(x, self.deep)) for x in (bore.along[0] - half, bore.along[0] + half)]
        return [Mark(shape=line, purpose="before", of=of) for line in lines]

    def _post(self, post: Post, bore: Bore) -> list[Mark]:
        """A post's bushing, its cross, and beside it on the face the string that goes to it."""
        at, of = self.at(bore.along[0], self.below), self.of
        marks = []
        if post.bushing is not None:
            marks.append(Mark(shape=Circle(at, post.bushing / 2), purpose="mark", of=of))
        marks += cross(at, bore.diameter / 2 + 1.4, "centre", of=of, weight=0.75)
        over: Anchor = "mb" if self.out < 0 else "mt"
        text = Text(self.at(bore.along[0], -1.2), post.string, 3.0, 0.0, over, bold=True)
        return [*marks, Mark(shape=text, purpose="note", of=of)]

    def _words(self) -> list[Mark]:
        """What keeps the strip's ends and sides apart when it is cut out, clear of its holes."""
        hand, face = self.job.bass_or_treble(self.side.side).upper(), -ON_FACE + 3.5
        holes = [bore.along[0] + side * bore.diameter for bore in (*self.bores, *self.side.old) for side in (-1, 1)]
        start, stop = max(pairwise(sorted((0.0, *holes, self.corners[-1]))), key=lambda gap: gap[1] - gap[0])
        texts = (
            Text(self.at(self.corners[-1] / 2, face), f"{hand} · on the face", 3.0, 0.0, "mm", bold=True),
            Text(self.at((start + stop) / 2, 4.0), f"{hand} · down the edge", LETTERS, 0.0, "mm", bold=True),
            Text(self.at(3.0, face), "nut", LETTERS, 0.0, "em", bold=True),
        )
        marks = [Mark(shape=text, purpose="note", of=self.of) for text in texts]
        return [*marks, *arrow(self.at(16.0, face), self.at(9.0, face), "note", of=self.of)]


def _whole(marks: Sequence[Mark]) -> tuple[Box, ...]:
    """What no seam should cross: each hole with its cross."""
    holes = [mark.shape for mark in marks if mark.purpose == "drill" and isinstance(mark.shape, Circle)]
    rooms = [(hole.centre, hole.radius + ROOM) for hole in holes]
    return tuple(Box(x - room, y - room, x + room, y + room) for (x, y), room in rooms)


def _table(job: Job, found: HeadstockPlan, rows: Sequence[tuple[str, ...]]) -> Table:
    """Where each hole is: what a rule would read along the edge, and below the face."""
    starts = [f"{job.bass_or_treble(side.side)} from {words.called(side.corners[0], job.hand)}" for side in found.sides]
    return Table(
        title=f"Holes in the headstock’s sides, {job.unit}",
        head=("", "along", "below", "size", "drill", "or", "depth"),
        rows=tuple(rows),
        sides="seeesss",
        below=((f"Along the edge, {' and '.join(starts)}; below the face.", False),),
    )


def _notes(job: Job, tuners: Tuners, found: HeadstockPlan, below: float) -> tuple[str, ...]:
    """How the strips are laid, and how the holes are bored."""
    unit, half = job.unit, "" if tuners.below is not None else ", half the headstock’s thickness"
    old = any(side.old for side in found.sides)
    return (
        *order(job, found),
        "Fold each strip over the headstock’s edge along the thin line, its ends at the corners that it names; snip "
        "the half on the face at each tick. If it does not reach, the print is out.",
        f"Middles {show(below, unit, places_of(job))} {unit} below the face{half}. {how_to_bore(job, found)}",
        *(("Broken lines: old holes, by their place along the edge; how deep they lie was not read.",) if old else ()),
    )


# on the sheets of the face and the back


def axes(found: HeadstockPlan) -> list[Mark]:
    """Each new post's axis, from the edge to its slot, and the old ones; nothing is drilled there."""
    marks, old = [], {bore.hole: bore for side in found.sides for bore in side.old}
    for hole in (*found.old_posts, *found.old_screws):
        shape = Line(*old[hole.name].axis) if hole.name in old else Circle(hole.at, 0.3)
        marks.append(Mark(shape=shape, purpose="before", of=f"old:{hole.name}", filled=hole.name not in old))
    for number, (post, bore) in enumerate(zip(found.posts, found.bores, strict=True), 1):
        of = f"post:{number}"
        if bore is not None:
            marks.append(Mark(shape=Line(*bore.axis), purpose="mark", of=of))
        text = Text(post.at, post.string or str(number), LETTERS, 0.0, "mm", bold=True)
        marks.append(Mark(shape=text, purpose="note", of=of))
    return marks
