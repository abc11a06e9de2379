"""The Measure card of a job without readings, and what it says when another job comes."""

from itertools import pairwise, product

import pytest
from PySide6.QtCore import QPoint, QRect, QSize
from PySide6.QtGui import QImage, QPalette
from PySide6.QtWidgets import QApplication

from app.desk.cards.measure.table.readings_model import READING, TOOL
from app.desk.widgets.look import LIGHT
from geometry import words
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, let_hands_rest, sample


def test_a_job_without_readings_says_how_to_begin(open_desk: OpenDesk) -> None:
    desk = open_desk(Job())
    desk.cards.open("Measure")
    assert desk.measure.under.text().startswith("No readings yet: “Add…” takes one up")
    button = desk.measure.panel.strike_button
    assert not button.isEnabled()
    assert button.palette().color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.ButtonText).name() == (
        LIGHT.quiet.lower()
    )


def test_what_was_next_of_one_job_is_not_said_of_another(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"), "Measure")
    desk.measure.say_next("Opening 1 to 2: a slip there would show.", desk.document.job.readings[0])
    desk.cards.open("Start")
    desk.document.start(Job())
    desk.cards.open("Measure")
    assert desk.measure.notes.reading is None


def test_what_is_next_is_told_of_what_was_done_on_another_card(open_desk: OpenDesk) -> None:
    desk = open_desk(Job())
    desk.cards.open("Bridge")
    desk.document.edit("all of it", sample("leaning-neck"))
    QApplication.processEvents()
    assert let_hands_rest(desk)  # nobody is told while the card is hidden
    assert desk.measure.notes.reading is None
    desk.cards.open("Measure")
    let_hands_rest(desk)
    assert desk.measure.notes.reading is not None


def test_a_long_name_is_whole_where_what_was_understood_leaves_it_no_room(open_desk: OpenDesk) -> None:
    job = sample("turned-left")
    desk = open_desk(job)
    desk.frame.resize(1366, 768)
    desk.cards.open("Measure")
    long = next(r.id for r in job.readings if words.reading(r, job.hand) == "Old footprint, along bass edge")
    desk.measure.table.go_to(long)
    QApplication.processEvents()
    panel = desk.measure.panel
    assert panel.understood.text().startswith("= ")
    assert panel.called.text() == panel.called.accessibleName()
    assert panel.called.text().endswith("bass edge")


@pytest.mark.parametrize("column", [READING, TOOL])
def test_a_head_stands_over_its_column(open_desk: OpenDesk, column: int) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.frame.resize(1280, 800)
    desk.cards.open("Measure")
    QApplication.processEvents()
    table = desk.measure.table
    head, row = table.horizontalHeader(), table.visualRect(table.model().index(2, column))  # not the one in hand
    left, wide = head.sectionViewportPosition(column), head.sectionSize(column)
    above = QRect(head.mapTo(desk.frame, QPoint(left, 0)), QSize(wide, head.height() - 4))
    over = first_ink(desk.frame.grab(above).toImage())
    below = QRect(table.viewport().mapTo(desk.frame, row.topLeft()), row.size())
    under = first_ink(desk.frame.grab(below.adjusted(0, 3, 0, -3)).toImage())
    assert abs(over - under) <= 2  # letters begin by themselves a little behind


def first_ink(shot: QImage) -> int:
    """The first column of a picture with something dark in it."""
    every = product(range(shot.width()), range(shot.height()))
    return next(x for x, y in every if is_dark(shot, x, y))


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_a_groups_name_keeps_off_its_mark(open_desk: OpenDesk, scale: float) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.preferences.set_text(scale)
    desk.frame.resize(1920, 1080)
    desk.cards.open("Measure")
    QApplication.processEvents()
    table = desk.measure.table
    at = table.viewport().mapTo(desk.frame, table.visualRect(table.model().index(0, READING)).topLeft())
    middle = round(24 * scale / 2)
    shot = desk.frame.grab(QRect(at + QPoint(0, middle - round(4 * scale)), QSize(80, round(8 * scale)))).toImage()
    dark = sorted({x for x, y in product(range(shot.width()), range(shot.height())) if is_dark(shot, x, y)})
    gap = next(b - a for a, b in pairwise(dark) if b - a > 2)
    assert gap >= 5 * scale
    desk.preferences.set_text(1.0)


def is_dark(shot: QImage, x: int, y: int) -> bool:
    return shot.pixelColor(x, y).lightness() < 170
