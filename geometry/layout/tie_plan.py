"""A tie block as it is worked out: the bar behind the slot, and the holes that the strings are drawn through."""

import msgspec

from geometry.layout.record import XY, Record


class TieHole(Record, frozen=True):
    """A hole through the block along its string: where it goes in at the block's front face and comes out at its back,
    its middle `up` over the bridge's bottom, and `across`, where it comes out from the bridge's middle to the left.
    `leaves`: the string leaves the block from it; else it is the second of two.
    """

    string: str
    front: XY
    back: XY
    up: float
    across: float
    diameter: float
    leaves: bool = True


class BreakOver(Record, frozen=True):
    """How steeply a string goes down from the saddle's peak to its tie hole, degrees, with its ±."""

    degrees: float
    pm95: float


class TiePlan(Record, frozen=True):
    """`corners` are front left, front right, back right, back left; `front_x` and `back_x` lie so far behind the
    bridge's front edge, the ends of the block `left` and `right` of the bridge's middle (mm). `wood` holds the least
    wood: "holes" between the two of a string, "neighbours" between those of two strings, "top" and "bottom" of the
    block, "ends" along it, "slot" from the slot to its face, "behind" from its back to the bridge's. `breaks` maps
    a string to its break angle, where heights are known. `pm95` is the widest ± of a hole at the block's face,
    along the neck and across it.
    """

    corners: tuple[XY, XY, XY, XY]
    front_x: float
    back_x: float
    left: float
    right: float
    height: float
    holes: tuple[TieHole, ...]
    wood: dict[str, float] = msgspec.field(default_factory=dict)
    breaks: dict[str, BreakOver] = msgspec.field(default_factory=dict)
    pm95: XY = (0.0, 0.0)
