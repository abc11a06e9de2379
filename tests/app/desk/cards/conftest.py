"""Tests of the cards take one window after each other where they begin with a sample as it is."""

from collections.abc import Iterator
from typing import Protocol

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from app.desk.frame.desk import Desk
from app.desk.widgets import look
from app.desk.widgets.style_sheet import apply_look
from geometry.job import Job
from tests.app.desk.cards.kept_window import KeptWindow, begin
from tests.app.desk.conftest import REMEMBERED, Answers, OpenDesk, card_asked_for, sample

KEPT = KeptWindow()


class LendDesk(Protocol):
    """Lends the desk on a job, on the card of that name."""

    def __call__(self, job: Job, card: str = "Measure") -> Desk: ...


@pytest.fixture(autouse=True)
def no_window_stays() -> Iterator[None]:
    """No window but the kept one, and that only while test after test takes it: each change of the style sheet would
    lay it out anew.
    """
    KEPT.is_lent = False
    yield
    if not KEPT.is_lent or KEPT.desk is None or KEPT.desk.look != look.Look(look.LIGHT):
        KEPT.put_away()
    kept = KEPT.desk.frame if KEPT.desk is not None else None
    for left in QApplication.topLevelWidgets():
        if left.parent() is None and left is not kept:
            left.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    apply_look(look.Look(look.LIGHT))


@pytest.fixture
def open_desk(open_desk: OpenDesk) -> OpenDesk:
    """A window of the test's own, and no other beside it: the keys might stay there."""
    KEPT.put_away()
    return open_desk


@pytest.fixture
def lend_desk(answers: Answers, monkeypatch: pytest.MonkeyPatch) -> Iterator[LendDesk]:
    """Lends the one window on a job, as new as one that was just opened."""
    REMEMBERED.take_place(monkeypatch)

    def lend(job: Job, card: str = "Measure") -> Desk:
        known = REMEMBERED.is_sample(job)
        desk = KEPT.lend(job if known else sample("leaning-neck"), card if known else "Measure", answers)
        if not known:
            begin(desk, job, card)
        QApplication.processEvents()  # it has the keys by then
        return desk

    yield lend
    if KEPT.desk is not None:
        KEPT.desk.recovery.drop()


@pytest.fixture
def desk(lend_desk: LendDesk, request: pytest.FixtureRequest) -> Desk:
    """The desk with a sample job in which nothing is wrong, on the card that the test asks for besides."""
    return lend_desk(sample("leaning-neck"), card_asked_for(request))
