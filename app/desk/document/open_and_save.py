"""All ways by which a job comes in and goes out (new, open, samples, dropped files, save, closing).

Whatever goes wrong is said in one sentence, and the open job stays as it was.
"""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Literal, Protocol

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app.desk.document.document import Document
from app.file import job_file
from app.say import plain_words, terminal
from geometry.job import Job

Keep = Literal["save", "discard", "stay"]
Outside = Literal["both", "overwrite", "stay"]
"""What to do about a file that was changed outside: keep both, write over it, or nothing."""
FILTER = f"Jobs (*{job_file.SUFFIX});;All files (*)"


class Questions(Protocol):
    """What the person is asked; tests answer in the person's place."""

    def file_to_open(self, beside: Path | None) -> Path | None: ...
    def file_to_save(self, suggested: Path) -> Path | None: ...
    def keep_changes(self, name: str) -> Keep: ...
    def replace(self, name: str, folder: Path) -> bool: ...
    def changed_outside(self, name: str, now: float, before: float | None) -> Outside: ...


class Dialogs:
    """Questions with the platform's own dialogs."""

    def __init__(self, window: QWidget) -> None:
        self.window = window

    def file_to_open(self, beside: Path | None) -> Path | None:
        from app.desk.widgets.qts_dialogs import chosen

        start = str(beside.parent) if beside else ""
        dialog = QFileDialog(self.window, "Open a job", start, FILTER)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        name = chosen(dialog)
        return Path(name) if name else None

    def file_to_save(self, suggested: Path) -> Path | None:
        from app.desk.widgets.qts_dialogs import chosen

        dialog = QFileDialog(self.window, "Save the job", str(suggested.parent), FILTER)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setOption(QFileDialog.Option.DontConfirmOverwrite)  # `JobFiles` asks, about the name in full
        dialog.selectFile(suggested.name)
        name = chosen(dialog)
        return Path(name) if name else None

    def keep_changes(self, name: str) -> Keep:
        button = QMessageBox.StandardButton
        box = question(self.window, f"“{name}” has changes that are not saved.", "Save them first?")
        box.setStandardButtons(button.Save | button.Discard | button.Cancel)
        box.setDefaultButton(button.Save)
        answer = _answered(box)
        return "save" if answer == button.Save else "discard" if answer == button.Discard else "stay"

    def replace(self, name: str, folder: Path) -> bool:
        box = question(self.window, f"There is a file “{name}” in {folder} already.", "Replace it?")
        yes = box.addButton("Replace it", QMessageBox.ButtonRole.DestructiveRole)
        box.setDefaultButton(box.addButton(QMessageBox.StandardButton.Cancel))
        _answered(box)
        return box.clickedButton() is yes

    def changed_outside(self, name: str, now: float, before: float | None) -> Outside:
        box = question(self.window, *say_changed_outside(name, now, before))
        both = box.addButton("Keep both", QMessageBox.ButtonRole.AcceptRole)
        over = box.addButton("Write over it", QMessageBox.ButtonRole.DestructiveRole)
        box.addButton(QMessageBox.StandardButton.Cancel)
        box.setDefaultButton(both)
        _answered(box)
        return "both" if box.clickedButton() is both else "overwrite" if box.clickedButton() is over else "stay"


def question(window: QWidget, text: str, more: str) -> QMessageBox:
    """A box that asks, its words as they are: a job's title is no markup."""
    box = QMessageBox(window)
    box.setIcon(QMessageBox.Icon.NoIcon)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(terminal.shortened(text))
    box.setInformativeText(more)
    return box


def _answered(box: QMessageBox) -> int:
    for each in box.buttons():
        each.setIcon(QIcon())
    answer = box.exec()
    box.deleteLater()  # or each question would stay with the window for as long as that lives
    return answer


def say_changed_outside(name: str, now: float, before: float | None) -> tuple[str, str]:
    """What happened to the file, with both times; and what can be done."""
    since = f", after it was opened or saved here ({plain_words.moment(before)})" if before is not None else ""
    return (
        f"“{name}” was changed by another program or another window ({plain_words.moment(now)}){since}.",
        "Keep both: your work is saved beside it, under another name.",
    )


class JobFiles(QObject):
    """Signals: `failed` and `told` with one sentence; `used` after a job file was opened or saved."""

    failed = Signal(str)
    told = Signal(str)
    used = Signal()

    def __init__(self, document: Document, asks: Questions, parent: QObject | None = None) -> None:
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
        return self.may_leave() and self._tried(lambda: self.document.start(job_file.read(path)))

    def save(self) -> bool:
        path = self.document.path
        if path is None:
            return self.save_as()
        now, seen = self.document.changed_outside(), self.document.seen
        if now is None:
            return self._write(path)
        answer = self.asks.changed_outside(path.name, now.when, seen.when if seen else None)
        if answer == "both":
            beside = job_file.free_beside(path)
            went = self._write(beside)
            if went:
                self.told.emit(f"Saved as “{beside.name}”; “{path.name}” stays as the other program left it.")
            return went
        return answer == "overwrite" and self._write(path)

    def save_as(self) -> bool:
        """Ask for a name until one is free, or its file may be replaced."""
        suggested = self.document.path or Path.home() / job_file.name_for(self.document.name)
        while chosen := self.asks.file_to_save(suggested):
            path = job_file.named(chosen)
            if self.document.path and path.resolve() == self.document.path.resolve():
                return self.save()
            if not os.path.lexists(path) or self.asks.replace(path.name, path.parent):
                return self._write(path)
            suggested = path
        return False

    def may_leave(self) -> bool:
        """Whether the open job may be put away: it is saved, nothing was typed in it, or the person says so."""
        if not self.document.worth_keeping:
            return True
        answer = self.asks.keep_changes(self.document.name)
        return self.save() if answer == "save" else answer == "discard"

    def _read(self, path: Path) -> bool:
        went = self._tried(lambda: self.document.open(path))
        if went:
            self.used.emit()
        return went

    def _write(self, path: Path) -> bool:
        went = self._tried(lambda: self.document.save(path))
        if went:
            self.used.emit()
        return went

    def _tried(self, do: Callable[[], None]) -> bool:
        try:
            do()
        except job_file.JobFileError as error:
            self.failed.emit(plain_words.sentence(str(error)))
            return False
        return True
