"""The hand on the plan: hovering, dragging by the rule, nudging, typing a number where it stands, asking how far."""

import re

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from app.desk.frame.desk import Desk
from app.desk.plan.painting import rulers
from app.edit import edits
from app.edit.start import first_questions
from export.drawing.marks import Line
from geometry.job import Point, Reading
from tests.app.desk.conftest import OpenDesk, press, sample, type_into


@pytest.fixture
def placed(open_desk: OpenDesk) -> Desk:
    """A job with two points known only as they were placed, in a frame that two corners of the board tie down."""
    job = sample("leaning-neck")
    spots = (
        ("nut.left", 0.0, 22.2),
        ("end.left", 450.0, 28.3),
        ("body.1", 500.0, 100.0),
        ("body.2", 700.0, 120.0),
    )
    for at, (name, x, y) in enumerate(spots):
        reading = Reading(id=f"p{at}", kind="at", of=(name,), value=(x, y), within=1.0)
        job = edits.add_reading(job, reading)
    return open_desk(job)


def where(desk: Desk, name: str) -> QPoint:
    place = desk.board.answers.place_of(name)
    assert place is not None
    return desk.board.plan.to_pixels(place).toPoint()


def drag(desk: Desk, name: str, by: QPoint) -> None:
    plan, start = desk.board.plan, where(desk, name)
    QTest.mousePress(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for share in (0.3, 0.6, 1.0):
        QTest.mouseMove(plan, start + by * share)
    QTest.mouseRelease(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start + by)


def test_hovering_over_a_point_names_it_with_its_plus_or_minus(desk: Desk) -> None:
    QTest.mouseMove(desk.board.plan, where(desk, "end.right"))
    assert desk.board.pointer.over == "point:end.right"
    said = desk.board.answers.about("end.right")
    assert said.startswith("board end, bass, ±")


def test_a_measured_point_stays_put_and_says_what_holds_it(desk: Desk) -> None:
    before = desk.document.job
    drag(desk, "end.right", QPoint(20, 20))
    assert desk.document.job == before
    assert desk.board.pointer.says.startswith(
        "Board end, bass was measured and stays: held by “Board end, edge to edge”"
    )


def test_dragging_a_placed_point_edits_its_reading_in_one_undo_step(placed: Desk) -> None:
    before, start = placed.document.job, placed.board.answers.place_of("body.2")
    drag(placed, "body.2", QPoint(24, -12))
    assert placed.document.stack.count() == 1
    assert placed.document.stack.undoText() == "place of body outline 2"
    moved = placed.board.answers.place_of("body.2")
    scale = placed.board.plan.view.scale
    assert start is not None
    assert moved is not None
    assert moved[0] - start[0] == pytest.approx(24 / scale, abs=1.5)
    assert moved[1] - start[1] == pytest.approx(12 / scale, abs=1.5)
    placed.document.stack.undo()
    assert placed.document.job == before


def test_a_point_with_no_reading_moves_its_rough_place(open_desk: OpenDesk) -> None:
    job = sample("leaning-neck")
    job = edits.replace(job, points={**job.points, "spot": Point(near=(560.0, 60.0))})
    desk = open_desk(job)
    drag(desk, "spot", QPoint(10, 0))
    near = desk.document.job.points["spot"].near
    assert near is not None
    assert near[0] > 560.0  # type: ignore[operator]  # a dragged place is a number


def test_arrow_keys_nudge_a_placed_point_by_a_tenth(placed: Desk) -> None:
    board = placed.board
    QTest.mouseClick(board.plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, where(placed, "body.2"))
    before = placed.document.job.readings[-1].parts
    press(board.plan, Qt.Key.Key_Right)
    after = placed.document.job.readings[-1].parts
    assert float(after[0]) - float(before[0]) == pytest.approx(0.1, abs=0.011)


def test_with_shift_they_stride_by_a_millimetre(placed: Desk) -> None:
    board = placed.board
    QTest.mouseClick(board.plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, where(placed, "body.2"))
    before = placed.document.job.readings[-1].parts
    press(board.plan, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    after = placed.document.job.readings[-1].parts
    assert float(after[0]) - float(before[0]) == pytest.approx(1.0, abs=0.011)


def test_the_number_of_the_reading_in_hand_is_typed_where_it_stands(desk: Desk) -> None:
    desk.measure.table.go(2)
    plan, reading = desk.board.plan, desk.document.job.readings[2]
    box = plan.words_of(f"reading:{reading.id}")
    assert box is not None
    QTest.mouseClick(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, box.center().toPoint())
    line = desk.board.value_line.line
    assert line is not None
    assert line.accessibleName() == "Nut to board end, treble edge, as read"
    line.selectAll()
    type_into(line, "451")
    press(line, Qt.Key.Key_Return)
    assert desk.document.job.readings[2].value == 451
    assert desk.board.value_line.line is None


def test_escape_on_the_plan_takes_the_typed_number_back(desk: Desk) -> None:
    desk.measure.table.go(2)
    before = desk.document.job
    desk.board.value_line.type_here(desk.board.plan, desk.document.job.readings[2].id)
    line = desk.board.value_line.line
    assert line is not None
    type_into(line, "453")
    press(line, Qt.Key.Key_Escape)
    assert desk.document.job == before


def test_how_far_from_here_to_there(desk: Desk) -> None:
    hand = desk.board.pointer
    hand.ask_distance()
    assert hand.says.startswith("How far? Point at where it starts.")
    for name in ("nut.left", "end.left"):
        QTest.mouseClick(desk.board.plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, where(desk, name))
    assert hand.says.startswith("From nut treble to board end treble: 450.")
    assert "±0." in hand.says


def walk_to(desk: Desk, thing: str) -> None:
    """Walk with the keys until a thing is reached, and take it."""
    for _ in range(200):
        if desk.board.pointer.over == thing:
            break
        type_into(desk.board.plan, ".")
    press(desk.board.plan, Qt.Key.Key_Return)


def test_from_a_point_to_a_line_by_keys_alone(desk: Desk) -> None:
    desk.board.pointer.ask_distance()
    walk_to(desk, "point:seam.1")
    walk_to(desk, "neck")
    said = desk.board.pointer.says
    assert re.fullmatch(r"Seam 1 stands [\d.]+ ±[\d.]+ mm off the neck centre line, on the (bass|treble) side\.", said)
    assert desk.board.pointer.answer.ends is not None


def test_from_line_to_line(desk: Desk) -> None:
    desk.board.pointer.ask_distance()
    walk_to(desk, "neck")
    walk_to(desk, "seam")
    assert desk.board.pointer.says.startswith("The seam lies ")
    assert "where the saddle is, turned by 1.32 ±0.11°" in desk.board.pointer.says


def test_a_line_is_pointed_at_with_the_mouse(desk: Desk) -> None:
    plan = desk.board.plan
    desk.board.pointer.ask_distance()
    marks = plan.drawing.marks if plan.drawing else ()
    seam = next(mark.shape for mark in marks if mark.of == "seam" and isinstance(mark.shape, Line))
    on_it = ((seam.a[0] + seam.b[0]) / 2, (seam.a[1] + seam.b[1]) / 2)
    QTest.mouseClick(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, plan.to_pixels(on_it).toPoint())
    assert desk.board.pointer.says.startswith("Point at where it ends.")


def test_the_answer_goes_with_the_job_and_not_beyond_it(desk: Desk) -> None:
    desk.board.pointer.ask_distance()
    walk_to(desk, "point:nut.left")
    walk_to(desk, "point:nut.right")
    before = desk.board.pointer.says
    desk.document.edit("nut", edits.set_value(desk.document.job, "r1", "44.8"))
    assert desk.board.pointer.says != before
    desk.document.start(sample("tie-bridge"))
    assert desk.board.pointer.says == ""
    assert desk.board.pointer.answer.ends is None


def test_a_place_that_is_only_rough_is_said(placed: Desk) -> None:
    assert placed.board.answers.how_far("point:nut.left", "point:old.9").says == (
        "Old footprint 9 is only roughly placed; no reading holds it yet."
    )


def test_a_line_that_is_not_known_yet_is_said(open_desk: OpenDesk) -> None:
    desk = open_desk(first_questions.begin(hand="right", string_set="6", measuring="bridge only"))
    assert (
        desk.board.answers.how_far("neck", "seam").says
        == "The neck centre line is not known well enough yet to measure from."
    )


def test_escape_in_a_drag_puts_the_point_back(placed: Desk) -> None:
    before, plan, start = placed.document.job, placed.board.plan, where(placed, "body.2")
    QTest.mousePress(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.mouseMove(plan, start + QPoint(30, 10))
    assert placed.document.job != before
    press(plan, Qt.Key.Key_Escape)
    assert placed.document.job == before


def test_nudges_of_two_holds_are_two_steps(placed: Desk) -> None:
    plan = placed.board.plan
    for _ in range(2):
        click = where(placed, "body.2")
        QTest.mouseClick(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, click)
        press(plan, Qt.Key.Key_Right)
        press(plan, Qt.Key.Key_Right)
        press(plan, Qt.Key.Key_Escape)
    assert placed.document.stack.count() == 2


def test_a_reading_is_added_by_pointing(desk: Desk) -> None:
    card = desk.measure
    card.add()
    assert card.adding is not None
    card.adding.point_button.click()
    for name in ("fret12.left", "end.right"):
        QTest.mouseClick(desk.board.plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, where(desk, name))
    made = desk.document.job.readings[1]
    assert (made.kind, made.of) == ("distance", ("fret12.left", "end.right"))


def test_escape_ends_pointing(desk: Desk) -> None:
    hand = desk.board.pointer
    hand.ask_distance()
    press(desk.board.plan, Qt.Key.Key_Escape)
    assert hand.says == ""
    assert hand.over == ""


def test_points_are_reached_with_the_keyboard_alone(desk: Desk) -> None:
    desk.board.plan.setFocus()
    type_into(desk.board.plan, ".")
    first = desk.board.pointer.held
    type_into(desk.board.plan, ".")
    assert first == "nut.left"
    assert desk.board.pointer.held == "nut.right"


def test_an_empty_place_is_pushed_about(desk: Desk) -> None:
    plan = desk.board.plan
    empty = QPointF(plan.area.right() - 60, plan.area.top() + 60).toPoint()
    before = plan.view.centre
    QTest.mousePress(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, empty)
    QTest.mouseMove(plan, empty + QPoint(-50, 0))
    QTest.mouseRelease(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, empty + QPoint(-50, 0))
    assert plan.view.centre[0] == pytest.approx(before[0] + 50 / plan.view.scale)


def test_the_scale_lies_under_what_is_said_over_it(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """Painted after it, the scale's words would run through the sentence's."""
    plan, painted = desk.board.plan, list[str]()
    monkeypatch.setattr(rulers, "paint_scale_bar", lambda *_: painted.append("scale"))
    monkeypatch.setattr(plan, "paint_over", [lambda *_: painted.append("said")])
    plan.grab()
    assert painted == ["scale", "said"]
