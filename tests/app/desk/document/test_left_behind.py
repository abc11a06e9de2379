"""Work left behind by a crash, while it is brought back, and when no copy of it can be kept."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.document import recovery
from app.desk.document.crash_guard import CrashGuard
from app.desk.document.recovery import LeftBehind
from app.desk.frame import window
from app.desk.frame.desk import Desk
from app.desk.frame.window import open_on
from app.file import job_file, settings
from export import files
from tests.app.desk.conftest import OpenDesk, sample


def left(name: str) -> LeftBehind:
    """A copy as a crash leaves it."""
    copy = recovery.folder() / f"{name}.json"
    copy.parent.mkdir(parents=True, exist_ok=True)
    job_file.write(sample(name), copy)
    return LeftBehind(copy, sample(name), None)


def test_work_brought_back_always_has_a_copy(desk: Desk) -> None:
    found = left("leaning-neck")
    desk.left_behind.offer((found,))
    desk.notice.buttons[0].click()
    assert not found.copy.exists()
    assert job_file.read(desk.recovery.copy) == found.job
    assert isinstance(desk.card, MeasureCard)


def test_the_old_copy_stays_where_no_new_one_can_be_written(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    found = left("leaning-neck")
    monkeypatch.setattr("export.files.replace", full_disk)
    desk.left_behind.offer((found,))
    desk.notice.buttons[0].click()
    assert found.copy.exists()
    assert desk.document.job == found.job


def test_a_desk_that_is_opened_offers_what_was_left_behind(desk: Desk, qtbot: QtBot) -> None:
    left("one-slip")
    open_on(desk, None)
    qtbot.waitUntil(desk.notice.isVisible, timeout=2000)
    assert desk.notice.words.text().startswith("Work on “One slip of the rule” from today at ")


def test_a_desk_that_is_opened_where_nothing_was_left_says_nothing(
    desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked, look_back = list[None](), window._look_back
    monkeypatch.setattr(window, "_look_back", lambda *given: looked.append(look_back(*given)))
    open_on(desk, None)
    qtbot.waitUntil(lambda: bool(looked), timeout=2000)
    assert not desk.notice.isVisible()


def test_a_desk_that_is_opened_sweeps_what_a_kill_left(desk: Desk, qtbot: QtBot) -> None:
    place = settings.where().parent
    place.mkdir(parents=True, exist_ok=True)
    gone = place / f".offsquare-{files._machine()}-{2**31 - 1}-00000000.tmp"  # no process has this number
    gone.write_text("half")
    open_on(desk, None)
    qtbot.waitUntil(lambda: not gone.exists(), timeout=3000)


def test_what_is_thrown_away_makes_room_for_the_next(desk: Desk) -> None:
    first, second = left("leaning-neck"), left("one-slip")
    desk.left_behind.offer((first, second))
    desk.notice.buttons[1].click()
    assert not first.copy.exists()
    assert "One slip" in desk.notice.words.text()


def test_a_second_job_left_behind_is_told_of(desk: Desk) -> None:
    desk.left_behind.offer((left("leaning-neck"), left("one-slip")))
    desk.notice.buttons[0].click()
    assert desk.notice.words.text().startswith("Another job was left unsaved as well")


def full_disk(_path: Path, _data: bytes) -> None:
    raise OSError(28, "No space left on device")


def test_a_full_disk_is_said_once_and_taken_back(open_desk: OpenDesk, monkeypatch: pytest.MonkeyPatch) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.measure.commands.strike_or_bring_back()
    with monkeypatch.context() as there:
        there.setattr("export.files.replace", full_disk)
        assert not desk.recovery.keep()
        assert "disk" in desk.notice.words.text()
        safety = CrashGuard(lambda: desk)
        safety.caught(ValueError, ValueError("a slip"), None)
        assert "save it now" in desk.notice.words.text()
    assert desk.recovery.keep()
    assert not desk.notice.isVisible()


def test_what_of_the_settings_is_not_understood_is_told(desk: Desk, qtbot: QtBot, own_settings: Path) -> None:
    own_settings.write_text('{"theme": "sepia"}')
    unread: list[str] = []
    settings.load(unread.append)
    open_on(desk, None, unread)
    qtbot.waitUntil(desk.notice.isVisible, timeout=2000)
    assert desk.notice.words.text().startswith("The setting “theme” is not understood")
