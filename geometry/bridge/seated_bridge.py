"""A bridge as it is seated, in all rows."""

import msgspec

from geometry.frame import Points
from geometry.saddle.saddle_line import Slot


class SeatedBridge(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The bridge in all rows: the middle of its front edge, its direction from front to back (rows,), its slot, and of
    a saddle of several pieces the slots of its `parts` in list order.
    """

    front: Points
    tailward: Points
    slot: Slot
    parts: tuple[Slot, ...] = ()

    @property
    def slots(self) -> tuple[Slot, ...]:
        """All that is cut for the saddle."""
        return self.parts or (self.slot,)

    @property
    def leftward(self) -> Points:
        """Along the bridge to its left wing, (rows,)."""
        return 1j * self.tailward

    def place(self, back: float, left: float) -> Points:
        """A place in the bridge's own frame, seen in the neck frame, (rows,)."""
        return self.front + self.tailward * complex(back, left)

    def own(self, point: complex) -> complex:
        """A place of the first row seen in the bridge's own frame."""
        return (point - complex(self.front[0])) * complex(self.tailward[0]).conjugate()
