"""The bridge: seated from the slot, square to the neck, or on the old footprint; its pin holes; the wood that is left.

A **cut** slot comes with the bridge (`slot_front`); otherwise the slot is cut where the saddle line asks for it.
"""

import math

import msgspec
import numpy as np

from geometry.findings import Finding, Grade
from geometry.frame import Array, crossing, dot, normal, unit
from geometry.job import Bridge, Job
from geometry.layout import BridgePlan, Hole, Vertex
from geometry.neck import NeckFrame
from geometry.outline import back_at, outline
from geometry.saddle import Slot, Strung
from geometry.sample import Sample
from geometry.units import mm

WOOD = {
    "front": (3.0, "in front of the slot"),
    "between": (1.5, "between the slot and the pin holes"),
    "behind": (3.0, "behind the pin holes"),
}
"""The least wood in mm that is left as a rule (common practice, no source)."""
MEND = {
    "front": "Move the slot back in the bridge, or make the bridge wider.",
    "between": "Set the pins farther behind the slot, or in a row with it.",
    "behind": "Set the pins nearer to the slot, or make the bridge wider.",
}
FRONT_SHARE = 0.38
"""Bridge front to the slot's middle as a share of the width, where no slot is cut (common practice, no source)."""


class Seated(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The bridge in all rows: the middle of its front edge (rows, 2), its turn to square (rows,), and its slot."""

    front: Array
    turn: Array
    slot: Slot

    @property
    def leftward(self) -> Array:
        """Along the bridge to its left wing, (rows, 2)."""
        return np.stack((-np.sin(self.turn), np.cos(self.turn)), axis=-1)

    @property
    def tailward(self) -> Array:
        """From front to back, (rows, 2)."""
        return np.stack((np.cos(self.turn), np.sin(self.turn)), axis=-1)

    def place(self, back: float, left: float) -> Array:
        """A place in the bridge's own frame, seen in the neck frame, (rows, 2)."""
        return self.front + self.tailward * back + self.leftward * left

    def own(self, points: Array) -> Array:
        """Points (rows, ..., 2) seen in the bridge's own frame."""
        shape = (len(self.front), *([1] * (points.ndim - 2)), 2)
        off = points - self.front.reshape(shape)
        return np.stack((dot(off, self.tailward.reshape(shape)), dot(off, self.leftward.reshape(shape))), axis=-1)


def seat(sample: Sample, job: Job, frame: NeckFrame, bridge: Bridge, wanted: Slot) -> Seated:
    """Seat the bridge the way the job says, in all rows. On an old footprint that is not read it is seated square."""
    wanted_turn = np.arctan2(-wanted.leftward[:, 0], wanted.leftward[:, 1])
    lengthwise, own_turn = _cut_slot(bridge, wanted.length)
    footprint = _old_front(sample, job, frame) if bridge.seat == "old footprint" else None
    if footprint is not None:
        front, turn = footprint
        if bridge.slot_front is None:
            return Seated(front=front, turn=turn, slot=wanted)
    else:
        turn = wanted_turn - own_turn if bridge.seat == "with slot" else np.zeros_like(wanted_turn)
        seated = Seated(front=wanted.middle, turn=turn, slot=wanted)
        front = seated.place(-lengthwise, 0.0)
        if bridge.slot_front is None:
            return Seated(front=front, turn=turn, slot=wanted)
    bare = Seated(front=front, turn=turn, slot=wanted)
    angle = turn + own_turn
    leftward = np.stack((-np.sin(angle), np.cos(angle)), axis=-1)
    slot = msgspec.structs.replace(wanted, middle=bare.place(lengthwise, 0.0), leftward=leftward)
    return Seated(front=front, turn=turn, slot=slot)


def _cut_slot(bridge: Bridge, length: float) -> tuple[float, float]:
    """Front edge to the slot's middle, and the slot's angle in the bridge."""
    if bridge.slot_front is None:
        return FRONT_SHARE * mm(bridge.width), 0.0
    left, right = mm(bridge.slot_front.left), mm(bridge.slot_front.right)
    return (left + right) / 2, -math.atan((left - right) / length)


def _old_front(sample: Sample, job: Job, frame: NeckFrame) -> tuple[Array, Array] | None:
    """The middle and the turn of the old footprint's front edge: of its sides the one nearest the nut."""
    names = job.old.outline if job.old is not None else ()
    if len(names) < 3 or not sample.has(*names):
        return None
    corners = frame.see(sample, *names)
    middles = (corners + np.roll(corners, -1, axis=1)) / 2
    first = int(np.argmin(middles[0, :, 0]))
    a, b = corners[:, first], np.roll(corners, -1, axis=1)[:, first]
    left, right = (a, b) if a[0, 1] > b[0, 1] else (b, a)
    along = unit(left - right)
    return (left + right) / 2, np.arctan2(-along[:, 0], along[:, 1])


def pin_places(seated: Seated, strung: Strung, bridge: Bridge) -> Array | None:
    """Pin hole centres on the strings' paths, in list order in all rows, (rows, n, 2); None for a bridge without."""
    if bridge.pins is None:
        return None
    slot, behind = seated.slot, mm(bridge.pins.behind_slot)
    along = strung.along
    if bridge.pins.row == "slot":
        on, way = slot.middle + slot.tailward * (slot.thickness + behind), slot.leftward
    else:
        treble = crossing(strung.start[:, 0], along[:, 0], slot.middle + slot.tailward * slot.thickness, slot.leftward)
        on, way = treble + seated.tailward * behind, seated.leftward
    return crossing(strung.start, along, on[:, None], way[:, None])


def describe(sample: Sample, job: Job, bridge: Bridge, seated: Seated, pins: Array | None) -> BridgePlan:
    """The bridge as the layout holds it."""
    half, width = mm(bridge.length) / 2, mm(bridge.width)
    front = np.stack((seated.place(0.0, half), seated.place(0.0, -half)), axis=1)
    back = np.stack((seated.place(width, -half), seated.place(width, half)), axis=1)
    holes: tuple[Hole, ...] = ()
    if pins is not None and bridge.pins is not None and job.strings is not None:
        size = mm(bridge.pins.diameter)
        holes = tuple(
            Hole(name=string.name, at=_xy(at), diameter=size)
            for string, at in zip(job.strings.list, pins[0], strict=True)
        )
    return BridgePlan(
        outline=_placed(seated, outline(bridge)),
        corners=(_xy(front[0, 0]), _xy(front[0, 1]), _xy(back[0, 0]), _xy(back[0, 1])),
        pins=holes,
        turn=float(seated.turn[0]),
        front_pm95=_xy(sample.pm95(front[..., 0])),
        wood=wood(bridge, seated, pins),
    )


def _placed(seated: Seated, vertices: tuple[Vertex, ...]) -> tuple[Vertex, ...]:
    ahead, left, at = seated.tailward[0], seated.leftward[0], seated.front[0]
    return tuple((*_xy(at + ahead * x + left * y), bulge) for x, y, bulge in vertices)


def findings(job: Job, plan: BridgePlan) -> tuple[Finding, ...]:
    """Where the wood left around slot and pin holes is thin, or gone."""
    found = []
    for place, (least, where) in WOOD.items():
        left = plan.wood.get(place)
        if left is None or left >= least:
            continue
        if left < 0:
            text = f"There is no wood left {where}: it is cut into by {-left:.1f} mm. {MEND[place]}"
        else:
            text = f"Only {left:.1f} mm of wood stays {where}; {least:g} mm is usual. {MEND[place]}"
        grade: Grade = "stop" if left < 0 else "look"
        found.append(Finding(grade=grade, code=f"wood.{place}", text=text, values={"wood": left}, where="bridge"))
    if job.bridge is not None and job.bridge.seat == "old footprint" and not (job.old and job.old.outline):
        found.append(
            Finding(
                grade="look",
                code="seat.no_footprint",
                text="The bridge is to sit on the old footprint, but its corners are not read; it is drawn square.",
                where="field:bridge.seat",
            )
        )
    return tuple(found)


def wood(bridge: Bridge, seated: Seated, pins: Array | None) -> dict[str, float]:
    """The least wood in mm: in front of the slot, between slot and pin holes, behind the holes (or the slot)."""
    slot = seated.slot
    front, back = seated.own(slot.ends(0.0))[0], seated.own(slot.ends(slot.thickness))[0]
    left = {"front": float(front[:, 0].min())}
    if pins is None or bridge.pins is None:
        left["behind"] = min(back_at(bridge, float(y)) - float(x) for x, y in back)
        return left
    radius = mm(bridge.pins.diameter) / 2
    edge = slot.middle[0] + slot.tailward[0] * slot.thickness
    past = dot(pins[0] - edge, -normal(slot.leftward[0]))
    left["between"] = float(past.min()) - radius
    left["behind"] = min(back_at(bridge, float(y)) - float(x) - radius for x, y in seated.own(pins)[0])
    return left


def _xy(row: Array) -> tuple[float, float]:
    return float(row[0]), float(row[1])
