"""What a widget paints in words, read from the painter itself."""

from typing import Any

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.desk.plan.painting import plan_widget as plan_module
from app.desk.plan.painting.plan_widget import Plan


class Spy(QPainter):
    """A painter that keeps the words it paints, each with its box in the widget's pixels, and its lines."""

    def __init__(self, *on: Any) -> None:
        super().__init__(*on)
        self.words: dict[str, QRectF] = {}
        self.lines: list[Any] = []

    def drawText(self, *args: Any) -> Any:
        box = args[0] if isinstance(args[0], QRectF) else QRectF(args[0], args[0])
        self.words[args[-1]] = self.worldTransform().mapRect(box)
        return super().drawText(*args)

    def drawLines(self, *args: Any) -> Any:
        self.lines += args[0]
        return super().drawLines(*args)


def words_on(plan: Plan, monkeypatch: pytest.MonkeyPatch) -> dict[str, QRectF]:
    """The words that a plan paints, rulers included, with their boxes."""
    made: list[Spy] = []

    class Kept(Spy):
        def __init__(self, *on: Any) -> None:
            super().__init__(*on)
            made.append(self)

    plan._ground_key = None  # the rulers are painted anew
    with monkeypatch.context() as there:
        there.setattr(plan_module, "QPainter", Kept)
        plan.grab()
    return {words: box for each in made for words, box in each.words.items()}
