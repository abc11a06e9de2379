"""The start card: five questions, the plan turned by the answer, the tools remembered for the next job."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QScrollArea

from app.desk.cards.start.start_card import StartCard
from app.desk.frame.desk import Desk
from app.file import settings
from app.file.settings import ToolsAtHand
from export.drawing.marks import Text
from tests.app.desk.conftest import OpenDesk, choose, press


def start(desk: Desk) -> StartCard:
    assert isinstance(desk.card, StartCard)
    return desk.card


def bass_at(desk: Desk) -> float:
    """On which side of the neck centre line the plan says “bass”: y in mm."""
    drawing = desk.board.plan.drawing
    assert drawing is not None
    (at,) = (mark.shape.at for mark in drawing.marks if isinstance(mark.shape, Text) and mark.shape.text == "bass")
    return at[1]


def test_the_left_hand_turns_the_plan_at_once(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    QApplication.processEvents()
    assert bass_at(desk) < 0
    start(desk).hands["left"].setChecked(True)
    assert bass_at(desk) > 0
    assert desk.document.job.hand == "left"
    assert not desk.document.worth_keeping
    assert not desk.document.stack.canUndo()


def test_the_tools_are_asked_once(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    card = start(desk)
    choose(card, "Unit", "Inches, 64ths")
    assert card.rule.currentText() == "Steel rule, 64ths"
    choose(card, "Caliper", "No caliper")
    press(card, Qt.Key.Key_Return)
    job = desk.document.job
    assert (job.unit, {r.with_ for r in job.readings if r.with_}) == ("in", {"rule 1/64"})
    assert settings.load().tools == ToolsAtHand(unit="in", rule="rule 1/64", caliper="")
    again = start(open_desk(None))
    assert [box.currentText() for box in (again.unit, again.rule, again.caliper)] == [
        "Inches, 64ths",
        "Steel rule, 64ths",
        "No caliper",
    ]


def test_the_unit_of_the_header_and_of_the_card_are_one(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    desk.header.unit.click()
    assert start(desk).unit.currentData() == desk.document.job.unit == "in"


def test_it_opens_at_its_top_with_begin_in_sight(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    desk.preferences.set_text(1.0768)  # as a screen 1366 wide makes it
    desk.frame.resize(1366, 768)
    desk.cards.open("Start")
    for _ in range(4):
        QApplication.processEvents()
    (area,) = desk.card.findChildren(QScrollArea)
    begin = start(desk).begin
    assert area.verticalScrollBar().value() == 0
    assert begin.mapTo(area.viewport(), begin.rect().bottomLeft()).y() <= area.viewport().height()
    desk.preferences.set_text(1.0)
