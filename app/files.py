"""Writing a file whole or not at all, and saying in plain words why a file could not be read or written.

The new bytes go to a **temp file** in the same folder, reach the disk, and only then take the old file's name: whoever
pulls the plug finds the old file or the new one, never half of either.
"""

import errno
import os
import secrets
import stat
from pathlib import Path

WHY = {
    errno.ENOENT: "there is no such file or folder",
    errno.EACCES: "this account may not open it",
    errno.EPERM: "this account may not open it",
    errno.EROFS: "the disk is read-only",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "this account's share of the disk is full",
    errno.ENAMETOOLONG: "the name is too long",
    errno.EISDIR: "it is a folder, not a file",
    errno.EEXIST: "there is a file of that name, where a folder is needed",
    errno.ENOTDIR: "what should be its folder is a file",
    errno.EIO: "the disk reports a fault",
    errno.ELOOP: "its links lead round in a circle",
}


def why(error: OSError) -> str:
    """The reason for an `OSError`, in words."""
    return WHY.get(error.errno or 0, (error.strerror or str(error)).lower())


def replace(path: Path, data: bytes) -> None:
    """Write `data` to `path` whole or not at all. An old file keeps its permissions, a link its target.

    Raises `OSError`, with the old file untouched and no temp file left behind.
    """
    path = path.resolve()
    mode = _mode_of(path)
    temp = path.with_name(f".{path.name[:80]}.{secrets.token_hex(4)}.tmp")
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
