"""The key under the table says what filled and hollow marks mean, to the eye and in words."""

import pytest
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.cards.measure.table import fits_key
from app.desk.cards.measure.table.readings_model import FITS
from app.desk.frame.desk import Desk
from app.desk.widgets.look import LIGHT, Look
from geometry.job import Job
from tests.app.desk.conftest import OpenDesk, sample
from tests.app.desk.seen import Spy


def test_the_marks_under_fits_are_explained_below_the_table(
    desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    key, table = desk.measure.key, desk.measure.table
    desk.show_look(Look(LIGHT))  # another test may have left larger text
    qtbot.waitUntil(key.isVisible)
    assert key.mapTo(desk, key.rect().topLeft()).y() >= table.mapTo(desk, table.rect().bottomLeft()).y()
    made: list[Spy] = []

    class Kept(Spy):
        def __init__(self, *on: object) -> None:
            super().__init__(*on)
            made.append(self)

    monkeypatch.setattr(fits_key, "QPainter", Kept)
    key.grab()
    words = made[-1].words
    assert set(words) in ({fits_key.FILLED, fits_key.HOLLOW}, set(fits_key.SHORT))
    assert all(box.right() <= key.width() for box in words.values())


def test_the_key_is_told_in_words(desk: Desk) -> None:
    told = QAccessible.queryAccessibleInterface(desk.measure.key)
    assert "hollow ring: a slip would not show" in told.text(QAccessible.Text.Description)


def test_where_nothing_fits_yet_there_is_no_key(open_desk: OpenDesk) -> None:
    assert not open_desk(Job()).measure.key.isVisible()


@pytest.mark.parametrize("text", [1.0, 2.0])
def test_the_sign_of_a_row_stands_clear_of_its_frame_and_of_its_bar(open_desk: OpenDesk, text: float) -> None:
    desk = open_desk(sample("one-slip"))
    desk.preferences.set_text(text)
    table = desk.measure.table
    table.go_to("r37")
    for _ in range(3):
        QApplication.processEvents()
    box = table.visualRect(table.readings.index(table.currentIndex().row(), FITS))
    row = table.viewport().grab(box).toImage()
    marked = [x for x in range(row.width()) if row.pixelColor(x, row.height() // 2 + 3).name() == LIGHT.look.lower()]
    sign = [x for x in marked if x < 14 * text]
    bar = [x for x in marked if x > 14 * text]
    assert min(sign) >= 2 * text  # clear of the value's frame, where no column stands between
    assert bar
    assert min(bar) - max(sign) > 4
    assert max(bar) < row.width() - 8
