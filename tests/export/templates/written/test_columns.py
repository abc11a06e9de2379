"""The columns of all tables on written pages: how wide, on which side their cells line up, which are bold (ours, as
they were looked at on the page; no source).
"""

import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Line, Mark
from export.drawing.typeface import width
from export.paper.flow import GUTTER, SIZE, SMALL, Column, Flow
from export.paper.furniture import marks_box
from export.templates.written import before_after, job_results, job_sheet, job_tables, solid_tables
from tests.in_one import in_one

COLUMNS: dict[str, tuple[tuple[Column, ...], str]] = {
    "in tune": (before_after.TUNE, "20sb 62s 108s"),
    "moved": (before_after.MOVED, "58s 42sb 94s"),
    "proof for the owner": (before_after.PROOF, "52s 58s 34e 44s"),
    "results": (job_results.RESULTS, "60s 28eb 12e 94s"),
    "checks": (job_tables.CHECKS, "48s 52s 24eb 18e 6s 46s"),
    "proof": (job_tables.PROOF, "48s 52s 24eb 18e 6s 46s"),
    "strings": (job_tables.STRINGS, "14sb 14s 22e 26eb 14e 32s 22e 18e 24e"),
    "kept": (job_tables.KEPT, "70s 26e 26e 68sb"),
    "holes": (job_tables.HOLES, "37.5s 17.5e 25eb 16.5e 27e 70.5s"),
    "readings": (job_tables.READINGS, "7.5s 50s 20eb 11.5e"),
    "choice of saddle": (job_tables.CHOICE, "44sb 26s 16e 22eb 16e 34e 36e"),
    "saddle": (solid_tables.SADDLE, "16sb 28e 30e 32e 38eb 24e 20e"),
    "crown": (solid_tables.CROWN, "16sb 30e 34eb 26e 24e"),
    "nut": (solid_tables.NUT, "16sb 30eb 20e 40eb 40e 24e 20e"),
}
PAGE = 194.0
"""mm. A4 less two margins of 8 mm."""


@in_one("name", COLUMNS)
def test_columns(name: str) -> None:
    columns, wanted = COLUMNS[name]
    assert " ".join(f"{one.width:g}{one.side}{'b' if one.bold else ''}" for one in columns) == wanted
    assert sum(one.width for one in columns) <= PAGE


def test_the_job_sheet_is_set_ever_tighter() -> None:
    """How high a row and the picture are, mm; first with whole tables."""
    whole, torn = job_sheet.SETTINGS
    assert [(row, picture) for row, picture, _ in whole] == [(4.5, 44), (4.2, 38), (4, 32), (3.8, 28), (3.6, 24)]
    assert [(row, picture) for row, picture, _ in torn] == [(4, 33), (3.8, 28), (3.6, 25), (3.5, 24)]
    assert [keeps for *_, keeps in (*whole, *torn)] == [True] * 5 + [False] * 4


def rules(marks: list[Mark]) -> list[Line]:
    return [mark.shape for mark in marks if isinstance(mark.shape, Line)]


def test_a_table_without_heads_begins_right_below_its_heading() -> None:
    """Where no column has a head an empty row stood for the heads."""
    high = {}
    for head in ("", "as read"):
        flow = Flow(Box(0.0, 0.0, 100.0, 60.0))
        flow.heading("Moved by", 5.0)
        low = marks_box(flow.pages[0]).y0
        flow.table((Column(head, 100.0),), [["a"]])
        high[head] = low - rules(flow.pages[0])[0].a[1]
    assert high["as read"] - high[""] == pytest.approx(flow.row - 0.9)
    assert 0.5 < high[""] < 3.0


@pytest.mark.parametrize("head", ["number", "metric", "diameter"])
def test_on_small_paper_the_heads_of_holes_are_as_large_as_others(head: str) -> None:
    """derived: A5 less two margins is 132 mm, of 194 mm on A4; the last 2 mm of a column stay free."""
    column = next(one for one in job_tables.HOLES if one.heading == head)
    assert width(head, SMALL) <= 132 / PAGE * column.width - 2.0


@pytest.mark.parametrize(
    ("head", "longest"),
    [
        ("in order", "Base’s screws, pilot holes"),
        ("in order", "Strings through the body"),
        ("diameter", "13/64 to 7/32 in"),
        ("metric", "10.0 mm"),
        ("inch", "5/16 in (7.94 mm)"),
    ],
)
def test_rows_of_holes_are_not_in_two_sizes_of_letters(head: str, longest: str) -> None:
    column = next(one for one in job_tables.HOLES if one.heading == head)
    assert width(longest, SIZE, column.bold) <= column.width - GUTTER
