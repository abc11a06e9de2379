"""What stands on taped sheets beside the work, and not on it."""

import itertools

import msgspec
import numpy as np
import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from export.drawing.flatten import Box, polyline, shape_points
from export.drawing.marks import Circle, Line, Mark, Path, Purpose, Text
from export.drawing.typeface import text_box
from export.paper.furniture import marks_box
from export.paper.taped.framed_crosses import far_apart
from export.paper.taped.tile_grid import lay_grid, spread
from export.paper.work_ground import work_ground
from export.records import Sheet, Stamp, Turn
from export.templates import sheets
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.paper.test_small_paper import GRID, WINDOW, placed


def ring(*corners: tuple[float, float], purpose: Purpose = "cut", of: str = "part") -> Mark:
    return Mark(shape=polyline(corners, closed=True), purpose=purpose, of=of)


def pages_of(name: str, template: str, turn: Turn, stamp: Stamp, paper: str = "A5") -> tuple[Sheet, ...]:
    found = sample(name)
    asked = msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=(template,))
    return tuple(page for page in sheets(found, work_out(found), asked) if page.transform is not None)


def area(strips: np.ndarray) -> float:
    return float(((strips[:, 2] - strips[:, 0]) * (strips[:, 3] - strips[:, 1])).sum())


def test_a_box_is_taken_whole_and_a_leaning_one_hardly_wider() -> None:
    """derived: 20 by 10 are 200; a side that leans by 1 in 2 is passed by 1 mm at most in strips 2 mm high."""
    assert area(work_ground([ring((0, 0), (20, 0), (20, 10), (0, 10))])) == pytest.approx(200.0)
    leaning = work_ground([ring((0, 0), (20, 0), (25, 10), (5, 10))])
    assert 200.0 < area(leaning) <= 200.0 + 10.0 * 2.0 * 1.0
    assert [len(leaning), leaning[0].tolist(), leaning[-1].tolist()] == [5, [0, 0, 21, 2], [4, 8, 25, 10]]


def test_waste_old_work_and_open_lines_are_no_work() -> None:
    square = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    assert not len(work_ground([ring(*square, of="notch"), ring(*square, purpose="before")]))
    assert not len(work_ground([Mark(shape=polyline(square), purpose="cut")]))


def test_the_board_between_its_edges_is_work_where_it_is_asked_for() -> None:
    edges = [
        Mark(shape=Line((0.0, y), (100.0, y)), purpose="lay", of=f"edge:{side}")
        for side, y in (("left", 40), ("right", 0))
    ]
    assert area(work_ground(edges)) == pytest.approx(4000.0)
    assert not len(work_ground(edges, between_edges=False))


def of_work(page: Sheet) -> BaseGeometry:
    """Where a page shows the work: within its outlines and between the board's edges."""
    marks = [m for m in page.drawing.marks if m.of not in ("notch", "tape", "legend")]
    wanted = ("cut", "mark", "lay", "hidden")
    parts: list[BaseGeometry] = [
        shapely.Polygon(shape_points(m.shape))
        for m in marks
        if isinstance(m.shape, Path) and m.shape.closed and m.purpose in wanted
    ]
    edges = [m.shape for m in marks if isinstance(m.shape, Line) and m.of in ("edge:left", "edge:right")]
    if len(edges) == 2:
        parts.append(shapely.MultiPoint([edges[0].a, edges[0].b, edges[1].a, edges[1].b]).convex_hull)
    return shapely.union_all(parts)


KEYED = (
    ("slotted-neck-screw", "face-markers", "portrait"),
    ("slotted-neck-screw", "face-markers", "landscape"),
    ("small-four", "full-length", "landscape"),
)
"""Where the key stood on the board, or a cross to measure from did (found on all samples, A5)."""


@pytest.mark.parametrize(("name", "template", "turn"), KEYED)
def test_no_key_stands_on_the_board(name: str, template: str, turn: Turn, stamp: Stamp) -> None:
    keyed = 0
    for page in pages_of(name, template, turn, stamp):
        key = [m for m in page.drawing.marks if m.of == "legend"]
        keyed += bool(key)
        if key:
            assert not of_work(page).intersects(shapely.box(*marks_box(key)).buffer(-0.5)), page.name
    assert keyed


def test_a_key_stands_at_the_foot_where_the_window_has_no_room(stamp: Stamp) -> None:
    pages = pages_of("floating-five", "full-length", "portrait", stamp)
    keys = [
        marks_box([m for m in page.drawing.marks if m.of == "legend"]) for page in pages if page.name.endswith(" F1")
    ]
    title = next(
        m.shape
        for m in pages[5].drawing.marks
        if isinstance(m.shape, Text) and m.shape.text == "Bridge’s place, full length"
    )
    assert keys[0].y1 < text_box(title).y1


def test_what_is_said_of_tables_elsewhere_stands_off_the_outlines(stamp: Stamp) -> None:
    said = 0
    for page in pages_of("slotted-neck-screw", "placement", "landscape", stamp):
        for mark in page.drawing.marks:
            if isinstance(mark.shape, Text) and ": on sheet " in mark.shape.text:
                said += 1
                assert not of_work(page).intersects(shapely.box(*text_box(mark.shape)).buffer(-0.5))
    assert said == 3


def test_what_must_not_be_missing_is_set_smaller_if_need_be_and_not_left_out(stamp: Stamp) -> None:
    (page,) = (p for p in pages_of("slotted-neck-screw", "placement", "landscape", stamp) if p.name.endswith(" C1"))
    go = [m.shape for m in page.drawing.marks if isinstance(m.shape, Text) and m.shape.text.startswith("Glue: go")]
    (height,) = (text.height for text in go)
    assert height in (1.9, pytest.approx(0.84 * 1.9))


def test_a_side_is_not_named_on_the_other_sides_sheets(stamp: Stamp) -> None:
    """The lower row of sheets shows the bass half alone: TREBLE stood there beside BASS."""
    words = {
        page.name.rpartition(" ")[2]: {m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text)}
        for page in pages_of("small-four", "full-length", "landscape", stamp)
    }
    assert {name for name, said in words.items() if "TREBLE" in said} == {"A1", "A2", "A3"}
    assert {"B2", "B3"} <= {name for name, said in words.items() if "BASS" in said}


def test_a_sides_word_is_set_smaller_where_the_board_leaves_little_room(stamp: Stamp) -> None:
    heights = {
        m.shape.height
        for page in pages_of("floating-five", "full-length", "portrait", stamp)
        for m in page.drawing.marks
        if isinstance(m.shape, Text) and m.shape.text == "TREBLE"
    }
    assert heights == {6.5, 5.0}


@pytest.mark.parametrize("paper", ["A4", "Letter", "A5"])
def test_no_cross_stands_among_the_dots_of_the_face(paper: str, stamp: Stamp) -> None:
    pages = pages_of("slotted-neck-screw", "face-markers", "portrait", stamp, paper)
    for page in pages:
        crosses = [m for m in page.drawing.marks if m.of in ("cross", "measure")]
        assert not of_work(page).intersects(shapely.union_all([shapely.box(*marks_box([m])) for m in crosses]))
    standing = 2 if paper == "A5" else 3  # each of two lines; where there is room for no more
    assert len([m for m in pages[0].drawing.marks if m.of == "cross"]) == 2 * standing


def test_crosses_stand_off_the_headstocks_middle_line(stamp: Stamp) -> None:
    for page in pages_of("slotted-neck-screw", "headstock", "portrait", stamp):
        middle = [m.shape for m in page.drawing.marks if m.of == "headstock middle" and isinstance(m.shape, Line)]
        crosses = [marks_box([m]) for m in page.drawing.marks if m.of == "cross"]
        assert crosses
        for line, cross in itertools.product(middle, crosses):
            assert not shapely.LineString([line.a, line.b]).intersects(shapely.box(*cross))


def test_a_framed_cross_stands_outside_the_board_where_it_can() -> None:
    """The board holds the upper left corner, where a cross is wanted."""
    edges = [
        Mark(shape=Line((0.0, y), (180.0, y)), purpose="lay", of=f"edge:{side}")
        for side, y in (("left", 95.0), ("right", 40.0))
    ]
    far = far_apart(tuple(edges), (), GRID, WINDOW, placed)
    assert far is not None
    assert far.ends[0][1] < 40.0


def test_a_seam_keeps_off_holes_to_drill() -> None:
    """derived: two windows of 100 mm that share 14 mm reach 186 mm; over 170 mm their seam may lie 8 mm to either side
    of the middle, 85. A hole of 2 mm there, with 3 mm round it, is off the seam where that is 4 mm off.
    """
    hole = Mark(shape=Circle((85.0, 10.0), 1.0), purpose="drill")
    outline = ring((0, 0), (170, 0), (170, 20), (0, 20))
    size = Box(0.0, 0.0, 170.0, 20.0)
    grid = lay_grid(spread([outline, hole], size, ()), 100.0, 100.0)
    assert len(grid.cells) == 2
    assert abs(grid.window(grid.cells[1]).x0 + 7.0 - 85.0) >= 4.0


def test_nothing_is_said_where_a_sheet_is_cut_off(stamp: Stamp) -> None:
    """The key of B1 and what B2 says of its table stood above the line along which both are cut."""
    said = 0
    for page in pages_of("slotted-neck-screw", "bridge", "landscape", stamp)[2:]:
        cuts = [m.shape for m in page.drawing.marks if m.of == "cut here" and isinstance(m.shape, Line)]
        (level,) = {line.a[1] for line in cuts if line.a[1] == line.b[1]}
        elsewhere = [m for m in page.drawing.marks if isinstance(m.shape, Text) and ": on sheet " in m.shape.text]
        for mark in (*elsewhere, *(m for m in page.drawing.marks if m.of == "legend")):
            said += 1
            assert marks_box([mark]).y1 < level
    assert said > 4


def test_crosses_to_measure_from_stand_outside_a_strip_up_to_the_margin(stamp: Stamp) -> None:
    framed = 0
    for page in pages_of("redrilled-left", "side-markers", "landscape", stamp):
        strip = marks_box([m for m in page.drawing.marks if m.of == "strip" and m.purpose == "cut"])
        for square in (m for m in page.drawing.marks if m.of == "measure"):
            framed += 1
            assert not marks_box([square]).meets(strip)
    assert framed == 2 * 3  # two lines and a frame


def test_a_table_comes_before_what_is_said_of_another_elsewhere(stamp: Stamp) -> None:
    """Both tables of a crown stand beside its views: none needs a sheet of its own."""
    found = sample("floating-five")
    asked = msgspec.structs.replace(stamp, paper="A5", turn="portrait", templates=("crown",))
    assert len(sheets(found, work_out(found), asked)) == 2
