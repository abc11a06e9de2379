"""A distance to check, clicked at the foot of the window, is marked from end to end on the plan and in the detail."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.desk.frame.desk import Desk
from app.desk.plan.painting.plan_widget import Plan
from geometry.layout import XY
from tests.app.desk.conftest import OpenDesk, press, sample


@pytest.fixture
def desk(open_desk: OpenDesk) -> Desk:
    desk = open_desk(sample("leaning-neck"), "Bridge")
    QTest.mouseClick(desk.strip.cells[0], Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    return desk


def ends(desk: Desk) -> tuple[XY, XY]:
    check = desk.board.answers.check(desk.strip.cells[0].figure.where)
    assert check is not None
    return check.from_xy, check.to_xy


def shown(desk: Desk) -> bool:
    return desk.board.pointer.answer.ends is not None


def ringed(plan: Plan, place: XY) -> bool:
    """Whether an end is painted there: a disc as light as the card, in a ring as dark as what is worked out."""
    at, picture = plan.to_pixels(place).toPoint(), plan.grab().toImage()
    return QColor(picture.pixel(at)).name() == QColor(plan.look.palette.card).name()


def test_both_ends_are_marked_on_the_plan_and_the_far_one_in_the_detail(desk: Desk) -> None:
    one, other = ends(desk)
    plan, detail = desk.board.plan, desk.board.detail
    assert ringed(plan, one)
    assert ringed(plan, other)
    assert detail.area.contains(detail.to_pixels(other))
    assert ringed(detail, other)
    check = desk.board.answers.check(desk.strip.cells[0].figure.where)
    assert check is not None
    assert desk.board.pointer.says.startswith(f"From {check.from_} to {check.to}: {desk.strip.cells[0].figure.value} ±")


def test_it_goes_with_the_job_and_away_with_escape_or_another_card(desk: Desk) -> None:
    assert desk.document.job.saddle is not None
    before = desk.board.pointer.answer
    saddle = replace(desk.document.job.saddle, thickness=4.5)
    desk.document.edit("thicker", replace(desk.document.job, saddle=saddle))
    assert desk.board.pointer.answer.ends == ends(desk)
    assert desk.board.pointer.answer != before
    desk.board.plan.setFocus()
    press(desk.board.plan, Qt.Key.Key_Escape)
    assert not shown(desk)
    QTest.mouseClick(desk.strip.cells[1], Qt.MouseButton.LeftButton)
    assert shown(desk)
    desk.cards.open("Strings")
    assert not shown(desk)


def test_meanwhile_a_point_tells_its_name(desk: Desk) -> None:
    spot = desk.board.answers.place_of("nut.left")
    assert spot is not None
    plan = desk.board.plan
    QTest.mouseMove(plan, plan.to_pixels(spot).toPoint())
    assert desk.board.pointer.over == "point:nut.left"
    assert desk.board.pointer.answer.ends is not None
