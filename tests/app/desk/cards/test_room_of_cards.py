"""In a low window a card does without its title; what it is for scrolls, and a hairline shows that it has."""

import pytest
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea

from app.desk.frame.desk import Desk
from geometry.job.measured.measuring_tools import INSTRUMENTS
from geometry.words import instrument_short
from tests.app.desk.conftest import OpenDesk, sample

CARDS = ["Old work", "Strings", "Bridge", "Headstock", "Sheets"]


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def test_large_text_leaves_out_the_title_that_the_step_above_says(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"))
    for card in CARDS:
        desk.cards.open(card)
        settle()
        assert desk.card.heading.isVisible(), card
    desk.preferences.set_text(2.0)
    for card in reversed(CARDS):  # the one that is open first
        desk.cards.open(card)
        settle()
        assert not desk.card.heading.isVisible(), card


def test_a_card_that_is_first_opened_with_large_text_has_no_title(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("one-slip"))
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    settle()
    for card in ("Measure", *CARDS):
        desk.cards.open(card)
        settle()
        assert not desk.card.heading.isVisible(), card


@pytest.mark.parametrize(("text", "seen"), [(1.0, True), (2.0, False)])
def test_a_new_job_keeps_its_title_where_its_questions_leave_room(desk: Desk, text: float, seen: bool) -> None:
    desk.preferences.set_text(text)
    desk.frame.resize(1366, 900)
    desk.cards.open("Start")
    settle()
    assert desk.card.heading.isVisible() == seen


def test_a_hairline_stands_where_words_go_under_the_title(desk: Desk) -> None:
    desk.cards.open("Strings")
    settle()
    (area,) = desk.card.findChildren(QScrollArea)
    edge = next(line for line in desk.card.findChildren(QFrame) if line.property("role") == "hair")
    assert not edge.isVisible()
    area.verticalScrollBar().setValue(40)
    assert edge.isVisible()
    area.verticalScrollBar().setValue(0)
    assert not edge.isVisible()


def test_what_a_reading_was_read_with_is_named_in_full_at_the_largest_text(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("slanted-separate"))
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(2.0)
    settle()
    line = desk.measure.panel.with_.lineEdit()
    assert line is not None
    letters = QFontMetricsF(line.font())
    for name in INSTRUMENTS:
        assert letters.horizontalAdvance(instrument_short(name)) <= line.width() - 4, name
