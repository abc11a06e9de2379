"""The wood that is left in a bridge round its slot and pin holes."""

import math
from collections.abc import Sequence
from itertools import combinations

from geometry.bridge.bridge_outline import back_at, front_at
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Points
from geometry.job import Bridge
from geometry.units import mm

WOOD = {
    "front": (3.0, "in front of the slot"),
    "between": (1.5, "between the slot and the pin holes"),
    "behind": (3.0, "behind the pin holes"),
    "holes": (2.0, "between one pin hole and the next"),
}
"""The least wood in mm that is left as a rule (common practice, no source)."""
ALIKE = 0.05
"""Places whose wood differs by less than this (mm) are one as good as the other: no file is finer."""


def wood_left(
    bridge: Bridge, seated: SeatedBridge, pins: Points | None, names: Sequence[str]
) -> tuple[dict[str, float], dict[str, tuple[str, ...]]]:
    """The least wood in mm (in front of the slot, between it and the pin holes, behind them or it, and from one hole to
    the next), and the strings at whose holes it is, `names` being those of the pins.
    """
    fronts = [seated.own(at) for slot in seated.slots for at in slot.corners()[:2]]
    left = {"front": min(at.real - front_at(bridge, at.imag) for at in fronts)}
    if pins is None or bridge.pins is None:
        backs = [seated.own(at) for slot in seated.slots for at in slot.corners()[2:]]
        return left | {"behind": min(back_at(bridge, at.imag) - at.real for at in backs)}, {}
    radius = mm(bridge.pins.diameter) / 2
    holes = {name: seated.own(pin) for name, pin in zip(names, pins[0].tolist(), strict=True)}
    places: dict[str, list[Place]] = {
        "between": [(_behind(seated, at) - radius, (name,)) for name, at in holes.items()],
        "behind": [(back_at(bridge, at.imag) - at.real - radius, (name,)) for name, at in holes.items()],
        "holes": [(abs(holes[one] - holes[other]) - 2 * radius, (one, other)) for one, other in combinations(holes, 2)],
    }
    left |= {place: min(found)[0] for place, found in places.items() if found}
    return left, {place: at for place, found in places.items() if (at := _where_least(found))}


def _behind(seated: SeatedBridge, at: complex) -> float:
    """How far a place of the bridge lies behind the slot before it, square to that: behind the one slot carried on at
    its ends; of several, behind that which is nearest to it.
    """
    slots = [tuple(map(seated.own, slot.corners())) for slot in seated.slots]
    ways = [(fr - fl) * 1j / slot.length for slot, (fl, fr, _, _) in zip(seated.slots, slots, strict=True)]
    off = [((at - corners[2]) * way.conjugate()).real for way, corners in zip(ways, slots, strict=True)]
    if len(off) == 1:
        return off[0]
    beside = [max(corners[2].imag - at.imag, at.imag - corners[3].imag, 0.0) for corners in slots]
    return min(math.hypot(max(far, 0.0), wide) if wide else far for far, wide in zip(off, beside, strict=True))


Place = tuple[float, tuple[str, ...]]
"""Wood at one place, mm, and the strings whose holes it lies at."""


def _where_least(places: list[Place]) -> tuple[str, ...]:
    """The strings at the one place, or the two, with the least wood; none where more of them are alike."""
    least = min((left for left, _ in places), default=0.0)
    found = [names for left, names in places if left < least + ALIKE]
    if len(places) < 2 or len(found) > 2 or len(found) == len(places):
        return ()
    return (
        tuple(dict.fromkeys(name for names in found for name in names)) if len(found[0]) < 2 or len(found) < 2 else ()
    )
