"""What is too long for a line is cut at a letter, at the end that matters less, until somebody types in it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.widgets.inputs.whole_letters import WholeLetters

LONG = "/somewhere/far/away/where/jobs/are/kept/One slip of the rule sheets"


@pytest.mark.parametrize(
    ("cut_at", "begins", "ends"),
    [(Qt.TextElideMode.ElideLeft, "…", "rule sheets"), (Qt.TextElideMode.ElideRight, "/somewhere", "…")],
)
def test_a_long_line_is_cut_where_it_is_said(qtbot: QtBot, cut_at: Qt.TextElideMode, begins: str, ends: str) -> None:
    line = WholeLetters(cut_at=cut_at)
    qtbot.addWidget(line)
    line.setText(LONG)
    whole = line.fontMetrics().horizontalAdvance(LONG)
    line.resize(whole // 2, line.sizeHint().height())
    line.show()
    assert line.shown.startswith(begins)
    assert line.shown.endswith(ends)
    assert line.text() == LONG
    cut = line.grab().toImage()
    line.setText(line.shown)
    assert line.grab().toImage() == cut, "it is painted as a line that holds just that"
    line.resize(2 * whole, line.height())
    line.setText(LONG)
    assert line.shown == LONG


def test_all_of_it_is_there_to_be_typed_in(qtbot: QtBot) -> None:
    line = WholeLetters()
    qtbot.addWidget(line)
    line.setText(LONG)
    line.resize(line.fontMetrics().horizontalAdvance(LONG) // 2, line.sizeHint().height())
    line.show()
    line.activateWindow()
    line.setFocus()
    QApplication.processEvents()
    assert line.hasFocus()
    assert line.shown == LONG
