"""A printer that is out in the way printers are, in numbers, and a rule laid on what it prints."""

import math
from pathlib import Path as File
from typing import NamedTuple

import msgspec

from export.correction import CheckSheet
from export.drawing.marks import XY, Drawing, Line, Mark
from export.paper import pdf
from export.paper_sizes import Paper
from export.records import Sheet, Stamp
from export.templates.written import check_sheet
from geometry.job import Job
from geometry.work_out import work_out
from tests.export import readers


class WornPrinter(NamedTuple):
    """What it makes of 1 mm along the paper's `short` and `long` side, and how many mm it moves a place along the short
    side for each mm up the long side (`skew`). From memory: office printers are out by up to half a per cent.
    """

    short: float
    long: float
    skew: float

    def moved(self, place: XY, wide: bool) -> XY:
        """Where a place on the page, from its middle, comes out; a page that lies along the paper is fed turned."""
        x, y = (place[1], -place[0]) if wide else place
        x, y = self.short * x + self.skew * y, self.long * y
        return (-y, x) if wide else (x, y)

    def ends_apart(self, a: XY, b: XY, sheet: Sheet) -> float:
        """How far two places of a page come out from each other, mm."""
        wide = sheet.paper.width > sheet.paper.height
        x, y = sheet.paper.width / 2, sheet.paper.height / 2
        return math.dist(*(self.moved((place[0] - x, place[1] - y), wide) for place in (a, b)))

    def lengths(self, file: File, sheet: Sheet) -> list[float]:
        """How long each straight line of a PDF's first page is on paper, as another program reads the file."""
        return [self.ends_apart(item.points[0], item.points[1], sheet) for item in readers.pdf_items(file)]

    def errors(self, file: File, sheet: Sheet) -> list[float]:
        """By how much each of a page's lines comes out too long, mm."""
        drawn = [math.dist(mark.shape.a, mark.shape.b) for mark in sheet.drawing.marks]  # type: ignore[union-attr]
        return [found - meant for found, meant in zip(self.lengths(file, sheet), drawn, strict=True)]


WORN = (
    WornPrinter(179.2 / 180, 180.5 / 180, 0.0),
    WornPrinter(1.0043, 0.9961, 0.0030),
    WornPrinter(0.9962, 0.9985, -0.0024),
)


def read_check_sheet(worn: WornPrinter, stamp: Stamp, folder: File) -> CheckSheet:
    """Print the check sheet on it and lay a rule on the outer square, read to a tenth of a mm."""
    (page,) = check_sheet.pages(Job(), work_out(Job()), msgspec.structs.replace(stamp, paper="A4"))
    (folder / "check.pdf").write_bytes(pdf.data([page]))
    square = readers.pdf_items(folder / "check.pdf")[0].points
    middle = page.paper.width / 2, page.paper.height / 2
    low_left, low_right, up_right, up_left = (worn.moved((x - middle[0], y - middle[1]), False) for x, y in square[:4])
    return CheckSheet(
        across=round(math.dist(low_left, low_right), 1),
        up=round(math.dist(low_left, up_left), 1),
        rising=round(math.dist(low_left, up_right), 1),
        falling=round(math.dist(up_left, low_right), 1),
    )


def lines_over(paper: Paper) -> Sheet:
    """Lines over 250 mm and more: both ways where they fit, and both diagonals."""
    x, y = paper.width / 2, paper.height / 2
    half_w, half_h = min(150.0, x - 12), min(150.0, y - 12)
    corners: list[tuple[XY, XY]] = [
        ((x - half_w, y), (x + half_w, y)),
        ((x, y - half_h), (x, y + half_h)),
        ((x - 100, y - 100), (x + 100, y + 100)),
        ((x - 100, y + 100), (x + 100, y - 100)),
    ]
    marks = tuple(Mark(shape=Line(a, b), purpose="mark") for a, b in corners)
    return Sheet(name="a", template="a", drawing=Drawing(title="", marks=marks), paper=paper, margin=8.0)
