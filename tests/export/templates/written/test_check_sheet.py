"""The sheet that a printer is measured by."""

from pathlib import Path as File

import msgspec
import pytest

from export import write_all
from export.records import Stamp
from export.templates.written import check_sheet
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_check_squares_are_true(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, paper: str) -> None:
    asked = msgspec.structs.replace(stamp, templates=("check-sheet",), paper=paper)
    (file,) = write_all(job, layout, asked, tmp_path, ("pdf",))
    squares = [item.points for item in readers.pdf_items(file) if item.closed and len(item.points) >= 4]
    sides = sorted(points[1][0] - points[0][0] for points in squares)
    heights = sorted(points[2][1] - points[1][1] for points in squares)
    assert sides == pytest.approx([152.4, 180.0], abs=0.001)
    assert heights == pytest.approx([152.4, 180.0], abs=0.001)
    said = readers.pdf_words(file)
    assert "corner to corner 254.6 mm" in said  # derived: 180 √2
    assert "corner to corner 8 31/64 in" in said  # derived: 6 √2 is 8.4853, and 31/64 is 0.4844


def test_on_a_roll_the_check_sheet_is_no_longer_than_a4(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: A4 is 297 mm long (ISO 216:2007); a narrow roll, and a sheet cut shorter, stay as they are"""
    (sheet,) = check_sheet.pages(job, layout, msgspec.structs.replace(stamp, paper="roll 610"))
    assert (sheet.paper.width, sheet.paper.height) == (610.0, 297.0)
