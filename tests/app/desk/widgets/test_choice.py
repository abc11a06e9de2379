"""A box to choose from shows that it is one, and its list is no higher than the screen."""

import pytest
from PySide6.QtWidgets import QComboBox, QDialog
from pytestqt.qtbot import QtBot

from app.desk.widgets.choice import MOST_LINES, SHARE, Choice, Corners
from app.desk.widgets.look import LIGHT, Look, apply_look


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


@pytest.mark.parametrize("marked", [True, False])
def test_a_box_of_a_dialog_that_is_not_ours_shows_that_it_is_a_list(qtbot: QtBot, marked: bool) -> None:
    """Without the corner it would look like a line to type into, for the style sheet leaves no arrow."""
    dialog = QDialog()
    qtbot.addWidget(dialog)
    box = QComboBox(dialog)
    box.addItems(["Printer", "Another"])
    box.resize(200, 32)
    if marked:
        Corners(dialog)
    shot = box.grab().toImage()
    side = range(shot.width() - 26, shot.width() - 6)
    dark = [x for x in side for y in range(8, shot.height() - 8) if shot.pixelColor(x, y).lightness() < 128]
    assert bool(dark) == marked
