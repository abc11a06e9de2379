"""Old work on the plan and on the templates: former lines, hidden lines, and assumed holes crossed out."""

import math

import msgspec
import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Circle, Line, Mark, Path, Text
from export.machine.layers import layer_of
from export.plan import PlanView, compose
from export.plan.bridge import bridgework
from export.plan.bridge.old_work_drawn import edges, old_hole, on_the_top, under_the_top
from export.templates import parts
from geometry.layout import BraceLine, Hole, OldArea, OldPlan
from tests.geometry.old_work.everything import laid, made

NEAR = PlanView(scale=1.0)
BRACE = BraceLine(name="1", line=((600.0, 0.0), (700.0, 0.0), (700.0, 100.0)), width=8.0)
SQUARE = ((640.0, 0.0), (650.0, 0.0), (650.0, 10.0), (640.0, 10.0))


def marks_of(marks: list[Mark], of: str) -> list[Mark]:
    return [mark for mark in marks if mark.of == of]


def test_a_brace_is_two_edges_its_width_apart_with_mitred_bends() -> None:
    left, right = edges(BRACE)
    # derived: the middle line turns left by a right angle, so each edge keeps 4 mm from it and turns on the diagonal
    assert [complex(*at) for at in left] == pytest.approx([600 + 4j, 696 + 4j, 696 + 100j])
    assert [complex(*at) for at in right] == pytest.approx([600 - 4j, 704 - 4j, 704 + 100j])


def test_a_brace_whose_points_lie_in_one_place_has_no_edges() -> None:
    assert edges(BraceLine(name="1", line=((1.0, 2.0), (1.0, 2.0)), width=8.0)) == ([], [])


def test_what_lies_under_the_top_is_dashed_and_on_its_layer() -> None:
    marks = under_the_top(OldPlan(braces=(BRACE,), plate=SQUARE))
    assert {(mark.of, mark.purpose) for mark in marks} == {("brace:1", "hidden"), ("old plate", "hidden")}
    assert {layer_of(mark, ()) for mark in marks} == {"HIDDEN"}


def test_of_a_brace_only_what_lies_round_the_bridge_is_on_a_template() -> None:
    box = Box(650.0, -50.0, 690.0, 50.0)
    lines = [mark.shape for mark in under_the_top(OldPlan(braces=(BRACE,)), within=box)]
    assert lines == [Line((650.0, 4.0), (690.0, 4.0)), Line((650.0, -4.0), (690.0, -4.0))]


def test_former_things_are_former_lines_and_areas_are_hatched() -> None:
    area = OldArea(name="1", outline=SQUARE, what="damaged")
    marks = on_the_top(OldPlan(areas=(area,), slot=SQUARE, bare=SQUARE), 2.0)
    outlines = [mark for mark in marks if isinstance(mark.shape, Path)]
    assert {(mark.of, mark.purpose) for mark in outlines} == {
        ("area:1", "before"),
        ("old slot", "before"),
        ("bare", "before"),
    }
    hatched = [mark.shape for mark in marks if isinstance(mark.shape, Line)]
    # derived: lines 2 mm apart across a square of 10 mm along its diagonal of 14.14 mm: seven of them fit within
    assert len(hatched) == 7
    assert all(640 - 1e-9 <= x <= 650 + 1e-9 for line in hatched for x, _ in (line.a, line.b))


def test_an_assumed_hole_is_crossed_out() -> None:
    read, assumed = (old_hole(Hole(name="pin.1", at=(1.0, 2.0), diameter=5.0, assumed=on), "x") for on in (False, True))
    assert [type(mark.shape) for mark in read] == [Circle]
    assert [type(mark.shape) for mark in assumed] == [Circle, Line, Line]
    assert all(mark.purpose == "before" for mark in assumed)


def test_the_plan_names_what_it_shows_near_by() -> None:
    drawing = compose(made(), laid(), NEAR)
    assert {"discoloured", "plate inside"} <= {
        mark.shape.text for mark in drawing.marks if isinstance(mark.shape, Text)
    }
    _, labels = bridgework.old_work(made(), laid(), NEAR)
    assert {"assumed", "old slot", "old hole", "brace x"} <= {label.words for label in labels}
    far = compose(made(), laid(), PlanView(scale=0.2))
    assert "plate inside" not in {mark.shape.text for mark in far.marks if isinstance(mark.shape, Text)}


def test_it_goes_with_the_old_bridge_when_that_is_not_shown() -> None:
    drawing = compose(made(), laid(), PlanView(scale=1.0, overlays=frozenset(("points",))))
    assert not [mark for mark in drawing.marks if mark.of.startswith(("brace:", "area:", "old plate"))]


def test_a_template_has_it_too_with_its_words() -> None:
    marks = parts.old_work(laid())
    said = {mark.shape.text for mark in marks if isinstance(mark.shape, Text)}
    assert {"assumed", "discoloured"} <= said
    assert marks_of(marks, "old plate")
    holes = [mark for mark in marks_of(marks, "old pin:pin.1") if isinstance(mark.shape, Circle)]
    assert [(mark.filled, mark.purpose) for mark in holes] == [(False, "before"), (True, "before")]
    crossed = [mark for mark in marks if mark.of == "old pin:pin.1+1" and isinstance(mark.shape, Line)]
    assert len(crossed) == 2
    for mark in crossed:
        assert isinstance(mark.shape, Line)
        # derived: each arm reaches 0.7 of the diameter of 5.2 mm past the middle
        assert math.dist(mark.shape.a, mark.shape.b) == pytest.approx(2 * 0.7 * 5.2)


@pytest.mark.parametrize(("behind", "led"), [(4.0, True), (12.0, True), (17.0, False)])
def test_words_of_an_area_stand_past_a_brace_close_behind_it_at_the_end_of_a_line(behind: float, led: bool) -> None:
    """derived: the area ends at 665; a brace 8 mm wide lies across there, its farther edge 8 mm behind its nearer one,
    and the line ends 2 mm past that.
    """
    layout = laid()
    area = OldArea(name="1", what="damaged", outline=((650.0, -5.0), (665.0, -5.0), (665.0, 5.0), (650.0, 5.0)))
    across = 665.0 + behind + 4.0
    brace = BraceLine(name="9", line=((across, -60.0), (across, 60.0)), width=8.0)
    one = msgspec.structs.replace(layout, old=OldPlan(areas=(area,), braces=(brace,)))
    marks = parts.old_work(one)
    drawn = [mark.shape for mark in marks_of(marks, "area:1")]
    leaders = [shape for shape in drawn if isinstance(shape, Line) and shape.a == (665.0, 0.0)]
    assert leaders == ([Line((665.0, 0.0), (665.0 + behind + 10.0, 0.0))] if led else [])
    (word,) = [shape for shape in drawn if isinstance(shape, Text)]
    assert word.at[0] == pytest.approx((665.0 + behind + 10.0 if led else 665.0) + 1.5)
