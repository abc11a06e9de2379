"""The wood that is left round slot and pin holes, in one line that names the hole it is about."""

import cmath
from itertools import combinations

from app import words
from geometry import units
from geometry.job import Bridge, Job
from geometry.layout import XY, BridgePlan, Layout, SaddlePlan
from geometry.outline import back_at

ALIKE = 0.05
"""Places whose wood differs by less than this, mm, are one as good as the other: no file is finer."""

Left = list[tuple[float, tuple[str, ...]]]
"""What is left at each place, mm, or as much as tells which is the least, and the strings whose holes it lies at."""


def wood(job: Job, layout: Layout | None) -> str:
    """The wood that is left, in one line; nothing where there is no bridge yet."""
    if layout is None or layout.bridge is None or job.bridge is None:
        return ""
    left = layout.bridge.wood
    said = _places(job.bridge, layout.bridge, layout.saddle)
    parts = [f"{units.show(left[key], job.unit)} {where}" for key, where in said.items() if key in left]
    return f"Wood left, {job.unit}: {words.joined(parts)}." if parts else ""


def _places(bridge: Bridge, plan: BridgePlan, saddle: SaddlePlan | None) -> dict[str, str]:
    front = "in front of the slot"
    if saddle is None or not plan.pins:
        return {"front": front, "behind": "behind the slot"}
    between, behind = _least(to_slot(plan, saddle)), _least(to_back(bridge, plan))
    holes = _least(to_next(plan))
    return {
        "front": front,
        "between": f"between the slot and {_holes(between, 'the pins')}",
        "behind": f"behind {_holes(behind, 'the pins')}",
        "holes": f"between {_holes(holes, 'one hole and the next')}",
    }


def to_slot(plan: BridgePlan, saddle: SaddlePlan) -> Left:
    """From the slot's back edge to each hole's middle, square to the edge."""
    right, left = (complex(*corner) for corner in saddle.slot[2:])
    along = (left - right) / abs(left - right)
    return [(((complex(*pin.at) - right) * along.conjugate() * 1j).real, (pin.name,)) for pin in plan.pins]


def to_back(bridge: Bridge, plan: BridgePlan) -> Left:
    """From each hole's middle to the bridge's back."""
    own = {pin.name: _own(plan, pin.at) for pin in plan.pins}
    return [(back_at(bridge, at.imag) - at.real, (name,)) for name, at in own.items()]


def to_next(plan: BridgePlan) -> Left:
    """From each hole's middle to every other one's."""
    pairs = combinations(plan.pins, 2)
    return [(abs(complex(*one.at) - complex(*other.at)), (one.name, other.name)) for one, other in pairs]


def _own(plan: BridgePlan, at: XY) -> complex:
    """A place in the bridge's own frame: from the middle of its front edge to its back, and to its left wing."""
    left, right, *_ = (complex(*corner) for corner in plan.corners)
    return (complex(*at) - (left + right) / 2) * cmath.exp(-1j * plan.turn)


def _least(left: Left) -> tuple[str, ...]:
    """The strings at the one place, or the two, where the least is left; none where most places are alike."""
    if len(left) < 2:
        return ()
    least = min(value for value, _ in left)
    found = [names for value, names in left if value < least + ALIKE]
    if len(found) == 1:
        return found[0]
    return (*found[0], *found[1]) if len(found) == 2 < len(left) and len(found[0]) == 1 else ()


def _holes(names: tuple[str, ...], otherwise: str) -> str:
    if not names:
        return otherwise
    return f"the hole of string {names[0]}" if len(names) == 1 else f"the holes of strings {words.joined(list(names))}"
