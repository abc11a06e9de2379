"""What a reading was read with, under the table: chosen from the list, or typed over it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.desk.cards.measure.reading_panel import ReadingPanel
from app.desk.frame.desk import Desk
from app.edit import edits
from app.edit.start.first_questions import begin
from tests.app.desk.conftest import OpenDesk, press, type_into


def opened(open_desk: OpenDesk, kind: str) -> tuple[Desk, ReadingPanel, str]:
    """A new job with the first reading of a kind chosen, its panel, and that reading's id."""
    desk = open_desk(begin(string_set="steel 12-54", hand="right", measuring="whole top with old work"))
    found = next(reading.id for reading in desk.document.job.readings if reading.kind == kind)
    desk.measure.table.go_to(found)
    return desk, desk.measure.panel, found


def test_a_question_is_answered_by_eye(open_desk: OpenDesk) -> None:
    _, panel, _ = opened(open_desk, "inline")
    line = panel.with_.lineEdit()
    assert line is not None
    assert panel.with_.currentText() == "By eye"
    press(line, Qt.Key.Key_Return)
    assert panel.with_.currentText() == "By eye"


@pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
def test_a_pm_is_typed_over_the_open_list(open_desk: OpenDesk) -> None:
    desk, panel, name = opened(open_desk, "distance")
    line = panel.with_.lineEdit()
    assert line is not None
    QTest.mouseClick(line, Qt.MouseButton.LeftButton)
    assert panel.with_.view().isVisible()
    type_into(panel.with_.view(), "0")
    assert not panel.with_.view().isVisible()
    type_into(line, ".3")
    assert line.text() == "0.3"
    press(line, Qt.Key.Key_Return)
    assert edits.find(desk.document.job, name).within == 0.3
