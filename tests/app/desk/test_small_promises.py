"""Small promises of the desk: recent jobs, so many strings, rulers' signs, the worked example by keys, the keys."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from app import starting
from app.desk import example, help
from app.desk.cards.start import StartCard
from app.desk.desk import Desk
from app.desk.rulers import number
from tests.app.desk.conftest import OpenDesk, press


def test_a_job_that_was_saved_is_among_the_recent_ones_at_once(open_desk: OpenDesk, tmp_path: Path) -> None:
    desk = open_desk(None)
    assert isinstance(desk.card, StartCard)
    desk.open_card("Measure")
    desk.doors.asks.save = tmp_path / "Old parlour.job.json"  # type: ignore[attr-defined]  # the person's answer
    desk.commands.measure.add()
    assert desk.doors.save_as()
    desk.commands.new()
    start = desk.card
    assert isinstance(start, StartCard)
    texts = [start.recent.itemAt(at).widget().text() for at in range(start.recent.count())]  # type: ignore[union-attr]
    assert texts == ["Old parlour"]


@pytest.mark.parametrize("count", [3, 5, 7, 8])
def test_a_job_begins_with_a_number_of_strings(count: int) -> None:
    keys = dict(starting.string_choices())
    assert keys[str(count)].endswith(" strings, no set yet")
    job = starting.begin(hand="right", string_set=str(count), measuring="bridge only", unit="mm")
    assert job.strings is not None
    assert [string.name for string in job.strings.list] == [str(at) for at in range(1, count + 1)]
    assert job.readings


@pytest.mark.parametrize(
    ("value", "along_x", "said"), [(-200.0, True, "−200"), (-200.0, False, "200"), (3.5, True, "3.5")]
)
def test_before_the_nut_a_ruler_has_a_sign_and_across_the_neck_none(value: float, along_x: bool, said: str) -> None:
    assert number(value, along_x) == said


def test_the_worked_example_is_walked_by_enter_alone(desk: Desk) -> None:
    example.begin(desk)
    desk.notice.buttons[0].setFocus()
    for step in range(2, 11):
        press(desk.notice.focusWidget() or desk.notice, Qt.Key.Key_Space)
        assert desk.notice.words.text().startswith(f"{step} of 10")
    assert not any(button.text() == "Next" for button in desk.notice.buttons if button.isVisibleTo(desk.notice))


def test_there_is_one_worked_example_at_a_time(desk: Desk) -> None:
    for _ in range(3):
        example.begin(desk)
    assert len(desk.findChildren(example.Example)) == 1


def test_every_key_of_a_menu_is_listed(desk: Desk) -> None:
    listed = dict((does, key) for key, does in help.shortcuts(desk))
    for name, action in desk.commands.actions.items():
        if not action.shortcut().isEmpty():
            assert listed[action.text().replace("&", "").rstrip("…?")], name
    assert listed["Save"]
