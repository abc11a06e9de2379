"""Keeps a copy of unsaved work beside the settings, so that a crash loses no more than the last two seconds.

The copy is a job file like any other. A lock that only a living program can hold says whose copy it is; a copy whose
lock is free was **left behind** and is offered to the person.
"""

import uuid
from pathlib import Path

import msgspec
from PySide6.QtCore import QLockFile, QObject, QTimer, Signal

from app import jobfile, settings
from app.desk.document import Document
from export import files
from geometry.job import Job

WAIT_MS = 1200
"""From an edit to its copy; with the writing itself this stays under 2 s."""


def folder() -> Path:
    return settings.where().parent / "recovery"


class LeftBehind(msgspec.Struct, frozen=True):
    """Work that was not saved: the copy, the job in it, and the file it belonged to."""

    copy: Path
    job: Job
    path: Path | None

    def drop(self) -> None:
        """Throw the copy away."""
        for name in (self.copy, self.copy.with_suffix(".path"), self.copy.with_suffix(".lock")):
            name.unlink(missing_ok=True)


class Recovery(QObject):
    """Keeps the copy of one document in step. `keep` may be called at any time, as a crash handler does.

    Signals: `keeps` when no copy can be written any more, and when one can again.
    """

    keeps = Signal(bool)

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.copy = folder() / f"{uuid.uuid4().hex}.json"
        self._lock: QLockFile | None = None
        self._keeps = True
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(WAIT_MS)
        self._timer.timeout.connect(self.keep)
        document.changed.connect(self._changed)
        document.named.connect(self._changed)

    def _changed(self) -> None:
        if self.document.saved:
            self.drop()
        elif not self._timer.isActive():
            self._timer.start()

    def keep(self) -> bool:
        """Write the copy of unsaved work now; whether it stands. That it can't be written must not stop the work."""
        kept = self.document.saved or self._written()
        if kept != self._keeps:
            self._keeps = kept
            self.keeps.emit(kept)
        return kept

    def _written(self) -> bool:
        try:
            self.copy.parent.mkdir(parents=True, exist_ok=True)
            if self._lock is None:
                self._lock = QLockFile(str(self.copy.with_suffix(".lock")))
                self._lock.setStaleLockTime(0)
                self._lock.tryLock(0)
            files.replace(self.copy, jobfile.encode(self.document.job))
            where = str(self.document.path.resolve()) if self.document.path else ""
            files.replace(self.copy.with_suffix(".path"), where.encode())
        except (OSError, jobfile.JobFileError):
            return False
        return True

    def drop(self) -> None:
        """The work is saved, or not wanted: throw the copy away."""
        self._timer.stop()
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None
            LeftBehind(self.copy, self.document.job, None).drop()


def left_behind() -> tuple[LeftBehind, ...]:
    """The copies that no living program holds, newest first."""
    found = []
    for copy in sorted(folder().glob("*.json"), key=lambda path: -path.stat().st_mtime):
        lock = QLockFile(str(copy.with_suffix(".lock")))
        lock.setStaleLockTime(0)
        if not lock.tryLock(0):
            continue
        lock.unlock()
        try:
            where = copy.with_suffix(".path").read_text(encoding="utf-8")
        except OSError:
            where = ""
        try:
            found.append(LeftBehind(copy, jobfile.read(copy), Path(where) if where else None))
        except jobfile.JobFileError:
            copy.replace(copy.with_suffix(".damaged"))
    return tuple(found)
