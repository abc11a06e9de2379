"""Random acts on the window: clicks, keys, typing, menus, drags, other jobs, undo, save, export, at any time.

No act may raise, and whatever was done the job can be written, read back, and undone to the one that was opened.
"""

import os
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from unittest import mock

from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QDialog,
    QFileDialog,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from app.desk.cards.table_of_cards import steps
from app.desk.document.preferences import TEXT_SIZES, Preferences
from app.desk.document.working_out import WorkingOut
from app.desk.frame.desk import Desk
from app.desk.frame.window import Frame
from app.desk.widgets import look
from app.desk.widgets.style_sheet import apply_look
from app.file import job_file, samples, settings
from geometry.job import Job
from tests.app.desk.conftest import Answers
from tests.campaign.safe.outcome import HANGS, KEPT, Outcome
from tests.campaign.safe.spoiling import TEXTS

TYPED = ("43.2", "643,5 mm", "25 11/32 in", "12", "0", "-3", "wide", "steel 12-54", "<b>x</b>", *TEXTS[:12])
KEYS = (
    Qt.Key.Key_Tab,
    Qt.Key.Key_Return,
    Qt.Key.Key_Escape,
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
    Qt.Key.Key_Left,
    Qt.Key.Key_Right,
    Qt.Key.Key_Space,
    Qt.Key.Key_Delete,
    Qt.Key.Key_Backspace,
    Qt.Key.Key_Plus,
    Qt.Key.Key_PageDown,
)
NOT_DONE = ("Quit", "Print…", "Open…", "Save as…")
"""Menu lines that end it, or that ask with the platform's own dialogs; the doors are gone through otherwise."""
ROUND = 250
"""Acts after which memory is looked at."""


class Acting:
    """A window, and what can be done to it."""

    def __init__(self, chance: random.Random, folder: Path) -> None:
        self.chance, self.folder = chance, folder
        self.answers = Answers()
        self.frame = Frame(Preferences(settings.load()), self._furnish)
        self.frame.furnish()
        self.frame.resize(1280, 800)
        self.frame.show()
        self.acts: tuple[tuple[int, Callable[[], None]], ...] = (
            (20, self.click),
            (15, self.key),
            (20, self.type),
            (8, self.menu),
            (6, self.mouse),
            (6, self.undo),
            (3, self.redo),
            (2, self.another_job),
            (3, self.save),
            (1, self.export),
            (4, self.card),
            (2, self.appearance),
            (2, self.paste),
            (1, self.check),
        )

    def _furnish(self, frame: Frame) -> Desk:
        return Desk(frame, frame.preferences, self.answers)

    @property
    def desk(self) -> Desk:
        assert self.frame.desk is not None
        return self.frame.desk

    def act(self) -> str:
        """Do something; what it was."""
        weights, acts = zip(*self.acts, strict=True)
        act = self.chance.choices(acts, weights)[0]
        act()
        QApplication.processEvents()
        for window in QApplication.topLevelWidgets():
            if isinstance(window, QDialog) and window.isVisible() and self.chance.random() < 0.1:
                window.close()
        popup = QApplication.activePopupWidget()
        if popup is not None:
            popup.close()
        _sweep()
        return str(act.__name__)

    def _one(self, kind: type[QWidget] | tuple[type[QWidget], ...]) -> QWidget | None:
        """A widget of a kind that can be reached now, in the window or in a dialog that is open."""
        kinds = kind if isinstance(kind, tuple) else (kind,)
        found = [
            widget
            for window in QApplication.topLevelWidgets()
            if window.isVisible()
            for each in kinds
            for widget in window.findChildren(each)
            if widget.isVisible() and widget.isEnabled()
        ]
        return self.chance.choice(found) if found else None

    def click(self) -> None:
        widget = self._one((QAbstractButton, QComboBox, QLineEdit))
        if isinstance(widget, QComboBox):
            widget.setCurrentIndex(self.chance.randrange(widget.count()) if widget.count() else -1)
        elif widget is not None and widget.accessibleName() not in ("Choose the folder",):
            QTest.mouseClick(widget, Qt.MouseButton.LeftButton)

    def key(self) -> None:
        held = self.chance.choice((Qt.KeyboardModifier.NoModifier,) * 3 + (Qt.KeyboardModifier.ShiftModifier,))
        QTest.keyClick(QApplication.focusWidget() or self.desk, self.chance.choice(KEYS), held)

    def type(self) -> None:
        widget = self._one((QLineEdit, QPlainTextEdit)) if self.chance.random() < 0.6 else QApplication.focusWidget()
        if isinstance(widget, QLineEdit | QPlainTextEdit | QAbstractItemView):
            widget.setFocus()
            for sign in self.chance.choice(TYPED)[:40]:  # QTest's own typing knows no more than ASCII
                event = QKeyEvent(QEvent.Type.KeyPress, 0, Qt.KeyboardModifier.NoModifier, sign)
                QApplication.sendEvent(QApplication.focusWidget() or widget, event)
            if self.chance.random() < 0.5:
                QTest.keyClick(QApplication.focusWidget() or widget, Qt.Key.Key_Return)

    def menu(self) -> None:
        actions = [
            action
            for action in self.desk.findChildren(QAction)
            if action.isEnabled() and action.text().replace("&", "") not in NOT_DONE and action.menu() is None
        ]
        self.chance.choice(actions).trigger()

    def mouse(self) -> None:
        board = self.desk.board
        plan = self.chance.choice((board.plan, board.detail))
        a, b = (
            QPoint(self.chance.randrange(max(plan.width(), 1)), self.chance.randrange(max(plan.height(), 1)))
            for _ in range(2)
        )
        button = self.chance.choice((Qt.MouseButton.LeftButton, Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton))
        QTest.mousePress(plan, button, Qt.KeyboardModifier.NoModifier, a)
        QTest.mouseMove(plan, b)
        QTest.mouseRelease(plan, button, Qt.KeyboardModifier.NoModifier, b)
        if self.chance.random() < 0.2:
            QTest.mouseDClick(plan, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, a)

    def undo(self) -> None:
        for _ in range(self.chance.choice((1, 1, 2, 10))):
            self.desk.document.stack.undo()

    def redo(self) -> None:
        self.desk.document.stack.redo()

    def another_job(self) -> None:
        path = self.chance.choice(samples.paths())
        saved = [file for file in self.folder.iterdir() if file.name.endswith(job_file.SUFFIX)]
        match self.chance.randrange(3):
            case 0:
                self.desk.commands.open_sample(str(path))
            case 1 if saved:
                self.desk.job_files.open_path(self.chance.choice(saved))
            case _:
                self.desk.job_files.new(Job())

    def save(self) -> None:
        self.answers.save = self.folder / f"job {self.chance.randrange(4)}"
        self.answers.outside = self.chance.choice(("both", "overwrite", "stay"))
        job = self.desk.document.job
        if self.chance.choice((self.desk.job_files.save, self.desk.job_files.save_as))():
            assert self.desk.document.path is not None
            assert job_file.read(self.desk.document.path) == job, "what was saved is not what was there"

    def export(self) -> None:
        self.desk.exporter.export(self.folder / "sheets", despite_stops=self.chance.random() < 0.5, replace=True)

    def card(self) -> None:
        self.desk.cards.open(self.chance.choice(steps()))

    def appearance(self) -> None:
        preferences = self.desk.preferences
        if self.chance.random() < 0.5:
            preferences.set_theme(self.chance.choice(("light", "dark", "system")))
        else:
            preferences.set_text(self.chance.choice((0.0, *TEXT_SIZES)))
        self.frame.resize(self.chance.randrange(700, 1900), self.chance.randrange(500, 1200))

    def paste(self) -> None:
        QGuiApplication.clipboard().setText("\n".join(self.chance.choices(TYPED, k=3)))
        self.desk.menu_actions["Paste readings"].trigger()

    def check(self) -> None:
        """The job can be kept, and what is shown was worked out of this very job."""
        document = self.desk.document
        assert job_file.decode(job_file.encode(document.job)) == document.job, "it is not read as it was written"
        assert document.fault is None, f"no layout: {document.fault}"
        assert document.layout == WorkingOut().work_out(document.job), "the layout is of another job"

    def end(self) -> None:
        self.desk.recovery.drop()
        self.desk.document.start(self.desk.document.job)  # nothing to be asked about
        self.frame.close()
        self.frame.deleteLater()
        QApplication.processEvents()
        _sweep()


def run(count: int, seed: int) -> Outcome:
    """So many acts on one window."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    app.setStyle("Fusion")
    look.load_typeface()
    apply_look(look.Look(look.LIGHT))
    faults: list[str] = []
    counted: Counter[str] = Counter()
    done = [0, ""]

    def caught(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        while trace is not None and trace.tb_next is not None:
            trace = trace.tb_next
        where = f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace else ""
        faults.append(f"act {done[0]}, after {done[1]}: {kind.__name__}: {str(error)[:200]} ({where})")

    with (
        tempfile.TemporaryDirectory() as folder,
        mock.patch.dict(os.environ, OFFSQUARE_SETTINGS=str(Path(folder) / "settings" / "settings.json")),
        mock.patch.object(QFileDialog, "exec", return_value=0),
        mock.patch.object(sys, "excepthook", caught),
    ):
        acting = Acting(random.Random(seed), Path(folder))
        acting.desk.commands.open_sample(str(samples.paths()[0]))
        memory, longest = [], 0.0
        for number in range(count):
            if number % ROUND == 0:
                memory.append(resident())
            begun = time.perf_counter()
            try:
                done[:] = [number, acting.act()]
                lasted = time.perf_counter() - begun
                longest = max(longest, lasted)
                assert lasted < HANGS, f"the window hangs for {lasted:.1f} s"
            except Exception as error:  # noqa: BLE001  # whatever it is, it is what we look for
                caught(type(error), error, error.__traceback__)
            counted[str(done[1])] += 1
            if len(faults) > KEPT:
                break
        memory.append(resident())
        acting.end()
    counted["ms the longest act"] = round(1000 * longest)
    counted["MB at first"], counted["MB at last"] = memory[0], memory[-1]
    counted[f"MB after {ROUND} acts, when all is loaded"] = memory[min(1, len(memory) - 1)]
    return Outcome(count, tuple(faults), counted)


def _sweep() -> None:
    """Let go of widgets that are done with; a running program's loop does that by itself."""
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def resident() -> int:
    """MB of memory that this process has now; 0 where the system does not say."""
    try:
        pages = int(Path("/proc/self/statm").read_text().split()[1])
    except (OSError, ValueError):
        return 0
    return round(pages * os.sysconf("SC_PAGE_SIZE") / 1e6)
