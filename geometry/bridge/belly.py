"""A belly's curve: how far it stands out, and where its arcs begin and end."""

import math
from functools import lru_cache

from geometry.job import Bridge
from geometry.job.seating import BELLY_REACH
from geometry.units import mm

BELLY_SHARE = 0.42
"""A belly's depth as a share of the width at the wings, where it is not given (common practice, no source)."""
SEEN = 0.05
"""What stands out less than this (mm) is a straight edge."""
FOOT = 0.35
"""How much of the belly's curve is the hollow at its foot."""
STANDS_OUT = ("belly", "reversed belly", "stepped wings", "tapered wings")
"""The outlines whose middle stands out, behind the wings or, reversed, before them."""


class Belly:
    """The belly's curve: hollow arcs at its feet, a round arc at its crown, tangent to the wings and to each other.

    Half-reach a, depth h and the arcs' radii hold a = (R + r) sin φ and h = (R + r)(1 − cos φ), derived.
    """

    def __init__(self, bridge: Bridge) -> None:
        self.width, self.depth = mm(bridge.width), depth(bridge)
        self.reach = BELLY_REACH * mm(bridge.length)
        self.angle = 2 * math.atan2(self.depth, self.reach)
        both = self.reach / math.sin(self.angle)
        self.hollow, self.crown = FOOT * both, (1 - FOOT) * both

    @property
    def joint(self) -> tuple[float, float]:
        """Where the hollow of the left side meets the crown: behind the bridge's front, and from its middle."""
        return (
            self.width + self.hollow * (1 - math.cos(self.angle)),
            self.reach - self.hollow * math.sin(self.angle),
        )

    def out_at(self, y: float) -> float:
        """How far it stands out from the wings' edge at a place along the bridge."""
        y = abs(y)
        if y >= self.reach:
            return 0.0
        if y >= self.joint[1]:
            return self.hollow - math.sqrt(self.hollow**2 - (self.reach - y) ** 2)
        return self.depth - self.crown + math.sqrt(self.crown**2 - y**2)


def depth(bridge: Bridge) -> float:
    """How far the middle stands out from the wings' edge, mm; 0 where it does not."""
    if bridge.outline not in STANDS_OUT:
        return 0.0
    if bridge.belly_depth is not None:
        return mm(bridge.belly_depth)
    return min(BELLY_SHARE * mm(bridge.width), BELLY_REACH * mm(bridge.length))


@lru_cache(maxsize=64)
def belly(bridge: Bridge) -> Belly | None:
    """The bridge's belly, if it has one that can be seen."""
    return Belly(bridge) if bridge.outline in ("belly", "reversed belly") and depth(bridge) > SEEN else None
