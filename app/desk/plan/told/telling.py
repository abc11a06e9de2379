"""Tells Qt whom to ask for what a screen reader is told of a plan."""

from functools import cache

from PySide6.QtCore import QObject
from PySide6.QtGui import QAccessible, QAccessibleInterface

from app.desk.plan.painting.plan_widget import Plan
from app.desk.plan.told.things_on_plan import Thing


def _told(_kind: str, of: QObject) -> QAccessibleInterface | None:
    """What Qt asks for of each object that is told: ours for ours, for all others Qt's own."""
    if not isinstance(of, Plan | Thing):
        return None
    from app.desk.plan.told.told_one_by_one import PlanTold, ThingTold  # the first picture does not wait for it

    return PlanTold(of) if isinstance(of, Plan) else ThingTold(of)


@cache
def tell_plans() -> None:
    """To be called before the first plan is made, for Qt asks once for each object. Once, for Qt keeps each factory."""
    QAccessible.installFactory(_told)
