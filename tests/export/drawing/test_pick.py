"""What lies under the pointer."""

from export.drawing.marks import Arc, Circle, Drawing, Line, Mark, Path
from export.drawing.pick import pick


def drawing(*marks: Mark) -> Drawing:
    return Drawing(title="", marks=marks)


def of(mark: Mark | None) -> str | None:
    return mark.of if mark else None


LINE = Mark(shape=Line((0.0, 0.0), (100.0, 0.0)), purpose="centre", of="seam")
POINT = Mark(shape=Circle((50.0, 1.0), 0.5), purpose="measured", of="point:seam.1", filled=True)


def test_the_nearest_within_reach() -> None:
    other = Mark(shape=Line((0.0, 5.0), (100.0, 5.0)), purpose="lay", of="edge:left")
    assert of(pick(drawing(LINE, other), (30.0, 4.0), 3.0)) == "edge:left"
    assert pick(drawing(LINE, other), (30.0, 20.0), 3.0) is None


def test_a_point_comes_before_the_line_it_lies_on() -> None:
    assert of(pick(drawing(LINE, POINT), (50.0, 0.0), 2.0)) == "point:seam.1"
    assert of(pick(drawing(POINT, LINE), (50.0, 0.0), 2.0)) == "point:seam.1"


def test_what_stands_for_nothing_is_not_picked() -> None:
    assert pick(drawing(Mark(shape=LINE.shape, purpose="note")), (50.0, 0.0), 2.0) is None


def test_a_bulge_is_picked_on_its_curve() -> None:
    half = Mark(shape=Path(((0.0, 0.0, 1.0), (10.0, 0.0, 0.0))), purpose="cut", of="bridge")
    assert of(pick(drawing(half), (5.0, -5.0), 0.1)) == "bridge"
    assert pick(drawing(half), (5.0, 0.0), 0.1) is None


def test_past_an_arcs_end_its_end_counts() -> None:
    quarter = Mark(shape=Arc((0.0, 0.0), 10.0, 0.0, 1.5), purpose="cut", of="bridge")
    assert pick(drawing(quarter), (-10.0, 0.0), 5.0) is None
    assert of(pick(drawing(quarter), (10.0, -1.0), 1.5)) == "bridge"


def test_inside_a_filled_circle_counts_as_on_it() -> None:
    assert of(pick(drawing(POINT), (50.0, 1.2), 0.0)) == "point:seam.1"
