"""The bridge: seated from the slot, square to the neck, or on the old footprint; its pin holes; the wood that is left.

A **cut** slot comes with the bridge (`slot_front`); otherwise the slot is cut where the saddle line asks for it.
"""

import cmath
import math
from collections.abc import Callable, Sequence
from itertools import combinations

import msgspec
import numpy as np

from geometry import words
from geometry.bridge.bridge_outline import back_at, corners, front_at, outline
from geometry.bridge.footprint_front import front_of
from geometry.findings import Finding, Grade
from geometry.frame import Array, Points, crossing, xy, xys
from geometry.job import Bridge, Job, Strings
from geometry.layout import XY, BridgePlan, Hole, OldPlan
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import in_pairs
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.in_pieces.pieces import Piece
from geometry.saddle.saddle_line import Slot, Strung
from geometry.units import mm, said

WOOD = {
    "front": (3.0, "in front of the slot"),
    "between": (1.5, "between the slot and the pin holes"),
    "behind": (3.0, "behind the pin holes"),
    "holes": (2.0, "between one pin hole and the next"),
}
"""The least wood in mm that is left as a rule (common practice, no source)."""
ALIKE = 0.05
"""Places whose wood differs by less than this (mm) are one as good as the other: no file is finer."""
NO_WOOD = 0.01
"""Less wood than this (mm) is none."""
MEND = {
    "front": "Move the slot back in the bridge, or make the bridge wider.",
    "between": "Set the pins farther behind the slot, or in a row with it.",
    "behind": "Set the pins nearer to the slot, or make the bridge wider.",
    "holes": "Make the spread wider, the holes smaller, or set the second row farther behind.",
}
TURNED = 2.0
"""Where its ends differ by less than this, mm, a turned bridge is not spoken of: an eye sees more (common practice)."""
THROUGH = 0.5
"""How far a slanted slot that is cut through at its ends may reach past the bridge's at a corner, mm (common
practice, no source)."""
FRONT_SHARE = 0.38
"""Bridge front to the slot's front as a share of the width, where no slot is cut (common practice, no source)."""


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


def seat(states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, wanted: Slot) -> SeatedBridge:
    """Seat the bridge the way the job says, in all rows. On an old footprint that is not read it is seated square.
    What is moved on purpose is moved from there.
    """
    seated, moved = _seat(states, job, frame, bridge, wanted), bridge.moved
    if moved is None:
        return seated
    # strings that go across take a bridge along that is seated from them; the old footprint stays
    aside = 1j * mm(moved.across) if bridge.seat == "old footprint" else 0j
    goes = bridge.slot_front is not None or moved.slot == "goes along"
    return move(seated, mm(moved.along) + aside, math.radians(moved.turn), slot_goes=goes)


def move(seated: SeatedBridge, by: complex, turn: float, *, slot_goes: bool) -> SeatedBridge:
    """A seated bridge moved `by` so much and turned (radians) about its slot's middle, with its slot or without."""
    spin, pivot = cmath.exp(1j * turn), seated.slot.middle
    slot = msgspec.structs.replace(seated.slot, middle=pivot + by, leftward=seated.slot.leftward * spin)
    return SeatedBridge(
        front=pivot + by + (seated.front - pivot) * spin,
        tailward=seated.tailward * spin,
        slot=slot if slot_goes else seated.slot,
    )


def _seat(states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, wanted: Slot) -> SeatedBridge:
    lengthwise, own = _cut_slot(bridge, wanted.length)
    front = _old_front(states, job, frame) if bridge.seat == "old footprint" else None
    if front is None:
        tailward = wanted.tailward / own if bridge.seat == "with slot" else np.ones_like(wanted.middle)
        middle = wanted.middle - tailward * lengthwise
    else:
        middle, tailward = front
    if bridge.slot_front is None:
        return SeatedBridge(front=middle, tailward=tailward, slot=wanted)
    slot = msgspec.structs.replace(wanted, middle=middle + tailward * lengthwise, leftward=1j * tailward * own)
    return SeatedBridge(front=middle, tailward=tailward, slot=slot)


def _cut_slot(bridge: Bridge, length: float) -> tuple[float, complex]:
    """Front edge to the slot's middle, and the slot's own turn in the bridge, as a unit number."""
    if bridge.slot_front is None:
        given = bridge.front_to_slot
        return (FRONT_SHARE * mm(bridge.width) if given is None else mm(given)), 1.0
    left, right = mm(bridge.slot_front.left), mm(bridge.slot_front.right)
    lean = complex(length, right - left)
    return (left + right) / 2, lean / abs(lean)


def _old_front(states: PerturbedStates, job: Job, frame: NeckFrame) -> tuple[Points, Points] | None:
    """The middle of the old footprint's front edge (its side nearest the nut), and the direction square to it."""
    names = job.old.outline if job.old is not None else ()
    if len(names) < 3 or not states.has(*names):
        return None
    front = front_of(frame.see(states, *names))
    return front.middle, -1j * front.leftward


def pin_places(
    seated: SeatedBridge, strung: Strung, bridge: Bridge, strings: Strings, pieces: tuple[Piece, ...]
) -> Points | None:
    """Pin hole centres on the strings' paths, in list order in all rows, (rows, n), each behind its own piece's slot;
    None for a bridge without.
    """
    if bridge.pins is None:
        return None
    along, pins = strung.along, bridge.pins
    behind = mm(pins.behind_slot) + mm(pins.second_row) * np.array([False, *in_pairs(strings)])
    if pins.row == "slot":
        on, way, square = (_for_each(pieces, of) for of in (_back, lambda slot: slot.leftward, lambda s: s.tailward))
    else:
        first = pieces[0].slot
        at = crossing(strung.start[:, 0], along[:, 0], _back(first), first.leftward)
        on, way, square = (one[:, None] for one in (at, seated.leftward, seated.tailward))
    return crossing(strung.start, along, on + square * behind, way)


def _back(slot: Slot) -> Points:
    """The middle of a slot's back edge, (rows,)."""
    return slot.middle + slot.tailward * slot.thickness


def _for_each(pieces: tuple[Piece, ...], of: Callable[[Slot], Points]) -> Points:
    """What each string's own slot has, (rows, n); of one slot (rows, 1)."""
    found = [of(piece.slot)[:, None] for piece in pieces]
    if len(pieces) == 1:
        return found[0]
    return np.concatenate(
        [np.repeat(one, piece.run[1] - piece.run[0], axis=1) for one, piece in zip(found, pieces, strict=True)], axis=1
    )


def describe(
    states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, seated: SeatedBridge, pins: Points | None
) -> BridgePlan:
    """The bridge as the layout holds it."""
    at, ahead = complex(seated.front[0]), complex(seated.tailward[0])
    placed = np.array([seated.place(*corner) for corner in corners(bridge)]).T
    fl, fr, br, bl = xys(placed[0])
    pms = pm95s(states, frame, placed if pins is None else np.concatenate((placed, pins), axis=1))
    holes: tuple[Hole, ...] = ()
    if pins is not None and bridge.pins is not None and job.strings is not None:
        size = mm(bridge.pins.diameter)
        holes = tuple(
            Hole(name=string.name, at=pin, diameter=size)
            for string, pin in zip(job.strings.list, xys(pins[0]), strict=True)
        )
    names = [hole.name for hole in holes]
    left, at_holes = wood_left(bridge, seated, pins, names)
    return BridgePlan(
        outline=tuple((*xy(at + ahead * complex(x, y)), bulge) for x, y, bulge in outline(bridge)),
        corners=(fl, fr, br, bl),
        pins=holes,
        turn=cmath.phase(ahead),
        front_pm95=(pms[0][0], pms[1][0]),
        wood=left,
        wood_at=at_holes,
        corners_pm95=pms[:4],
        pins_pm95=pms[4:],
        across_checked=states.checked(across(frame, placed)),
    )


def pm95s(states: PerturbedStates, frame: NeckFrame, points: Points) -> tuple[XY, ...]:
    """The ± of points (rows, k): along the neck, and across it from the middle between the edge lines carried on, for
    that is what a template is laid to, whichever line is called the neck centre line.
    """
    found = states.pm95(np.concatenate((points.real, across(frame, points)), axis=1)).tolist()
    return tuple(zip(found[: len(found) // 2], found[len(found) // 2 :], strict=True))


def across(frame: NeckFrame, points: Points) -> Array:
    """How far points (rows, k) lie across the neck from the middle between the edge lines, mm."""
    slopes = frame.edge_way.imag / frame.edge_way.real
    slope, at_nut = slopes.sum(axis=1) / 2, (frame.edge.imag - slopes * frame.edge.real).sum(axis=1) / 2
    return np.asarray(points.imag - at_nut[:, None] - slope[:, None] * points.real)


def findings(job: Job, bridge: Bridge, plan: BridgePlan, old: OldPlan) -> tuple[Finding, ...]:
    """Where the wood left around slot and pin holes is thin, or gone; a bridge that turns, or lacks its footprint."""
    found = [_thin(job, place, plan, bridge) for place, left in plan.wood.items() if left < WOOD[place][0]]
    turned = -mm(bridge.length) * math.sin(plan.turn)
    if abs(turned) > TURNED:
        farther = "bass" if (turned > 0) == (job.bass == "left") else "treble"
        found.append(
            Finding(
                grade="good" if job.frets.slanted and bridge.seat == "with slot" else "look",
                code="bridge.turned",
                text=f"The bridge stands turned: its {farther} end lies {said(abs(turned), job.unit)} farther from the "
                f"nut than the other, {abs(math.degrees(plan.turn)):.1f}° out of square to the neck.",
                values={"mm": turned, "degrees": math.degrees(plan.turn)},
                where="bridge",
            )
        )
    if bridge.outline == "traced" and not bridge.traced:
        found.append(
            Finding(
                grade="look",
                code="bridge.untraced",
                text="The bridge's outline is to be a traced one, but none is traced yet: read it from a file. Until "
                "then the bridge is drawn straight.",
                where="field:bridge.outline",
            )
        )
    if bridge.seat == "old footprint" and len(old.outline) < 3:
        found.append(
            Finding(
                grade="look",
                code="seat.no_footprint",
                text="The bridge is to sit on the old footprint, but the footprint's corners are not known "
                "yet. Until then the bridge is drawn square to the neck.",
                where="field:bridge.seat",
            )
        )
    return tuple(found)


def too_short(job: Job, bridge: Bridge, seated: SeatedBridge, pins: Points | None) -> tuple[Finding, ...]:
    """A slot or a pin hole that runs out past the bridge's ends."""
    slot = max(abs(seated.own(corner).imag) for one in seated.slots for corner in one.corners())
    holes, radius = (pins[0].tolist(), mm(bridge.pins.diameter) / 2) if pins is not None and bridge.pins else ([], 0.0)
    pin = max((abs(seated.own(hole).imag) + radius for hole in holes), default=0.0)
    past = max(slot, pin) - mm(bridge.length) / 2
    if past < THROUGH:
        return ()
    runs = "A slot runs" if slot >= pin and seated.parts else "The slot runs" if slot >= pin else "The pin holes run"
    mend = "Make the slot shorter or the bridge longer" if slot >= pin else "Make the bridge longer"
    return (
        Finding(
            grade="stop",
            code="bridge.short",
            text=f"{runs} {said(past, job.unit)} past the bridge's end. {mend}; look at the spread at the saddle too.",
            values={"mm": past},
            where="bridge",
        ),
    )


def where_left(place: str, plan: BridgePlan) -> str:
    """Where wood is left, in words that name the holes it is about."""
    names = plan.wood_at.get(place, ())
    if place == "behind" and not plan.pins:
        return "behind the slot"
    if not names:
        return WOOD[place][1]
    holes = f"the hole{'s' if len(names) > 1 else ''} of {words.strings(names)}"
    return {"between": "between the slot and", "behind": "behind", "holes": "between"}[place] + f" {holes}"


def _thin(job: Job, place: str, plan: BridgePlan, bridge: Bridge) -> Finding:
    left, least, where, mend = plan.wood[place], WOOD[place][0], where_left(place, plan), MEND[place]
    if place == "behind" and bridge.pins is None:
        mend = "Move the slot forward in the bridge, or make the bridge wider."
    gone = left < NO_WOOD
    if gone:
        text = f"There is no wood left {where}: it is cut into by {said(max(-left, 0.0), job.unit)}. {mend}"
    else:
        text = f"Only {said(left, job.unit)} of wood stays {where}; {said(least, job.unit)} is usual. {mend}"
    grade: Grade = "stop" if gone else "look"
    return Finding(grade=grade, code=f"wood.{place}", text=text, values={"wood": left}, where="bridge")


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
