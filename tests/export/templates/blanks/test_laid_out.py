"""Where the enlarged view of a blank stands: beside the one in its own size, or below it."""

import datetime

import pytest
from msgspec.structs import replace

from export.drawing.marks import Line, Mark
from export.machine.machine_file import ENLARGED
from export.paper.furniture import marks_box
from export.records import Stamp, Turn
from export.templates import sheets
from export.templates.blanks import solid_views
from geometry.work_out import work_out
from tests.geometry.held.changed_jobs import made
from tests.geometry.held.fullest_job import fullest

STAMP = Stamp(date=datetime.date(2026, 11, 25), fingerprint="ABCD-EF")
WIDE = 75.0
"""A saddle's length, mm: with 22 mm between them both views are 3 x 75 + 22 = 247 mm wide."""
OWN = [Mark(shape=Line((0.0, 0.0), (WIDE, 0.0)), purpose="cut")]
LARGE = [
    Mark(shape=Line((0.0, 0.0), (2 * WIDE, 0.0)), purpose="cut", of=ENLARGED),
    Mark(shape=Line((0.0, 0.0), (0.0, 24.0)), purpose="cut", of=ENLARGED),
]


@pytest.mark.parametrize(("paper", "beside"), [("A4", True), ("Letter", True), ("A5", False), ("roll 210", True)])
def test_the_enlarged_view_stands_below_where_paper_is_too_narrow(paper: str, beside: bool) -> None:
    """derived: within margins of 8 mm A4 is 281 mm wide, Letter 263.4, A5 194."""
    found = solid_views.laid_out(OWN, LARGE, WIDE + 22.0, replace(STAMP, paper=paper))
    own, large = (marks_box([m for m in found if (m.of == ENLARGED) == big]) for big in (False, True))
    assert (large.x0 == WIDE + 22.0) == beside
    assert (large.y1 == own.y0 - solid_views.BELOW) != beside


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
def test_a_long_saddle_stands_on_one_sheet_of_letter(turn: Turn) -> None:
    """Of 74 mm, as most are: with words and arrow both views beside each other need 270 mm."""
    job = made(fullest())
    stamp = replace(STAMP, paper="Letter", turn=turn, templates=("saddle-blank",))
    assert [page.name for page in sheets(job, work_out(job), stamp)] == ["saddle-blank"]
