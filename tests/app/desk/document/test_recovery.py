"""After a crash: what was not saved is offered, and no more than two seconds of it are lost."""

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest
from pytestqt.qtbot import QtBot

from app.desk.document import recovery
from app.desk.frame.desk import Desk
from app.desk.frame.window import open_on
from app.edit import edits
from app.file import job_file
from geometry.job import Job
from geometry.layout import Laid
from tests.app.desk.conftest import Answers, OpenDesk, sample

AT_WORK = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from app.edit import edits
from app.desk.frame import window

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
    job_file.write(sample("leaning-neck"), path)
    with subprocess.Popen([sys.executable, "-c", AT_WORK, str(path)], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "edited\n"
        yield process
        process.kill()


def wait_for_copies(qtbot: QtBot, count: int) -> None:
    """Until so many copies are there, and no longer than may be lost."""
    qtbot.waitUntil(lambda: len(list(recovery.folder().glob("*.json"))) == count, timeout=round(1000 * LONGEST))


def test_an_edit_is_copied_within_two_seconds(desk: Desk, qtbot: QtBot) -> None:
    desk.measure.commands.strike_or_bring_back()
    qtbot.waitUntil(desk.recovery.copy.exists, timeout=2000)
    assert job_file.read(desk.recovery.copy) == desk.document.job


def test_saving_throws_the_copy_away(desk: Desk, tmp_path: Path) -> None:
    desk.measure.commands.strike_or_bring_back()
    desk.recovery.keep()
    desk.document.save(tmp_path / "a.job.json")
    assert not desk.recovery.copy.exists()


def test_the_copy_of_a_living_desk_is_not_offered(desk: Desk) -> None:
    desk.measure.commands.strike_or_bring_back()
    desk.recovery.keep()
    assert recovery.left_behind() == ()


def test_work_of_a_program_that_was_killed_is_offered_and_brought_back(
    at_work: subprocess.Popen[str], open_desk: OpenDesk, answers: Answers, tmp_path: Path, qtbot: QtBot
) -> None:
    wait_for_copies(qtbot, 1)
    at_work.kill()
    at_work.wait()
    desk = open_on(open_desk(None), None)
    qtbot.waitUntil(desk.notice.isVisible, timeout=2000)
    said = desk.notice.words.text()
    assert said.startswith("Work on “Leaning neck” from today at ")
    assert said.endswith(" was not saved when the program last ended. Bring it back?")
    desk.notice.buttons[0].click()
    assert desk.document.job.readings[0].value == 45.1
    assert desk.document.path == tmp_path / "bench.job.json"
    assert not desk.document.saved
    answers.outside = "stay"
    assert desk.job_files.save()  # its file is as it was when the work began
    assert recovery.left_behind() == ()


def test_the_work_of_a_program_that_still_runs_is_nobody_elses(at_work: subprocess.Popen[str], qtbot: QtBot) -> None:
    wait_for_copies(qtbot, 1)
    assert at_work.poll() is None
    assert recovery.left_behind() == ()


def test_a_damaged_copy_is_set_aside(desk: Desk) -> None:
    desk.measure.commands.strike_or_bring_back()
    desk.recovery.keep()
    other = recovery.folder() / "damaged.json"
    other.write_text("{", encoding="utf-8")
    told: list[str] = []
    assert recovery.left_behind(told.append) == ()
    aside = other.with_suffix(".damaged")
    assert aside.exists()
    assert len(told) == 1
    assert told[0].startswith("A copy of unsaved work cannot be read (damaged.json: the file breaks off before its end")
    assert told[0].endswith(f"It is kept as {aside}.")
    desk.left_behind.offer((), told)
    assert desk.notice.words.text() == told[0]


def strike(desk: Desk, which: str) -> None:
    desk.document.edit(f"striking out {which}", edits.strike(desk.document.job, which))


def test_the_copy_is_written_while_the_window_is_busy(open_desk: OpenDesk, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing may wait for the window here: the layout alone takes as long as may be lost."""
    desk = open_desk(sample("leaning-neck"))
    lay_places = desk.document._lay_places

    def slow(job: Job) -> Laid:
        end = time.monotonic() + LONGEST
        while time.monotonic() < end:
            sum(range(1000))
        return lay_places(job)

    monkeypatch.setattr(desk.document, "_lay_places", slow)
    strike(desk, "r1")
    assert job_file.read(desk.recovery.copy) == desk.document.job


def test_edits_that_follow_each_other_do_not_put_the_copy_off(desk: Desk) -> None:
    begun, kept = time.monotonic(), []
    while time.monotonic() < begun + LONGEST:
        desk.document.edit("title", edits.replace(desk.document.job, title=f"{time.monotonic()}"))
        if desk.recovery.copy.exists():
            kept.append(time.monotonic() - float(job_file.read(desk.recovery.copy).title))
    assert kept
    assert max(kept) < LONGEST


def full_disk(_path: Path, _data: bytes) -> None:
    raise OSError(28, "No space left on device")


def test_a_full_disk_is_tried_again_without_another_edit(
    desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(recovery, "AGAIN", 0.1)
    with monkeypatch.context() as there:
        there.setattr("export.files.replace", full_disk)
        strike(desk, "r1")
        qtbot.waitUntil(lambda: "No copy of your work can be kept" in desk.notice.words.text(), timeout=3000)
    qtbot.waitUntil(desk.recovery.copy.exists, timeout=3000)
    qtbot.waitUntil(lambda: not desk.notice.isVisible(), timeout=3000)
    assert job_file.read(desk.recovery.copy) == desk.document.job


def test_a_copy_that_failed_when_it_was_asked_for_is_tried_again_too(
    desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As after a fault of the program, when the copy behind the work stands already and nothing waits to be written."""
    monkeypatch.setattr(recovery, "AGAIN", 0.1)
    strike(desk, "r1")
    qtbot.waitUntil(desk.recovery.copy.exists, timeout=3000)
    with monkeypatch.context() as there:
        there.setattr("export.files.replace", full_disk)
        assert not desk.recovery.keep()
        assert desk.notice.isVisible()
    qtbot.waitUntil(lambda: not desk.notice.isVisible(), timeout=3000)


def left(job: Job, path: Path, seen: job_file.Seen) -> None:
    """A copy as a crash leaves it, of a job whose file was as `seen` when the work began."""
    recovery.folder().mkdir(parents=True, exist_ok=True)
    copy = recovery.folder() / "left.json"
    job_file.write(job, copy)
    copy.with_suffix(".about").write_bytes(msgspec.json.encode(recovery.About.of(path, seen)))


def test_one_copy_is_offered_by_one_window_only(tmp_path: Path) -> None:
    path = tmp_path / "a.job.json"
    left(sample("leaning-neck"), path, job_file.write(Job(), path))
    first = recovery.left_behind()
    assert len(first) == 1
    assert recovery.left_behind() == ()
    del first
    assert len(recovery.left_behind()) == 1  # it was neither brought back nor thrown away


def test_the_offer_says_that_the_file_was_saved_later(desk: Desk, answers: Answers, tmp_path: Path) -> None:
    path = tmp_path / "a.job.json"
    left(sample("leaning-neck"), path, job_file.write(Job(), path))
    job_file.write(Job(title="saved later"), path)
    os.utime(path, (time.time() + 60,) * 2)
    desk.left_behind.offer(recovery.left_behind())
    assert " Its file was saved later, today at " in desk.notice.words.text()
    desk.notice.buttons[0].click()
    answers.outside = "stay"
    assert not desk.job_files.save()
    assert answers.asked == ["outside a.job.json True"]
    assert job_file.read(path).title == "saved later"


def test_the_offer_says_that_an_older_file_took_its_place(desk: Desk, tmp_path: Path) -> None:
    """As where a file is brought back from a store: it is another than it was, and its time is long ago."""
    path = tmp_path / "a.job.json"
    left(sample("leaning-neck"), path, job_file.write(Job(), path))
    job_file.write(Job(title="an old one"), path)
    os.utime(path, (86400.0 * 300,) * 2)
    desk.left_behind.offer(recovery.left_behind())
    assert " Its file was saved meanwhile, 1970-10-2" in desk.notice.words.text()


def test_a_copy_of_what_was_saved_is_no_work_to_offer(tmp_path: Path) -> None:
    path = tmp_path / "a.job.json"
    left(sample("leaning-neck"), path, job_file.write(sample("leaning-neck"), path))
    assert recovery.left_behind() == ()
    assert list(recovery.folder().glob("*.json")) == []


def test_a_lock_without_a_copy_is_taken_away_but_not_a_living_one(desk: Desk) -> None:
    strike(desk, "r1")
    desk.recovery.keep()
    (recovery.folder() / "dead.about").touch()
    script = (
        "import os, sys; from PySide6.QtCore import QLockFile\n"
        "lock = QLockFile(sys.argv[1]); lock.setStaleLockTime(0); lock.tryLock(0); os.abort()"
    )
    subprocess.run([sys.executable, "-c", script, str(recovery.folder() / "dead.lock")], check=False)
    assert (recovery.folder() / "dead.lock").exists()
    assert recovery.left_behind() == ()
    assert sorted(path.suffix for path in recovery.folder().iterdir()) == [".about", ".json", ".lock"]


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="there every file’s name is a text")
def test_a_file_whose_name_is_no_text_is_worked_on_like_any_other(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / os.fsdecode(b"caf\xe9.job.json")
    job_file.write(sample("leaning-neck"), path)
    assert desk.job_files.open_path(path)
    strike(desk, "r1")
    assert desk.recovery.keep()
    about = desk.recovery.copy.with_suffix(".about").read_bytes()
    assert msgspec.json.decode(about, type=recovery.About).path == path
    assert desk.job_files.save()
    assert desk.preferences.settings.recent == ()
