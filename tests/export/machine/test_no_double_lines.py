"""No line twice."""

import pytest

from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Purpose
from export.machine.no_double_lines import without_doubled_lines


def line(a: XY, b: XY, purpose: Purpose) -> Mark:
    return Mark(shape=Line(a, b), purpose=purpose)


def test_a_doubled_line_goes_once_and_to_what_matters_more() -> None:
    lay, cut = line((0, 0), (10, 0), "lay"), line((10, 0), (0, 0), "cut")
    assert without_doubled_lines((lay, cut)) == (cut,)


@pytest.mark.parametrize(("falls", "again"), [(-0.0004, -0.0004), (-0.0004, 0.0004), (0.0004, -0.0004), (0.0, -0.0004)])
def test_level_lines_that_rise_or_fall_by_a_hair_are_one(falls: float, again: float) -> None:
    """Lines are told apart by their direction, which turns from half a circle to nothing where they are level."""
    one, two = line((0.0, 0.0), (10.0, falls), "cut"), line((0.0, 0.0), (10.0, again), "cut")
    assert without_doubled_lines((one, two)) == (one,)


def test_a_shared_stretch_is_taken_from_the_lesser() -> None:
    cut, centre = line((4, 0), (6, 0), "cut"), line((0, 0), (10, 0), "centre")
    assert without_doubled_lines((cut, centre)) == (
        cut,
        line((0, 0), (4, 0), "centre"),
        line((6, 0), (10, 0), "centre"),
    )


def test_lines_beside_each_other_are_left_alone() -> None:
    marks = (line((0, 0), (10, 0), "cut"), line((0, 0.1), (10, 0.1), "lay"))
    assert without_doubled_lines(marks) == marks


def test_lines_that_only_touch_are_left_alone() -> None:
    marks = (line((0, 0), (10, 0), "cut"), line((10, 0), (20, 0), "cut"))
    assert without_doubled_lines(marks) == marks


def test_an_old_outline_on_the_new_one_keeps_what_is_its_own() -> None:
    new = Path(((0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0)), closed=True)
    old = Path(((0, 0, 0), (10, 0, 0), (10, 12, 0), (0, 12, 0)), closed=True)
    cut, before = Mark(shape=new, purpose="cut"), Mark(shape=old, purpose="before")
    left = without_doubled_lines((before, cut))
    assert left[-1] == cut
    assert [m.shape for m in left[:-1]] == [
        Line((10, 10), (10, 12)),
        Line((10, 12), (0, 12)),
        Line((0, 12), (0, 10)),
    ]


def test_a_circle_goes_once() -> None:
    drill = Mark(shape=Circle((0, 0), 2.5), purpose="drill")
    before = Mark(shape=Circle((0, 0), 2.5), purpose="before")
    assert without_doubled_lines((before, drill)) == (drill,)


def test_slanted_lines_are_seen_too() -> None:
    marks = (line((0, 0), (10, 7), "cut"), line((5, 3.5), (20, 14), "lay"))
    assert without_doubled_lines(marks)[1].shape == Line((10, 7), (20, 14))


@pytest.mark.parametrize("turn", [1, -1])
@pytest.mark.parametrize(
    ("one", "other"),
    [
        # directions are kept in steps of 0.002; derived: 0.0099 and 0.0101 over 10 lie on either side of 0.001
        ((10.0, 0.0099), (10.0, 0.0101)),
        # derived: 0.0005 and −0.0015, which is as good as half a turn less 0.0015, are the last step and the first
        ((5.0, 0.0025), (5.0, -0.0075)),
    ],
)
def test_a_doubled_line_that_is_turned_by_a_hair_goes(one: XY, other: XY, turn: int) -> None:
    first, second = (one, other)[::turn]
    cut, lay = line((0, 0), first, "cut"), line((0, 0), second, "lay")
    assert without_doubled_lines((cut, lay)) == (cut,)


@pytest.mark.parametrize(("apart", "kept"), [(0.019, 1), (0.021, 2)])
def test_lines_a_fiftieth_apart_are_two(apart: float, kept: int) -> None:
    # 0.02 mm on both ends
    assert len(without_doubled_lines((line((0, 0), (10, 0), "cut"), line((0, apart), (10, apart), "lay")))) == kept


@pytest.mark.parametrize(("left", "kept"), [(0.019, 1), (0.021, 2)])
@pytest.mark.parametrize("start", [True, False])
def test_what_is_left_of_a_line_under_a_fiftieth_goes(left: float, kept: int, start: bool) -> None:
    longer = line((-left, 0), (10, 0), "lay") if start else line((0, 0), (10 + left, 0), "lay")
    assert len(without_doubled_lines((line((0, 0), (10, 0), "cut"), longer))) == kept


@pytest.mark.parametrize(("overlap", "shorter"), [(0.019, 0.0), (0.021, 0.021)])
def test_lines_that_overlap_under_a_fiftieth_only_touch(overlap: float, shorter: float) -> None:
    _, lay = without_doubled_lines((line((0, 0), (10, 0), "cut"), line((10 - overlap, 0), (20, 0), "lay")))
    assert isinstance(lay.shape, Line)
    assert lay.shape.a[0] == pytest.approx(10 - overlap + shorter)


def test_a_line_that_crosses_another_stays_whole() -> None:
    marks = (line((0, 0), (10, 0), "cut"), line((5, -5), (5, 5), "cut"), line((0, 0), (10, 0.1), "lay"))
    assert without_doubled_lines(marks) == marks


def test_a_line_of_no_length_goes() -> None:
    assert without_doubled_lines((line((1, 1), (1, 1), "cut"),)) == ()


def test_an_arc_goes_once_whichever_way_it_runs() -> None:
    there, back = Arc((3, 4), 5.0, 0.5, 1.0), Arc((3, 4), 5.0, 1.5, -1.0)
    other = Arc((3, 4), 5.0, 0.5, 1.2)
    marks = [Mark(shape=shape, purpose="lay") for shape in (there, back, other)]
    assert [mark.shape for mark in without_doubled_lines(marks)] == [there, other]


def test_a_path_on_lines_that_are_drawn_loses_its_filling() -> None:
    """What is left of a filled outline is lines; one that is whole stays as it is."""
    square = Path(((0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0)), closed=True)
    whole = Mark(shape=square, purpose="metal", filled=True)
    assert without_doubled_lines((whole,)) == (whole,)
    left = without_doubled_lines((line((0, 0), (10, 0), "cut"), whole))
    assert [mark.filled for mark in left[1:]] == [False] * 3
