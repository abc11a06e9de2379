"""No word and no value in the table of readings is cut."""

import msgspec
import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import QApplication

from app.desk.cards.measure.table.reading_cells import USUAL
from app.desk.cards.measure.table.readings_model import READING, VALUE_AT
from app.desk.widgets.look import VALUE
from app.desk.widgets.words.letters import letters_wide
from app.edit import edits
from app.edit.start.new_job import begin
from tests.app.desk.cards.measure.test_measure_card import open_line
from tests.app.desk.conftest import OpenDesk, in_low_window, press, sample, type_into

KEY = Qt.Key


@pytest.mark.parametrize("text", ["107 63/64 in ; 113 63/64 in", "1234.56 ; 1239.61"])
def test_two_values_are_not_cut_where_they_are_typed(open_desk: OpenDesk, text: str) -> None:
    job = edits.add(sample("one-slip"), "rims", ("old.1", "pin.9"))
    desk = open_desk(job)
    card = desk.measure
    card.table.go_to(job.readings[-1].id)
    card.table.setFocus()
    type_into(card.table, text[0])
    line = open_line(card)
    type_into(line, text[1:])
    assert line.width() >= line.fontMetrics().horizontalAdvance(text) + 16  # its padding, both sides
    assert line.geometry().left() >= 0
    press(line, KEY.Key_Escape)


def test_two_values_are_not_cut_where_they_stand(open_desk: OpenDesk) -> None:
    job = edits.add(sample("one-slip"), "rims", ("old.1", "pin.9"))
    job = edits.set_value(job, job.readings[-1].id, "10 63/64 in ; 11 31/64 in")
    table = open_desk(job).measure.table
    row = table.readings.rows[-1]
    assert row.reading.value == ("10 63/64 in", "11 31/64 in")
    assert 0 < table.cells.over(row) < table.columnWidth(0) / 2


@pytest.mark.parametrize("answered", [True, False])
def test_a_name_beside_a_tick_or_a_question_is_said_whole(open_desk: OpenDesk, answered: bool) -> None:
    desk = open_desk(sample("leaning-neck") if answered else begin(measuring="neck and bridge"))
    desk.frame.resize(1280, 800)
    desk.cards.open("Measure")
    QApplication.processEvents()
    table = desk.measure.table
    table.go(0)
    row = next(row for row in table.readings.rows if row.how == "in line with treble edge")
    said: list[str] = []
    words = table.cells._words

    def listen(painter: QPainter, box: QRectF, text: str, font: QFont, name: str, right: bool = False) -> float:
        said.append(QFontMetricsF(font).elidedText(text, Qt.TextElideMode.ElideRight, box.width()))
        return words(painter, box, text, font, name, right)

    table.cells._words = listen  # type: ignore[method-assign]  # it paints as before
    table.grab()
    assert row.name in said
    assert row.how in said


def test_large_names_of_the_boards_length_are_said_whole(open_desk: OpenDesk) -> None:
    desk = in_low_window(open_desk, "leaning-neck", 2.0)
    table = desk.measure.table
    rows = [row for row in table.readings.rows if row.name.startswith("Nut to board end")]
    assert [row.name for row in rows] == ["Nut to board end, treble edge", "Nut to board end, bass edge"]
    assert all(len(table.cells.lines_of(row)) == 1 for row in rows)


def test_a_box_still_empty_has_room_for_a_value_however_long_the_name(open_desk: OpenDesk) -> None:
    job = sample("bolted-left")
    empty = tuple(msgspec.structs.replace(reading, value=None) for reading in job.readings)
    table = open_desk(msgspec.structs.replace(job, readings=empty)).measure.table
    usual = letters_wide(table.look, VALUE, True, USUAL)
    rows = [row for row in table.readings.rows if row.takes_value]
    assert any(row.how == "at the bridge" for row in rows)  # its name leaves least room on one line
    assert all(table.columnWidth(VALUE_AT) + table.cells.over(row) > usual for row in rows)


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_the_line_that_is_typed_in_does_not_lie_over_the_name(open_desk: OpenDesk, size: float) -> None:
    desk = open_desk(sample("bolted-left"))
    desk.preferences.set_text(size)
    desk.cards.open("Measure")
    table, row = (
        desk.measure.table,
        next(row for row in desk.measure.table.readings.rows if row.name.startswith("Metal 1")),
    )
    assert row.how == "along bass edge"
    table.go_to(row.id)
    table.edit(table.currentIndex())
    QApplication.processEvents()
    assert open_line(desk.measure).x() >= table.columnWidth(READING) - round(table.cells.over(row))
