"""A label's lines end between words, and it gives its words back as they were said."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.desk.widgets.words.wrapped_label import WrappedLabel
from export.drawing.line_breaks import KEPT

SAID = "The saddle lies 325.6 ±2.3 mm from fret 12"


def test_the_words_are_as_they_were_said(qtbot: QtBot) -> None:
    label = WrappedLabel(SAID)
    qtbot.addWidget(label)
    assert label.text() == SAID
    assert QLabel.text(label) == f"The saddle lies 325.6{KEPT}±2.3{KEPT}mm from fret{KEPT}12"
    assert label.wordWrap()
    assert label.textFormat() is Qt.TextFormat.PlainText


def test_a_figure_goes_to_the_next_line_with_its_unit(qtbot: QtBot) -> None:
    """Derived: with room for all but the unit, the figure and its ± must go down with it."""
    label = WrappedLabel(SAID)
    qtbot.addWidget(label)
    letters = label.fontMetrics()
    room = letters.horizontalAdvance("The saddle lies 325.6 ±2.3") + 2
    flags = Qt.TextFlag.TextWordWrap
    parted = letters.boundingRect(QRect(0, 0, room, 999), flags, SAID).width()
    kept = letters.boundingRect(QRect(0, 0, room, 999), flags, QLabel.text(label)).width()
    assert parted > letters.horizontalAdvance("The saddle lies 325.6")
    assert kept < letters.horizontalAdvance("The saddle lies 325.6 ±2.3")
