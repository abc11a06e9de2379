"""What a sheet says of itself and of its neighbours where there is little room for it."""

import msgspec
import pytest
import shapely

from export.drawing.flatten import Box, polyline, shape_points
from export.drawing.marks import Circle, Mark, Path, Text
from export.drawing.room.free_ground import FreeGround
from export.drawing.transform import Transform
from export.drawing.typeface import text_corners
from export.paper.furniture import marks_box, words
from export.paper.taped.framed_crosses import far_apart
from export.paper.taped.sides_and_key import repeated
from export.paper.taped.taped_foot import LONGEST, foot, lower
from export.paper.taped.tile_grid import Grid
from export.paper_sizes import Paper
from export.records import Figure, PrintOrder, Stamp, Turn
from export.templates import TEMPLATES, figure_of, sheets
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

JOINED = (
    ("slanted-separate", "saddle-bases", "portrait"),
    ("turned-left-old-slot", "full-length", "portrait"),
    ("bolted-left", "placement", "portrait"),
)
"""Where the name of a sheet at a seam lay on lines of the work (found on all samples, A5)."""


def ink(mark: Mark) -> shapely.LineString:
    assert not isinstance(mark.shape, Text)
    points = shape_points(mark.shape)
    closed = isinstance(mark.shape, Circle) or (isinstance(mark.shape, Path) and mark.shape.closed)
    return shapely.LineString([*points, points[0]] if closed else points)


@pytest.mark.parametrize(("name", "template", "turn"), JOINED)
def test_the_name_of_a_joining_sheet_lies_on_no_line(name: str, template: str, turn: Turn, stamp: Stamp) -> None:
    found, named = sample(name), 0
    asked = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=(template,))
    for page in sheets(found, work_out(found), asked):
        lines = [ink(mark) for mark in page.drawing.marks if not isinstance(mark.shape, Text)]
        for mark in page.drawing.marks:
            if isinstance(mark.shape, Text) and mark.shape.text.startswith("joins "):
                named += 1
                ground = shapely.Polygon(text_corners(mark.shape)).buffer(-0.5)
                assert not [line for line in lines if line.intersects(ground)], (page.name, mark.shape.text)
    assert named


def test_a_figure_of_two_views_has_each_side_once_on_its_own_side() -> None:
    """derived: the middle of BASS at 0 and 100 is 50, of TREBLE at 80 and 180 it is 130."""
    figure = [words((x, 0.0), says, 4.0) for x, says in ((0, "BASS"), (80, "TREBLE"), (100, "BASS"), (180, "TREBLE"))]
    told = repeated(figure, (), FreeGround(Box(0.0, 0.0, 150.0, 100.0), 2.0), ())
    at = {mark.shape.text: mark.shape.at[0] for mark in told if isinstance(mark.shape, Text)}
    assert len(told) == 2
    assert at["BASS"] < 75.0 < at["TREBLE"]


WINDOW = Box(0.0, 0.0, 100.0, 100.0)
GRID = Grid(x=0.0, y=0.0, width=100.0, height=100.0, columns=2, rows=1, cells=((0, 0), (1, 0)), crossed=0, torn=0)


def placed(cell: tuple[int, int]) -> Transform:
    return Transform(shift=(-GRID.window(cell).x0, 0.0))


def framed(x0: float, y0: float, x1: float, y1: float) -> Mark:
    ring = polyline([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], closed=True)
    return Mark(shape=ring, purpose="cut", of="strip")


def test_a_framed_cross_stands_outside_what_is_cut_out() -> None:
    """The strip holds the upper left corner, where a cross is wanted."""
    strip = framed(5.0, 40.0, 80.0, 95.0)
    far = far_apart((strip,), (), GRID, WINDOW, placed)
    assert far is not None
    square = next(m for m in far.drawn((0, 0), placed((0, 0)), Transform()) if isinstance(m.shape, Path))
    assert not marks_box([square]).meets(marks_box([strip]))


def test_a_framed_cross_lies_across_lines_rather_than_on_words() -> None:
    """Lines 6 mm apart leave no free place for a cross of 10 mm; words over the left half leave it the right."""
    lines = tuple(framed(-5.0, y, 300.0, y + 3.0) for y in range(0, 100, 6))
    lettered = tuple(words((0.0, float(y)), "word " * 4, 3.0) for y in range(4, 100, 6))
    far = far_apart((*lines, *lettered), (), GRID, WINDOW, placed)
    assert far is not None
    square = next(m for m in far.drawn((0, 0), placed((0, 0)), Transform()) if isinstance(m.shape, Path))
    assert not [word for word in lettered if marks_box([square]).meets(marks_box([word]))]


def test_where_words_leave_no_place_there_is_no_framed_cross() -> None:
    full = tuple(words((float(x), float(y)), "words", 3.0) for x in range(0, 200, 12) for y in range(4, 96, 6))
    assert far_apart(full, (), GRID, WINDOW, placed) is None


def test_no_cross_to_measure_from_passes_for_a_hole() -> None:
    far = far_apart((framed(40.0, 40.0, 60.0, 60.0),), (), GRID, WINDOW, placed)
    assert far is not None
    assert not [m for m in far.drawn((0, 0), placed((0, 0)), Transform()) if isinstance(m.shape, Circle)]


A5_UP, A4_LEVEL = Paper("A5", 148.0, 210.0), Paper("A4", 297.0, 210.0)


def test_on_narrow_paper_the_scale_stands_below_the_words_and_the_foot_is_lower(stamp: Stamp) -> None:
    """derived: A5 has 132 mm within its margins; beside a scale of 50 mm its words were a column of 70 mm."""
    notes = ("Dust of hardwood, shell, bone, ivory and old finish harms the lungs: wear a mask made for it.",) * 8
    order = PrintOrder(figure=Figure(title="Anything", marks=(), notes=notes), template="any", title="", stamp=stamp)
    level = Transform()
    setting, high = lower(order, A5_UP, level)
    below, beside = (foot(order, A5_UP, level, one, LONGEST) for one in ("below", "beside"))
    assert setting == "below"
    assert high == below.height < beside.height - 10.0
    assert [m for m in below.marks if isinstance(m.shape, Text) and m.shape.text == "100 mm"]
    assert below.width == 132.0
    brief = msgspec.structs.replace(order, figure=Figure(title="Anything", marks=(), notes=notes[:2]))
    assert lower(brief, A4_LEVEL, level)[0] == "beside"


ENDS = ("50 mm", "100 mm")
"""What a level scale ends with."""


def test_every_sheet_of_a_print_has_the_scale_at_the_same_place(stamp: Stamp) -> None:
    found = sample("turned-left-old-slot")
    asked = msgspec.structs.replace(stamp, paper="A5", turn="portrait", templates=("placement",))
    pages = [page for page in sheets(found, work_out(found), asked) if page.transform is not None]
    zeros = [
        tuple(m.shape.at for m in page.drawing.marks if isinstance(m.shape, Text) and m.shape.text in ENDS)
        for page in pages
    ]
    assert len(pages) > 2
    assert len(set(zeros)) == 1
    assert zeros[0]


def test_tables_find_room_on_a_sheet_that_shows_a_corner_alone(stamp: Stamp) -> None:
    """Three tables, on a last sheet of four that shows a corner of the bridge alone: none needs a sheet of its own."""
    job = sample("turned-left")
    small = msgspec.structs.replace(stamp, templates=("placement",), paper="A5", turn="portrait")
    layout = work_out(job)
    pages = sheets(job, layout, small)
    assert [page.name.split()[-1] for page in pages] == ["A1", "A2", "A3", "B3"]
    told = [[m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text)] for page in pages]
    titles = [table.title for table in figure_of(TEMPLATES["placement"], job, layout, small).tables]
    assert len(titles) == 3
    assert [[title in texts for title in titles] for texts in told] == [[False] * 3] * 3 + [[True] * 3]
