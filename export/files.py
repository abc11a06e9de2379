"""Writing files whole or not at all, one or several, and saying in plain words why one could not be read or written.

The new bytes go to a **temp file** in the same folder, reach the disk, and only then take the old file's name: whoever
pulls the plug finds the old file or the new one, never half of either. Several files wait in a **tray**, a folder of
their own. Both carry the machine and the process that made them in their names; what a killed program left of them is
swept away later.
"""

import errno
import os
import re
import stat
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path

WHY = {
    errno.ENOENT: "there is no such file or folder",
    errno.EACCES: "this account may not open it",
    errno.EPERM: "this account may not open it",
    errno.EROFS: "the disk is read-only",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "this account’s share of the disk is full",
    errno.EFBIG: "a file may not grow so large here",
    errno.ENAMETOOLONG: "the name is too long",
    errno.EISDIR: "it is a folder, not a file",
    errno.EEXIST: "there is a file of that name, where a folder is needed",
    errno.ENOTDIR: "what should be its folder is a file",
    errno.EIO: "the disk reports a fault",
    errno.ELOOP: "its links lead round in a circle",
}
NOT_IN_NAMES = re.compile(r'[\\/:*?"<>|\x00-\x1f]+')
"""What one system or another allows in no file's name."""
OWN = re.compile(r"\.offsquare-([0-9a-f]{6})-(\d+)-[0-9a-f]{8}(?:\.tmp)?")
OLD = 24 * 3600.0
"""Seconds after which no program is still at work on a temp file or a tray (no export takes a minute)."""


class HalfMoved(Exception):
    """Some new files took their places and could not be taken back; the old ones were kept in another folder."""

    def __init__(self, names: Sequence[str], kept: Path) -> None:
        super().__init__(names, kept)
        self.names, self.kept = tuple(names), kept


def why(error: OSError) -> str:
    """The reason for an `OSError`, in words."""
    return WHY.get(error.errno or 0, (error.strerror or str(error)).lower())


def safe_name(name: str) -> str:
    """The name as a file's, on any system: of 80 characters and 200 bytes at most, and never empty."""
    short = NOT_IN_NAMES.sub("-", name).strip(" .")[:80].encode(errors="ignore")[:200]
    return short.decode(errors="ignore") or "job"


def replace(path: Path, data: bytes) -> None:
    """Write `data` to `path` whole or not at all. An old file keeps its permissions, a link its target.

    Raises `OSError`, with the old file untouched and no temp file left behind.
    """
    path = path.resolve()
    mode = _mode_of(path)
    temp = path.with_name(f"{_own_name()}.tmp")
    try:
        with temp.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            temp.chmod(mode)
        temp.replace(path)
    except BaseException:
        temp.unlink(missing_ok=True)
        raise
    _settle(path.parent)


@contextmanager
def locked(path: Path, patience: float = 2.0) -> Iterator[None]:
    """Hold the lock that goes with a file, as the only one of all programs; the system lets go of it when one is
    killed. Raises `OSError` where another holds it for longer than `patience` (s).
    """
    with path.with_name(f"{path.name}.lock").open("a") as file:
        end = time.monotonic() + patience
        while not _took(file.fileno()):
            if time.monotonic() > end:
                raise TimeoutError(errno.ETIMEDOUT, "another program keeps it to itself", str(path))
            time.sleep(0.02)
        yield


def _took(handle: int) -> bool:
    """Whether the lock was free and is ours now; a disk that knows no locks has all of them free."""
    if sys.platform == "win32":
        import msvcrt

        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
    import fcntl

    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return True
    return True


def tray_in(folder: Path) -> Path:
    """Make an empty tray in a folder. Raises `OSError`."""
    tray = folder / _own_name()
    tray.mkdir()
    return tray


def move_out(tray: Path, folder: Path, names: Sequence[str]) -> None:
    """Move these files from the tray into the folder, all or none; the tray goes away with them.

    Raises `OSError` with the name of the file that could not take its place; every old file is then back in its own.
    """
    for name in names:
        _mode_of(folder / name)
    before = tray / "before"
    before.mkdir()
    moved: list[str] = []
    try:
        for name in names:
            if os.path.lexists(folder / name):
                _second(folder / name, before / name)
            (tray / name).replace(folder / name)
            moved.append(name)
    except BaseException as error:
        if stuck := _put_back(before, folder, moved):
            raise HalfMoved(stuck, before.replace(folder / f"files from before {os.urandom(2).hex()}")) from error
        if isinstance(error, OSError):
            error.filename = str(folder / name)
        raise
    throw_away(tray)
    _settle(folder)


def throw_away(tray: Path) -> None:
    """Take a tray away with all that is in it, as far as it goes."""
    import shutil

    shutil.rmtree(tray, ignore_errors=True)


def _second(file: Path, other: Path) -> None:
    """Give a file a second name, or a copy where the disk knows no second names."""
    try:
        os.link(file, other, follow_symlinks=False)
    except (OSError, NotImplementedError):
        import shutil

        shutil.copy2(file, other, follow_symlinks=False)


def _put_back(before: Path, folder: Path, moved: Sequence[str]) -> list[str]:
    """Take the new files away, and put the old ones in their places again. Returns those that would not go."""
    stuck = []
    for name in moved:
        try:
            if os.path.lexists(before / name):
                (before / name).replace(folder / name)
            else:
                (folder / name).unlink()
        except OSError:
            stuck.append(name)
    return stuck


def sweep(folder: Path) -> None:
    """Take away the temp files and trays that a program left here when it was killed; only Offsquare's own."""
    try:
        left = [path for path in folder.iterdir() if OWN.fullmatch(path.name) and _left(path)]
    except OSError:
        return
    for path in left:
        if path.is_dir() and not path.is_symlink():
            throw_away(path)
        else:
            try:
                path.unlink(missing_ok=True)
            except OSError:
                continue


def _left(path: Path) -> bool:
    """Whether nobody is at work on it any more: its process of this machine has ended, or it is old."""
    found = OWN.fullmatch(path.name)
    assert found is not None
    if found[1] == _machine() and not _runs(int(found[2])):
        return True
    try:
        return time.time() - path.lstat().st_mtime > OLD
    except OSError:
        return False


def _runs(process: int) -> bool:
    """Whether a process of this machine is alive, or may be."""
    if sys.platform == "win32":
        return True  # to ask would end it there; the age decides
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        return True
    return True


@cache
def _machine() -> str:
    import hashlib
    import platform

    return hashlib.sha256(platform.node().encode()).hexdigest()[:6]


def _own_name() -> str:
    return f".offsquare-{_machine()}-{os.getpid()}-{os.urandom(4).hex()}"


def _mode_of(path: Path) -> int | None:
    """The permissions of the file that is there, or None where there is none; refuses what must not be replaced."""
    try:
        mode = path.stat().st_mode
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    if not stat.S_ISREG(mode):
        raise OSError(errno.EINVAL, "it is not an ordinary file", str(path))
    if not mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH):
        raise PermissionError(0, "it is write-protected", str(path))
    return stat.S_IMODE(mode)


def _settle(folder: Path) -> None:
    """Make the new name itself reach the disk, where the system lets a folder be opened for that."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass  # some network disks cannot; the file itself is safe already
    finally:
        os.close(handle)
