"""Large figures on several sheets."""

import re
from pathlib import Path as File

import msgspec
import pytest

from app.file import job_file, samples
from export import ExportError, write_all
from export.drawing.flatten import Box
from export.drawing.marks import Circle, Line, Mark, Path, Text
from export.drawing.transform import Transform
from export.paper.furniture import has_assumed, marks_box
from export.paper.lay_sheets import lay
from export.paper.taped.tile_grid import OVERLAP, lay_grid, spread
from export.records import Figure, PrintOrder, Sheet, Stamp, Turn
from export.templates import sheets
from geometry.job import Job
from geometry.layout import XY, BridgePlan, Layout
from tests.export import readers
from tests.export.paper.taped.conftest import pages_of
from tests.export.sample_pages import laid


def strip(length: float) -> tuple[Mark, ...]:
    """A frame of that length, 100 mm wide."""
    ends = [(0.0, -50.0), (length, -50.0), (length, 50.0), (0.0, 50.0)]
    return tuple(Mark(shape=Line(a, b), purpose="cut") for a, b in zip(ends, [*ends[1:], ends[0]], strict=True))


def test_as_few_windows_as_can_be() -> None:
    """derived: windows of 200 that share 14 reach 200, 386, 572 mm."""
    for length, wanted in ((200.0, 1), (385.0, 2), (387.0, 3)):
        grid = lay_grid(spread(strip(length), Box(0, -50, length, 50), ()), 200.0, 150.0)
        assert len(grid.cells) == wanted


def test_a_seam_leaves_paper_beside_a_window() -> None:
    """derived: a centred seam falls on 150 mm, half a millimetre from the rim of a window round 159.5."""
    window = Mark(shape=Circle((159.5, 0.0), 9.0), purpose="cut")
    grid = lay_grid(spread((*strip(300.0), window), Box(0, -50, 300, 50), ()), 200.0, 150.0)
    assert grid.torn == 0
    assert abs(grid.window((1, 0)).x0 + OVERLAP / 2 - 159.5) >= 9.0 + 1.0


def test_a_seam_keeps_off_what_matters() -> None:
    """A strip of 300 mm on two windows of 200: the seam would fall on 143-157 if it were centred."""
    keep = Box(140.0, -40.0, 160.0, 40.0)
    grid = lay_grid(spread(strip(300.0), Box(0, -50, 300, 50), (keep,)), 200.0, 150.0)
    assert grid.crossed == 0
    seam = grid.window((1, 0)).x0
    assert seam + OVERLAP <= keep.x0 or seam >= keep.x1


def test_empty_windows_are_not_printed() -> None:
    """An L of two strips leaves the corner of a 2 by 2 grid empty."""
    marks = (
        Mark(shape=Line((0.0, 0.0), (300.0, 0.0)), purpose="cut"),
        Mark(shape=Line((0.0, 0.0), (0.0, 300.0)), purpose="cut"),
    )
    grid = lay_grid(spread(marks, Box(0, 0, 300, 300), ()), 200.0, 200.0)
    assert set(grid.cells) == {(0, 0), (0, 1), (1, 1)}


def test_full_length_on_a4(full: tuple[Sheet, ...]) -> None:
    # three sheets would cut the board's end
    assert [sheet.name for sheet in full] == [f"full-length {row}1" for row in "ABCD"]


def test_no_seam_cuts_what_the_sheet_is_registered_by(full: tuple[Sheet, ...]) -> None:
    """Board's end, fret 12 and notch lie whole on one sheet, 3 mm and more from every cross and cut."""
    for of in ("fret:12", "board end", "notch"):
        holds = []
        for sheet in full:
            lines = [mark for mark in sheet.drawing.marks if mark.of == of and mark.purpose != "note"]
            joins = [mark for mark in sheet.drawing.marks if mark.of in ("cross", "cut here")]
            for line in lines:
                holds.append(sheet.name)
                assert all(not overlap(marks_box([line]).grown(2.99), marks_box([join])) for join in joins)
        assert len(set(holds)) == 1, of


@pytest.mark.parametrize(
    ("name", "paper", "turn"),
    [
        ("small-four", "A4", "portrait"),
        ("small-four", "Letter", "landscape"),
        ("small-askew", "A4", "landscape"),
        ("redrilled-left", "A5", "landscape"),
    ],
)
def test_where_a_seam_would_cut_it_the_grid_is_moved(name: str, paper: str, turn: Turn, stamp: Stamp) -> None:
    """Laid for the fewest torn words alone, a seam ran within 1.5 mm of the board's end on these sheets, or of fret
    12: two of them then show it whole or in part.
    """
    asked = msgspec.structs.replace(stamp, templates=("full-length",), paper=paper, turn=turn)
    for of in ("fret:12", "board end", "notch"):
        shown = {
            sheet.name
            for sheet in pages_of(name, asked)
            for mark in sheet.drawing.marks
            if mark.of == of and mark.purpose != "note"
        }
        assert len(shown) == 1, of


def overlap(a: Box, b: Box) -> bool:
    return a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1


def test_each_sheet_says_what_to_cut_of_it_and_no_more(full: tuple[Sheet, ...]) -> None:
    said = [" ".join(m.shape.text for m in sheet.drawing.marks if isinstance(m.shape, Text)) for sheet in full]
    assert "Cut no edge off this sheet" in said[0]
    assert "at the top" not in said[0]
    assert all("Cut this sheet at the top, through the crosses, and lay it on" in words for words in said[1:])
    assert all("at the left" not in words for words in said)


def test_each_sheet_says_its_sides_and_what_the_lines_mean(full: tuple[Sheet, ...]) -> None:
    for sheet in full:
        said = [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        assert {"BASS", "TREBLE", "line to lay on", "centre line"} <= set(said)
    first = [mark.shape.text for mark in full[0].drawing.marks if isinstance(mark.shape, Text)]
    assert not {"slot to rout", "hole to drill"} & set(first)  # they are on the last sheet alone


def test_a_sheet_without_lines_has_no_key(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=("bridge",), paper="A5")
    for sheet in sheets(job, layout, asked):
        key = {mark.purpose for mark in sheet.drawing.marks if mark.of == "legend"}
        assert key <= {mark.purpose for mark in sheet.drawing.marks if mark.of != "legend"}


def test_a_job_in_inches_is_told_the_length_of_all_sheets_in_inches(job: Job, layout: Layout, stamp: Stamp) -> None:
    """Derived: 0.5 mm are 1.26 sixty-fourths, rounded up 1/32 in."""
    inches = msgspec.structs.replace(job, unit="in")
    (first, *_) = sheets(inches, layout, msgspec.structs.replace(stamp, templates=("full-length",)))
    said = " ".join(m.shape.text for m in first.drawing.marks if isinstance(m.shape, Text))
    assert re.search(r"are then \d+( \d+/\d+)? ± 1/32 in apart", said)


def squares(sheet: Sheet) -> list[Box]:
    """The frames of crosses to measure between, of 6 mm as drawn."""
    found = [m for m in sheet.drawing.marks if m.of == "measure" and isinstance(m.shape, Path)]
    assert all(isinstance(m.shape, Path) and len(m.shape.vertices) == 4 for m in found)
    return [marks_box([m]) for m in found]


def test_a_scale_along_the_strings_is_100_mm_at_least(full: tuple[Sheet, ...]) -> None:
    for sheet in full:
        said = [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        assert any(f"lay a rule on it: {mm} ± 0.2 mm, or do not use this sheet" in said for mm in (100, 150, 200))


def test_no_seam_through_the_bridge(full: tuple[Sheet, ...], layout: Layout) -> None:
    assert layout.bridge is not None
    outline = [(x, y) for x, y, _ in layout.bridge.outline]
    whole = [s for s in full if s.transform and all(on_page(s, s.transform.xy(at)) for at in outline)]
    assert len(whole) == 1


def on_page(sheet: Sheet, at: XY) -> bool:
    return 8.0 <= at[0] <= sheet.paper.width - 8.0 and 8.0 <= at[1] <= sheet.paper.height - 8.0


def test_each_sheet_says_which_it_is(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    asked = msgspec.structs.replace(stamp, templates=("full-length",))
    (file,) = write_all(job, layout, asked, tmp_path, ("pdf",))
    for page, name in enumerate(("A1", "B1", "C1", "D1")):
        said = readers.pdf_words(file, page)
        assert f"sheet {name}, {page + 1} of 4" in said
        assert "Print at 100 %, no fit to page" in said
        assert "lay a rule on it: 150" in said
        assert "2 in" in said


def test_only_the_sheets_asked_for(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=("full-length",), only=("full-length B1",))
    assert [sheet.name for sheet in sheets(job, layout, asked)] == ["full-length B1"]


def test_a_sheet_is_called_by_its_row_and_column(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=("placement", "full-length"), only=("c1", "placement"))
    assert [sheet.name for sheet in sheets(job, layout, asked)] == ["placement", "full-length C1"]


def test_a_sheet_that_is_not_there_is_named_although_others_are(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=("full-length",), only=("B1", "A9"))
    with pytest.raises(ExportError, match="No sheet is called A9; there are full-length A1, full-length B1, full-le"):
        sheets(job, layout, asked)


def test_a_roll_takes_it_in_one(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=("full-length",), paper="roll 297")
    (sheet,) = sheets(job, layout, asked)
    assert sheet.paper.height == 297
    assert sheet.paper.width < 900


def test_both_turns_are_tried(stamp: Stamp) -> None:
    """A strip of 250 mm fits portrait paper when it is turned, landscape as it is: never two sheets."""
    for turn in ("portrait", "landscape", "either"):
        figure = Figure(title="Strip", marks=strip(250.0))
        asked = msgspec.structs.replace(stamp, turn=turn)
        assert len(lay(PrintOrder(figure=figure, template="strip", title="", stamp=asked))) == 1


def test_windows_count_as_words() -> None:
    window = Mark(shape=Circle((150.0, 0.0), 9.0), purpose="cut")
    grid = lay_grid(spread((*strip(300.0), window), Box(0, -50, 300, 50), ()), 200.0, 150.0)
    assert grid.torn == 0


def test_the_arrow_to_the_nut_is_not_torn_from_its_words() -> None:
    """A strip of 300 mm on two windows of 200: the arrow would lie on a seam in the middle."""
    arrow = Mark(shape=Line((132.0, 0.0), (148.0, 0.0)), purpose="note", of="arrow")
    words = Mark(shape=Text((151.0, 0.0), "to the nut", 3.0, 0.0, "sm"), purpose="note", of="arrow")
    grid = lay_grid(spread((*strip(300.0), arrow, words), Box(0, -50, 300, 50), ()), 200.0, 150.0)
    seam = grid.window((1, 0)).x0 + OVERLAP / 2
    assert not 132.0 < seam < 151.0 + marks_box([words]).width


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize(
    "path", [path for path in samples.paths() if job_file.read(path).bridge is not None], ids=lambda path: path.name
)
def test_every_taped_sheet_of_the_samples_has_the_key(path: File, stamp: Stamp, turn: Turn, paper: str) -> None:
    asked = msgspec.structs.replace(stamp, templates=("placement", "full-length"), turn=turn, paper=paper)
    for sheet in pages_of(path.name.removesuffix(".job.json"), asked):
        if sheet.transform is None:
            continue  # of tables alone
        assert "line to lay on" in [m.shape.text for m in sheet.drawing.marks if isinstance(m.shape, Text)], sheet.name


A5 = [(name, turn) for name in ("placement", "bridge", "plate", "clearing") for turn in ("portrait", "landscape")]


def on_a5(name: str, turn: str, stamp: Stamp) -> list[Sheet]:
    return pages_of("leaning-neck", msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=(name,)))


@pytest.mark.parametrize(("name", "turn"), A5)
def test_on_small_paper_a_table_stands_once_and_is_told_of_elsewhere(name: str, turn: str, stamp: Stamp) -> None:
    pages = on_a5(name, turn, stamp)
    said = [[m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text)] for page in pages]
    for title in ("The saddle’s place, mm", "Read before the glue, mm", "Pin holes, to ream, mm", "Sizes, mm"):
        assert sum(title in page for page in said) <= 1
    for page in said:
        for other in re.findall(r"([\w’ ,]+): on sheet (\w\d)\.", " ".join(page)):
            there = next(text for one, text in zip(pages, said, strict=True) if one.name.endswith(f" {other[1]}"))
            assert any(text.endswith(", mm") and other[0].endswith(text.removesuffix(", mm")) for text in there)


@pytest.mark.parametrize(("name", "turn"), A5)
def test_on_small_paper_no_sheet_is_named_on_a_hole(name: str, turn: str, stamp: Stamp) -> None:
    named = 0
    for page in on_a5(name, turn, stamp):
        joins = [marks_box([m]) for m in page.drawing.marks if isinstance(m.shape, Text) and "joins" in m.shape.text]
        holes = [marks_box([m]) for m in page.drawing.marks if isinstance(m.shape, Circle) and m.purpose == "drill"]
        named += len(joins)
        assert not [1 for word in joins for hole in holes if word.meets(hole)]
    assert named


def box_of_bridge(laid_down: Transform, bridge: BridgePlan) -> Box:
    """Where a sheet shows the bridge."""
    ring = [laid_down.xy(at) for at in bridge.corners]
    return Box(*(f(at[k] for at in ring) for f in (min, max) for k in (0, 1)))


@pytest.mark.parametrize("paper", ["A4", "Letter", "A5"])
@pytest.mark.parametrize("name", ["redrilled-left", "bolted-left"])
def test_marks_to_measure_from_stand_beside_the_bridge(name: str, paper: str, stamp: Stamp) -> None:
    _, layout = laid(name)
    assert layout.bridge is not None
    asked = msgspec.structs.replace(stamp, paper=paper, turn="portrait", templates=("full-length",))
    targets = 0
    for page in pages_of(name, asked):
        if page.transform is None:
            continue  # of tables alone
        bridge = box_of_bridge(page.transform, layout.bridge)
        targets += len(squares(page))
        assert not [1 for one in squares(page) if one.meets(bridge)]
    assert targets == 2


@pytest.mark.parametrize("name", ["bolted-left", "redrilled-left", "slotted-neck-screw", "small-askew"])
@pytest.mark.parametrize(
    ("paper", "turn"), [("A4", "portrait"), ("Letter", "landscape"), ("A5", "portrait"), ("A5", "landscape")]
)
def test_holes_that_are_assumed_are_told_on_each_sheet_that_shows_them(
    name: str, paper: str, turn: Turn, stamp: Stamp
) -> None:
    asked = msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=("placement", "full-length"))
    told = []
    for page in pages_of(name, asked):
        said = [m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text) and "assumed" in m.shape.text]
        if has_assumed(m for m in page.drawing.marks if m.of != "legend"):
            told.append(bool(said))
    assert told
    assert all(told)


@pytest.mark.parametrize(
    ("name", "paper", "turn"), [("small-four", "A4", "landscape"), ("floating-five", "Letter", "portrait")]
)
def test_a_frame_to_tape_over_stands_whole_and_with_its_word_or_not_at_all(
    name: str, paper: str, turn: Turn, stamp: Stamp
) -> None:
    """In the first a sheet has a piece of them in its window; in the second seams could lie on them or not."""
    asked = msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=("full-length",))
    frames = 0
    for page in pages_of(name, asked):
        tape = [m.shape for m in page.drawing.marks if m.of == "tape"]
        words = [shape for shape in tape if isinstance(shape, Text)]
        assert len(tape) == 2 * len(words)
        assert all(shape.closed for shape in tape if isinstance(shape, Path))
        frames += len(words)
    assert frames == 2


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize("name", ["slotted-neck-screw", "leaning-neck"])
def test_no_sample_of_the_key_lies_on_the_bridge(name: str, turn: Turn, stamp: Stamp) -> None:
    """There that of a hole would pass for one."""
    _, layout = laid(name)
    assert layout.bridge is not None
    asked = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=("placement", "full-length"))
    keys = 0
    for page in pages_of(name, asked):
        if page.transform is None:
            continue  # of tables alone
        bridge = box_of_bridge(page.transform, layout.bridge)
        samples = [marks_box([mark]) for mark in page.drawing.marks if mark.of == "legend"]
        keys += bool(samples)
        assert not [1 for one in samples if one.meets(bridge)]
    assert keys > 1
