"""A printer that is out in the way printers are, in numbers, and a rule laid on what it prints."""

import math
from pathlib import Path as File
from typing import NamedTuple

import msgspec

from export.correction import CheckSheet
from export.drawing.marks import XY
from export.paper import pdf
from export.records import Sheet, Stamp
from export.templates import check_sheet
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

    def lengths(self, file: File, sheet: Sheet) -> list[float]:
        """How long each straight line of a PDF's first page is on paper, as another program reads the file."""
        wide = sheet.paper.width > sheet.paper.height
        middle = sheet.paper.width / 2, sheet.paper.height / 2
        found = []
        for item in readers.pdf_items(file):
            ends = [self.moved((p[0] - middle[0], p[1] - middle[1]), wide) for p in item.points[:2]]
            found.append(math.dist(*ends))
        return found

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
