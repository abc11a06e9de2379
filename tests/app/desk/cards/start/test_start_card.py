"""The start card: five questions, the plan turned by the answer, the tools remembered for the next job."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLabel, QScrollArea

from app.desk.cards.start.start_card import StartCard
from app.desk.frame.desk import Desk
from app.desk.widgets.look import LIGHT
from app.file import settings
from app.file.settings import ToolsAtHand
from export.drawing.marks import Text
from geometry.job import Job
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


def test_how_the_bridge_is_held_gives_the_strip_its_words_at_once(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    QApplication.processEvents()
    assert desk.strip.cells[0].figure.title == "Fret 12 to slot front, bass edge"
    choose(start(desk), "How the bridge is held", "by the strings alone")
    assert desk.strip.cells[0].figure.title == "Fret 12 to crown front, bass edge"
    assert not desk.document.worth_keeping
    choose(start(desk), "How the bridge is held", "glued to the top")
    assert desk.document.job == Job()


@pytest.mark.parametrize("text", [1.0, 2.0])
def test_each_question_stands_on_one_line_over_its_answers(open_desk: OpenDesk, text: float) -> None:
    desk = open_desk(None)
    desk.preferences.set_text(text)
    card = start(desk)
    for _ in range(4):
        QApplication.processEvents()
    asked = [label for label in card.inside.findChildren(QLabel) if label.text()[:3] in ("1  ", "2  ", "3  ", "4  ")]
    answers = (card.hands["right"], card.strings, card.held, card.on)
    assert len(asked) == len(answers)
    for label, answer in zip(asked, answers, strict=True):
        assert label.height() < 1.6 * label.fontMetrics().height()
        low = label.mapTo(card, QPoint(0, label.height())).y()
        assert 0 <= answer.mapTo(card, QPoint(0, 0)).y() - low <= 8


def resized(open_desk: OpenDesk, height: int, text: float) -> Desk:
    """A new job in a window 1366 wide and so high, with text of that size."""
    desk = open_desk(None)
    desk.preferences.set_text(text)
    desk.frame.resize(1366, height)
    for _ in range(4):
        QApplication.processEvents()
    return desk


@pytest.mark.parametrize(("height", "text"), [(768, 1.0), (690, 1.1), (768, 2.0)])
def test_the_way_on_is_seen_at_once(open_desk: OpenDesk, height: int, text: float) -> None:
    """A small screen, one with bars along its edges and the text that goes with its width, and the largest text."""
    begin = start(resized(open_desk, height, text)).begin
    assert begin.visibleRegion().boundingRect() == begin.rect()


@pytest.mark.parametrize(("height", "text"), [(768, 1.0), (690, 1.0768)])
def test_all_questions_are_seen_at_once(open_desk: OpenDesk, height: int, text: float) -> None:
    last = start(resized(open_desk, height, text)).caliper
    assert last.visibleRegion().boundingRect() == last.rect()


def test_the_way_on_follows_the_last_question_by_the_tab_key(open_desk: OpenDesk) -> None:
    card = start(open_desk(None))
    assert card.caliper.nextInFocusChain() is card.begin
    following = card.begin.nextInFocusChain()
    while following is not None and not following.focusPolicy() & Qt.FocusPolicy.TabFocus:
        following = following.nextInFocusChain()
    assert following is not None
    assert following.accessibleName() == "Open a job file"  # then the jobs there are


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_the_circle_of_the_answer_stands_clear_of_the_ring_of_the_keys(open_desk: OpenDesk, scale: float) -> None:
    desk = open_desk(None)
    desk.preferences.set_text(scale)
    button = start(desk).hands["right"]
    button.setFocus()
    for _ in range(4):
        QApplication.processEvents()
    seen = button.grab().toImage()
    row = [seen.pixelColor(x, seen.height() // 2).name() for x in range(round(30 * scale))]
    ring = LIGHT.worked_out.lower()
    first, last = row.index(ring), row.index(ring) + 1
    assert last == first + 1 == 1
    assert row[2:5] == [LIGHT.card.lower()] * 3
    assert ring in row[5:]


def test_the_tools_are_asked_once(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    card = start(desk)
    choose(card, "Unit", "Inches, 64ths")
    assert card.rule.currentText() == "Steel rule, 64ths"
    assert card.caliper.currentText() == "No caliper"
    choose(card, "Unit", "Millimetres")
    assert card.caliper.currentText() == "Caliper, 0.1 mm"
    choose(card, "Unit", "Inches, 64ths")
    press(card, Qt.Key.Key_Return)
    job = desk.document.job
    assert job.sheets.paper == "Letter"
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
    assert begin.visibleRegion().boundingRect() == begin.rect()
    desk.preferences.set_text(1.0)


def test_another_list_moves_nothing_that_stands_under_it(open_desk: OpenDesk) -> None:
    """The sentences on the lists take one line or two."""
    card = start(open_desk(None))
    found = set()
    for at in range(card.lists.count()):
        card.lists.setCurrentIndex(at)
        for _ in range(4):
            QApplication.processEvents()
        found.add(card.unit.mapTo(card.inside, QPoint(0, 0)).y())
        assert card.about.height() >= QLabel.heightForWidth(card.about, card.about.width())
    assert len(found) == 1
