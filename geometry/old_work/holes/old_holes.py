"""What becomes of old holes: under the bridge or beside it, cut by the new holes or the slot, and the walls left."""

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from geometry.frame import Array, Points, following, unit
from geometry.job import Bridge, Job
from geometry.layout import Amount, Gap, Hole, HoleFate, OldPlan
from geometry.old_work.gaps import nearest, walls
from geometry.old_work.gaps.old_work_states import OldInRows
from geometry.old_work.gaps.uncovered import followed
from geometry.old_work.holes import plugs
from geometry.units import mm

SLOT = "old slot"
"""What the old slot is called among the old holes."""
BULGE = 20.0
"""mm. A body's edge may curve so far out beyond the straight lines between its points (common practice, no source)."""
Under = Literal["covered", "opened", "bare"]


def fates(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge, pins: Sequence[str]) -> tuple[HoleFate, ...]:
    """What becomes of each old hole and of the old slot; `pins` names the new pin holes."""
    return (*_round(job, rows, plan, bridge, pins), *_slot(job, rows, plan, bridge, pins))


def _round(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge, pins: Sequence[str]) -> Iterator[HoleFate]:
    holes: tuple[Hole, ...] = (*plan.pins, *plan.holes)
    if not holes:
        return
    at, radii = rows.points(hole.name for hole in holes), np.array([hole.diameter / 2 for hole in holes])
    names = [f"point:{hole.name}" for hole in holes]
    depth, pm95 = inside_edge(rows, at, bridge)
    to_pins = walls.pins_to_holes(rows, pins, pin_radius(bridge), at, radii, names)
    to_slot = walls.slot_to_holes(rows, at, radii, names)
    off, widest = _off_top(rows, at), plugs.widest_told_alike((hole.diameter for hole in holes), job.unit)
    for index, hole in enumerate(holes):
        gaps = sorted((*to_pins[index], to_slot[index]), key=lambda gap: gap.mm)
        used = next((gap.new for gap in to_pins[index] if gap.mm + hole.diameter + gap.pm95 <= 0), "")
        inside, radius = float(depth[index]), hole.diameter / 2
        yield HoleFate(
            hole=hole.name,
            kind="pin" if index < len(plan.pins) else "hole",
            under="covered" if inside >= radius else "bare" if inside <= -radius else "opened",
            inside=Amount(value=inside - radius, pm95=float(pm95[index])),
            walls=tuple(gaps),
            cut_by=tuple(gap.new for gap in gaps if gap.mm <= 0 and gap.new != used),
            used_by=used,
            plug=None if used else plugs.plug_for(widest[hole.diameter], job.unit),
            assumed=hole.assumed,
            off_top=bool(off[index]),
        )


def _off_top(rows: OldInRows, at: Points) -> NDArray[np.bool_]:
    """Whether places (rows, k) surely lie outside the body, by straight lines between its points."""
    names = rows.body()
    if len(names) < 3:
        return np.zeros(at.shape[1], dtype=bool)
    outside, pm95, _ = walls.hole_to_ring(rows, at, np.zeros(at.shape[1]), rows.points(names))
    return np.asarray(outside > pm95 + BULGE)


def pin_radius(bridge: Bridge) -> float:
    """Half a new pin hole's diameter, mm; 0 for a bridge without."""
    return mm(bridge.pins.diameter) / 2 if bridge.pins is not None else 0.0


def inside_edge(rows: OldInRows, at: Points, bridge: Bridge) -> tuple[Array, Array]:
    """How far places (rows, k) lie inside the bridge's edge, and the ±, both (k,)."""
    own, ring = rows.own(at), followed(bridge)
    depth, near = nearest.inside(own[0], ring)
    off = own[0] - near.at(ring, following(ring))
    way = unit(np.where(np.abs(off) < walls.NOTHING, 1.0, off))
    return depth, rows.pm95((own * way.conj()).real)


def old_slot(job: Job, rows: OldInRows, plan: OldPlan) -> Points | None:
    """The old slot's corners in order round in all rows, (rows, 4)."""
    if job.old is None or job.old.slot is None or not plan.slot:
        return None
    one, other = rows.points(job.old.slot.of).T
    half = 1j * unit(other - one) * (mm(job.old.slot.width) / 2)
    return np.stack((one + half, one - half, other - half, other + half), axis=1)


def _slot(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge, pins: Sequence[str]) -> Iterator[HoleFate]:
    corners = old_slot(job, rows, plan)
    if corners is None:
        return
    depth, pm95 = inside_edge(rows, corners, bridge)
    least = int(depth.argmin())
    gaps: list[Gap] = [
        *walls.pins_to_ring(rows, pins, pin_radius(bridge), corners, SLOT),
        walls.slot_to_ring(rows, corners, SLOT),
    ]
    gaps.sort(key=lambda gap: gap.mm)
    yield HoleFate(
        hole=SLOT,
        kind="slot",
        under=_slot_under(rows.own(corners)[0], depth, bridge),
        inside=Amount(value=float(depth[least]), pm95=float(pm95[least])),
        walls=tuple(gaps),
        cut_by=tuple(gap.new for gap in gaps if gap.mm <= 0),
    )


def _slot_under(own: Points, depth: Array, bridge: Bridge) -> Under:
    under = nearest.parted(own, following(own), followed(bridge)).inside
    return "bare" if not under.any() else "covered" if depth.min() >= 0 and under.all() else "opened"
