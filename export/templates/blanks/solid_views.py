"""Views of a small solid, once in its own size and once twice as large: what both templates of blanks share.

A **view** takes a solid's own mm to those of the figure. What is enlarged stands for nothing that is made: it is left
out of files for machines.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from export.drawing.dimension import arrow
from export.drawing.flatten import Box, box, polyline
from export.drawing.marks import XY, Anchor, Line, Mark, Path, Purpose, Text
from export.drawing.transform import Transform
from export.drawing.typeface import width
from export.machine.machine_file import ENLARGED
from export.paper.furniture import marks_box
from export.paper_sizes import paper_named
from export.records import Stamp, printable_area
from geometry.forces import force
from geometry.job import Job
from geometry.job.sides import Side
from geometry.layout import SaddleString
from geometry.units import Unit, said_angle

TIMES = 2.0
"""How much larger the second view is."""
LETTERS, SIDES_HIGH = 2.2, 3.6
"""Height of the letters, and of the words for the sides, mm."""
LETTER_IN, LEAST_LETTER = 1.6, 1.5
"""How far from an end the middle of the letter for its side stands, and the least height it is written in, mm."""
NUMBER, BETWEEN = 1.9, 1.4
"""The height of numbers, and what is left between two in one row, mm."""
ROW, CLOSE = 3.4, 6.5
"""From one row of labels to the next, and how near two labels stand before one goes into the next row, mm."""


BELOW = 8.0
"""Between the view in its own size and the enlarged one below it, mm."""


class View(NamedTuple):
    """Where a solid's own corner lies on the figure, and how large it is drawn."""

    corner: XY
    scale: float

    def xy(self, at: XY) -> XY:
        """A place of the solid on the figure."""
        return self.corner[0] + self.scale * at[0], self.corner[1] + self.scale * at[1]

    def of(self, own: str) -> str:
        """What a mark stands for: itself, or the enlarged picture of it."""
        return own if self.scale == 1.0 else ENLARGED

    def line(self, a: XY, b: XY, purpose: Purpose, own: str, weight: float = 1.0) -> Mark:
        """A straight line."""
        return Mark(shape=Line(self.xy(a), self.xy(b)), purpose=purpose, of=self.of(own), weight=weight)

    def ring(self, places: Iterable[XY], purpose: Purpose, own: str) -> Mark:
        """A closed outline."""
        return Mark(shape=polyline([self.xy(at) for at in places], closed=True), purpose=purpose, of=self.of(own))

    def run(self, places: Iterable[XY], purpose: Purpose, own: str, weight: float = 1.0) -> Mark:
        """An open run of straight pieces."""
        shape = polyline([self.xy(at) for at in places])
        return Mark(shape=shape, purpose=purpose, of=self.of(own), weight=weight)

    def bent(self, vertices: Sequence[tuple[float, float, float]], purpose: Purpose, own: str) -> Mark:
        """An open run of straight pieces and arcs, by their bulges."""
        placed = tuple((*self.xy((x, y)), bulge) for x, y, bulge in vertices)
        return Mark(shape=Path(placed), purpose=purpose, of=self.of(own), weight=0.6)

    def words(
        self,
        at: XY,
        text: str,
        *,
        off: XY = (0.0, 0.0),
        height: float = LETTERS,
        anchor: Anchor = "mm",
        bold: bool = False,
    ) -> Mark:
        """Words at a place of the solid, moved by `off` on the figure."""
        x, y = self.xy(at)
        shape = Text((x + off[0], y + off[1]), text, height, 0.0, anchor, bold)
        return Mark(shape=shape, purpose="note", of=self.of(""))


OWN, LARGE = View((0.0, 0.0), 1.0), View((0.0, 0.0), TIMES)
"""The view in its own size, and the enlarged one before it is laid beside that."""


def laid_out(own: Sequence[Mark], enlarged: Sequence[Mark], across: float, stamp: Stamp) -> list[Mark]:
    """Both views: the enlarged one `across` mm to the right, or below where paper is too narrow for that."""
    beside = [*own, *Transform(shift=(across, 0.0)).marks(tuple(enlarged))]
    paper = paper_named(stamp.paper)
    ground = printable_area(paper, stamp.margin, stamp.correction)
    if paper.roll or marks_box(beside).width <= max(ground.width, ground.height):
        return beside
    down = marks_box(own).y0 - BELOW - marks_box(enlarged).y1
    return [*own, *Transform(shift=(0.0, down)).marks(tuple(enlarged))]


def sides(job: Job, view: View, length: float, left: Side, says: str) -> list[Mark]:
    """BASS and TREBLE under a front view, `left` the side at its left end; below them its size and from where it is
    seen.
    """
    right: Side = "right" if left == "left" else "left"
    ends: tuple[tuple[float, Side, Anchor], ...] = ((0.0, left, "st"), (length, right, "et"))
    times = "1:1" if view.scale == 1.0 else f"{view.scale:g}:1"
    return [
        *(
            view.words(
                (x, 0.0),
                job.bass_or_treble(side).upper(),
                off=(0.0, -6.0),
                height=SIDES_HIGH,
                anchor=anchor,
                bold=True,
            )
            for x, side, anchor in ends
        ),
        view.words((length / 2, 0.0), f"{times}, {says}", off=(0.0, -12.5), anchor="mt", height=2.6, bold=True),
    ]


def letters(job: Job, view: View, length: float, left: Side, high: float) -> list[Mark]:
    """B and T inside a front view's ends, so that it keeps its sides when it is cut out; none where its ends, `high`
    mm, are too low to write on.
    """
    size = min(LETTERS, 0.6 * view.scale * high)
    right: Side = "right" if left == "left" else "left"
    ends = ((LETTER_IN / view.scale, left), (length - LETTER_IN / view.scale, right))
    return [
        view.words((x, high / 2), job.bass_or_treble(side)[0].upper(), height=size, bold=True)
        for x, side in ends
        if size >= LEAST_LETTER
    ]


def way(view: View, at: XY, to: str) -> list[Mark]:
    """An arrow that points down the figure, to the nut or to the tail, beside a view from above."""
    x, y = view.xy(at)
    marks = arrow((x - 5.0, y + 7.0), (x - 5.0, y), "note", scale=1.4, of=view.of("arrow"))
    word = Text((x - 5.0, y - 1.2), to, LETTERS, 0.0, "mt")
    return [*marks, Mark(shape=word, purpose="note", of=view.of("arrow"))]


def whole(marks: Sequence[Mark], *own: str) -> tuple[Box, ...]:
    """What no seam should cross: each outline in its own size."""
    return tuple(box(mark.shape) for mark in marks if mark.of in own and isinstance(mark.shape, Path))


def label(view: View, at: XY, name: str, value: str, row: int) -> list[Mark]:
    """A string's name over a place, in one of two rows; in the enlarged view its value under it."""
    if view.scale == 1.0:
        return [view.words(at, name, off=(0.0, 2.2 + ROW * row), anchor="mb", bold=True)]
    low = 2.2 + 2 * ROW * row
    return [
        view.words(at, name, off=(0.0, low + ROW), anchor="mb", bold=True),
        *([view.words(at, value, off=(0.0, low), anchor="mb")] if value else []),
    ]


def in_rows(places: Sequence[float], labels: Sequence[str] = ()) -> list[int]:
    """In which row (0 or 1) each label stands, so that near ones do not touch; `places` (mm) in any order. `labels`:
    numbers that stand there, where they may be wider than names are.
    """
    close = max((CLOSE, *(width(label, NUMBER) + BETWEEN for label in labels)))
    order = sorted(range(len(places)), key=lambda i: places[i])
    rows = dict.fromkeys(range(len(places)), 0)
    for a, b in pairwise(order):
        rows[b] = 1 - rows[a] if places[b] - places[a] < close else 0
    return [rows[i] for i in range(len(places))]


def break_and_press(string: SaddleString, unit: Unit) -> tuple[str, str]:
    """How steeply a string breaks, in whole degrees, and how hard it presses; nothing where that is not known."""
    breaks = "" if string.degrees is None else said_angle(*string.degrees, 0)
    return breaks, "" if string.press is None else force(string.press, unit)
