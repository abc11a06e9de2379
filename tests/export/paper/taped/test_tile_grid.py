"""Large figures on several sheets."""

import itertools
import math
import re
from pathlib import Path as File

import msgspec
import pytest
from shapely import LineString, Point
from shapely import box as shapely_box

from app.file import job_file, samples
from export import ExportError, write_all
from export.drawing.clip import clip_line
from export.drawing.flatten import Box
from export.drawing.marks import Circle, Line, Mark, Path, Text
from export.paper.furniture import has_assumed, marks_box
from export.paper.lay_sheets import lay
from export.paper.taped.tile_grid import OVERLAP, lay_grid, spread
from export.records import Figure, PrintOrder, Sheet, Stamp, Turn
from export.templates import sheets
from geometry.job import Job
from geometry.layout import XY, Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import readers


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


@pytest.fixture
def full(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    return sheets(job, layout, msgspec.structs.replace(stamp, templates=("full-length",)))


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


def overlap(a: Box, b: Box) -> bool:
    return a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1


def test_a_seam_has_three_crosses_and_the_neighbours_name(full: tuple[Sheet, ...]) -> None:
    for number, sheet in enumerate(full):
        crosses = [mark for mark in sheet.drawing.marks if mark.of == "cross"]
        seams = (number > 0) + (number < len(full) - 1)
        assert len(crosses) == 2 * 3 * seams  # two strokes each
        said = [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        names = {f"joins {other.name.split()[1]}" for other in full[max(number - 1, 0) : number + 2] if other != sheet}
        assert names <= set(said)


def test_each_sheet_says_what_to_cut_of_it_and_no_more(full: tuple[Sheet, ...]) -> None:
    said = [" ".join(m.shape.text for m in sheet.drawing.marks if isinstance(m.shape, Text)) for sheet in full]
    assert "Cut nothing off this sheet" in said[0]
    assert "at the top" not in said[0]
    assert all("Cut this sheet at the top, through the crosses, and lay it on" in words for words in said[1:])
    assert all("at the left" not in words for words in said)


def test_each_sheet_says_its_sides_and_what_the_lines_mean(full: tuple[Sheet, ...]) -> None:
    for sheet in full:
        said = [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        assert {"BASS", "TREBLE", "line to lay on", "centre line"} <= set(said)
    first = [mark.shape.text for mark in full[0].drawing.marks if isinstance(mark.shape, Text)]
    assert not {"slot to rout", "hole to drill"} & set(first)  # they are on the last sheet alone


@pytest.mark.parametrize("paper", ["A4", "A5"])
@pytest.mark.parametrize(("name", "template"), [("slanted-separate", "saddle-bases"), ("bolted-left", "full-length")])
def test_the_neighbours_name_lies_on_no_scale(name: str, template: str, paper: str, stamp: Stamp) -> None:
    job = sample(name)
    asked = msgspec.structs.replace(stamp, templates=(template,), paper=paper, turn="portrait")
    for sheet in sheets(job, work_out(job), asked):
        texts = [mark for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        names = [mark for mark in texts if isinstance(mark.shape, Text) and mark.shape.text.startswith("joins ")]
        for one in names:
            others = [marks_box([mark]) for mark in texts if mark is not one]
            assert not any(overlap(marks_box([one]), other) for other in others)


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
    assert re.search(r"are \d+( \d+/\d+)? ± 1/32 in apart", said)


def squares(sheet: Sheet) -> list[Box]:
    """The frames of crosses to measure between, of 6 mm as drawn."""
    found = [m for m in sheet.drawing.marks if m.of == "measure" and isinstance(m.shape, Path)]
    assert all(isinstance(m.shape, Path) and len(m.shape.vertices) == 4 for m in found)
    return [marks_box([m]) for m in found]


def test_the_framed_crosses_are_as_far_apart_as_is_said(full: tuple[Sheet, ...]) -> None:
    middles = [
        sheet.transform.back(((square.x0 + square.x1) / 2, (square.y0 + square.y1) / 2))
        for sheet in full
        for square in squares(sheet)
        if sheet.transform is not None
    ]
    assert len(middles) == 2
    said = " ".join(m.shape.text for m in full[0].drawing.marks if isinstance(m.shape, Text))
    assert f"are {math.dist(*middles):.1f} ± 0.5 mm apart" in said


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


def test_stitched_by_its_crosses(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """Pages laid cross on cross as read back from the PDF: nut and bridge are as far apart as in the layout."""
    asked = msgspec.structs.replace(stamp, templates=("full-length",))
    (file,) = write_all(job, layout, asked, tmp_path, ("pdf",))
    pages = sheets(job, layout, asked)
    shift = (0.0, 0.0)
    shifts = [shift]
    crosses = [crosses_on(file, number) for number in range(1, len(pages) + 1)]
    for before, after in itertools.pairwise(crosses):
        low = sorted(sorted(before, key=lambda at: at[1])[:3])
        high = sorted(sorted(after, key=lambda at: at[1])[-3:])
        steps = [(a[0] - b[0], a[1] - b[1]) for a, b in zip(low, high, strict=True)]
        assert all(math.dist(steps[0], step) < 0.001 for step in steps)  # all pairs of crosses agree
        shift = (shift[0] + steps[0][0], shift[1] + steps[0][1])
        shifts.append(shift)
    assert layout.neck is not None
    assert layout.bridge is not None
    nut, corner = layout.neck.nut[0], layout.bridge.corners[0]
    first, last = pages[0].transform, pages[-1].transform
    assert first is not None
    assert last is not None
    a = nearest_on(file, 1, first.xy(nut))
    b = nearest_on(file, len(pages), last.xy(corner))
    stitched = math.dist(a, (b[0] + shifts[-1][0], b[1] + shifts[-1][1]))
    assert stitched == pytest.approx(math.dist(nut, corner), abs=0.1 / 10)


def crosses_on(file: File, page: int) -> list[XY]:
    """The middles of all crosses of a page: two upright lines of 8 mm with one middle."""
    lines = [i.points for i in readers.pdf_items(file) if i.where == str(page) and len(i.points) == 2]
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in lines if abs(math.dist(a, b) - 8.0) < 0.001]
    return [one for k, one in enumerate(middles) if any(math.dist(one, other) < 0.001 for other in middles[k + 1 :])]


def nearest_on(file: File, page: int, to: XY) -> XY:
    points = [p for item in readers.pdf_items(file) if item.where == str(page) for p in item.points]
    return min(points, key=lambda p: math.dist(p, to))


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


def test_crosses_keep_off_the_centre_line_words_and_windows(full: tuple[Sheet, ...]) -> None:
    """All of each cross, 4 mm every way from its middle; 3 mm from the centre line, 1.5 from words and windows."""
    for sheet in full:
        marks = sheet.drawing.marks
        arms = [marks_box([mark]) for mark in marks if mark.of == "cross"]
        assert arms
        words = [m for m in marks if isinstance(m.shape, Text) and not m.shape.text.startswith("joins ")]
        windows = [m for m in marks if isinstance(m.shape, Circle) and m.purpose == "cut"]
        centres = [m for m in marks if m.of == "neck"]
        for kept, clear in ((words, 1.4), (windows, 1.4), (centres, 2.9)):
            assert not [arm for arm in arms for mark in kept if arm.meets(marks_box([mark]).grown(clear))]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize(
    "sample", [path for path in samples.paths() if job_file.read(path).bridge is not None], ids=lambda path: path.name
)
def test_every_taped_sheet_of_the_samples_has_the_key(sample: File, stamp: Stamp, turn: Turn, paper: str) -> None:
    job = job_file.read(sample)
    asked = msgspec.structs.replace(stamp, templates=("placement", "full-length"), turn=turn, paper=paper)
    for sheet in sheets(job, work_out(job), asked):
        if sheet.transform is None:
            continue  # of tables alone
        assert "line to lay on" in [m.shape.text for m in sheet.drawing.marks if isinstance(m.shape, Text)], sheet.name


A5 = [(name, turn) for name in ("placement", "bridge", "plate", "clearing") for turn in ("portrait", "landscape")]


def on_a5(name: str, turn: str, stamp: Stamp) -> tuple[Sheet, ...]:
    small = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=(name,))
    found = sample("leaning-neck")
    return sheets(found, work_out(found), small)


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


@pytest.mark.parametrize("paper", ["A4", "Letter", "A5"])
@pytest.mark.parametrize("name", ["redrilled-left", "bolted-left"])
def test_marks_to_measure_from_stand_beside_the_bridge(name: str, paper: str, stamp: Stamp) -> None:
    found = sample(name)
    layout = work_out(found)
    assert layout.bridge is not None
    asked = msgspec.structs.replace(stamp, paper=paper, turn="portrait", templates=("full-length",))
    targets = 0
    for page in sheets(found, layout, asked):
        if page.transform is None:
            continue  # of tables alone
        ring = [page.transform.xy(at) for at in layout.bridge.corners]
        bridge = Box(*(f(at[k] for at in ring) for f in (min, max) for k in (0, 1)))
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
    found = sample(name)
    asked = msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=("placement", "full-length"))
    told = []
    for page in sheets(found, work_out(found), asked):
        said = [m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text) and "assumed" in m.shape.text]
        if has_assumed(m for m in page.drawing.marks if m.of != "legend"):
            told.append(bool(said))
    assert told
    assert all(told)


def test_a_frame_to_tape_over_stands_whole_and_with_its_word_or_not_at_all(stamp: Stamp) -> None:
    """In the sample the frames lie across a seam: the sheet before it has a piece of them in its window."""
    found = sample("small-four")
    asked = msgspec.structs.replace(stamp, turn="landscape", templates=("full-length",))
    frames = 0
    for page in sheets(found, work_out(found), asked):
        tape = [m.shape for m in page.drawing.marks if m.of == "tape"]
        words = [shape for shape in tape if isinstance(shape, Text)]
        assert len(tape) == 2 * len(words)
        frames += len(words)
    assert frames == 2


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize("name", ["slotted-neck-screw", "leaning-neck"])
def test_no_sample_of_the_key_lies_on_the_bridge(name: str, turn: Turn, stamp: Stamp) -> None:
    """There that of a hole would pass for one."""
    found = sample(name)
    layout = work_out(found)
    assert layout.bridge is not None
    asked = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=("placement", "full-length"))
    keys = 0
    for page in sheets(found, layout, asked):
        if page.transform is None:
            continue  # of tables alone
        ring = [page.transform.xy(at) for at in layout.bridge.corners]
        bridge = Box(*(f(at[k] for at in ring) for f in (min, max) for k in (0, 1)))
        samples = [marks_box([mark]) for mark in page.drawing.marks if mark.of == "legend"]
        keys += bool(samples)
        assert not [1 for one in samples if one.meets(bridge)]
    assert keys > 1


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize("name", ["headstock-back", "full-length", "placement"])
def test_a_sheets_name_at_a_seam_lies_on_no_other_words(name: str, turn: Turn, stamp: Stamp) -> None:
    found = sample("slotted-neck-screw")
    asked = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=(name,))
    named = 0
    for page in sheets(found, work_out(found), asked):
        texts = [m for m in page.drawing.marks if isinstance(m.shape, Text)]
        joins = [m for m in texts if isinstance(m.shape, Text) and m.shape.text.startswith("joins ")]
        named += len(joins)
        for one in joins:
            own = marks_box([one]).grown(-0.3)
            assert not [m for m in texts if m is not one and marks_box([m]).meets(own)]
    assert named


@pytest.mark.parametrize("name", ["plate", "full-length"])
def test_crosses_stand_within_the_margins_on_small_paper(name: str, stamp: Stamp) -> None:
    """A cross that steps aside of the work must not step off the sheet: derived, A5 less 8 mm all round."""
    found = sample("bolted-left" if name == "plate" else "redrilled-left")
    asked = msgspec.structs.replace(stamp, paper="A5", turn="portrait", templates=(name,))
    crosses = [
        marks_box([mark])
        for page in sheets(found, work_out(found), asked)
        for mark in page.drawing.marks
        if mark.of == "cross"
    ]
    assert crosses
    assert all(one.x0 >= 8.0 and one.x1 <= 140.0 and one.y0 >= 8.0 and one.y1 <= 202.0 for one in crosses)


def test_crosses_stand_off_the_lines_of_distances_where_they_can(stamp: Stamp) -> None:
    """In this job the middle cross of the seam would lie on the distance along the treble edge."""
    job = sample("bolted-left")
    for sheet in sheets(job, work_out(job), msgspec.structs.replace(stamp, turn="portrait")):
        marks = sheet.drawing.marks
        lines = [m.shape for m in marks if m.purpose == "dimension" and isinstance(m.shape, Line)]
        crosses = [m for m in marks if m.of == "cross"]
        assert len(crosses) == 2 * 3
        for around in (marks_box([mark]).grown(1.0) for mark in crosses):
            assert not any(clip_line(line.a, line.b, around) for line in lines)


@pytest.mark.parametrize(("name", "paper", "off"), [("tie-bridge", "Letter", 1.4), ("bolted-left", "A5", 0.4)])
def test_crosses_stand_off_distances_and_between_strings(name: str, paper: str, off: float, stamp: Stamp) -> None:
    """In the one the middle cross stood 0.9 mm from the bass edge's distance, in the other on two strings, which leave
    10.8 mm between them for its 8 mm.
    """
    job, count = sample(name), 0
    for sheet in sheets(job, work_out(job), msgspec.structs.replace(stamp, paper=paper, turn="portrait")):
        marks = sheet.drawing.marks
        lines = [m.shape for m in marks if m.purpose in ("dimension", "lay") and isinstance(m.shape, Line)]
        for around in (marks_box([mark]) for mark in marks if mark.of == "cross"):
            middle = Point((around.x0 + around.x1) / 2, (around.y0 + around.y1) / 2)
            square = shapely_box(middle.x - 4.0, middle.y - 4.0, middle.x + 4.0, middle.y + 4.0)  # its arms are 4 mm
            assert all(LineString([line.a, line.b]).distance(square) >= off for line in lines)
            count += 1
    assert count >= 2 * 2 * 3
