"""The steps along the top: where large text leaves the row too little room, words and signs give way together."""

from typing import get_args

import pytest
from pytestqt.qtbot import QtBot

from app.desk.frame.step_row import StepRow
from app.desk.widgets.look import LIGHT, Look
from app.say.figures.progress import Progress, Step

LARGE = Look(LIGHT, 2.0)


def row_of(qtbot: QtBot, look: Look) -> StepRow:
    row = StepRow(get_args(Step), look)
    qtbot.addWidget(row)
    row.show_look(look)
    return row


def asked_for(row: StepRow) -> int:
    """How wide all its steps would be, pixels."""
    return sum(button.sizeHint().width() for button in row.buttons.values())


def shares(row: StepRow) -> list[float]:
    return [button.share for button in row.buttons.values()]


def test_words_give_way_to_signs_that_come(qtbot: QtBot) -> None:
    """In a row that has nine tenths of what its words ask for, each has nine tenths of its size, less as signs come."""
    row = row_of(qtbot, LARGE)
    apart = row.row.spacing() * len(row.buttons)
    row.resize(round(0.9 * asked_for(row)) + apart, 48)
    row.show()
    assert shares(row) == pytest.approx([0.9] * 6, abs=0.01)
    bare = asked_for(row)
    done: Progress = "done"
    row.show_signs(dict.fromkeys(get_args(Step), done))
    assert asked_for(row) > bare
    assert shares(row) == pytest.approx([(row.width() - apart) / asked_for(row)] * 6)


def test_at_the_usual_size_a_sign_has_its_room_before_it_comes(qtbot: QtBot) -> None:
    row = row_of(qtbot, Look(LIGHT))
    bare = asked_for(row)
    done: Progress = "done"
    row.show_signs(dict.fromkeys(get_args(Step), done))
    assert asked_for(row) == bare


def test_a_sign_behind_a_step_says_itself_under_the_pointer(qtbot: QtBot) -> None:
    row = StepRow(("Measure", "Bridge"), Look(LIGHT))
    qtbot.addWidget(row)
    row.show_signs({"Measure": "under way", "Bridge": "empty"})
    assert [button.toolTip() for button in row.buttons.values()] == ["Measure: under way", ""]
    row.show_signs({"Measure": "under way", "Bridge": "empty"}, "3 readings still to be taken")
    assert row.buttons["Measure"].toolTip() == "Measure: under way, 3 readings still to be taken"
    assert row.buttons["Measure"].accessibleDescription().endswith("; 3 readings still to be taken")
    row.show_signs({"Measure": "done", "Bridge": "empty"})
    assert row.buttons["Measure"].toolTip() == "Measure: done"
