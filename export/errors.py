"""What can go wrong when a drawing is laid on paper or written: one family, one clear sentence each."""

import errno
from pathlib import Path


class ExportError(Exception):
    """A sheet or a file that cannot be made; the message says what, where, and the mend."""


class PaperTooSmall(ExportError):
    """The paper leaves no room between its margins."""


class CannotWrite(ExportError):
    """A file that cannot be written where it was wanted."""

    def __init__(self, path: Path, error: OSError) -> None:
        reasons = {
            errno.ENOSPC: "the disk is full",
            errno.EACCES: "you may not write there",
            errno.EROFS: "it can only be read",
            errno.ENOTDIR: "it is no folder",
        }
        reason = reasons.get(error.errno or 0) or (error.strerror or str(error)).lower()
        super().__init__(f"“{path.name}” can't be written in {path.parent}: {reason}. Choose another folder")
