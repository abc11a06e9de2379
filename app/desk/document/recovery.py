"""Keeps a copy of unsaved work beside the settings, so that a crash loses no more than the last two seconds.

The copy is a job file like any other. It is written behind the work, a moment after the first edit that is not in it,
however busy the window is with the edits after that. A lock that only a living program can hold says whose copy it is;
a copy whose lock is free was **left behind**: whoever takes the lock offers it to the person, and nobody else does.
"""

import os
import threading
import uuid
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from urllib.parse import quote_from_bytes, unquote_to_bytes

import msgspec
from PySide6.QtCore import QLockFile, QObject, Signal
from shiboken6 import isValid

from app.desk.document.document import Document
from app.file import job_file, settings
from app.say import plain_words, terminal
from export import files
from geometry.job import Job

WAIT = 0.4
"""s from the first edit that is not in the copy until the copy is written; with a slow disk this stays under 2 s."""
AGAIN = 2.0
"""s until it is tried again where the copy could not be written."""


def folder() -> Path:
    return settings.where().parent / "recovery"


class About(msgspec.Struct, frozen=True):
    """Which file the work belongs to, and how that was when the work was begun. `name`: its path, quoted as in a URL,
    for a path need not be a text.
    """

    name: str = ""
    seen: job_file.Seen | None = None

    @classmethod
    def of(cls, path: Path | None, seen: job_file.Seen | None) -> "About":
        return cls(quote_from_bytes(os.fsencode(path.absolute())) if path else "", seen)

    @property
    def path(self) -> Path | None:
        return Path(os.fsdecode(unquote_to_bytes(self.name))) if self.name else None


class LeftBehind(msgspec.Struct, frozen=True):
    """Work that was not saved: the copy, the job in it, the file it belonged to, how that was then; the copy's lock."""

    copy: Path
    job: Job
    path: Path | None
    seen: job_file.Seen | None = None
    lock: QLockFile | None = None

    def drop(self) -> None:
        """Throw the copy away."""
        for name in (self.copy, self.copy.with_suffix(".about")):
            with suppress(OSError):
                name.unlink(missing_ok=True)
        if self.lock is not None:
            self.lock.unlock()

    def says(self) -> str:
        """From when the work is, and whether its file was saved since."""
        kept = self.copy.stat().st_mtime if self.copy.exists() else 0.0
        now = job_file.look(self.path) if self.path else None
        name = self.job.title or (self.path.name if self.path else "a new job")
        since = ""
        if now is not None and (now.when > kept if self.seen is None else now.digest != self.seen.digest):
            order = "later" if now.when > kept else "meanwhile"
            since = f" Its file was saved {order}, {plain_words.moment(now.when)}: this work is not in it."
        when = f" from {plain_words.moment(kept)}" if kept else ""
        return f"Work on “{terminal.shortened(name)}”{when} was not saved when the program last ended.{since}"


class Recovery(QObject):
    """Keeps the copy of one document in step. `keep` may be called at any time, as a crash handler does.

    Signals: `keeps` when no copy can be written any more, and when one can again.
    """

    keeps = Signal(bool)

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.copy = folder() / f"{uuid.uuid4().hex}.json"
        self._turn = threading.RLock()  # who holds it may write the copy or throw it away
        self._lock: QLockFile | None = None
        self._wanted: tuple[Job, About] | None = None
        self._timer: threading.Timer | None = None
        self._about = b""
        self._keeps = True
        document.placed.connect(self._changed)
        document.named.connect(self._changed)

    def _changed(self) -> None:
        if self.document.saved:
            self.drop()
        elif self._want():
            self._soon(WAIT)

    def _want(self) -> bool:
        """Note what is to be in the copy; whether that is news."""
        wanted = self.document.job, About.of(self.document.path, self.document.seen)
        news = wanted != self._wanted
        self._wanted = wanted
        return news

    def _soon(self, wait: float) -> None:
        """Write in a while, unless that is under way: the wait runs from the first edit, and none starts it anew."""
        if self._timer is None:
            self._timer = threading.Timer(wait, self._behind)
            self._timer.daemon = True
            self._timer.start()

    def _behind(self) -> None:
        """Write behind the work; where it can't be done try again by itself."""
        with self._turn:
            self._timer = None
            if self._wanted is None:
                return
            kept = self._written()
            if not kept:
                self._soon(AGAIN)
        self._tell(kept)

    def keep(self) -> bool:
        """Write the copy of unsaved work now; whether it stands. That it can't be written must not stop the work."""
        with self._turn:
            if self.document.saved:
                kept = True
            else:
                self._want()
                kept = self._written()
                if not kept:
                    self._soon(AGAIN)
        self._tell(kept)
        return kept

    def _tell(self, kept: bool) -> None:
        if kept != self._keeps and isValid(self):
            self._keeps = kept
            self.keeps.emit(kept)

    def _written(self) -> bool:
        if self._wanted is None:
            return True
        job, about = self._wanted
        try:
            self.copy.parent.mkdir(parents=True, exist_ok=True)
            if self._lock is None:
                lock = QLockFile(str(self.copy.with_suffix(".lock")))
                lock.setStaleLockTime(0)
                if not lock.tryLock(0):
                    return False
                self._lock = lock
            said = msgspec.json.encode(about)
            if said != self._about:
                files.replace(self.copy.with_suffix(".about"), said)
                self._about = said
            files.replace(self.copy, job_file.encode(job))
        except (OSError, job_file.JobFileError):
            return False
        return True

    def drop(self) -> None:
        """The work is saved, or not wanted: throw the copy away."""
        with self._turn:
            self._wanted, self._about = None, b""
            if self._timer is not None:
                self._timer.cancel()
                self._timer = None
            if self._lock is not None:
                LeftBehind(self.copy, self.document.job, None, lock=self._lock).drop()
                self._lock = None


def left_behind(tell: Callable[[str], None] = lambda _: None) -> tuple[LeftBehind, ...]:
    """The copies that no living program holds, newest first; from now on this one does. `tell` hears in a sentence of
    each copy that can't be read; it is set aside.
    """
    _tidy()
    found = []
    for copy in sorted(folder().glob("*.json"), key=_time_of, reverse=True):
        lock = QLockFile(str(copy.with_suffix(".lock")))
        lock.setStaleLockTime(0)
        if not lock.tryLock(0):
            continue
        if not copy.exists():
            lock.unlock()  # another window has just thrown it away
            continue
        about = _about(copy)
        try:
            left = LeftBehind(copy, job_file.read(copy), about.path, about.seen, lock)
        except job_file.JobFileError as error:
            tell(_set_aside(copy, error))
            lock.unlock()
        else:
            if _is_saved(left):
                left.drop()
            else:
                found.append(left)
    return tuple(found)


def _tidy() -> None:
    """Take away the locks of programs that were killed before there was a copy to lock."""
    for path in folder().glob("*.lock"):
        lock = QLockFile(str(path))
        lock.setStaleLockTime(0)
        if not path.with_suffix(".json").exists() and lock.tryLock(0):
            with suppress(OSError):
                path.with_suffix(".about").unlink(missing_ok=True)
            lock.unlock()


def _is_saved(left: LeftBehind) -> bool:
    """Whether the very same job stands in its file: it was saved just before the end."""
    try:
        return left.path is not None and job_file.read(left.path) == left.job
    except job_file.JobFileError:
        return False


def _time_of(copy: Path) -> float:
    try:
        return copy.stat().st_mtime
    except OSError:
        return 0.0


def _about(copy: Path) -> About:
    try:
        return msgspec.json.decode(copy.with_suffix(".about").read_bytes(), type=About)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError):
        return About()


def _set_aside(copy: Path, error: job_file.JobFileError) -> str:
    """Keep a copy that can't be read out of the way. Returns what to tell of it."""
    aside = copy.with_suffix(".damaged")
    try:
        copy.replace(aside)
    except OSError:
        aside = copy
    return f"A copy of unsaved work cannot be read ({error}). It is kept as {aside}."
