"""The desk as a person meets it: a real window on a screen that isn't there, with a person's answers ready."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Protocol

import pytest
from PySide6.QtCore import QEvent, QEventLoop, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QWidget
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.card import ROUNDS
from app.desk.cards.sheets.sheets_card import SheetsCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.document.open_and_save import Keep, Outside
from app.desk.document.preferences import Preferences
from app.desk.frame.desk import Desk
from app.desk.frame.window import Frame
from app.desk.widgets import look
from app.desk.widgets.inputs.fields import Field
from app.desk.widgets.made_later import MadeLater
from app.desk.widgets.style_sheet import apply_look
from app.file import job_file, samples, settings
from geometry.job import Job
from tests.app.desk.remembered import Remembered


class Answers:
    """What the person answers when the desk asks."""

    def __init__(self) -> None:
        self.open: Path | None = None
        self.save: Path | None = None
        self.keep: Keep = "discard"
        self.over = True
        self.outside: Outside = "overwrite"
        self.asked: list[str] = []

    def file_to_open(self, _beside: Path | None) -> Path | None:
        self.asked.append("open")
        return self.open

    def file_to_save(self, suggested: Path) -> Path | None:
        self.asked.append(f"save {suggested.name}")
        return self.save

    def keep_changes(self, name: str) -> Keep:
        self.asked.append(f"keep {name}")
        return self.keep

    def replace(self, name: str, _folder: Path) -> bool:
        self.asked.append(f"replace {name}")
        if not self.over:
            self.save = None  # asked for another name, the person gives up
        return self.over

    def changed_outside(self, name: str, now: float, before: float | None) -> Outside:
        self.asked.append(f"outside {name} {before is not None and now >= before - 0.1}")
        return self.outside


@pytest.fixture(scope="session", autouse=True)
def dressed(qapp: QApplication) -> None:
    qapp.setStyle("Fusion")
    look.load_typeface()
    apply_look(look.Look(look.LIGHT))


@pytest.fixture(autouse=True)
def no_window_stays() -> Iterator[None]:
    """A window that a test leaves behind is laid out anew at each change of the style sheet after it; nor do dark
    colours or large text stay, for the style sheet is the application's.
    """
    yield
    for left in QApplication.topLevelWidgets():
        if left.parent() is None:
            left.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    apply_look(look.Look(look.LIGHT))


@pytest.fixture
def answers() -> Answers:
    return Answers()


class OpenDesk(Protocol):
    """Opens the desk on a job, a file or nothing; a job on the card of that name."""

    def __call__(self, what: Job | Path | None = None, card: str = "Measure") -> Desk: ...


REMEMBERED = Remembered()
USUAL = 1280, 800
"""Pixels of the window, wide and high."""


def opened(what: Job | Path | None, card: str, answers: Answers) -> Desk:
    """The desk in a window on the screen, awake."""
    apply_look(look.Look(look.LIGHT))  # a campaign before may have left its own

    def furnish(made: Frame) -> Desk:
        """The job is there, and worked out, before anything is painted: one picture is enough."""
        made.resize(*USUAL)
        desk = Desk(made, made.preferences, answers)
        REMEMBERED.lend(desk)
        if isinstance(what, Path):
            desk.job_files.open_path(what)
        elif what is not None:
            desk.job_files.new(what)
        return desk

    frame = Frame(Preferences(settings.load()), furnish)
    frame.furnish()
    desk = frame.desk
    assert desk is not None
    if isinstance(what, Job) and not desk.cards.is_open(card):
        desk.cards.open(card)  # before anything is painted: no other card need be
    frame.show()
    frame.activateWindow()  # where another window is open the keys would stay there
    if what is not None:
        desk.board.refresh()
    return desk


@pytest.fixture
def open_desk(qtbot: QtBot, answers: Answers, monkeypatch: pytest.MonkeyPatch) -> Iterator[OpenDesk]:
    """Opens the desk on a job, a file or nothing, at 1280 by 800, awake."""
    REMEMBERED.take_place(monkeypatch)
    made: list[Desk] = []

    def open_it(what: Job | Path | None = None, card: str = "Measure") -> Desk:
        desk = opened(what, card, answers)
        qtbot.addWidget(desk.frame)
        made.append(desk)
        return desk

    yield open_it
    for desk in made:
        desk.recovery.drop()
    made.clear()


@cache
def sample(name: str) -> Job:
    """A sample job, read once: an edit makes another. What is worked out of it as it is serves all tests."""
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    REMEMBERED.samples.append(job)
    return job


CARDS = {"strings": "Strings", "bridge": "Bridge", "sheets": "Sheets"}


@pytest.fixture
def desk(open_desk: OpenDesk, request: pytest.FixtureRequest) -> Desk:
    """The desk with a sample job in which nothing is wrong, on the card that the test asks for besides."""
    return open_desk(sample("leaning-neck"), card_asked_for(request))


def card_asked_for(request: pytest.FixtureRequest) -> str:
    """The card whose fixture a test takes; Measure where it takes none."""
    return next((card for name, card in CARDS.items() if name in request.fixturenames), "Measure")


def in_low_window(open_desk: OpenDesk, name: str, text: float) -> Desk:
    """A sample job in the window of a low screen, 1366 by 768, with text so large."""
    desk = open_desk(sample(name))
    desk.frame.resize(1366, 768)
    desk.preferences.set_text(text)
    QApplication.processEvents()
    return desk


def unpainted(desk: Desk) -> Desk:
    """The desk where only places, sizes and words are looked at: what nobody sees need not be painted."""
    desk.frame.setUpdatesEnabled(False)
    return desk


def let_rounds_pass(count: int = 1) -> None:
    """Words that wrap find their height in rounds: all that were begun are over once one that is begun now is."""
    for _ in range(count):
        over: list[bool] = []
        QTimer.singleShot(ROUNDS[-1], lambda over=over: over.append(True))
        while not over:
            QApplication.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
        QApplication.processEvents()


def let_hands_rest(desk: Desk) -> int:
    """What waits for the hands to rest is done at once; returns how much that was."""
    waiting = [timer for timer in desk.frame.findChildren(QTimer) if timer.isActive() and timer.isSingleShot()]
    for timer in waiting:
        timer.stop()
        timer.timeout.emit()
    QApplication.processEvents()
    return len(waiting)


def press(widget: QWidget, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Press a key in a widget."""
    QTest.keyClick(widget, key, held)


def type_into(widget: QWidget, text: str) -> None:
    """Type words into a widget, key by key."""
    QTest.keyClicks(widget, text)


@pytest.fixture
def strings(desk: Desk) -> StringsCard:
    """The Strings card, open."""
    assert isinstance(desk.card, StringsCard)
    return desk.card


@pytest.fixture
def bridge(desk: Desk) -> BridgeCard:
    """The Bridge card, open."""
    assert isinstance(desk.card, BridgeCard)
    return desk.card


@pytest.fixture
def sheets(desk: Desk) -> SheetsCard:
    """The Sheets card, open."""
    assert isinstance(desk.card, SheetsCard)
    return desk.card


def make_whole(card: QWidget) -> None:
    """Make all that a card hides: what is folded away, and rows that the job has no use for. None of it is shown."""
    while waiting := [later for later in card.findChildren(MadeLater) if not later.is_made]:
        for later in waiting:
            later.now()


def field(card: QWidget, name: str) -> Field:
    """The field of that name on a card, seen or not."""
    named = (found for found in card.findChildren(Field) if found.name.text() == name)
    if (found := next(named, None)) is not None:
        return found
    make_whole(card)
    return next(found for found in card.findChildren(Field) if found.name.text() == name)


def fill(found: Field, text: str, *, enter: bool = True) -> None:
    """Type over what stands in a field."""
    found.line.setFocus()
    found.line.selectAll()
    press(found.line, Qt.Key.Key_Delete)
    type_into(found.line, text)
    if enter:
        press(found.line, Qt.Key.Key_Return)


def choose(card: QWidget, name: str, text: str) -> None:
    """Choose by keys, as a person without a mouse does."""
    box = next(found for found in card.findChildren(QComboBox) if found.accessibleName() == name)
    at = box.findText(text)
    assert at >= 0, text
    box.setFocus()
    for _ in range(box.count()):  # what is refused jumps back
        if box.currentIndex() != at:
            press(box, Qt.Key.Key_Down if box.currentIndex() < at else Qt.Key.Key_Up)
