"""What can go wrong when a drawing is laid on paper or written: one family, one clear sentence each."""

from pathlib import Path

from export import files


class ExportError(Exception):
    """A sheet or a file that cannot be made; the message says what, where, and the mend."""


class PaperTooSmall(ExportError):
    """The paper leaves no room between its margins."""


class CannotWrite(ExportError):
    """A file that cannot be written where it was wanted."""

    def __init__(self, path: Path, error: OSError) -> None:
        reason = files.why(error)
        super().__init__(f"“{path.name}” can’t be written in {path.parent}: {reason}. Choose another folder")
