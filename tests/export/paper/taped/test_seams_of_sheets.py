"""Seams between the sheets of a large figure: crosses, names of the neighbours, and what they keep off."""

import itertools
import math
from pathlib import Path as File

import msgspec
import pytest
from shapely import LineString, Point
from shapely import box as shapely_box

from export import write_all
from export.drawing.clip import clip_line
from export.drawing.marks import Circle, Line, Text
from export.paper.furniture import marks_box
from export.records import Sheet, Stamp, Turn
from export.templates import sheets
from geometry.job import Job
from geometry.layout import XY, Layout
from tests.export import readers
from tests.export.paper.taped.conftest import pages_of
from tests.export.paper.taped.test_tile_grid import overlap, squares


def test_a_seam_has_three_crosses_and_the_neighbours_name(full: tuple[Sheet, ...]) -> None:
    for number, sheet in enumerate(full):
        crosses = [mark for mark in sheet.drawing.marks if mark.of == "cross"]
        seams = (number > 0) + (number < len(full) - 1)
        assert len(crosses) == 2 * 3 * seams  # two strokes each
        said = [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        names = {f"joins {other.name.split()[1]}" for other in full[max(number - 1, 0) : number + 2] if other != sheet}
        assert names <= set(said)


@pytest.mark.parametrize(
    ("name", "template", "paper", "turn"),
    [("slotted-neck-screw", "face-markers", "A4", "portrait"), ("small-four", "full-length", "Letter", "landscape")],
)
def test_a_seam_whose_middle_is_taken_has_its_third_cross_elsewhere(
    name: str, template: str, paper: str, turn: Turn, stamp: Stamp
) -> None:
    """Both sheets at it have theirs at the same places of the figure, no two of them to be taken for one."""
    at_seams: list[set[XY]] = []
    for sheet in pages_of(name, msgspec.structs.replace(stamp, templates=(template,), paper=paper, turn=turn)):
        strokes = [mark for mark in sheet.drawing.marks if mark.of == "cross"]
        boxes = map(marks_box, zip(strokes[::2], strokes[1::2], strict=True))
        assert sheet.transform is not None
        places = [sheet.transform.back(((b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2)) for b in boxes]
        at_seams.append({(round(x, 4), round(y, 4)) for x, y in places})
    for one, other in itertools.pairwise(at_seams):
        assert len(one & other) == 3
        assert all(math.dist(a, b) > 20.0 for a, b in itertools.combinations(one & other, 2))


@pytest.mark.parametrize("paper", ["A4", "A5"])
@pytest.mark.parametrize(("name", "template"), [("slanted-separate", "saddle-bases"), ("bolted-left", "full-length")])
def test_the_neighbours_name_lies_on_no_scale(name: str, template: str, paper: str, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=(template,), paper=paper, turn="portrait")
    for sheet in pages_of(name, asked):
        texts = [mark for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
        names = [mark for mark in texts if isinstance(mark.shape, Text) and mark.shape.text.startswith("joins ")]
        for one in names:
            others = [marks_box([mark]) for mark in texts if mark is not one]
            assert not any(overlap(marks_box([one]), other) for other in others)


def test_the_framed_crosses_are_as_far_apart_as_is_said(full: tuple[Sheet, ...]) -> None:
    middles = [
        sheet.transform.back(((square.x0 + square.x1) / 2, (square.y0 + square.y1) / 2))
        for sheet in full
        for square in squares(sheet)
        if sheet.transform is not None
    ]
    assert len(middles) == 2
    said = " ".join(m.shape.text for m in full[0].drawing.marks if isinstance(m.shape, Text))
    assert (
        f"Tape only sheets of file 4F2A-91; the framed crosses are then {math.dist(*middles):.1f} ± 0.5 mm apart."
        in said
    )


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


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize("name", ["headstock-back", "full-length", "placement"])
def test_a_sheets_name_at_a_seam_lies_on_no_other_words(name: str, turn: Turn, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=(name,))
    named = 0
    for page in pages_of("slotted-neck-screw", asked):
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
    of = "bolted-left" if name == "plate" else "redrilled-left"
    asked = msgspec.structs.replace(stamp, paper="A5", turn="portrait", templates=(name,))
    crosses = [marks_box([mark]) for page in pages_of(of, asked) for mark in page.drawing.marks if mark.of == "cross"]
    assert crosses
    assert all(one.x0 >= 8.0 and one.x1 <= 140.0 and one.y0 >= 8.0 and one.y1 <= 202.0 for one in crosses)


def test_crosses_stand_off_the_lines_of_distances_where_they_can(stamp: Stamp) -> None:
    """In this job the middle cross of the seam would lie on the distance along the treble edge."""
    for sheet in pages_of("bolted-left", msgspec.structs.replace(stamp, turn="portrait")):
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
    count = 0
    for sheet in pages_of(name, msgspec.structs.replace(stamp, paper=paper, turn="portrait")):
        marks = sheet.drawing.marks
        lines = [m.shape for m in marks if m.purpose in ("dimension", "lay") and isinstance(m.shape, Line)]
        for around in (marks_box([mark]) for mark in marks if mark.of == "cross"):
            middle = Point((around.x0 + around.x1) / 2, (around.y0 + around.y1) / 2)
            square = shapely_box(middle.x - 4.0, middle.y - 4.0, middle.x + 4.0, middle.y + 4.0)  # its arms are 4 mm
            assert all(LineString([line.a, line.b]).distance(square) >= off for line in lines)
            count += 1
    assert count >= 2 * 2 * 3
