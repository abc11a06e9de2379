"""What the pointer on the plan is doing: its states."""

from collections.abc import Callable

import msgspec

from app.desk.plan.pointing.clicked_places import Placing
from geometry.layout import XY


class Idle(msgspec.Struct, frozen=True):
    """Nothing is going on; `over` is what the pointer is over, `held` the point that keys move."""

    over: str = ""
    held: str = ""


class Dragging(msgspec.Struct, frozen=True):
    """A point is being dragged from where it was pressed; `count` tells one drag from the next."""

    point: str
    last: XY
    count: int


class Pointing(msgspec.Struct, frozen=True):
    """Things are being pointed out one after the other: `says` what each is for; `done` is called with all of them.

    `lines`: whether lines may be pointed at as well as points; things are then named by their marks, `point:nut.left`,
    `seam`. `at`: the thing that keys have walked to, or the pointer is over.
    """

    says: tuple[str, ...]
    done: Callable[[tuple[str, ...]], None]
    lines: bool = False
    got: tuple[str, ...] = ()
    at: str = ""


class DistanceShown(msgspec.Struct, frozen=True):
    """How far it is from one thing to another stands on the plan, and goes with the job: from `a` to `b`, or a distance
    to check, `a`, between its own ends. `at`: what the pointer is over meanwhile.
    """

    a: str
    b: str = ""
    at: str = ""


State = Idle | Dragging | Pointing | Placing | DistanceShown
