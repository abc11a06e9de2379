"""The search for garbage waits until the hands rest, and is Python's own again when the program is done."""

import gc
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QObject, Signal
from pytestqt.qtbot import QtBot

from app.desk.document import tidying


class Changes(QObject):
    changed = Signal()


class Circle:
    """Holds itself: only a search finds it."""

    def __init__(self) -> None:
        self.own = self


@pytest.fixture(autouse=True)
def _as_usual() -> Iterator[None]:
    yield
    tidying.as_usual()


def circles() -> int:
    return sum(isinstance(found, Circle) for found in gc.get_objects())


def test_while_the_program_starts_and_while_the_hands_move_nothing_is_looked_for(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tidying, "REST", 30)
    usual = gc.get_threshold()
    tidying.hold_off()
    assert not gc.isenabled()
    owner = Changes()
    tidying.tidy_at_rest(owner.changed, owner)
    assert gc.isenabled()
    for _ in range(10_000):  # derived: over ten times what Python's own threshold bears
        Circle()
    owner.changed.emit()
    assert circles() >= 10_000
    qtbot.waitUntil(lambda: circles() == 0, timeout=3000)
    tidying.as_usual()
    assert gc.get_threshold() == usual
