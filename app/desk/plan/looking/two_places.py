"""Where the plan and the detail stand: side by side or one over the other, so that neither covers the other.

**Enlarged** is how many times the detail's scale is the plan's.
"""

from itertools import product

import msgspec
from PySide6.QtCore import QRect

from app.desk.plan.painting.rulers import edge_of

ENLARGED = 3.0
"""The detail's scale over the plan's, at the least."""
LEAST = 190
"""A picture's shorter side, in pixels at text scale 1, below which words have no room on it; common practice, no
source.
"""
GAP = 8
MARGIN, FOOT = 20, 44
"""Room round the instrument, and at the plan's foot for its scale bar, in pixels."""
CAPTION = 24
"""The strip at the detail's head where its scale is said, in pixels at text scale 1."""
Size = tuple[float, float]


class TwoPlaces(msgspec.Struct, frozen=True):
    """The rooms of both in the board's pixels; None for what is not shown."""

    plan: QRect | None
    detail: QRect | None


def two_places(room: QRect, whole: Size, place: Size, text_scale: float) -> TwoPlaces:
    """The two rooms in which both are seen largest. `whole` and `place`: what the plan and the detail show, wide and
    high in mm as they are turned. Where nothing enlarges the place enough the plan has all the room.
    """
    found = []
    for part, beside in product(range(20, 71, 2), (True, False)):
        both = _split(room, part / 100, beside=beside)
        plan, detail = scale_of_plan(both[0], whole, text_scale), scale_of_detail(both[1], place, text_scale)
        least = min(min(side.width(), side.height()) for side in both)
        if detail >= ENLARGED * plan and least >= LEAST * text_scale:
            found.append((plan * detail, both))
    if not found:
        return TwoPlaces(room, None)
    return TwoPlaces(*max(found, key=lambda each: each[0])[1])


def scale_of_plan(room: QRect, whole: Size, text_scale: float) -> float:
    """Pixels of a millimetre on a plan in this room."""
    around = edge_of(text_scale) + 2 * MARGIN
    return _scale(room.width() - around, room.height() - around - FOOT, whole)


def scale_of_detail(room: QRect, place: Size, text_scale: float) -> float:
    """Pixels of a millimetre on a detail in this room."""
    return _scale(room.width() - 2 * GAP, room.height() - 2 * GAP - CAPTION * text_scale, place)


def _split(room: QRect, part: float, *, beside: bool) -> tuple[QRect, QRect]:
    """The plan's room and, at its right or under it, the detail's with a gap round it."""
    plan, detail = QRect(room), QRect(room)
    if beside:
        plan.setWidth(round(room.width() * (1 - part)))
        detail.setLeft(plan.right() + 1)
    else:
        plan.setHeight(round(room.height() * (1 - part)))
        detail.setTop(plan.bottom() + 1)
    return plan, detail.adjusted(GAP, GAP, -GAP, -GAP)


def _scale(wide: float, high: float, shown: Size) -> float:
    return max(min(wide / shown[0], high / shown[1]), 0.0)
