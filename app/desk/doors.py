"""The doors: all ways by which a job comes in and goes out (new, open, samples, dropped files, save, closing).

Whatever goes wrong is said in one sentence, and the job in hand stays as it was.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Literal, Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app import jobfile, words
from app.desk.document import Document
from geometry.job import Job

Keep = Literal["save", "discard", "stay"]
FILTER = f"Jobs (*{jobfile.SUFFIX});;All files (*)"


class Asks(Protocol):
    """What the doors ask the person; tests answer in the person's place."""

    def file_to_open(self, beside: Path | None) -> Path | None: ...
    def file_to_save(self, suggested: Path) -> Path | None: ...
    def keep_changes(self, name: str) -> Keep: ...


class Dialogs:
    """Asks with the platform's own dialogs."""

    def __init__(self, window: QWidget) -> None:
        self.window = window

    def file_to_open(self, beside: Path | None) -> Path | None:
        start = str(beside.parent) if beside else ""
        name, _ = QFileDialog.getOpenFileName(self.window, "Open a job", start, FILTER)
        return Path(name) if name else None

    def file_to_save(self, suggested: Path) -> Path | None:
        name, _ = QFileDialog.getSaveFileName(self.window, "Save the job", str(suggested), FILTER)
        return Path(name) if name else None

    def keep_changes(self, name: str) -> Keep:
        box = QMessageBox(self.window)
        box.setIcon(QMessageBox.Icon.NoIcon)
        box.setText(f"“{name}” has changes that are not saved.")
        box.setInformativeText("Save them first?")
        button = QMessageBox.StandardButton
        box.setStandardButtons(button.Save | button.Discard | button.Cancel)
        box.setDefaultButton(button.Save)
        for each in box.buttons():
            each.setIcon(QIcon())
        answer = box.exec()
        return "save" if answer == button.Save else "discard" if answer == button.Discard else "stay"


class Doors(QObject):
    """Signals: `failed` with one sentence; `used` with the path of a job file that was opened or saved."""

    failed = Signal(str)
    used = Signal(str)

    def __init__(self, document: Document, asks: Asks, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document, self.asks = document, asks

    def new(self, job: Job) -> bool:
        """Begin another job."""
        if not self.may_leave():
            return False
        self.document.start(job)
        return True

    def open(self) -> None:
        if self.may_leave() and (path := self.asks.file_to_open(self.document.path)):
            self._read(path)

    def open_path(self, path: Path) -> bool:
        """Open a job file that was named: dropped, recent, or given on the command line."""
        return self.may_leave() and self._read(path)

    def open_sample(self, path: Path) -> bool:
        """Open a sample job as a new one, so that saving it never changes the sample."""
        return self.may_leave() and self._tried(lambda: self.document.start(jobfile.read(path)))

    def save(self) -> bool:
        path = self.document.path
        return self._write(path) if path else self.save_as()

    def save_as(self) -> bool:
        name = self.document.name.replace("/", "-") + jobfile.SUFFIX
        suggested = self.document.path or Path.home() / name
        path = self.asks.file_to_save(suggested)
        if path is None:
            return False
        return self._write(path if path.suffix else path.with_name(path.name + jobfile.SUFFIX))

    def may_leave(self) -> bool:
        """Whether the job in hand may be put away: it is saved, or the person says so."""
        if self.document.saved:
            return True
        answer = self.asks.keep_changes(self.document.name)
        return self.save() if answer == "save" else answer == "discard"

    def _read(self, path: Path) -> bool:
        went = self._tried(lambda: self.document.open(path))
        if went:
            self.used.emit(str(path))
        return went

    def _write(self, path: Path) -> bool:
        went = self._tried(lambda: self.document.save(path))
        if went:
            self.used.emit(str(path))
        return went

    def _tried(self, do: Callable[[], None]) -> bool:
        try:
            do()
        except jobfile.JobFileError as error:
            self.failed.emit(words.sentence(str(error)))
            return False
        return True
