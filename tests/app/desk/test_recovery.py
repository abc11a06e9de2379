"""After a crash: what was not saved is offered, and no more than two seconds of it are lost."""

import subprocess
import sys
from pathlib import Path

from pytestqt.qtbot import QtBot

from app import jobfile
from app.desk import recovery
from app.desk.desk import Desk
from tests.app.desk.conftest import OpenDesk, sample

CRASH = """
import os, sys
from pathlib import Path
from PySide6.QtWidgets import QApplication
from app import edits, jobfile
from app.desk.document import Document
from app.desk.recovery import Recovery
from geometry.layout import Layout, Survey

app = QApplication([])
layout = Layout(frame="straightedge", points={}, readings=(), survey=Survey(verdict="unchecked", why=""))
document = Document(lambda job: layout)
document.open(Path(sys.argv[1]))
kept = Recovery(document)
document.edit("nut", edits.set_value(document.job, "r1", "45.1"))
kept.keep()
os._exit(9)  # as a crash: nothing is put in order
"""


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


def test_work_of_a_crashed_desk_is_offered_and_brought_back(open_desk: OpenDesk, tmp_path: Path) -> None:
    path = tmp_path / "bench.job.json"
    jobfile.write(sample("leaning-neck"), path)
    code = subprocess.run([sys.executable, "-c", CRASH, str(path)], check=False, timeout=60).returncode
    assert code == 9
    desk = open_desk(None)
    desk.offer(recovery.left_behind())
    assert desk.notice.words.text() == (
        "Work on “Leaning neck” was not saved when the program last ended. Bring it back?"
    )
    desk.notice.buttons[0].click()
    assert desk.document.job.readings[0].value == 45.1
    assert desk.document.path == path
    assert not desk.document.saved
    desk.recovery.drop()
    assert recovery.left_behind() == ()


def test_a_damaged_copy_is_set_aside(desk: Desk) -> None:
    desk.commands.measure.strike_or_bring_back()
    desk.recovery.keep()
    other = recovery.folder() / "damaged.json"
    other.write_text("{", encoding="utf-8")
    assert recovery.left_behind() == ()
    assert other.with_suffix(".damaged").exists()
