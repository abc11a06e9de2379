"""No line twice."""

from export.drawing.marks import XY, Circle, Line, Mark, Path, Purpose
from export.machine.no_double_lines import without_doubled_lines


def line(a: XY, b: XY, purpose: Purpose) -> Mark:
    return Mark(shape=Line(a, b), purpose=purpose)


def test_a_doubled_line_goes_once_and_to_what_matters_more() -> None:
    lay, cut = line((0, 0), (10, 0), "lay"), line((10, 0), (0, 0), "cut")
    assert without_doubled_lines((lay, cut)) == (cut,)


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
