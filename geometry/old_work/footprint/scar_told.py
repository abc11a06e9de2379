"""The scar, the finish and damaged areas with their ±: how wide and how much shows, what to clear and what to save."""

import numpy as np

from geometry.bridge.bridge_outline import back_at, front_at
from geometry.frame import Points, following, xys
from geometry.job import Bridge, Job
from geometry.layout import XY, Amount, Bared, FrontMoves, OldPlan, ScarAt, ScarSide
from geometry.old_work.footprint.scar import most_bare
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.old_work_states import OldInRows
from geometry.old_work.gaps.uncovered import Uncovered, uncovered
from geometry.old_work.holes.old_holes import inside_edge
from geometry.units import mm

SLOPE = 0.01
"""Over so many mm the slope of a belly is taken."""


def cover(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> Amount | None:
    """How far inside the bridge's edge the old footprint's corners lie, that of them which is the least sure."""
    if job.old is None or len(plan.outline) < 3:
        return None
    depth, pm95 = inside_edge(rows, rows.points(job.old.outline), bridge)
    surely = int((depth - pm95).argmin())
    return Amount(value=float(depth[surely]), pm95=float(pm95[surely]))


def moves(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> FrontMoves | None:
    """How far the front edge moves from the old footprint's: a belly, or its want, is no move."""
    if job.old is None or len(plan.outline) < 3:
        return None
    own = rows.own(rows.points(job.old.outline))
    corners = [int((way * own[0].imag - own[0].real).argmax()) for way in (1.0, -1.0)]
    if corners[0] == corners[1]:
        return None
    half = mm(bridge.length) / 2
    ends = [min(max(float(own[0, at].imag), -half), half) for at in corners]
    back = [front_at(bridge, end) - own[:, at].real for end, at in zip(ends, corners, strict=True)]
    across = -(own[:, corners[0]].imag + own[:, corners[1]].imag) / 2
    left, right, beside = (Amount(value=float(one[0]), pm95=float(rows.pm95(one))) for one in (*back, across))
    return FrontMoves(left=left, right=right, across=beside)


def footprint_pm95(job: Job, rows: OldInRows, plan: OldPlan) -> XY:
    """The ± of the old footprint's corners against the bridge, front to back and along it, the greatest, mm."""
    if job.old is None or len(plan.outline) < 3:
        return 0.0, 0.0
    own = rows.own(rows.points(job.old.outline))
    back, left = (float(rows.pm95(part).max()) for part in (own.real, own.imag))
    return back, left


def scar_sides(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> tuple[ScarSide, ...]:
    """The greatest width on each side by itself."""
    if job.old is None or not plan.scar_widths:
        return ()
    ring = rows.points(job.old.outline)
    own = rows.own(ring)
    found = most_bare([rows.own(_in_rows(piece, rows))[0] for piece in plan.scar], bridge)
    sides = [(side, found[side][0], place) for side in plan.scar_widths for place in found[side][1]]
    at = np.array([place for _, _, place in sides])
    near = nearest.on_line(at, own[0], following(own[0]))
    moves = near.at(own, following(own))
    ways = np.array([_way(side, place, bridge) for side, _, place in sides])
    pm95 = rows.pm95((moves * ways.conj()).real).tolist()
    seen = xys(rows.front[0] + rows.tailward[0] * at)
    told: dict[ScarAt, ScarSide] = {}
    for (side, wide, _), pm, place in zip(sides, pm95, seen, strict=True):
        if side not in told or pm > told[side].widest.pm95:  # of places that are as wide, the one that is known worse
            told[side] = ScarSide(side=side, widest=Amount(value=wide, pm95=pm), at=place)
    return tuple(told.values())


def _in_rows(piece: tuple[tuple[float, float], ...], rows: OldInRows) -> Points:
    """Fixed places of the neck frame, one row of them for each row."""
    return np.broadcast_to(np.array([complex(*at) for at in piece]), (len(rows.front), len(piece)))


def _way(side: str, at: complex, bridge: Bridge) -> complex:
    """The way in the bridge's own frame in which a width grows."""
    if side.endswith("wing"):
        return 1j if side == "left wing" else -1j
    edge, outward = (back_at, 1.0) if side == "back" else (front_at, -1.0)
    slope = (edge(bridge, at.imag + SLOPE) - edge(bridge, at.imag - SLOPE)) / (2 * SLOPE)
    return outward * complex(1.0, -slope)


def wood_and_finish(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> tuple[Uncovered | None, ...]:
    """The old footprint and the bare wood (as the footprint, where its edge was not read) against the bridge."""
    if job.old is None:
        return None, None
    footprint = uncovered(rows, rows.points(job.old.outline), bridge) if len(plan.outline) > 2 else None
    bare = uncovered(rows, rows.points(job.old.bare), bridge) if len(plan.bare) > 2 else footprint
    return footprint, bare


def bared(job: Job, rows: OldInRows, plan: OldPlan, bridge: Bridge) -> tuple[Bared, ...]:
    """How much of each discoloured or damaged area stays uncovered."""
    if job.old is None:
        return ()
    found = {area.name: uncovered(rows, rows.points(job.old.areas[area.name].of), bridge) for area in plan.areas}
    return tuple(Bared(name=name, area=part.bare) for name, part in found.items() if part is not None)
