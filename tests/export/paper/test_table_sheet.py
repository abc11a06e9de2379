"""What finds no room beside the work stands on a sheet of its own: nothing is told as lacking on any paper."""

from itertools import combinations
from pathlib import Path

import msgspec
import pytest

from app.file import job_file
from export.drawing.flatten import Box
from export.drawing.marks import Text
from export.drawing.typeface import text_box
from export.hole_table import Table
from export.paper.furniture import marks_box
from export.paper.lay_sheets import lay
from export.paper.table_sheet import table_sheets
from export.paper_sizes import paper_named
from export.records import Figure, PrintOrder, Sheet, Stamp, Turn, printable_area
from export.templates import TEMPLATES, all_sheets, figure_of
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out

SAMPLES = Path("sample_jobs")
TIGHT = (
    ("redrilled-left", "placement", "A4", "portrait"),
    ("turned-left-old-slot", "placement", "A4", "landscape"),
    ("five-pairs", "bridge", "A5", "landscape"),
    ("floating-five", "tailpiece", "A5", "portrait"),
    ("small-askew", "full-length", "A5", "landscape"),
)
"""Where a table found no room beside the work (tried on all samples, papers and turns)."""


SPARED = (
    ("slotted-neck-screw", "placement", "Letter", "landscape"),
    ("slanted-separate", "saddle-bases", "Letter", "portrait"),
    ("bolted-left", "placement", "A4", "landscape"),
)
"""Where all tables find room beside the work once the scales and the key are small."""


def said(sheet: Sheet) -> list[str]:
    return [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]


def of(name: str) -> tuple[Job, Layout]:
    job = job_file.read(SAMPLES / f"{name}.job.json")
    return job, work_out(job)


@pytest.mark.parametrize(("sample", "template", "paper", "turn"), TIGHT)
def test_every_table_of_a_figure_stands_whole_on_some_sheet(
    stamp: Stamp, sample: str, template: str, paper: str, turn: Turn
) -> None:
    job, layout = of(sample)
    asked = msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=(template,))
    pages = all_sheets(job, layout, asked)
    last = pages[-1]
    assert (last.name, last.transform) == (f"{template} T", None)
    tables = figure_of(TEMPLATES[template], job, layout, asked).tables
    for table in tables:
        there = [page for page in pages if table.title in said(page)]
        assert len(there) == 1, table.title
        for row in table.rows:
            assert {cell for cell in row if cell} <= set(said(there[0]))
    assert [any(text.endswith(": on sheet T.") for text in said(page)) for page in pages][-1] is False
    assert any("on sheet T." in " ".join(said(page)) for page in pages[:-1])
    counts = [next(text for text in said(page) if f"of {len(pages)}" in text) for page in pages]
    assert len(counts) == len(pages), "every sheet counts the sheet of tables too"


@pytest.mark.parametrize(("sample", "template", "paper", "turn"), TIGHT[:2])
def test_a_sheet_of_tables_keeps_within_its_paper(
    stamp: Stamp, sample: str, template: str, paper: str, turn: Turn
) -> None:
    job, layout = of(sample)
    page = all_sheets(job, layout, msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=(template,)))[-1]
    ground, inked = printable_area(page.paper, page.margin, page.correction), marks_box(page.drawing.marks)
    assert ground.x0 - 0.1 <= inked.x0 < inked.x1 <= ground.x1 + 0.1
    assert ground.y0 - 0.1 <= inked.y0 < inked.y1 <= ground.y1 + 0.1


def overlap(one: Box, two: Box) -> bool:
    return one.x0 < two.x1 and two.x0 < one.x1 and one.y0 < two.y1 and two.y0 < one.y1


def order(stamp: Stamp, *tables: Table) -> PrintOrder:
    figure = Figure(title="Anything", marks=(), tables=tables, notes=("Wear glasses.",))
    return PrintOrder(figure=figure, template="any", title="A job", stamp=stamp, stops=("No.",), doubt="Look again.")


def long(rows: int, title: str = "Long, mm") -> Table:
    return Table(title=title, head=("", "X"), rows=tuple((str(n), f"{n}.5") for n in range(rows)), sides="se")


def test_a_table_longer_than_a_sheet_is_parted_and_no_row_is_lost(stamp: Stamp) -> None:
    paper = paper_named("A5")
    pages = table_sheets(order(stamp, long(900)), paper, (long(900),), 2)
    assert len(pages) > 1
    assert [page.name for page in pages] == ["any T", *(f"any T{n}" for n in range(2, len(pages) + 1))]
    rows = [text for page in pages for text in said(page) if text.endswith(".5")]
    assert sorted(rows, key=float) == [f"{n}.5" for n in range(900)]
    for number, page in enumerate(pages, 3):
        assert any(f"sheet {number} of {2 + len(pages)}" in text for text in said(page))
        assert {"STOP", "No.", "Look again.", "Wear glasses."} <= set(said(page))
        boxes = [text_box(m.shape) for m in page.drawing.marks if isinstance(m.shape, Text) and ".5" in m.shape.text]
        assert not [pair for pair in combinations(boxes, 2) if overlap(*pair)], "no cell lies on another"


def test_without_tables_there_is_no_such_sheet(stamp: Stamp) -> None:
    job, layout = of("leaning-neck")
    pages = all_sheets(job, layout, msgspec.structs.replace(stamp, templates=("bridge", "plate")))
    assert [page.name for page in pages] == ["bridge", "plate"]
    figure = figure_of(TEMPLATES["bridge"], job, layout, stamp)
    bare = msgspec.structs.replace(figure, tables=())
    assert len(lay(PrintOrder(figure=bare, template="bridge", title="", stamp=stamp))) == 1


@pytest.mark.parametrize(("sample", "template", "paper", "turn"), SPARED)
def test_small_scales_and_a_small_key_spare_a_sheet(
    sample: str, template: str, paper: str, turn: Turn, stamp: Stamp
) -> None:
    """One sheet is true as printed, with no seam and no second sheet to look on; its scale along the strings is no
    shorter than 100 mm.
    """
    job = job_file.read(SAMPLES / f"{sample}.job.json")
    layout = work_out(job)
    stamp = msgspec.structs.replace(stamp, templates=(template,), paper=paper, turn=turn)
    (sheet,) = all_sheets(job, layout, stamp)
    titles = {table.title for table in figure_of(TEMPLATES[template], job, layout, stamp).tables}
    assert titles <= set(said(sheet))
    assert "lay a rule on it: 100 ± 0.2 mm, or do not use this sheet" in said(sheet)
