"""The **document**: the desk's one stateful object. It holds the job, what was worked out of it, and where it is kept.

Every change goes through `edit`, is undone by name, and is told by the signal `changed`; `named` tells of a new name or
saved mark alone.
"""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import msgspec
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from app.edit import edits
from app.file import job_file, samples
from geometry.job import Job, NotAJob
from geometry.layout import Laid, Layout

LayPlaces = Callable[[Job], Laid]


class Undone(NamedTuple):
    """A change that was taken back: its name, the job with it and without, and the card on which it was made."""

    text: str
    with_it: Job
    without: Job
    made_on: str


class _Change(QUndoCommand):
    """One change with the job before and after it. Changes in a row that carry the same `merge` word become one."""

    def __init__(self, document: "Document", text: str, before: Job, after: Job, merge: str) -> None:
        super().__init__(text)
        self._put, self.before, self.after, self.merge = document.put, before, after, merge
        self.made_on = document.on_card
        self.given_up = False

    def undo(self) -> None:
        self._put(self.before)
        self.setObsolete(self.given_up)  # what was never meant is not on offer to be done again

    def redo(self) -> None:
        self._put(self.after)


class Document(QObject):
    """Signals: `changed` after every change of job or layout, `named` after one of path or saved mark;
    `started` when another job is about to come; `placed` as soon as a job is in place, before it is worked out;
    `laid_out` when its places are known but nothing is judged yet: time to paint them, for the eye waits for that.
    """

    changed = Signal()
    named = Signal()
    started = Signal()
    placed = Signal()
    laid_out = Signal()

    def __init__(self, lay_places: LayPlaces, job: Job | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._lay_places = lay_places
        self._awake = False
        self._job = job or Job()
        self._worked: Job | None = None
        self._layout: Layout | None = None
        self._fault: Exception | None = None
        self._path: Path | None = None
        self._seen: job_file.Seen | None = None
        self._kept: Job | None = self._job
        self.from_inside = False
        """Whether what is read from now on is read inside the body: said once, and then so until it is said anew."""
        self.on_card = ""
        """The card on which changes are made: the one that is open."""
        self.stack = QUndoStack(self)
        self.stack.indexChanged.connect(self._moved)
        self.stack.cleanChanged.connect(self._saved_mark_moved)

    @property
    def job(self) -> Job:
        return self._job

    @property
    def layout(self) -> Layout | None:
        """What was worked out of the job; None until the desk is awake, and where the working out failed."""
        return self._layout

    @property
    def fault(self) -> Exception | None:
        """Why there is no layout of this job: a fault of the program, never of the job."""
        return self._fault

    @property
    def path(self) -> Path | None:
        return self._path

    @property
    def saved(self) -> bool:
        """Whether the job is as it was saved or begun, whatever was done and taken back since."""
        return self._job == self._kept

    @property
    def worth_keeping(self) -> bool:
        """Whether anything would be lost with the job: of a new one, or a sample, that only its unit was turned or that
        templates and papers were ticked would not.
        """
        if self.saved:
            return False
        return self._path is not None or self._kept is None or _typed(self._job) != _typed(self._kept)

    @property
    def name(self) -> str:
        """What the document is called: the job's title, else its file's name."""
        if self._job.title:
            return self._job.title
        return job_file.name_of(self._path) if self._path else "Untitled job"

    @property
    def awake(self) -> bool:
        """Whether layouts are worked out."""
        return self._awake

    def wake(self) -> None:
        """Begin to work out layouts; the desk calls this once its first picture is on the screen."""
        if not self._awake:
            self._awake = True
            self._work()

    def work_on(self, card: str) -> None:
        """A card was opened: from now on changes are made there."""
        self.on_card = card

    def edit(self, text: str, job: Job, merge: str = "") -> None:
        """Make `job` the job. `text` names the change; edits in a row with the same `merge` are undone as one.

        Raises `NotAJob` where a text in it holds half a character, which no file can.
        """
        try:
            msgspec.json.encode(job)
        except UnicodeEncodeError:
            raise NotAJob("This text holds half a character, which no file can keep; type that one again") from None
        if job == self._job:
            return
        before, last = self._job, self.stack.command(self.stack.index() - 1)
        if isinstance(last, _Change) and merge and last.merge == merge and not self.stack.isClean():
            before = last.before
            self._take_off()
        made = _Change(self, text, before, job, merge)
        self.stack.push(made)
        if before == job:
            made.given_up = True
            self.stack.undo()

    def _take_off(self) -> None:
        """Undo the last change unseen, for another that holds it too. (The stack's own merging would do as much, but
        the binding never lets go of a change that was merged.)
        """
        self.stack.blockSignals(True)
        self.stack.undo()
        self.stack.blockSignals(False)

    def give_up(self, merge: str) -> None:
        """Take back the last edit if it carries this `merge` word, as Escape does while a value is typed."""
        last = self.stack.command(self.stack.count() - 1) if self.stack.index() == self.stack.count() else None
        if isinstance(last, _Change) and last.merge == merge:
            last.given_up = True
            self.stack.undo()

    def last_undone(self) -> Undone | None:
        """The change that was taken back last; None where there is none."""
        change = self.stack.command(self.stack.index())
        if not isinstance(change, _Change):
            return None
        return Undone(change.text(), change.after, change.before, change.made_on)

    def put(self, job: Job) -> None:
        """Put a job in place; only the undo stack calls this, and nothing in it may fail while the stack is at work."""
        self._job = job

    def _moved(self, _index: int) -> None:
        if self._job is not self._worked:
            self.placed.emit()
            self._work()

    def _work(self) -> None:
        """Work the layout out anew. Where that fails there is none, for the last one is another job's; the job is in
        place all the same, and whoever keeps the program's faults is told.
        """
        self._worked, self._layout, self._fault = self._job, None, None
        if self._awake:
            try:
                laid = self._lay_places(self._job)
                self._layout = laid.layout
                self.laid_out.emit()
                self._layout = laid.judged()
            except Exception as error:  # noqa: BLE001  # the work must go on, whatever the fault
                self._layout, self._fault = None, error
        self.changed.emit()
        if self._fault is not None:
            sys.excepthook(type(self._fault), self._fault, self._fault.__traceback__)

    @property
    def seen(self) -> job_file.Seen | None:
        """How the job's file was when it was last read or written here."""
        return self._seen

    def changed_outside(self) -> job_file.Seen | None:
        """How the job's file is now, where another program, or another window, put something else into it."""
        now = job_file.look(self._path) if self._path else None
        return now if now and (self._seen is None or now.digest != self._seen.digest) else None

    def start(
        self,
        job: Job,
        path: Path | None = None,
        *,
        seen: job_file.Seen | None = None,
        changed_since: bool = False,
    ) -> None:
        """Begin with another job: nothing to undo, saved unless `changed_since` (a recovered job). `seen`: how the file
        at `path` was when the job was read from it. A sample comes without its file: it is saved under another name.
        """
        if path is not None and samples.is_sample(path):
            path = seen = None
        self._seen, self._kept = seen, None if changed_since else job
        self._job, self._worked, self._path, self._layout = job, job, path, None
        self.from_inside = False
        self.started.emit()
        self.stack.clear()
        if changed_since:
            self.stack.resetClean()
        else:
            self.stack.setClean()  # clearing a stack that is empty already leaves its mark as it was
        self.placed.emit()
        self._work()
        self.named.emit()

    def open(self, path: Path) -> None:
        """Open a job file; raises what `jobfile.read` raises, and then leaves everything as it was."""
        job, seen = job_file.load(path)
        self.start(job, path, seen=seen)

    def save(self, path: Path | None = None) -> None:
        """Write the job to `path` or where it came from; raises what `jobfile.write` raises."""
        target = path or self._path
        if target is None:
            raise ValueError("a new job is saved under a name first")
        if samples.is_sample(target):
            raise job_file.JobFileError(f"{target.parent} is the folder of the sample jobs; choose another place")
        self._seen = job_file.write(self._job, target)
        self._path, self._kept = target, self._job
        self.stack.setClean()
        self.named.emit()

    def _saved_mark_moved(self, _clean: bool) -> None:
        self.named.emit()


def _typed(job: Job) -> Job:
    """The job without what is chosen at a glance: the unit, the templates, the paper."""
    return job_file.on_plain_paper(edits.set_unit(job, "mm"))
