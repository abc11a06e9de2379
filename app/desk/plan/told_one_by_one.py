"""The plan as a screen reader meets it: a canvas, and in it, one by one, the things that stand on it.

Qt asks a factory for what it tells of an object; here it gets one that tells a plan's things as children of the plan,
after the plan's own widgets. The objects that stand for the things are kept and used again, for Qt keeps what it was
told of an object as long as the object lives.
"""

from collections.abc import Sequence
from functools import cache
from itertools import zip_longest
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QRect, QRectF
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface, QAccessibleObject
from PySide6.QtWidgets import QAccessibleWidget

from app.desk.plan.plan_widget import Plan

if TYPE_CHECKING:
    from app.say.plan_in_words import Shown

AROUND = 9.0
"""So far (pixels) a thing that is a point is taken to reach: as near as the pointer must come to it."""
Said = QAccessible.Text


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


class PlanTold(QAccessibleWidget):
    """What Qt tells of a plan."""

    def __init__(self, plan: Plan) -> None:
        super().__init__(plan, QAccessible.Role.Canvas)

    def childCount(self) -> int:
        return super().childCount() + len(_plan_of(self).things)

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt: a null pointer
        own = super().childCount()
        if index < own:
            return super().child(index)
        things = _plan_of(self).things
        return QAccessible.queryAccessibleInterface(things[index - own]) if index - own < len(things) else None

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        found = child.object()
        if isinstance(found, Thing):
            things = _plan_of(self).things
            return super().childCount() + things.index(found) if found in things else -1
        return super().indexOfChild(child)

    def childAt(self, x: int, y: int) -> QAccessibleInterface:
        plan = _plan_of(self)
        at = plan.mapFromGlobal(QPoint(x, y))
        under = [thing for thing in plan.things if isinstance(thing, Thing) and thing.box.contains(at)]
        if not under or plan.childrenRegion().contains(at):
            return super().childAt(x, y)
        return QAccessible.queryAccessibleInterface(
            min(under, key=lambda thing: thing.box.width() * thing.box.height())
        )

    def focusChild(self) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt: a null pointer
        plan = _plan_of(self)
        if plan.thing_held is not None and plan.hasFocus():
            return QAccessible.queryAccessibleInterface(plan.thing_held)
        return super().focusChild()


class ThingTold(QAccessibleObject):
    """What Qt tells of a thing on a plan."""

    def __init__(self, thing: Thing) -> None:
        super().__init__(thing)

    @property
    def _thing(self) -> Thing:
        found = self.object()
        assert isinstance(found, Thing)
        return found

    def role(self) -> QAccessible.Role:
        shown = self._thing.shown
        return QAccessible.Role.Graphic if shown is not None and shown.at else QAccessible.Role.Note

    def text(self, which: QAccessible.Text) -> str:
        shown = self._thing.shown
        if shown is None:
            return ""
        return {Said.Name: shown.name, Said.Value: shown.says, Said.Description: shown.says}.get(which, "")

    def state(self) -> QAccessible.State:
        thing, state = self._thing, QAccessible.State()
        in_hand = thing.plan.thing_held is thing
        state.readOnly = True
        state.focusable = state.selectable = thing.of.startswith("point:")
        state.focused, state.selected = in_hand and thing.plan.hasFocus(), in_hand
        state.invisible = thing.shown is None or not thing.plan.isVisible()
        state.offscreen = bool(thing.box.isEmpty() or not thing.plan.area.intersects(thing.box))
        return state

    def rect(self) -> QRect:
        thing = self._thing
        box = thing.box.intersected(thing.plan.area).toAlignedRect()
        return QRect(thing.plan.mapToGlobal(box.topLeft()), box.size()) if not box.isEmpty() else QRect()

    def parent(self) -> QAccessibleInterface:
        return QAccessible.queryAccessibleInterface(self._thing.plan)

    def childCount(self) -> int:
        return 0

    def child(self, _index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt: a null pointer
        return None

    def childAt(self, _x: int, _y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt: a null pointer
        return None

    def indexOfChild(self, _child: QAccessibleInterface) -> int:
        return -1


def _plan_of(told: QAccessibleInterface) -> Plan:
    found = told.object()
    assert isinstance(found, Plan)
    return found


def _told(_kind: str, of: QObject) -> QAccessibleInterface | None:
    """What Qt asks for of each object that is told: ours for ours, for all others Qt's own."""
    if isinstance(of, Plan):
        return PlanTold(of)
    return ThingTold(of) if isinstance(of, Thing) else None


@cache
def tell_plans() -> None:
    """To be called before the first plan is made, for Qt asks once for each object. Once, for Qt keeps each factory."""
    QAccessible.installFactory(_told)
