"""The detail goes to what is in hand where that is elsewhere, and comes back; a finding's place is brought up."""

import re

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.frame.desk import Desk
from app.desk.plan.looking.two_places import CAPTION, ENLARGED, GAP
from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.pointing.pointer_states import Dragging
from export.drawing import typeface
from export.drawing.marks import XY
from export.plan.labels import HEIGHT
from tests.app.desk.conftest import OpenDesk, press, sample


def shows(plan: Plan, at: XY) -> bool:
    return plan.area.contains(plan.to_pixels(at))


def place(desk: Desk, name: str) -> XY:
    found = desk.board.answers.place_of(name)
    assert found is not None
    return found


def hold(desk: Desk, qtbot: QtBot, name: str) -> None:
    """Click on a point of the plan, and wait until the detail has gone to it."""
    QTest.mouseClick(
        desk.board.plan, Qt.MouseButton.LeftButton, pos=desk.board.plan.to_pixels(place(desk, name)).toPoint()
    )
    assert desk.board.pointer.held == name
    rest(desk, qtbot)


def rest(desk: Desk, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not desk.board.loupe._soon.isActive())


@pytest.mark.parametrize(("name", "said"), [("nut.left", "nut, treble"), ("end.right", "board end, bass")])
def test_it_goes_to_the_point_in_hand_and_comes_back(desk: Desk, qtbot: QtBot, name: str, said: str) -> None:
    desk.cards.open("Bridge")
    detail, home = desk.board.detail, desk.board.detail.view
    assert not shows(detail, place(desk, name))
    hold(desk, qtbot, name)
    assert shows(detail, place(desk, name))
    assert detail.view.scale >= ENLARGED * desk.board.plan.view.scale
    assert detail.caption.startswith(f"{said}, ")
    assert detail.accessibleName() == f"Detail of {said}"
    press(desk.board.plan, Qt.Key.Key_Escape)
    rest(desk, qtbot)
    assert detail.view == home
    assert detail.caption.startswith("detail, ")
    assert detail.accessibleName() == "Detail of the bridge’s place"


def test_what_the_detail_shows_anyway_does_not_move_it(desk: Desk, qtbot: QtBot) -> None:
    desk.cards.open("Bridge")
    home = desk.board.detail.view
    hold(desk, qtbot, "old.1")
    assert desk.board.detail.view == home


def test_it_goes_along_with_the_readings_that_are_walked_through(desk: Desk, qtbot: QtBot) -> None:
    table, detail = desk.measure.table, desk.board.detail
    home = detail.view
    at = [reading.id for reading in desk.document.job.readings]
    nut = next(reading for reading in desk.document.job.readings if reading.of == ("nut.left", "nut.right"))
    table.go_to(next(name for name in at if name != nut.id))
    rest(desk, qtbot)
    table.go_to(nut.id)
    rest(desk, qtbot)
    assert all(shows(detail, place(desk, name)) for name in nut.of)
    assert detail.caption.partition(" × ")[0].split(", ")[:-1] == ["nut"]  # both its ends
    desk.cards.open("Bridge")
    rest(desk, qtbot)
    assert detail.view == home


def test_a_job_that_is_opened_shows_the_bridge(desk: Desk, qtbot: QtBot) -> None:
    saddle = desk.document.layout and desk.document.layout.saddle
    assert saddle
    rest(desk, qtbot)
    assert desk.board.pictures.options.reading
    assert all(shows(desk.board.detail, at) for at in saddle.line)


def test_its_own_wheel_holds_while_it_goes_from_point_to_point(desk: Desk, qtbot: QtBot) -> None:
    desk.cards.open("Bridge")
    detail, home = desk.board.detail, desk.board.detail.view
    hold(desk, qtbot, "nut.left")
    detail.zoom(1.5, QPointF(20.0, 20.0))
    near = detail.view.scale
    hold(desk, qtbot, "end.left")
    assert detail.view.scale == near > home.scale
    press(desk.board.plan, Qt.Key.Key_Escape)
    rest(desk, qtbot)
    assert detail.view == home


def test_where_the_person_had_put_the_detail_is_where_it_comes_back_to(desk: Desk, qtbot: QtBot) -> None:
    desk.cards.open("Bridge")
    detail = desk.board.detail
    desk.board.look_at((588.0, 5.0))
    detail.zoom(1.3)
    put = detail.view
    hold(desk, qtbot, "nut.left")
    assert detail.view != put
    press(desk.board.plan, Qt.Key.Key_Escape)
    rest(desk, qtbot)
    assert detail.view == put


def test_a_place_asked_for_while_there_is_no_detail_is_enlarged_in_the_plan(open_desk: OpenDesk) -> None:
    """Given strings, the detail then shows the bridge’s place all the same."""
    whole = sample("leaning-neck")
    desk = open_desk(replace(whole, strings=None, saddle=None, bridge=None, old=None))
    board, detail = desk.board, desk.board.detail
    assert not detail.isVisible()
    at, before = place(desk, "nut.left"), board.plan.view
    board.look_at(at)
    assert board.plan.view.centre == at
    assert board.plan.view.scale >= ENLARGED * before.scale
    desk.document.edit("the rest", whole)
    layout = desk.document.layout
    assert layout is not None
    assert layout.bridge is not None
    assert detail.isVisible()
    assert all(shows(detail, corner) for corner in layout.bridge.corners)
    assert detail.view.scale > 2.0  # pixels a mm; derived: the 180 mm of the bridge’s place in a detail 622 pixels high


def test_a_point_that_is_dragged_in_the_detail_stays_under_the_mouse(desk: Desk, qtbot: QtBot) -> None:
    desk.cards.open("Bridge")
    detail = desk.board.detail
    at = place(desk, "nut.left")
    desk.board.look_at((at[0] + 0.47 * detail.width() / detail.view.scale, at[1]))
    spot, before = detail.to_pixels(at).toPoint(), detail.view
    assert detail.rect().contains(spot)
    QTest.mouseMove(detail, spot)
    QTest.mousePress(detail, Qt.MouseButton.LeftButton, pos=spot)
    assert isinstance(desk.board.pointer.state, Dragging)
    rest(desk, qtbot)
    assert detail.view == before


def test_a_findings_place_is_brought_to_the_plan_where_there_is_no_room_for_a_detail(desk: Desk) -> None:
    desk.preferences.set_text(2.0)
    desk.frame.resize(1366, 768)
    QApplication.processEvents()
    board = desk.board
    whole = board.plan.view
    assert not board.detail.isVisible()
    for where in ("nut", "saddle", "point:end.left"):
        desk.go_to(where)
        assert board.plan.view.scale >= ENLARGED * whole.scale, where
        neck = desk.document.layout and desk.document.layout.neck
        assert neck
        if where == "nut":
            assert all(shows(board.plan, at) for at in neck.nut)
        board.fit()
        assert board.plan.view == whole, where


def test_a_findings_place_is_brought_to_the_detail_where_there_is_one(desk: Desk) -> None:
    whole = desk.board.plan.view
    desk.go_to("nut")
    assert desk.board.plan.view == whole
    assert shows(desk.board.detail, (0.0, 0.0))


@pytest.mark.parametrize("text", [1.0, 2.0])
def test_words_are_twelve_pixels_of_type_at_least(desk: Desk, text: float) -> None:
    desk.preferences.set_text(text)
    for plan in (desk.board.plan, desk.board.detail):
        assert typeface.size(HEIGHT * plan.paper_pixels, False) >= 12 * text  # asked of the plan: 12 px at 100 %


def test_a_detail_no_larger_than_the_plan_names_no_times(open_desk: OpenDesk, qtbot: QtBot) -> None:
    desk = open_desk(sample("redrilled-left"))
    desk.frame.resize(1366, 768)
    desk.cards.open("Bridge")
    rest(desk, qtbot)
    assert re.fullmatch(r"detail, \d\.\d × the plan", desk.board.detail.caption)
    desk.cards.open("Headstock")
    rest(desk, qtbot)
    assert desk.board.detail.caption == "detail"


def test_a_findings_place_that_is_seen_already_moves_nothing(desk: Desk) -> None:
    """The detail goes on following the bridge's place."""
    before = desk.board.detail.view
    desk.go_to("saddle")
    assert desk.board.detail.view == before
    assert desk.board.detail.put is None
    assert desk.board.pictures.strong == {"saddle"}


@pytest.mark.parametrize("text", [1.0, 1.3])
def test_what_the_person_put_into_the_detail_is_seen_over_a_notice_too(open_desk: OpenDesk, text: float) -> None:
    """The bridge's wings do not come under the detail's caption, nor out of sight; afterwards all is as before."""
    desk = open_desk(sample("leaning-neck"), card="Bridge")
    desk.preferences.set_text(text)
    desk.frame.resize(1366, 768)
    QApplication.processEvents()
    detail, layout = desk.board.detail, desk.document.layout
    assert layout is not None
    assert layout.bridge is not None
    desk.board.look_at((layout.bridge.corners[0][0], 0.0))
    put, high = detail.view, detail.height()
    desk.notice.say("Written to a folder.")
    QApplication.processEvents()
    assert detail.height() < high
    assert detail.view.centre == put.centre
    across = [detail.to_pixels(at).y() for at in layout.bridge.corners]
    assert min(across) > (CAPTION + GAP) * text
    assert max(across) < detail.height()
    desk.notice.hide()
    QApplication.processEvents()
    assert detail.view == put
