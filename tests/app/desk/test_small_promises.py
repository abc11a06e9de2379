"""Small promises of the desk: recent jobs, so many strings, the worked example by keys, the list of keys."""

import gc
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QAction, QKeySequence, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QPushButton, QScrollArea

from app.desk.cards.start.start_card import StartCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame import example, help
from app.desk.frame.desk import Desk
from app.edit.start import first_questions
from app.file import job_file
from geometry.job import Job
from tests.app.desk.conftest import Answers, OpenDesk, choose, press, sample


def recent(desk: Desk) -> list[str]:
    """What the Start card offers to go on with, from top to bottom."""
    assert isinstance(desk.card, StartCard)
    layout = desk.card.recent
    buttons = [layout.itemAt(at).widget() for at in range(layout.count())]  # type: ignore[union-attr]  # each has one
    return [button.text() for button in buttons if isinstance(button, QPushButton)]


def test_a_job_that_was_saved_is_among_the_recent_ones_at_once(
    open_desk: OpenDesk, answers: Answers, tmp_path: Path
) -> None:
    desk = open_desk(None)
    assert recent(desk) == []
    desk.cards.open("Measure")
    answers.save = tmp_path / "Old parlour.job.json"
    assert desk.job_files.save_as()
    desk.commands.new()
    assert recent(desk) == ["Old parlour"]


def test_a_job_that_was_taken_away_is_offered_no_more(open_desk: OpenDesk, tmp_path: Path) -> None:
    path = tmp_path / "Old parlour.job.json"
    job_file.write(sample("leaning-neck"), path)
    desk = open_desk(path)
    desk.commands.new()
    assert recent(desk) == ["Old parlour"]
    path.unlink()
    desk.commands.new()
    assert recent(desk) == []


def test_the_tab_key_comes_to_a_recent_job_before_the_samples(open_desk: OpenDesk, tmp_path: Path) -> None:
    desk = open_desk(None)
    path = tmp_path / "Old parlour.job.json"
    job_file.write(sample("leaning-neck"), path)
    desk.job_files.open_path(path)
    desk.commands.new()
    opens = next(b for b in desk.card.findChildren(QPushButton) if b.text() == "Open a job file…")
    following = opens.nextInFocusChain()
    assert isinstance(following, QPushButton)
    assert following.text() == "Old parlour"


def test_a_recent_job_is_opened_by_its_line(open_desk: OpenDesk, tmp_path: Path) -> None:
    path = tmp_path / "Old parlour.job.json"
    job_file.write(sample("leaning-neck"), path)
    desk = open_desk(path)
    desk.commands.new()
    assert desk.document.job == Job()
    next(b for b in desk.card.findChildren(QPushButton) if b.text() == "Old parlour").click()
    assert desk.document.path == path


@pytest.mark.parametrize("count", [3, 4, 5, 7, 8, 12])
def test_a_job_begins_with_a_number_of_strings(count: int) -> None:
    keys = dict(first_questions.string_choices())
    assert keys[str(count)].endswith(" strings, no set yet")
    job = first_questions.begin(hand="right", string_set=str(count), measuring="bridge only")
    assert job.strings is not None
    assert [string.name for string in job.strings.list] == [str(at) for at in range(1, count + 1)]
    assert job.readings


def test_the_strings_card_goes_on_from_the_number_alone(open_desk: OpenDesk) -> None:
    desk = open_desk(None)
    choose(desk.card, "Strings", "Five strings, no set yet")
    assert isinstance(desk.card, StartCard)
    desk.card.begin.click()
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    assert desk.card.table.model().rowCount() == 5


def test_there_is_one_worked_example_at_a_time(desk: Desk) -> None:
    for _ in range(3):
        desk.menu_actions["Worked example"].trigger()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    gc.collect()
    alive = [
        thing for thing in gc.get_objects() if isinstance(thing, example.Example) and thing.document is desk.document
    ]
    assert len(alive) == 1


def shown_keys(desk: Desk) -> list[str]:
    """The keys' names as they stand in the dialog."""
    help.show_keys(desk.menu_actions, desk.look, desk)
    dialog = next(found for found in desk.findChildren(QDialog) if found.windowTitle() == "Keys")
    return [found.text() for found in dialog.findChildren(QLabel)]


def test_every_shortcut_there_is_stands_in_the_list_of_keys(desk: Desk) -> None:
    shown = shown_keys(desk)
    keys = [action.shortcut() for action in desk.frame.findChildren(QAction) if not action.shortcut().isEmpty()]
    keys += [shortcut.key() for shortcut in desk.frame.findChildren(QShortcut)]
    assert len(keys) > 20
    assert [key.toString() for key in keys if key.toString(QKeySequence.SequenceFormat.NativeText) not in shown] == []


def test_a_key_is_named_after_its_command_whatever_is_to_be_undone(desk: Desk) -> None:
    desk.measure.commands.strike_or_bring_back()
    shown = shown_keys(desk)
    undo = desk.menu_actions["Undo"].shortcut().toString(QKeySequence.SequenceFormat.NativeText)
    assert shown[shown.index(undo) + 1] == "Undo"


def test_the_list_of_keys_fits_the_window_with_the_largest_text(desk: Desk) -> None:
    desk.preferences.set_text(2.0)
    shown_keys(desk)
    dialog = next(found for found in desk.findChildren(QDialog) if found.windowTitle() == "Keys")
    assert dialog.width() <= desk.frame.width()
    assert dialog.height() <= desk.frame.height()
    area = dialog.findChildren(QScrollArea)[0]
    assert area.verticalScrollBar().maximum() > 0


def test_putting_a_notice_away_leaves_the_focus_where_the_work_is(desk: Desk) -> None:
    table = desk.measure.table
    table.setFocus()
    desk.notice.say("Written.")
    close = desk.notice.buttons[0]
    QTest.mouseClick(close, Qt.MouseButton.LeftButton)
    assert not desk.notice.isVisible()
    assert QApplication.focusWidget() is table


@pytest.mark.parametrize("key", [Qt.Key.Key_Escape, Qt.Key.Key_Space])
def test_a_notice_put_away_by_keys_gives_the_focus_back(desk: Desk, key: Qt.Key) -> None:
    table = desk.measure.table
    table.setFocus()
    desk.notice.say("Written.")
    desk.notice.buttons[0].setFocus(Qt.FocusReason.TabFocusReason)
    press(desk.notice.buttons[0], key)
    assert not desk.notice.isVisible()
    assert QApplication.focusWidget() is table
