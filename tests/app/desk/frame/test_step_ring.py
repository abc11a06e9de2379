"""The ring of the focus lies round a step's word and its sign, and crosses neither."""

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFontMetricsF, QImage
from PySide6.QtWidgets import QApplication

from app.desk.frame.desk import Desk
from app.desk.frame.steps import StepButton
from app.desk.widgets.look import VALUE
from app.desk.widgets.signs import Sign


def word_and_sign(button: StepButton) -> QImage:
    """A picture of where they are painted, a pixel less at every side."""
    left, gap, _ = button._room
    letters = QFontMetricsF(button.look.font((VALUE + 1) * button.share, bold=button.isChecked()))
    side = 13 * button.look.text_scale * button.share
    wide = letters.horizontalAdvance(button.name) + gap + side
    high = max(letters.capHeight() + letters.descent(), side)
    box = QRect(left, round(button.height() / 2 - high / 2), round(wide), round(high))
    return button.grab(box.adjusted(1, 1, -1, -1)).toImage()


@pytest.mark.parametrize("size", [1.0, 2.0])
def test_the_ring_crosses_no_word_and_no_sign(desk: Desk, size: float) -> None:
    desk.frame.resize(1280, 800)
    desk.preferences.set_text(size)
    QApplication.processEvents()
    signed = [button for button in desk.header.steps.buttons.values() if button.sign is not Sign.EMPTY]
    assert len(signed) > 3
    for button in signed:
        desk.board.plan.setFocus()
        before, bare = word_and_sign(button), button.grab().toImage()
        button.setFocus(Qt.FocusReason.TabFocusReason)
        assert button.grab().toImage() != bare, button.name
        assert word_and_sign(button) == before, button.name
