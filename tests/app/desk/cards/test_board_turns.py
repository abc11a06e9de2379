"""A board that turns at fret 12, as the window tells it: shortly on the Measure card, in full where it is chosen."""

import pytest
from PySide6.QtWidgets import QApplication

from app.desk.frame.about_job import AboutJob
from app.desk.frame.desk import Desk
from app.edit.start.new_job import begin
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, choose
from tests.geometry.cranked import board, read


@pytest.fixture
def desk(lend_desk: LendDesk) -> Desk:
    return lend_desk(read(board(1.0)))


def told(desk: Desk) -> list[str]:
    """What the card says, but for widths that nothing checks, of which these boards have some."""
    lines = (line for line in desk.measure.findings.lines if line.isVisible())
    return [line.finding.text for line in lines if line.finding.code != "margin.unchecked"]


def test_the_measure_card_tells_it_in_two_sentences(desk: Desk) -> None:
    (text,) = told(desk)
    assert text.startswith("The board turns at fret 12 by 1.0 ±")
    assert text.endswith("Press here to choose the neck centre line.")
    assert "margins" not in text


def test_pressing_it_leads_to_the_choice_with_what_each_does(desk: Desk) -> None:
    desk.measure.findings.lines[0].click()
    (about,) = desk.findChildren(AboutJob)
    (line,) = (line for line in about.turns.lines if line.isVisible())
    assert "along the whole board" in line.finding.text
    assert "along nut to fret 12" in line.finding.text
    before = desk.document.job
    choose(about, "Neck centre line", "nut to fret 12")
    assert desk.document.job.board.centre == "nut to fret 12"
    assert desk.menu_actions["Undo"].text().startswith("Undo neck centre line")
    desk.document.stack.undo()
    desk.document.stack.undo()  # by keys the choice went by way of the whole board
    assert desk.document.job == before
    about.reject()


def test_choosing_the_whole_board_settles_it(desk: Desk) -> None:
    desk.measure.findings.lines[0].click()
    (about,) = desk.findChildren(AboutJob)
    choose(about, "Neck centre line", "whole board")
    assert desk.document.job.board.centre == "bisector"
    assert told(desk) == []
    (line,) = (line for line in about.turns.lines if line.isVisible())
    assert "along the whole board is used, as chosen" in line.finding.text
    choose(about, "Neck centre line", "not chosen yet")
    assert told(desk)
    about.reject()


def test_a_straight_board_leaves_the_choice_without_a_word(lend_desk: LendDesk) -> None:
    desk = lend_desk(read(board()))
    assert told(desk) == []
    desk.go_to("field:board.centre")
    (about,) = desk.findChildren(AboutJob)
    assert not about.turns.isVisible()
    about.reject()


def test_nobody_has_looked_is_said_while_the_question_is_open(open_desk: OpenDesk) -> None:
    wanted, taken = begin(measuring="neck and bridge"), {r.id: r for r in read(board()).readings}
    readings = tuple(r if r.asked else taken[r.id] for r in wanted.readings)
    desk = open_desk(type(wanted)(points=wanted.points, readings=readings, strings=wanted.strings))
    assert any(text.startswith("Nobody has checked whether the edges are straight") for text in told(desk))
    desk.preferences.set_text(2.0)
    QApplication.processEvents()
    assert told(desk) == []  # so little room belongs to the reading in hand
    assert desk.measure.under.isVisible()
