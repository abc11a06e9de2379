"""A box to choose from: its list is no higher than the screen."""

import pytest
from pytestqt.qtbot import QtBot

from app.desk.widgets.inputs.choice import MOST_LINES, SHARE, Choice
from app.desk.widgets.look import LIGHT, Look
from app.desk.widgets.style_sheet import apply_look


@pytest.mark.parametrize(("scale", "fits"), [(1.0, True), (2.0, False), (3.0, False)])
def test_a_long_list_shows_as_many_lines_as_the_screen_has_room_for(qtbot: QtBot, scale: float, fits: bool) -> None:
    apply_look(Look(LIGHT, scale))
    box = Choice("A set")
    qtbot.addWidget(box)
    box.addItems([f"Set {at}" for at in range(40)])
    box.show()
    box.widen_list()
    line, high = box.view().sizeHintForRow(0), box.screen().availableSize().height()
    assert (box.maxVisibleItems() == MOST_LINES) is fits
    assert 3 <= box.maxVisibleItems() <= SHARE * high / line
