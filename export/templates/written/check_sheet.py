"""The check sheet for a printer: two squares to be measured both ways and corner to corner, and blanks for that.

It is never corrected, whatever is asked, so that it shows the printer's own error. The squares are of 180 mm and of
6 in: far enough from alike that what a rule reads tells which of them it was laid on.
"""

import math

from export.correction import INNER, NONE, OUTER
from export.drawing.flatten import polyline
from export.drawing.marks import XY, Drawing, Line, Mark, Text
from export.errors import ExportError
from export.paper.furniture import day, paragraph
from export.paper.wrapping import wrapped
from export.paper_sizes import Paper, paper_named
from export.records import Sheet, Stamp, printable_area
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import MM_PER, show

INCHES = round(INNER / MM_PER["in"])


def pages(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:  # noqa: ARG001  # all templates are called alike
    """One page, portrait. Raises `ExportError` where the paper is too narrow for the square."""
    paper = paper_named(stamp.paper)
    paper = Paper(paper.name, paper.width, min(paper.height, 297.0) if paper.roll else paper.height)
    ground = printable_area(paper, stamp.margin, NONE)
    if ground.width < OUTER or ground.height < OUTER + 62.0:
        raise ExportError(f"The check sheet needs A4 or Letter at least; {paper.name} is too small for its square")
    left = (paper.width - OUTER) / 2
    top = ground.y1 - 4.0
    corner = (left, top - OUTER)
    inset = (OUTER - INNER) / 2
    marks = [*_square(corner, OUTER, 1.6), *_square((corner[0] + inset, corner[1] + inset), INNER, 0.8)]
    marks += _ticks(corner)
    marks += _words(corner)
    lines = [("Check sheet for a printer", 5.2, True), ("", 0.5, False)]
    whose = f"printer: {stamp.printer}" if stamp.printer else "printer: ______________________"
    lines.append((f"{day(stamp.date)} · {paper.name} · {whose} · never corrected, whatever is kept for it", 2.3, False))
    lines += [("Print at 100 %, no fit to page.", 2.3, True), ("", 1.0, False)]
    for said in HOW:
        lines += [(line, 2.2, False) for line in wrapped(said, 2.2, ground.width)]
    block = paragraph(lines)
    drawing = Drawing(title="Check sheet", marks=(*marks, *block.at((ground.x0, corner[1] - 6.0 - block.height))))
    return (Sheet(name="check-sheet", template="check-sheet", drawing=drawing, paper=paper, margin=stamp.margin),)


HOW = (
    "Measure one square with a steel rule, from line to line: across, up, and along both diagonals. Type what the rule "
    "says on the Sheets card; later sheets for this printer are then stretched to fit.",
    "Print a second one and measure that as well: what differs between the two is how the paper was fed, and no "
    "correction can help it.",
    "Leave the paper in the workshop for a day before you measure: paper grows and shrinks with the air.",
    "The correction holds for paper of this size: a printer may feed another size the other way round. Print and read "
    "a check sheet for each, under a name of its own.",
)


def _square(corner: XY, side: float, weight: float) -> list[Mark]:
    x, y = corner
    ring = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
    return [Mark(shape=polyline(ring, closed=True), purpose="register", weight=weight, of="square")]


def _ticks(corner: XY) -> list[Mark]:
    """Both diagonals' ends, and the middle, as short strokes."""
    x, y = corner
    half = OUTER / 2
    marks = []
    for sx in (-1, 1):
        for sy in (-1, 1):
            tip = (x + half + sx * half, y + half + sy * half)
            foot = (tip[0] - sx * 12.0, tip[1] - sy * 12.0)
            marks.append(Mark(shape=Line(tip, foot), purpose="register", of="diagonal"))
    return marks


def _words(corner: XY) -> list[Mark]:
    x, y = corner
    middle = (x + OUTER / 2, y + OUTER / 2)
    rows = (
        ("outer square", f"{OUTER:g} mm both ways", f"corner to corner {OUTER * math.sqrt(2):.1f} mm"),
        ("inner square", f"{INCHES} in both ways", f"corner to corner {show(INNER * math.sqrt(2), 'in')} in"),
    )
    marks = []
    for row, (name, sides, diagonal) in enumerate(rows):
        at = middle[1] + 24.0 - row * 22.0
        for line, (text, height) in enumerate(((name, 3.4), (sides, 2.6), (diagonal, 2.6))):
            shape = Text((middle[0], at - line * 5.5), text, height, 0.0, "mb", bold=line == 0)
            marks.append(Mark(shape=shape, purpose="note"))
    aside = OUTER / 4
    for text, place, angle in (
        ("my rule reads across:  ____________", (middle[0], y + 5.0), 0.0),
        ("my rule reads up:  ____________", (x + 9.0, middle[1]), math.pi / 2),
        ("rising, to the upper right:  ____________", (middle[0] - aside, middle[1] - aside + 3.0), math.pi / 4),
        ("falling, to the lower right:  ____________", (middle[0] + aside, middle[1] - aside + 3.0), -math.pi / 4),
    ):
        marks.append(Mark(shape=Text(place, text, 2.4, angle, "mb"), purpose="note"))
    return marks
