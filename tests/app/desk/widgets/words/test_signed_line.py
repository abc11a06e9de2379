"""A line behind a sign: its words break as those of a label do, and it is as high as they are."""

import pytest
from pytestqt.qtbot import QtBot

from app.desk.widgets.look import LIGHT, Look
from app.desk.widgets.signs import Sign
from app.desk.widgets.words.signed_line import SignedLine
from export.drawing.line_breaks import unbroken

SAID = "The saddle lies 325.6 ±2.3 mm from fret 12, and 643.5 ±0.8 mm from the nut."
WIDTHS = range(60, 400, 4)
"""Pixels: from where hardly a word has room to where one line is enough (tried)."""


def line_of(qtbot: QtBot, words: str) -> SignedLine:
    line = SignedLine(Look(LIGHT), None, 2)  # type: ignore[arg-type]  # alone in a window
    qtbot.addWidget(line)
    line.put(words, Sign.LOOK, words)
    return line


def test_it_is_as_high_as_words_that_keep_a_figure_with_its_unit(qtbot: QtBot) -> None:
    plain, kept = line_of(qtbot, SAID), line_of(qtbot, unbroken(SAID))
    assert [plain.heightForWidth(wide) for wide in WIDTHS] == [kept.heightForWidth(wide) for wide in WIDTHS]


@pytest.mark.parametrize("share", [0.3, 0.4, 0.5, 0.6, 0.7])
def test_it_is_painted_as_they_are(qtbot: QtBot, share: float) -> None:
    pictures = []
    for line in (line_of(qtbot, SAID), line_of(qtbot, unbroken(SAID))):
        line.resize(round(share * line.fontMetrics().horizontalAdvance(SAID)), 200)
        line.show()
        pictures.append(line.grab().toImage())
    assert pictures[0] == pictures[1]
