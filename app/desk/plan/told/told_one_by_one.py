"""The plan as a screen reader meets it: a canvas, and in it, after its own widgets, the things that stand on it."""

from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QAccessible, QAccessibleInterface, QAccessibleObject
from PySide6.QtWidgets import QAccessibleWidget

from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.told.things_on_plan import Thing

Said = QAccessible.Text


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
