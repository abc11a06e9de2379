"""The old work in all perturbed states, so that what stands between it and the new has its ±.

The new bridge and its pin holes lie where their sheet puts them, which hangs on the board alone: how surely it is known
where they belong does not part them from the old work. A saddle's slot that is cut afterwards is cut where it belongs.
"""

from collections.abc import Iterable, Iterator

import msgspec
import numpy as np

from geometry.bridge.laid_bridge import laid, laid_by
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Array, Points, into
from geometry.job import Job
from geometry.layout import OldPlan
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates, Wider
from geometry.rings import numbered, sides_that_cross
from geometry.saddle.saddle_line import Slot


class OldInRows(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Old places and the new bridge as it is laid, all in the neck frame and in all rows (rows, ...). `slots` are the
    corners of what is cut for the saddle, (rows, 4) each.
    """

    places: dict[str, Points]
    front: Points
    tailward: Points
    slots: tuple[Points, ...]
    pins: Points | None
    wider: Wider

    def points(self, names: Iterable[str]) -> Points:
        """Old places by name, (rows, k); a pin hole that is assumed between two others goes by its own name."""
        return np.stack([self.places[name] for name in names], axis=1)

    def body(self) -> list[str]:
        """The body's points in order round it; none where their numbers do not go round it."""
        names = numbered(self.places, "body")
        ring = np.array([self.places[name][0] for name in names])
        return names if sides_that_cross(ring) is None else []

    def own(self, points: Points) -> Points:
        """Places (rows, k) seen in the bridge's own frame."""
        return into(points, self.front, self.tailward)

    def pm95(self, values: Array) -> Array:
        """The ± of worked-out values (rows, ...)."""
        return self.wider.states.pm95(values)


def in_all_rows(
    job: Job, states: PerturbedStates, frame: NeckFrame, plan: OldPlan, seated: SeatedBridge, pins: Points | None
) -> OldInRows:
    """The old work that the plan has, with seam and body."""
    names = tuple(dict.fromkeys(name for name in _named(job, states, plan) if states.has(name)))
    wider = states.with_points(names)
    origin, direction = wider.lifted(frame.origin), wider.lifted(frame.direction)
    seen = into(wider.states.points(names), origin, direction).T if names else np.empty((0, len(origin)), complex)
    places = dict(zip(names, seen, strict=True))
    sheet = laid_by(job.bridge, frame)
    is_cut = job.bridge is not None and job.bridge.slot_front is not None
    front, ahead = laid(sheet, seated.front), laid(sheet, seated.front + seated.tailward)
    slots = [_corners(slot) for slot in seated.slots]
    return OldInRows(
        places=places | _assumed(plan, places),
        front=wider.lifted(front),
        tailward=wider.lifted(ahead - front),
        slots=tuple(wider.lifted(laid(sheet, slot) if is_cut else slot) for slot in slots),
        pins=None if pins is None else wider.lifted(laid(sheet, pins)),
        wider=wider,
    )


def _named(job: Job, states: PerturbedStates, plan: OldPlan) -> Iterator[str]:
    """What of the old work has been read, and the marks that an eye compares the bridge with."""
    yield from (job.old.points if job.old is not None else ())
    yield from (hole.name for hole in (*plan.pins, *plan.holes))
    yield from (metal.name for metal in plan.metal)
    yield from (name for name in states.surveyed.point_at if name.startswith(("seam.", "body.")))


def _corners(slot: Slot) -> Points:
    """A new slot's corners (rows, 4), counter-clockwise from the front left."""
    reach, back = slot.leftward * (slot.length / 2), slot.tailward * slot.thickness
    left, right = slot.middle + reach, slot.middle - reach
    return np.stack((left, right, right + back, left + back), axis=1)


def _assumed(plan: OldPlan, places: dict[str, Points]) -> dict[str, Points]:
    """Pin holes that nobody read, evenly between the two that were."""
    read = [hole.name for hole in plan.pins if not hole.assumed]
    between = [hole.name for hole in plan.pins if hole.assumed]
    if len(read) != 2 or any(name not in places for name in read):
        return {}
    first, last = (places[name] for name in read)
    steps = len(between) + 1
    return {name: first + (last - first) * (step / steps) for step, name in enumerate(between, 1)}
