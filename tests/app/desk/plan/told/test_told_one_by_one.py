"""The plan as a screen reader walks it: through Qt's own interface, thing by thing."""

import gc
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QApplication

from app.desk.frame.desk import Desk
from app.desk.plan.painting.plan_widget import Plan
from app.say.plan import plan_in_words
from geometry import units, words
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, press, sample

Role, Said = QAccessible.Role, QAccessible.Text


def children(desk: Desk, plan: Plan) -> list[QAccessibleInterface]:
    """What stands on a picture, once nothing changes any more."""
    desk.board.told.tell()
    there = QAccessible.queryAccessibleInterface(plan)
    assert there is not None
    found = [there.child(at) for at in range(there.childCount())]
    assert all(child is not None for child in found)
    return found


def walked(desk: Desk, plan: Plan) -> dict[str, QAccessibleInterface]:
    return {child.text(Said.Name): child for child in children(desk, plan)}


def press_dot(desk: Desk) -> None:
    """Walk to the next point, as the keys of the plan do."""
    desk.board.plan.setFocus(Qt.FocusReason.TabFocusReason)
    press(desk.board.plan, Qt.Key.Key_Period)


def test_each_thing_on_the_plan_has_a_name_a_role_and_what_is_told_of_it(desk: Desk) -> None:
    found = children(desk, desk.board.plan)
    assert len(found) > 20
    for child in found:
        name, value = child.text(Said.Name), child.text(Said.Value)
        assert name
        assert value
        assert value == child.text(Said.Description)
        assert child.role() in (Role.Graphic, Role.Note), name
        assert child.isValid()
        assert child.childCount() == 0


def test_points_saddle_bridge_and_strings_stand_there_with_place_and_how_sure(desk: Desk) -> None:
    job, layout = desk.document.job, desk.document.layout
    assert layout is not None
    assert layout.saddle is not None
    things = walked(desk, desk.board.plan)
    for name, point in layout.points.items():
        value = things[words.first_large(words.point(name, job.hand))].text(Said.Value)
        assert value.startswith(plan_in_words.place((point.x, point.y), job))
        assert ", ±" in value
    right_handed = reversed(layout.saddle.by_sheet.pm95)
    for side, pm in zip(("Saddle, bass", "Saddle, treble"), right_handed, strict=True):
        assert things[side].text(Said.Value).endswith(f", ±{units.said_pm(pm, job.unit)}")
    corners = [said for said in things if said.startswith("Bridge, ")]
    assert len(corners) == 4
    assert all(", ±" in things[corner].text(Said.Value) for corner in corners)
    assert not any("±0.0 " in thing.text(Said.Value) for thing in things.values())
    assert {f"String {string.name} at the saddle" for string in layout.strings} <= set(things)


def test_what_is_found_stands_at_its_place(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    layout = desk.document.layout
    assert layout is not None
    texts = {child.text(Said.Value): child for child in children(desk, desk.board.plan)}
    wrong = [finding for finding in layout.findings if finding.grade != "good"]
    assert wrong
    for finding in wrong:
        child = texts[finding.text]
        assert child.text(Said.Name) in ("Stop", "Look again", "Estimated or unchecked")
        assert child.role() == Role.Graphic, finding.where
        assert desk.board.plan.rect().translated(desk.board.plan.mapToGlobal(QPoint())).intersects(child.rect())


def test_the_reading_in_hand_stands_first(desk: Desk) -> None:
    table = desk.measure.table
    for at in (0, 3):
        table.go(at)
        first, row = children(desk, desk.board.plan)[0], table.readings.rows[at]
        assert first.text(Said.Name) == f"Reading in hand, {words.reading_inside(row.reading, 'right')}"
        assert first.text(Said.Value) == f"{row.value} mm"


def test_a_thing_is_where_it_is_painted_and_is_found_there(desk: Desk) -> None:
    plan, layout = desk.board.plan, desk.document.layout
    assert layout is not None
    there = QAccessible.queryAccessibleInterface(plan)
    for name in ("nut.left", "nut.right", "end.left", "end.right"):
        child = walked(desk, plan)[words.first_large(words.point(name, "right"))]
        at = plan.mapToGlobal(plan.to_pixels((layout.points[name].x, layout.points[name].y)).toPoint())
        assert child.rect().contains(at)
        assert not child.state().offscreen
        under = there.childAt(at.x(), at.y())
        assert under is not None
        assert under.rect().contains(at)
    assert there.childAt(*plan.mapToGlobal(QPoint(2, 2)).toTuple()) is None


def test_the_keys_of_the_plan_bring_the_focus_to_a_point(desk: Desk) -> None:
    names = []
    for _ in range(3):
        press_dot(desk)
        desk.board.told.tell()
        there = QAccessible.queryAccessibleInterface(desk.board.plan)
        child = there.focusChild()
        assert child is not None
        assert child.state().focusable
        assert child.state().selected
        names.append(child.text(Said.Name))
    job = desk.document.job
    assert names == [words.first_large(words.point(name, job.hand)) for name in list(job.points)[:3]]
    focused = [child.text(Said.Name) for child in children(desk, desk.board.plan) if child.state().selected]
    assert focused == names[-1:]


def test_a_point_walked_to_is_told_at_once(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[str] = []
    monkeypatch.setattr(QAccessible, "isActive", lambda: True)
    monkeypatch.setattr(QAccessible, "updateAccessibility", lambda event: told.append(event.object().shown.name))
    monkeypatch.setattr(Plan, "hasFocus", lambda _: True)
    press_dot(desk)
    desk.board.told.tell()
    desk.board.told.tell()
    first = next(iter(desk.document.job.points))
    assert [said for said in told if said == words.first_large(words.point(first, "right"))] == told[:1]


def test_children_and_parent_know_each_other(desk: Desk) -> None:
    there = QAccessible.queryAccessibleInterface(desk.board.plan)
    for at, child in enumerate(children(desk, desk.board.plan)):
        assert there.indexOfChild(child) == at
        assert child.parent().object() is desk.board.plan
    assert there.child(there.childCount()) is None


def test_a_number_typed_on_the_plan_is_a_child_as_well(desk: Desk) -> None:
    desk.board.value_line.type_here(desk.board.plan, desk.board.pictures.options.reading)
    assert desk.board.value_line.line is not None
    roles = [child.role() for child in children(desk, desk.board.plan)]
    assert roles.count(Role.EditableText) == 1
    assert Role.Graphic in roles


def test_the_detail_has_only_the_points_in_its_sight(desk: Desk) -> None:
    desk.board.fit()
    assert "Nut, bass" in walked(desk, desk.board.plan)
    assert "Nut, bass" not in walked(desk, desk.board.detail)
    assert "Saddle, bass" in walked(desk, desk.board.detail)


def test_an_empty_job_shows_nothing(open_desk: OpenDesk) -> None:
    desk = open_desk(Job())
    assert [child.text(Said.Name) for child in children(desk, desk.board.plan)] == []


@pytest.fixture
def awake() -> Iterator[None]:
    """As if a screen reader listened."""
    QAccessible.setActive(True)
    yield
    QAccessible.setActive(False)


@pytest.mark.usefixtures("awake")
def test_things_that_come_and_go_are_safe_to_ask(open_desk: OpenDesk) -> None:
    """One that was told stays safe to ask for when it stands for nothing any more."""
    desk = open_desk(sample("leaning-neck"))
    kept = children(desk, desk.board.plan)
    gc.freeze()  # what is there by now need not be gone through at each turn
    for turn in range(20):
        desk.job_files.new(Job() if turn % 2 == 0 else sample("small-four"))
        QApplication.processEvents()
        gc.collect()
        now = children(desk, desk.board.plan)
        there = {child.text(Said.Name) for child in now}
        assert bool(there) == (turn % 2 == 1)
        for child in kept:
            child.rect(), child.parent(), child.role(), child.text(Said.Value)
            assert child.state().invisible == (child.text(Said.Name) == "")
