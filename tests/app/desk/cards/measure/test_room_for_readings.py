"""So many readings are in sight at once on screens of 768 and 1080 lines, with all that must be said beside them.

A window that fills such a screen is 742 and 1054 lines high inside its frame (26 lines of frame: common practice, no
source).
"""

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.measure.reading_on_plan import ReadingOnPlan
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import TypedLine
from tests.app.desk.conftest import OpenDesk, sample, type_into
from tests.short_list import short_list

SCREENS = [((1366, 742), 10), ((1920, 1054), 15)]


def filled(desk: Desk, size: tuple[int, int]) -> MeasureCard:
    """The Measure card in a window of that size, with its advice."""
    desk.frame.resize(*size)
    desk.measure.table.go(0)
    next(child for child in desk.measure.children() if isinstance(child, ReadingOnPlan))._advise()
    for _ in range(4):
        QApplication.processEvents()
    assert (desk.frame.width(), desk.frame.height()) == size
    return desk.measure


def in_sight(table: ReadingTable) -> int:
    """How many readings are seen whole."""
    high = table.viewport().height()
    tops = {line: table.rowViewportPosition(line) for line in range(len(table.readings.lines))}
    seen = [line for line, top in tops.items() if top >= 0 and top + table.rowHeight(line) <= high]
    return sum(table.readings.row_at(line) is not None for line in seen)


@pytest.mark.parametrize(("size", "least"), SCREENS)
def test_readings_in_sight_beside_what_must_be_said(open_desk: OpenDesk, size: tuple[int, int], least: int) -> None:
    measure = filled(open_desk(sample("turned-left")), size)
    assert in_sight(measure.table) >= least
    said = [line.finding.text for line in measure.findings.lines if line.isVisible()]
    assert any(text.startswith("Nobody has checked whether the edges are straight") for text in said)
    assert measure.key.isVisible()
    assert measure.picture.isVisible()
    assert measure.notes.show_button.isVisible()


def test_in_a_low_window_the_advice_takes_one_line(open_desk: OpenDesk) -> None:
    notes = filled(open_desk(sample("turned-left")), (1366, 742)).notes
    assert notes.next.head.text() == "Next: seam 1 to 2"
    assert notes.next.head.toolTip() == "Seam 1 to 2: it would show a slip at seam 1 and seam 2."
    assert not notes.next.body.isVisible()
    notes = filled(open_desk(sample("turned-left")), (1920, 1054)).notes
    assert notes.next.head.text() == "Measure next"
    assert notes.next.body.text() == "Seam 1 to 2: it would show a slip at seam 1 and seam 2."


def test_in_a_low_window_readings_of_which_one_is_out_are_counted(open_desk: OpenDesk) -> None:
    """The table names and numbers them; why names them too."""
    measure = filled(open_desk(short_list(r5="17 45/64")), (1366, 742))
    body = measure.notes.look_again.body
    assert body.text().startswith("One of the 6 readings marked in the table is out, by 9/64 in or more")
    assert in_sight(measure.table) >= 9  # ten in a window of 749 lines
    measure.notes.why_button.click()
    assert body.text().startswith("One of the readings “nut to board end, bass edge”")


@pytest.mark.parametrize("high", range(742, 766, 5))
def test_the_line_that_is_typed_into_stands_on_its_row_at_the_foot(open_desk: OpenDesk, high: int) -> None:
    desk = open_desk(short_list())
    table = filled(desk, (1366, high)).table
    table.go(len(table.readings.rows) - 1)
    type_into(table, "1")
    (line,) = [found for found in table.findChildren(TypedLine) if found.isVisible()]
    row = table.visualRect(table.currentIndex())
    assert line.mapTo(table.viewport(), QPoint(0, 0)).y() == row.top()
    assert line.height() == row.height()


def test_at_twice_the_text_three_readings_are_in_sight_and_no_head_stands_without_a_line(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("turned-left"))
    desk.preferences.set_text(2.0)
    measure = filled(desk, (1366, 742))
    assert in_sight(measure.table) >= 3
    assert measure.table.horizontalHeader().isVisible()
    measure.add()
    QApplication.processEvents()
    assert in_sight(measure.table) >= 1
    assert not measure.table.horizontalHeader().isVisible()
    measure._leave_adding()
    assert measure.table.horizontalHeader().isVisible()


def test_a_slip_under_a_64th_is_said_as_such(open_desk: OpenDesk) -> None:
    """No figure is finer than the rule: the tenth of a 64th is nothing that a hand could read."""
    rows = open_desk(sample("turned-left")).measure.table.readings.rows
    said = [row.said("in") for row in rows]
    assert any(text.startswith("fits, less than 1/64 in") for text in said)
    assert not any("." in text for text in said)
