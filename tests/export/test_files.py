"""Files whole or not at all, several at once, and what a killed program left of them."""

import errno
import os
import subprocess
import sys
import time
from pathlib import Path as File

import pytest

from export import files

NAMES = ("a.pdf", "b.pdf", "c.pdf")


def laid(folder: File) -> File:
    """A folder with two old files in it, and a tray with three new ones."""
    for name in NAMES[:2]:
        (folder / name).write_text(f"old {name}")
    tray = files.tray_in(folder)
    for name in NAMES:
        (tray / name).write_text(f"new {name}")
    return tray


def texts(folder: File) -> dict[str, str]:
    return {path.name: path.read_text() for path in sorted(folder.iterdir())}


OLD = {name: f"old {name}" for name in NAMES[:2]}


def test_all_are_moved_and_the_tray_is_gone(tmp_path: File) -> None:
    files.move_out(laid(tmp_path), tmp_path, NAMES)
    assert texts(tmp_path) == {name: f"new {name}" for name in NAMES}


def locked(monkeypatch: pytest.MonkeyPatch, *names: str) -> None:
    """Let files of these names refuse to be replaced by others, as a program that has them open does on Windows."""
    replace = File.replace

    def refuse(self: File, target: File) -> File:
        if File(target).name in names and self.parent.name != "before":
            raise PermissionError(errno.EACCES, "Permission denied", str(self))
        return replace(self, target)

    monkeypatch.setattr(File, "replace", refuse)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("links", [True, False], ids=["links", "a disk without links"])
def test_a_file_that_is_locked_puts_all_back(
    name: str, links: bool, tmp_path: File, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object, **__: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    if not links:
        monkeypatch.setattr(os, "link", no_links)
    tray = laid(tmp_path)
    locked(monkeypatch, name)
    with pytest.raises(PermissionError) as caught:
        files.move_out(tray, tmp_path, NAMES)
    assert caught.value.filename == str(tmp_path / name)
    files.throw_away(tray)
    assert texts(tmp_path) == OLD


def test_a_write_protected_file_stops_before_any_is_moved(tmp_path: File) -> None:
    tray = laid(tmp_path)
    (tmp_path / "b.pdf").chmod(0o444)
    with pytest.raises(PermissionError):
        files.move_out(tray, tmp_path, NAMES)
    assert (tmp_path / "a.pdf").read_text() == "old a.pdf"
    assert sorted(path.name for path in tray.iterdir()) == list(NAMES)


def test_files_that_cannot_go_back_are_named_and_the_old_ones_kept(
    tmp_path: File, monkeypatch: pytest.MonkeyPatch
) -> None:
    tray = laid(tmp_path)
    replace = File.replace

    def refuse(self: File, target: File) -> File:
        if File(target).name == "c.pdf" or (self.name == "b.pdf" and self.parent.name == "before"):
            raise PermissionError(errno.EACCES, "Permission denied", str(self))
        return replace(self, target)

    monkeypatch.setattr(File, "replace", refuse)
    with pytest.raises(files.HalfMoved) as caught:
        files.move_out(tray, tmp_path, NAMES)
    assert caught.value.names == ("b.pdf",)
    assert texts(caught.value.kept) == {"b.pdf": "old b.pdf"}
    assert (tmp_path / "a.pdf").read_text() == "old a.pdf"


KILLED = """
import os, signal, sys
from pathlib import Path
from export import files
folder = Path(sys.argv[1])
(files.tray_in(folder) / "a.pdf").write_text("half")
os.fsync = lambda _: os.kill(os.getpid(), signal.SIGKILL)
files.replace(folder / "a.job.json", b"{}")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="a process is asked for otherwise there")
def test_what_a_killed_program_left_is_swept_and_nothing_else(tmp_path: File) -> None:
    (tmp_path / ".offsquare-notes").mkdir()
    (tmp_path / "a.tmp").touch()
    subprocess.run([sys.executable, "-c", KILLED, str(tmp_path)], check=False)
    living = files.tray_in(tmp_path)
    assert len(list(tmp_path.iterdir())) == 5
    files.sweep(tmp_path)
    assert {path.name for path in tmp_path.iterdir()} == {".offsquare-notes", "a.tmp", living.name}


def test_what_another_machine_left_is_swept_when_it_is_a_day_old(tmp_path: File) -> None:
    new, old = tmp_path / ".offsquare-000000-1-00000000", tmp_path / ".offsquare-000000-1-00000001.tmp"
    new.mkdir()
    old.touch()
    os.utime(old, (time.time() - 2 * files.OLD,) * 2)
    files.sweep(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [new.name]


def test_a_folder_that_is_not_there_is_not_swept(tmp_path: File) -> None:
    files.sweep(tmp_path / "gone")
