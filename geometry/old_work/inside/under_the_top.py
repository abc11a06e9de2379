"""New pin holes and the slot against what lies under the top and in it: braces, the plate, metal."""

from collections.abc import Iterator, Sequence

import numpy as np

from geometry.frame import Array, Points, cross, following, unit, xy
from geometry.job import Bridge, Job
from geometry.layout import BraceLine, Gap, OldPlan
from geometry.old_work.gaps import nearest, walls
from geometry.old_work.gaps.old_work_states import OldInRows
from geometry.old_work.holes.old_holes import pin_radius


def gaps(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge, pins: Sequence[str]) -> Iterator[Gap]:
    """Every new pin hole, and the slot, against every brace, the plate and every piece of metal."""
    if job.old is not None:
        for brace in plan.braces:
            line = rows.points(job.old.braces[brace.name].of)
            yield from _pins_to_brace(rows, pins, pin_radius(bridge), brace, line)
            yield walls.least(_slot_to_brace(rows, slot, brace, line) for slot in rows.slots)
        if len(plan.plate) > 2:
            yield from _in_plate(rows, pins, pin_radius(bridge), rows.points(job.old.plate))
    if plan.metal:
        names = [f"metal:{metal.name}" for metal in plan.metal]
        at, none = rows.points(metal.name for metal in plan.metal), np.zeros(len(plan.metal))
        for found in walls.pins_to_holes(rows, pins, pin_radius(bridge), at, none, names):
            yield from found
        yield from walls.slot_to_holes(rows, at, none, names)


def _pins_to_brace(
    rows: OldInRows, pins: Sequence[str], radius: float, brace: BraceLine, line: Points
) -> Iterator[Gap]:
    if rows.pins is None:
        return
    near = nearest.on_line(rows.pins[0], line[0, :-1], line[0, 1:])
    edge = near.at(line[:, :-1], line[:, 1:])
    off = np.where(near.far < walls.NOTHING, _square(line[0])[near.piece], rows.pins[0] - edge[0])
    pm95 = _pm_along(rows, rows.pins - edge, off)
    for p, pin in enumerate(pins):
        yield Gap(
            new=pin,
            old=f"brace:{brace.name}",
            mm=float(near.far[p]) - brace.width / 2 - radius,
            pm95=float(pm95[p]),
            new_xy=xy(complex(rows.pins[0, p])),
            old_xy=xy(complex(edge[0, p])),
        )


def _slot_to_brace(rows: OldInRows, corners: Points, brace: BraceLine, line: Points) -> Gap:
    """A slot against a brace; where it crosses the brace's middle line, at the crossing."""
    start, stop = line[0, :-1], line[0, 1:]
    slot, slot_stop = corners, following(corners)
    crossed = nearest.parted(start, stop, slot[0])
    if crossed.inside.any():
        part = int(np.flatnonzero(crossed.inside)[0])
        piece, share = int(crossed.edge[part]), float(crossed.low[part] + crossed.high[part]) / 2
        on_old = line[:, [piece]] * (1 - share) + line[:, [piece + 1]] * share
        on_new, far = on_old, 0.0
        moves, off = slot.mean(axis=1)[:, None] - on_old, _square(line[0])[[piece]]
    else:
        to_line, to_slot = nearest.on_line(slot[0], start, stop), nearest.on_line(line[0], slot[0], slot_stop[0])
        if to_line.far.min() < to_slot.far.min():
            k = int(to_line.far.argmin())
            on_new, on_old = slot[:, [k]], to_line.at(line[:, :-1], line[:, 1:])[:, [k]]
        else:
            k = int(to_slot.far.argmin())
            on_new, on_old = to_slot.at(slot, slot_stop)[:, [k]], line[:, [k]]
        far, moves = float(abs(on_new[0, 0] - on_old[0, 0])), on_new - on_old
        off = moves[0]
    return Gap(
        new="slot",
        old=f"brace:{brace.name}",
        mm=far - brace.width / 2,
        pm95=float(_pm_along(rows, moves, off)[0]),
        new_xy=xy(on_new[0, 0]),
        old_xy=xy(on_old[0, 0]),
    )


def _in_plate(rows: OldInRows, pins: Sequence[str], radius: float, plate: Points) -> Iterator[Gap]:
    """How far each pin hole, and the slot's corner that is nearest to it, lies inside the plate's edge."""
    for gap in walls.pins_to_ring(rows, pins, -radius, plate, "plate"):
        yield Gap(new=gap.new, old="plate", mm=-gap.mm, pm95=gap.pm95, new_xy=gap.new_xy, old_xy=gap.old_xy)
    corners = np.concatenate(rows.slots, axis=1)
    depth, pm95, edge = walls.hole_to_ring(rows, corners, np.zeros(corners.shape[1]), plate)
    k = int(depth.argmax())
    at = xy(complex(corners[0, k]))
    yield Gap(new="slot", old="plate", mm=-float(depth[k]), pm95=float(pm95[k]), new_xy=at, old_xy=xy(complex(edge[k])))


def _square(line: Points) -> Points:
    """Square to each piece of a line (m,), (m - 1,)."""
    way = np.diff(line)
    return 1j * way / np.maximum(np.abs(way), walls.NOTHING)


def _pm_along(rows: OldInRows, apart: Points, way: Points) -> Array:
    """The ± of vectors (rows, k) along ways (k,)."""
    return rows.pm95(cross(1j * unit(np.where(np.abs(way) < walls.NOTHING, 1.0, way)), apart) * -1.0)
