"""The things that stand on a plan, one by one, as they are told to who can't see them.

The objects that stand for the things are kept and used again, for Qt keeps what it was told of an object as long as the
object lives.
"""

from collections.abc import Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QRectF
from PySide6.QtGui import QAccessible, QAccessibleEvent

from app.desk.plan.painting.plan_widget import Plan

if TYPE_CHECKING:
    from app.say.plan.plan_in_words import Shown

AROUND = 9.0
"""So far (pixels) a thing that is a point is taken to reach: as near as the pointer must come to it."""


class Thing(QObject):
    """One thing on a plan; `shown` is None while it stands for nothing."""

    def __init__(self, plan: Plan) -> None:
        super().__init__(plan)
        self.plan = plan
        self.shown: Shown | None = None

    @property
    def of(self) -> str:
        """What its mark stands for."""
        return self.shown.of if self.shown is not None else ""

    @property
    def box(self) -> QRectF:
        """Where it stands on the plan, in pixels; empty where it has no place."""
        at = [self.plan.to_pixels(xy) for xy in self.shown.at] if self.shown is not None else []
        if not at:
            return QRectF()
        xs, ys = [spot.x() for spot in at], [spot.y() for spot in at]
        box = QRectF(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
        return box.adjusted(-AROUND, -AROUND, AROUND, AROUND)


class ThingsOnPlan:
    """The things that a plan shows, as the job and the hand change."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self._all: list[Thing] = []

    def show(self, things: "Sequence[Shown]", held: str) -> None:
        """Let these stand on the plan; `held`: what the mark in hand stands for. A new one in hand is told at once."""
        plan, before = self.plan, self.plan.thing_held
        told = before.shown if isinstance(before, Thing) else None
        self._all.extend(Thing(plan) for _ in range(len(things) - len(self._all)))
        for thing, shown in zip_longest(self._all, things):
            thing.shown = shown
        plan.things = row = self._all[: len(things)]
        plan.thing_held = now = next((thing for thing in row if held and thing.of == held), None)
        if now is not None and now.shown != told and plan.hasFocus() and QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleEvent(now, QAccessible.Event.Focus))
