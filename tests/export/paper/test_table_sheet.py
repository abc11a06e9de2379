"""What finds no room beside the work stands on a sheet of its own: nothing is told as lacking on any paper."""

import re
from itertools import combinations, pairwise
from pathlib import Path

import msgspec
import pytest

from app.file import job_file
from export.drawing.flatten import Box
from export.drawing.marks import Line, Mark, Text
from export.drawing.typeface import text_box, width
from export.errors import ExportError, PaperTooSmall
from export.hole_table import Table
from export.paper.flow import SIZE
from export.paper.furniture import marks_box
from export.paper.lay_sheets import lay
from export.paper.table_blocks import SMALL_WORDS, table_blocks
from export.paper.table_sheet import table_sheets, where_told
from export.paper_sizes import paper_named
from export.records import SCALES, SCALES_FIRST, Figure, PrintOrder, Sheet, Stamp, Turn, printable_area
from export.templates import TEMPLATES, all_sheets, figure_of
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out

SAMPLES = Path("sample_jobs")
TIGHT = (
    ("five-pairs", "bridge", "A5", "landscape"),
    ("floating-five", "tailpiece", "A5", "landscape"),
    ("small-askew", "full-length", "A5", "landscape"),
)
"""Where a table found no room beside the work (tried on all samples, A4, Letter and A5, both turns)."""


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
    assert "on sheet T." not in " ".join(said(last))
    assert any("on sheet T." in " ".join(said(page)) for page in pages[:-1])
    for page in pages:  # every sheet counts the sheet of tables too
        assert any(f"of {len(pages)}" in text for text in said(page)), page.name


@pytest.mark.parametrize(("sample", "template", "paper", "turn"), TIGHT[:2])
def test_a_sheet_of_tables_keeps_within_its_paper(
    stamp: Stamp, sample: str, template: str, paper: str, turn: Turn
) -> None:
    job, layout = of(sample)
    page = all_sheets(job, layout, msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=(template,)))[-1]
    ground, inked = printable_area(page.paper, page.margin, page.correction), marks_box(page.drawing.marks)
    assert ground.grown(1e-9).holds(inked)


def order(stamp: Stamp, *tables: Table) -> PrintOrder:
    figure = Figure(title="Anything", marks=(), tables=tables, notes=("Wear glasses.",))
    return PrintOrder(figure=figure, template="any", title="A job", stamp=stamp, stops=("No.",), doubt="Look again.")


def long(rows: int, title: str = "Long, mm") -> Table:
    return Table(title=title, head=("", "X"), rows=tuple((str(n), f"{n}.5") for n in range(rows)), sides="se")


ROWS = 900
"""Invented: more than one A5 sheet holds, as the test asserts."""


def test_a_table_longer_than_a_sheet_is_parted_and_no_row_is_lost(stamp: Stamp) -> None:
    paper, table = paper_named("A5"), long(ROWS)
    pages = table_sheets(order(stamp, table), paper, (table,), 2)
    assert len(pages) > 1
    assert [page.name for page in pages] == ["any T", *(f"any T{n}" for n in range(2, len(pages) + 1))]
    rows = [text for page in pages for text in said(page) if text.endswith(".5")]
    assert sorted(rows, key=float) == [f"{n}.5" for n in range(ROWS)]
    for number, page in enumerate(pages, 3):
        name = page.name.removeprefix("any ")
        assert any(f"sheet {name}, {number} of {2 + len(pages)}" in text for text in said(page))
        assert name in said(page)
        assert {"STOP", "No.", "Look again.", "Wear glasses."} <= set(said(page))
        boxes = [text_box(m.shape) for m in page.drawing.marks if isinstance(m.shape, Text) and ".5" in m.shape.text]
        assert not [pair for pair in combinations(boxes, 2) if pair[0].meets(pair[1])], "no cell lies on another"


def test_without_tables_there_is_no_such_sheet(stamp: Stamp) -> None:
    job, layout = of("leaning-neck")
    pages = all_sheets(job, layout, msgspec.structs.replace(stamp, templates=("bridge", "plate")))
    assert [page.name for page in pages] == ["bridge", "plate"]
    figure = figure_of(TEMPLATES["bridge"], job, layout, stamp)
    bare = msgspec.structs.replace(figure, tables=())
    assert len(lay(PrintOrder(figure=bare, template="bridge", title="", stamp=stamp))) == 1


WIDE = Table(
    title="Wide, mm",
    head=("", "of", "X", "depth"),
    rows=(("1", "a long name of a hole " * 4, "1.5", "as deep as its screw " * 3), ("2", "short", "2.5", "through")),
    sides="sses",
    below=(("X from the board’s end.", False),),
)


def test_of_a_table_too_wide_for_the_paper_nothing_is_lost(stamp: Stamp) -> None:
    """Its rows are told in words; on paper of 100 mm it was parted down to empty sheets."""
    paper, asked = paper_named("100x150"), order(stamp, WIDE)
    asked = msgspec.structs.replace(asked, figure=msgspec.structs.replace(asked.figure, title="A title of some length"))
    pages = table_sheets(asked, paper, (WIDE,), 1)
    told = " ".join(" ".join(said(page)) for page in pages)
    for row in WIDE.rows:
        assert all(" ".join(cell.split()) in told for cell in row)
    assert WIDE.title in told
    assert "X from the board’s end." in told
    assert "X 2.5, depth through" in told
    for page in pages:
        assert marks_box(page.drawing.marks).x1 <= printable_area(paper, page.margin, page.correction).x1


def test_where_what_is_heeded_fills_the_paper_it_is_said_to_be_too_small(stamp: Stamp) -> None:
    asked = msgspec.structs.replace(order(stamp, long(3)), stops=("No, and no again, for many reasons.",) * 45)
    with pytest.raises(PaperTooSmall, match="choose larger paper"):
        table_sheets(asked, paper_named("A5"), (long(3),), 1)


def test_tables_that_have_a_sheet_for_themselves_are_as_large_as_written_pages(stamp: Stamp) -> None:
    (page,) = table_sheets(order(stamp, long(5)), paper_named("A5"), (long(5),), 1)
    heights = {m.shape.height for m in page.drawing.marks if isinstance(m.shape, Text) and ".5" in m.shape.text}
    assert [*heights] == [pytest.approx(SIZE, abs=0.01)]


def test_tables_are_not_larger_where_that_needs_another_sheet(stamp: Stamp) -> None:
    """derived: below some 45 mm of words A5 has 149 mm for 38 rows of 3.5 mm, and not for as many of 4.1 mm."""
    (page,) = table_sheets(order(stamp, long(38)), paper_named("A5"), (long(38),), 1)
    heights = {m.shape.height for m in page.drawing.marks if isinstance(m.shape, Text) and ".5" in m.shape.text}
    assert heights == {SMALL_WORDS}


def test_a_sheet_of_tables_says_nothing_of_scales(stamp: Stamp) -> None:
    both = f"Numbers in mm. {SCALES_FIRST}"
    asked = order(stamp, long(3))
    told = {"notes": (SCALES, both, "Wear glasses."), "of_scales": {both: "Numbers in mm."}}
    asked = msgspec.structs.replace(asked, figure=msgspec.structs.replace(asked.figure, **told))
    (page,) = table_sheets(asked, paper_named("A4"), (long(3),), 1)
    assert "Numbers in mm. Wear glasses." in said(page)


@pytest.mark.parametrize("sample", ["leaning-neck", "floating-five", "slanted-separate"])
def test_no_note_that_stands_on_a_sheet_of_tables_speaks_of_scales(stamp: Stamp, sample: str) -> None:
    """Of a bridge that is glued, of one that its strings hold and of saddles of their own: what any template says."""
    job, layout = of(sample)
    spoke = 0
    for template in TEMPLATES.values():
        if template.draw is None:
            continue
        try:
            figure = figure_of(template, job, layout, stamp)
        except ExportError:
            continue
        assert not [note for note in figure.notes_beside((), scales=False) if "scales" in note]
        spoke += any("scales" in note for note in figure.notes_beside(()))
    assert spoke


def test_the_rule_of_a_table_is_as_long_as_its_title() -> None:
    slim = Table(title="Cents at each string’s octave for 1 mm", head=("", "X"), rows=(("1", "2"),), sides="se")
    for block in table_blocks(slim):
        (rule,) = [m.shape for m in block.marks if isinstance(m.shape, Line)]
        size = block.marks[0].shape.height  # type: ignore[union-attr]  # its title
        assert rule.b[0] - rule.a[0] == pytest.approx(width(slim.title, size, bold=True))


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


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_beside_a_stop_all_tables_have_room_on_one_sheet(paper: str, stamp: Stamp) -> None:
    """Its scale along the strings is no shorter than 4 in (101.6 mm)."""
    job, layout = of("turned-left-old-slot")
    stamp = msgspec.structs.replace(stamp, templates=("placement",), paper=paper, turn="landscape")
    (sheet,) = all_sheets(job, layout, stamp)
    words = said(sheet)
    assert "STOP" in words
    assert {table.title for table in figure_of(TEMPLATES["placement"], job, layout, stamp).tables} <= set(words)
    assert any(f"lay a rule on it: {long} in within half a 64th, or do not use this sheet" in words for long in (4, 6))


@pytest.mark.parametrize(
    ("sample", "template"),
    [("five-pairs", "saddle-blank"), ("floating-five", "crown"), ("leaning-neck", "full-length")],
)
def test_paper_is_turned_so_that_no_sheet_of_tables_is_needed(sample: str, template: str, stamp: Stamp) -> None:
    """On A5 the wide way takes as few sheets for the work, and one more for its tables."""
    job, layout = of(sample)
    counts = {
        turn: len(all_sheets(job, layout, msgspec.structs.replace(stamp, templates=(template,), paper="A5", turn=turn)))
        for turn in ("portrait", "landscape", "either")
    }
    assert counts["either"] == counts["portrait"] < counts["landscape"]


MIXED = (
    ("five-pairs", "placement", "A4", "portrait"),
    ("bolted-left", "placement", "A4", "portrait"),
    ("bolted-left", "full-length", "A5", "landscape"),
    ("redrilled-left", "placement", "Letter", "portrait"),
)
"""Where tables of two sizes stood on one sheet while each was as large as it found room (4 of 68 files)."""


@pytest.mark.parametrize(("sample", "template", "paper", "turn"), MIXED)
def test_all_tables_on_a_sheet_have_letters_of_one_size(
    sample: str, template: str, paper: str, turn: Turn, stamp: Stamp
) -> None:
    job, layout = of(sample)
    asked = msgspec.structs.replace(stamp, templates=(template,), paper=paper, turn=turn)
    titles = {table.title for table in figure_of(TEMPLATES[template], job, layout, asked).tables}
    several = 0
    for sheet in all_sheets(job, layout, asked):
        found = [m.shape.height for m in sheet.drawing.marks if isinstance(m.shape, Text) and m.shape.text in titles]
        several += len(found) > 1
        assert len(set(found)) <= 1, sheet.name
    assert several, "one sheet at least shows that"


def test_the_saddles_place_is_named_in_few_words_and_needs_no_sheet_of_its_own(stamp: Stamp) -> None:
    """With “edge, board’s end to bridge front” it was 56 mm wide, and its room beside the board is 52 mm."""
    job, layout = of("redrilled-left")
    asked = msgspec.structs.replace(stamp, paper="A4", turn="portrait", templates=("placement",))
    (sheet,) = all_sheets(job, layout, asked)
    assert "The saddle’s place, mm" in said(sheet)


def test_a_sheet_of_tables_shows_its_name_as_large_as_taped_sheets_show_theirs(stamp: Stamp) -> None:
    job, layout = of("five-pairs")
    asked = msgspec.structs.replace(stamp, paper="A5", turn="landscape", templates=("bridge",))
    *others, last = all_sheets(job, layout, asked)
    (name,) = (m.shape for m in last.drawing.marks if isinstance(m.shape, Text) and m.shape.text == "T")
    assert (name.height, name.bold) == (6.5, True)
    assert any("on sheet T." in " ".join(said(other)) for other in others)
    count = len(others) + 1
    assert any(f"sheet T, {count} of {count}" in text for text in said(last))


def test_what_stands_on_the_second_sheet_of_tables_is_told_so(stamp: Stamp) -> None:
    """A frame that fills an A5 sheet, and tables of which each fills one too."""
    ring = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]
    marks = tuple(Mark(shape=Line(a, b), purpose="cut") for a, b in pairwise((*ring, ring[0])))
    tables = tuple(long(38, f"{title}, mm") for title in ("First", "Second", "Third", "Fourth"))
    figure = Figure(title="Anything", marks=marks, tables=tables, keep=(Box(0.0, 0.0, 100.0, 60.0),))
    asked = msgspec.structs.replace(stamp, paper="A5", turn="landscape")
    pages = lay(PrintOrder(figure=figure, template="any", title="A job", stamp=asked))
    alone = {page.name.removeprefix("any "): said(page) for page in pages if page.transform is None}
    assert "T2" in alone
    told = " ".join(" ".join(said(page)) for page in pages if page.transform is not None)
    for table in tables:
        named = re.search(f"{table.title.removesuffix(', mm')}: on sheet (T[0-9]*)", told)
        if named is not None:
            assert table.title in alone[named[1]]
    assert "on sheet T2" in told


def test_a_table_that_is_parted_is_told_where_it_begins(stamp: Stamp) -> None:
    sheets = table_sheets(order(stamp, long(ROWS)), paper_named("A5"), (long(ROWS),), 1)
    assert len(sheets) > 1
    assert where_told((long(ROWS),), sheets) == {"Long, mm": "T"}
