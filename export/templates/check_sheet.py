"""The check sheet for a printer: squares of 180 mm and 7 in to be measured both ways and corner to corner.

What a rule reads on it gives the printer's correction: 180 / what it reads across, 180 / what it reads up.
"""

import math

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Drawing, Line, Mark, Text
from export.errors import ExportError
from export.paper.furniture import correction_words, day, paragraph, wrapped
from export.paper_sizes import Paper, paper_named
from export.records import Sheet, Stamp, printable_area
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import MM_PER

SQUARE, INCHES = 180.0, 7


def pages(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:  # noqa: ARG001  # all templates are called alike
    """One page, portrait. Raises `ExportError` where the paper is too narrow for the square."""
    paper = paper_named(stamp.paper)
    paper = Paper(paper.name, paper.width, min(paper.height, 297.0) if paper.roll else paper.height)
    ground = printable_area(paper, stamp.margin, stamp.correction)
    if ground.width < SQUARE or ground.height < SQUARE + 62.0:
        raise ExportError(f"The check sheet needs A4 or Letter at least; {paper.name} is too small for its square")
    left = (paper.width - SQUARE) / 2
    top = ground.y1 - 4.0
    corner = (left, top - SQUARE)
    inch = INCHES * MM_PER["in"]
    inset = (SQUARE - inch) / 2
    marks = [*_square(corner, SQUARE, 1.6), *_square((corner[0] + inset, corner[1] + inset), inch, 1.0)]
    marks += _ticks(corner)
    marks += _words(corner)
    lines = [("Check sheet for a printer", 5.2, True), ("", 0.5, False)]
    lines.append((f"{day(stamp.date)} · {paper.name} · {correction_words(stamp.correction)}", 2.3, False))
    lines += [("Print at 100 %, no fit to page.", 2.3, True), ("", 1.0, False)]
    for said in HOW:
        lines += [(line, 2.2, False) for line in wrapped(said, 2.2, ground.width)]
    block = paragraph(lines)
    drawing = Drawing(title="Check sheet", marks=(*marks, *block.at((ground.x0, corner[1] - 6.0 - block.height))))
    return (
        Sheet(
            name="check-sheet",
            template="check-sheet",
            drawing=drawing,
            paper=paper,
            margin=stamp.margin,
            correction=stamp.correction,
        ),
    )


HOW = (
    "Measure the outer square with a steel rule, from line to line: across, up, and along both diagonals. Type what "
    "the rule says on the Sheets card; later sheets for this printer are then stretched to fit.",
    "The diagonals should be alike within 0.3 mm: where they are not, the paper was fed askew. Print again.",
    "Leave the paper in the workshop for a day before you measure: paper grows and shrinks with the air.",
)


def _square(corner: XY, side: float, weight: float) -> list[Mark]:
    x, y = corner
    ring = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
    return [Mark(shape=polyline(ring, closed=True), purpose="register", weight=weight, of="square")]


def _ticks(corner: XY) -> list[Mark]:
    """Both diagonals' ends, and the middle, as short strokes."""
    x, y = corner
    half = SQUARE / 2
    marks = []
    for sx in (-1, 1):
        for sy in (-1, 1):
            tip = (x + half + sx * half, y + half + sy * half)
            foot = (tip[0] - sx * 12.0, tip[1] - sy * 12.0)
            marks.append(Mark(shape=Line(tip, foot), purpose="register", of="diagonal"))
    return marks


def _words(corner: XY) -> list[Mark]:
    x, y = corner
    middle = (x + SQUARE / 2, y + SQUARE / 2)
    mm_diagonal, inch_diagonal = SQUARE * math.sqrt(2), INCHES * math.sqrt(2)
    rows = (
        ("outer square", f"{SQUARE:g} mm both ways", f"corner to corner {mm_diagonal:.1f} mm"),
        ("inner square", f"{INCHES} in both ways", f"corner to corner {inch_diagonal:.2f} in"),
    )
    marks = []
    for row, (name, sides, diagonal) in enumerate(rows):
        at = middle[1] + 24.0 - row * 22.0
        for line, (text, height) in enumerate(((name, 3.4), (sides, 2.6), (diagonal, 2.6))):
            shape = Text((middle[0], at - line * 5.5), text, height, 0.0, "mb", bold=line == 0)
            marks.append(Mark(shape=shape, purpose="note"))
    for text, place, angle in (
        ("my rule reads across:  ____________", (middle[0], y + 9.0), 0.0),
        ("my rule reads up:  ____________", (x + 12.0, middle[1]), math.pi / 2),
    ):
        marks.append(Mark(shape=Text(place, text, 2.4, angle, "mb"), purpose="note"))
    return marks
