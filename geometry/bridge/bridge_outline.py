"""Bridge outlines in the bridge's own frame: front to back is +x from the front edge, +y runs to the left wing."""

import math
from functools import lru_cache

from geometry.job import Bridge
from geometry.job.seating import BELLY_REACH
from geometry.layout import Vertex
from geometry.units import mm

BELLY_SHARE = 0.42
"""A belly's depth as a share of the width at the wings, where it is not given (common practice, no source)."""
SEEN = 0.05
"""A belly less deep than this (mm) is a straight edge."""
FOOT = 0.35
"""How much of the belly's curve is the hollow at its foot."""


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
        """Where the hollow of the left side meets the crown."""
        return (
            self.width + self.hollow * (1 - math.cos(self.angle)),
            self.reach - self.hollow * math.sin(self.angle),
        )

    def back_at(self, y: float) -> float:
        """How far back the outline reaches at a place along the bridge."""
        y = abs(y)
        if y >= self.reach:
            return self.width
        if y >= self.joint[1]:
            return self.width + self.hollow - math.sqrt(self.hollow**2 - (self.reach - y) ** 2)
        return self.width + self.depth - self.crown + math.sqrt(self.crown**2 - y**2)


def depth(bridge: Bridge) -> float:
    """How far the belly stands out behind the wings, mm; 0 where there is none."""
    if bridge.outline == "straight":
        return 0.0
    if bridge.belly_depth is not None:
        return mm(bridge.belly_depth)
    return min(BELLY_SHARE * mm(bridge.width), BELLY_REACH * mm(bridge.length))


@lru_cache(maxsize=16)
def belly(bridge: Bridge) -> Belly | None:
    """The bridge's belly, if it has one that can be seen."""
    return Belly(bridge) if depth(bridge) > SEEN else None


@lru_cache(maxsize=16)
def outline(bridge: Bridge) -> tuple[Vertex, ...]:
    """The closed outline, counter-clockwise from the front left corner, with bulges."""
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    wings: tuple[Vertex, ...] = ((0.0, half, 0.0), (0.0, -half, 0.0), (width, -half, 0.0))
    last: Vertex = (width, half, 0.0)
    curve = belly(bridge)
    if curve is None:
        return (*wings, last)
    x, y = curve.joint
    hollow, crown = -math.tan(curve.angle / 4), math.tan(curve.angle / 2)
    return (*wings, (width, -curve.reach, hollow), (x, -y, crown), (x, y, hollow), (width, curve.reach, 0.0), last)


def back_at(bridge: Bridge, y: float) -> float:
    """How far back the bridge reaches at a place along it, mm behind its front edge."""
    curve = belly(bridge)
    return mm(bridge.width) if curve is None else curve.back_at(y)


def tips(bridge: Bridge) -> tuple[complex, complex]:
    """The middle of each wing's end [left, right], in the bridge's own frame."""
    half, middle = mm(bridge.length) / 2, mm(bridge.width) / 2
    return complex(middle, half), complex(middle, -half)
