"""What becomes of the old holes: under the bridge or beside it, cut by the new holes or the slot, and the walls left."""

from collections.abc import Iterator
from typing import Literal

import msgspec
import numpy as np

from geometry.bridge.bridge_outline import outline
from geometry.frame import Array, Points, unit, xy
from geometry.job import Bridge, Job
from geometry.layout import XY, Amount, Gap, HoleFate, OldPlan, Vertex
from geometry.old_work import nearest, plugs
from geometry.old_work.in_all_rows import OldInRows
from geometry.old_work.uncovered import followed
from geometry.units import mm

NOTHING = 1e-9
"""mm. Two middles nearer than this are one."""
Kind = Literal["pin", "hole", "slot"]


class OldHoles(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Old round holes: their names and kinds, middles in all rows (rows, h), radii (h,)."""

    names: tuple[str, ...]
    kinds: tuple[Kind, ...]
    assumed: tuple[bool, ...]
    at: Points
    radius: Array


def old_holes(rows: OldInRows, plan: OldPlan) -> OldHoles | None:
    """The pin holes and the holes of other origin; None where there are none."""
    found = (*plan.pins, *plan.holes)
    if not found:
        return None
    return OldHoles(
        names=tuple(hole.name for hole in found),
        kinds=("pin",) * len(plan.pins) + ("hole",) * len(plan.holes),
        assumed=tuple(hole.assumed for hole in found),
        at=rows.points(hole.name for hole in found),
        radius=np.array([hole.diameter / 2 for hole in found]),
    )


def round_walls(new: Points, new_radius: float, old: Points, old_radius: Array) -> Array:
    """The walls between new round holes (..., p) and old ones (..., h), mm: (..., p, h), less than 0 where they meet.
    The leading axes may be the perturbed states, or places of the bridge to choose from.
    """
    return np.asarray(np.abs(new[..., :, None] - old[..., None, :]) - new_radius - old_radius)


def fates(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> tuple[HoleFate, ...]:
    """What becomes of each old hole and of the old slot."""
    holes = old_holes(rows, plan)
    found = _round(job, rows, holes, bridge) if holes is not None else ()
    return (*found, *_old_slot(job, rows, plan, bridge))


def _round(job: Job, rows: OldInRows, holes: OldHoles, bridge: Bridge) -> tuple[HoleFate, ...]:
    depth, inside_pm95 = _inside(rows, holes.at, bridge)
    walls = [[*at_pins, to_slot] for at_pins, to_slot in zip(_to_pins(job, rows, holes), _to_slot(rows, holes), strict=True)]
    found = []
    for index, name in enumerate(holes.names):
        radius = float(holes.radius[index])
        own = sorted(walls[index], key=lambda gap: gap.mm)
        used = next((gap.new for gap in own if gap.new != "slot" and _takes(bridge, gap, 2 * radius)), "")
        found.append(
            HoleFate(
                hole=name,
                kind=holes.kinds[index],
                under=_under(float(depth[index]), radius),
                inside=Amount(value=float(depth[index]) - radius, pm95=inside_pm95[index]),
                walls=tuple(own),
                cut_by=tuple(gap.new for gap in own if gap.mm <= 0 and gap.new != used),
                used_by=used,
                plug=None if used else plugs.plug_for(2 * radius, job.unit),
                assumed=holes.assumed[index],
            )
        )
    return tuple(found)


def _takes(bridge: Bridge, gap: Gap, diameter: float) -> bool:
    """Whether the new pin hole takes the whole of the old hole away: surely, with what its place is known to."""
    return bridge.pins is not None and gap.mm + diameter + gap.pm95 <= 0


def _under(depth: float, radius: float) -> Literal["covered", "opened", "bare"]:
    return "covered" if depth >= radius else "bare" if depth <= -radius else "opened"


def _inside(rows: OldInRows, at: Points, bridge: Bridge) -> tuple[Array, list[float]]:
    """How far middles (rows, k) lie inside the bridge's edge, and its ±."""
    own, ring = rows.own(at), followed(bridge)
    depth, near = nearest.inside(own[0], ring)
    way = own[0] - near.at(ring, np.roll(ring, -1))
    inward = np.where(depth < 0, -1.0, 1.0) * np.where(np.abs(way) < NOTHING, 1.0, way)
    pm95: list[float] = rows.pm95((own * unit(inward).conj()).real).tolist()
    return depth, pm95


def _to_pins(job: Job, rows: OldInRows, holes: OldHoles) -> list[list[Gap]]:
    """The walls of each old hole to each new pin hole."""
    bridge, strings = job.bridge, job.strings
    if rows.pins is None or bridge is None or bridge.pins is None or strings is None:
        return [[] for _ in holes.names]
    new, radius = rows.pins, mm(bridge.pins.diameter) / 2
    walls = round_walls(new, radius, holes.at, holes.radius)
    apart = (new[:, :, None] - holes.at[:, None, :]).reshape(len(new), -1)
    pm95 = rows.pm95(along(apart)).reshape(walls.shape[1:])
    new_at = new[0].tolist()
    return [
        [
            Gap(
                new=f"pin:{string.name}",
                old=f"point:{name}",
                mm=float(walls[0, pin, hole]),
                pm95=float(pm95[pin, hole]),
                new_xy=xy(new_at[pin]),
                old_xy=xy(complex(holes.at[0, hole])),
            )
            for pin, string in enumerate(strings.list)
        ]
        for hole, name in enumerate(holes.names)
    ]


def along(apart: Points) -> Array:
    """Vectors (rows, k) measured along what they are in the first row: how far apart, to the first order."""
    first = apart[0]
    return np.asarray((apart * unit(np.where(np.abs(first) < NOTHING, 1.0, first)).conj()).real)


def _to_slot(rows: OldInRows, holes: OldHoles) -> list[Gap]:
    """The wall of each old hole to the slot."""
    return to_slot(rows, holes.at, holes.radius, [f"point:{name}" for name in holes.names])


def to_slot(rows: OldInRows, at: Points, radius: Array, names: list[str]) -> list[Gap]:
    """The wood between round things (rows, k) and the new slot."""
    depth, near = nearest.inside(at[0], rows.slot[0])
    edge = near.at(rows.slot, np.roll(rows.slot, -1, axis=1))
    pm95 = rows.pm95(along(at - edge)).tolist()
    return [
        Gap(new="slot", old=name, mm=float(-depth[k] - radius[k]), pm95=pm95[k], new_xy=xy(edge[0, k]), old_xy=xy(at[0, k]))
        for k, name in enumerate(names)
    ]


def old_slot_corners(job: Job, rows: OldInRows) -> Points | None:
    """The old slot's corners in order round (rows, 4)."""
    slot = job.old.slot if job.old is not None else None
    if slot is None or any(name not in rows.places for name in slot.of):
        return None
    one, other = rows.points(slot.of).T
    half = 1j * unit(other - one) * (mm(slot.width) / 2)
    return np.stack((one + half, one - half, other - half, other + half), axis=1)


def _old_slot(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> Iterator[HoleFate]:
    corners = old_slot_corners(job, rows)
    if corners is None or not plan.slot:
        return
    depth, pm95 = _inside(rows, corners, bridge)
    least = int(depth.argmin())
    under: Literal["covered", "opened", "bare"] = "covered" if depth[least] >= 0 else "opened"
    if depth.max() <= 0 and nearest.parted(corners[0], np.roll(corners[0], -1), followed(bridge)).inside.sum() == 0:
        under = "bare"
    walls = sorted(_walls_of_slot(job, rows, corners), key=lambda gap: gap.mm)
    yield HoleFate(
        hole="old slot",
        kind="slot",
        under=under,
        inside=Amount(value=float(depth[least]), pm95=pm95[least]),
        walls=tuple(walls),
        cut_by=tuple(gap.new for gap in walls if gap.mm <= 0),
    )


def _walls_of_slot(job: Job, rows: OldInRows, corners: Points) -> Iterator[Gap]:
    """The old slot's walls to the new pin holes, and to the new slot."""
    bridge, strings = job.bridge, job.strings
    if rows.pins is not None and bridge is not None and bridge.pins is not None and strings is not None:
        depth, near = nearest.inside(rows.pins[0], corners[0])
        edge = near.at(corners, np.roll(corners, -1, axis=1))
        pm95, radius = rows.pm95(along(rows.pins - edge)).tolist(), mm(bridge.pins.diameter) / 2
        for k, string in enumerate(strings.list):
            at, on = xy(complex(rows.pins[0, k])), xy(complex(edge[0, k]))
            wall = float(-depth[k]) - radius
            yield Gap(new=f"pin:{string.name}", old="old slot", mm=wall, pm95=pm95[k], new_xy=at, old_xy=on)
    yield between(rows, rows.slot, corners, "slot", "old slot")


def between(rows: OldInRows, new: Points, old: Points, named: str, called: str, half: float = 0.0) -> Gap:
    """The wood between two closed outlines (rows, m), less than 0 where one runs into the other; `half` is taken off."""
    new_stop, old_stop = np.roll(new, -1, axis=1), np.roll(old, -1, axis=1)
    to_old, to_new = nearest.inside(new[0], old[0]), nearest.inside(old[0], new[0])
    places = [
        (float(-to_old[0].max()), new, to_old[1].at(old, old_stop), int(to_old[0].argmax())),
        (float(-to_new[0].max()), to_new[1].at(new, new_stop), old, int(to_new[0].argmax())),
    ]
    gap, on_new, on_old, index = min(places, key=lambda place: place[0])
    ends = on_new[:, [index]], on_old[:, [index]]
    if gap > 0 and nearest.parted(new[0], new_stop[0], old[0]).inside.any():
        gap = -min(nearest.narrow(new[0]), nearest.narrow(old[0])) / 2
    pm95 = float(rows.pm95(along(ends[0] - ends[1]))[0])
    return Gap(
        new=named, old=called, mm=gap - half, pm95=pm95, new_xy=xy(complex(ends[0][0, 0])), old_xy=xy(complex(ends[1][0, 0]))
    )


def _unused(_: Vertex | XY) -> None:  # pragma: no cover
    outline
