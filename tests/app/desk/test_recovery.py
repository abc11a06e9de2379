"""After a crash: what was not saved is offered, and no more than two seconds of it are lost."""

import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app import jobfile
from app.desk import recovery
from app.desk.desk import Desk, open_on
from tests.app.desk.conftest import OpenDesk, sample

AT_WORK = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from app import edits
from app.desk import window

class Frame(window.Frame):
    def furnish(self):
        super().furnish()
        QTimer.singleShot(300, self.work)

    def work(self):
        document = self.desk.document
        document.edit("nut", edits.set_value(document.job, "r1", "45.1"))
        print("edited", flush=True)

window.Frame = Frame
window.run(Path(sys.argv[1]))
"""
"""The program itself, its window open on a job, and one edit; what is kept is kept by its own timer."""
LONGEST = 2.0
"""Seconds of work that a crash may lose."""


@pytest.fixture
def at_work(tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """The program in a process of its own, just after an edit."""
    path = tmp_path / "bench.job.json"
    jobfile.write(sample("leaning-neck"), path)
    with subprocess.Popen([sys.executable, "-c", AT_WORK, str(path)], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "edited\n"
        yield process
        process.kill()


def test_an_edit_is_copied_within_two_seconds(desk: Desk, qtbot: QtBot) -> None:
    desk.commands.measure.strike_or_bring_back()
    qtbot.waitUntil(desk.recovery.copy.exists, timeout=2000)
    assert jobfile.read(desk.recovery.copy) == desk.document.job


def test_saving_throws_the_copy_away(desk: Desk, tmp_path: Path) -> None:
    desk.commands.measure.strike_or_bring_back()
    desk.recovery.keep()
    desk.document.save(tmp_path / "a.job.json")
    assert not desk.recovery.copy.exists()


def test_the_copy_of_a_living_desk_is_not_offered(desk: Desk) -> None:
    desk.commands.measure.strike_or_bring_back()
    desk.recovery.keep()
    assert recovery.left_behind() == ()


def test_work_of_a_program_that_was_killed_is_offered_and_brought_back(
    at_work: subprocess.Popen[str], open_desk: OpenDesk, tmp_path: Path, qtbot: QtBot
) -> None:
    time.sleep(LONGEST)
    at_work.kill()
    at_work.wait()
    desk = open_on(open_desk(None), None)
    qtbot.waitUntil(desk.notice.isVisible, timeout=2000)
    assert desk.notice.words.text() == (
        "Work on “Leaning neck” was not saved when the program last ended. Bring it back?"
    )
    desk.notice.buttons[0].click()
    assert desk.document.job.readings[0].value == 45.1
    assert desk.document.path == tmp_path / "bench.job.json"
    assert not desk.document.saved
    desk.recovery.drop()
    assert recovery.left_behind() == ()


def test_the_work_of_a_program_that_still_runs_is_nobody_elses(at_work: subprocess.Popen[str]) -> None:
    time.sleep(LONGEST)
    assert at_work.poll() is None
    assert len(list(recovery.folder().glob("*.json"))) == 1
    assert recovery.left_behind() == ()


def test_a_damaged_copy_is_set_aside(desk: Desk) -> None:
    desk.commands.measure.strike_or_bring_back()
    desk.recovery.keep()
    other = recovery.folder() / "damaged.json"
    other.write_text("{", encoding="utf-8")
    assert recovery.left_behind() == ()
    assert other.with_suffix(".damaged").exists()
