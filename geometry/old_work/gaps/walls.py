"""The wood between what is new (pin holes, slot) and what is old, in mm, with the ± of where both lie.

A gap's ± is taken along the way from the one to the other, as they lie: to the first order. It is too small only where
two middles all but coincide, and there nobody asks how thick the wall is.
"""

from collections.abc import Iterable, Sequence

import numpy as np

from geometry.frame import Array, Points, following, unit, xy
from geometry.layout import Gap
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.old_work_states import OldInRows

NOTHING = 1e-9
"""mm. Two places nearer than this are one."""


def round_walls(new: Points, new_radius: float, old: Points, old_radius: Array) -> Array:
    """The walls between new round holes (..., p) and old ones (..., h), mm: (..., p, h), less than 0 where they meet.
    The leading axes may be the perturbed states, or places of the bridge to choose from.
    """
    return np.asarray(np.abs(new[..., :, None] - old[..., None, :]) - new_radius - old_radius)


def along(apart: Points) -> Array:
    """Vectors (rows, k) measured along what they are in the first row."""
    first = apart[0]
    return np.asarray((apart * unit(np.where(np.abs(first) < NOTHING, 1.0, first)).conj()).real)


def hole_to_ring(rows: OldInRows, at: Points, radius: Array, ring: Points) -> tuple[Array, Array, Points]:
    """From round holes (rows, k) to a closed outline (rows, m), less than 0 where they run into it, the ±, and the
    nearest places of the outline, all (k,).
    """
    depth, near = nearest.inside(at[0], ring[0])
    edge = near.at(ring, following(ring))
    return -depth - radius, rows.pm95(along(at - edge)), edge[0]


def pins_to_holes(
    rows: OldInRows, pins: Sequence[str], radius: float, at: Points, radii: Array, names: Sequence[str]
) -> list[list[Gap]]:
    """The walls of each old hole (rows, h) to each new pin hole; none where there are no pins."""
    if rows.pins is None:
        return [[] for _ in names]
    apart = (rows.pins[:, :, None] - at[:, None, :]).reshape(len(at), -1)
    walls = round_walls(rows.pins[0], radius, at[0], radii).tolist()
    pm95 = rows.pm95(along(apart)).reshape(-1, len(names)).tolist()
    new, old = rows.pins[0].tolist(), at[0].tolist()
    return [
        [
            Gap(new=pin, old=name, mm=walls[p][h], pm95=pm95[p][h], new_xy=xy(new[p]), old_xy=xy(old[h]))
            for p, pin in enumerate(pins)
        ]
        for h, name in enumerate(names)
    ]


def slot_to_holes(rows: OldInRows, at: Points, radii: Array, names: Sequence[str]) -> list[Gap]:
    """The wall of each old hole (rows, h) to the new slot; of several, to the nearest."""
    old, of_all = at[0].tolist(), []
    for slot in rows.slots:
        walls, pm95, edge = (found.tolist() for found in hole_to_ring(rows, at, radii, slot))
        of_all.append(
            [
                Gap(new="slot", old=name, mm=walls[h], pm95=pm95[h], new_xy=xy(edge[h]), old_xy=xy(old[h]))
                for h, name in enumerate(names)
            ]
        )
    return [least(gaps) for gaps in zip(*of_all, strict=True)]


def least(gaps: Iterable[Gap]) -> Gap:
    """The thinnest."""
    return min(gaps, key=lambda gap: gap.mm)


def pins_to_ring(rows: OldInRows, pins: Sequence[str], radius: float, ring: Points, called: str) -> list[Gap]:
    """The wall of each new pin hole to an old closed outline (rows, m)."""
    if rows.pins is None:
        return []
    walls, pm95, edge = (found.tolist() for found in hole_to_ring(rows, rows.pins, np.array(radius), ring))
    new = rows.pins[0].tolist()
    return [
        Gap(new=pin, old=called, mm=walls[p], pm95=pm95[p], new_xy=xy(new[p]), old_xy=xy(edge[p]))
        for p, pin in enumerate(pins)
    ]


def slot_to_ring(rows: OldInRows, ring: Points, called: str) -> Gap:
    """The wall between the new slot and an old closed outline (rows, m); of several, the nearest."""
    return least(_slot_to_ring(rows, slot, ring, called) for slot in rows.slots)


def _slot_to_ring(rows: OldInRows, new: Points, ring: Points, called: str) -> Gap:
    new_stop, old_stop = following(new), following(ring)
    (in_old, to_old), (in_new, to_new) = nearest.inside(new[0], ring[0]), nearest.inside(ring[0], new[0])
    if in_old.max() > in_new.max():
        k = int(in_old.argmax())
        gap, on_new, on_old = -float(in_old[k]), new[:, [k]], to_old.at(ring, old_stop)[:, [k]]
    else:
        k = int(in_new.argmax())
        gap, on_new, on_old = -float(in_new[k]), to_new.at(new, new_stop)[:, [k]], ring[:, [k]]
    if gap > 0 and nearest.parted(new[0], new_stop[0], ring[0]).inside.any():
        gap = -min(nearest.narrow(new[0]), nearest.narrow(ring[0])) / 2
    pm95 = float(rows.pm95(along(on_new - on_old))[0])
    return Gap(new="slot", old=called, mm=gap, pm95=pm95, new_xy=xy(on_new[0, 0]), old_xy=xy(on_old[0, 0]))
