"""The holes that bases need, in all perturbed states: for their screws and for strings through the body; the wood that
is left between them, to what is old, and how far base and holes lie inside an opening that was measured.

A hole is called `screw:2` (of the one base), `screw:6.2` (the second of the base of string 6) or `through:6`; old ones
`point:hole.1`, metal `metal:metal.1`. Beneath the face, at the back, a through hole is as wide as its ferrule.
"""

from collections.abc import Iterator
from itertools import combinations

import msgspec
import numpy as np

from geometry.frame import Array, Points, following, into, xy, xys
from geometry.job import Separate
from geometry.layout import XY, BasePlan, Gap, Hole, OldPlan
from geometry.neck.find_neck import NeckFrame
from geometry.old_work.gaps import nearest
from geometry.old_work.gaps.walls import along
from geometry.perturbed_states import PerturbedStates
from geometry.separate.set_bases import Base
from geometry.units import mm


class HolesInRows(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Holes in all rows: their names, where they are (rows, k), how wide on the face and `beneath` it (k,), mm."""

    names: tuple[str, ...]
    at: Points
    wide: Array
    beneath: Array


def screw_holes(separate: Separate, bases: tuple[Base, ...], strings: tuple[str, ...]) -> HolesInRows:
    """The screw holes of all bases, each base's in the job's order."""
    names, places = [], []
    for base in bases:
        for number, (behind, across) in enumerate(separate.screws, 1):
            names.append(f"screw:{number}" if separate.bases == "one" else f"screw:{strings[base.strings[0]]}.{number}")
            places.append(base.place(mm(behind), mm(across)))
    return _rows(names, places, mm(separate.screw), mm(separate.screw), bases)


def through_holes(separate: Separate, bases: tuple[Base, ...], wanted: Points, strings: tuple[str, ...]) -> HolesInRows:
    """A hole a string in list order, on its saddle's lane (through its `wanted` place) and square behind the base's
    front; none where the strings do not go through the body.
    """
    through = separate.through
    if through is None:
        return _rows([], [], 0.0, 0.0, bases)
    behind = mm(through.behind) + (mm(separate.foremost) if through.from_ == "foremost" else 0.0)
    places: dict[int, Points] = {}
    for base in bases:
        lanes = base.own(wanted[:, base.strings]).imag
        for i, lane in zip(base.strings, lanes.T, strict=True):
            places[i] = base.front + base.tailward * (behind + 1j * lane)
    names = [f"through:{strings[i]}" for i in sorted(places)]
    beneath = mm(through.diameter if through.ferrule is None else through.ferrule)
    return _rows(names, [places[i] for i in sorted(places)], mm(through.diameter), beneath, bases)


def _rows(names: list[str], places: list[Points], wide: float, beneath: float, bases: tuple[Base, ...]) -> HolesInRows:
    at = np.stack(places, axis=1) if places else np.empty((len(bases[0].front), 0), dtype=complex)
    count = len(names)
    return HolesInRows(names=tuple(names), at=at, wide=np.full(count, wide), beneath=np.full(count, beneath))


def together(*holes: HolesInRows) -> HolesInRows:
    """Several sorts of holes as one."""
    return HolesInRows(
        names=tuple(name for some in holes for name in some.names),
        at=np.concatenate([some.at for some in holes], axis=1),
        wide=np.concatenate([some.wide for some in holes]),
        beneath=np.concatenate([some.beneath for some in holes]),
    )


def _deep(holes: HolesInRows) -> Array:
    """How wide each hole is where it meets another: at its widest."""
    return np.maximum(holes.wide, holes.beneath)


def between(holes: HolesInRows) -> Iterator[Gap]:
    """The wood from each new hole to the nearest other one. They all follow the bases: it has no ± of its own."""
    at, half = holes.at[0].tolist(), (_deep(holes) / 2).tolist()
    least: dict[int, tuple[float, int]] = {}
    for i, j in combinations(range(len(at)), 2):
        wall = abs(at[i] - at[j]) - half[i] - half[j]
        for one, other in ((i, j), (j, i)):
            least[one] = min(least.get(one, (wall, other)), (wall, other))
    told = set()
    for i, (wall, j) in least.items():
        if (j, i) not in told:
            told.add((i, j))
            yield Gap(new=holes.names[i], old=holes.names[j], mm=wall, pm95=0.0, new_xy=xy(at[i]), old_xy=xy(at[j]))


def to_old(
    states: PerturbedStates, frame: NeckFrame, holes: HolesInRows, old: OldPlan, opening: tuple[str, ...], ring: Points
) -> tuple[list[Gap], list[Gap]]:
    """The wood from each new hole to each old one and to metal; and from the holes and from a base's edge, the closed
    outline `ring` (rows, m), to an `opening` that was measured (a gap less than 0 is how far it lies inside).
    """
    olds = [*old.pins, *old.holes]
    names = [hole.name for hole in olds if states.has(hole.name)]
    sizes = [hole.diameter / 2 for hole in olds if states.has(hole.name)]
    metal = [one.name for one in old.metal if states.has(one.name)]
    rim = opening if opening and states.has(*opening) else ()
    if not (names or metal or rim):
        return [], []
    wider = states.with_points((*names, *metal, *rim))
    origin, direction = wider.lifted(frame.origin), wider.lifted(frame.direction)
    at = wider.lifted(holes.at)
    seen = into(wider.states.points((*names, *metal, *rim)), origin, direction)
    called = [f"point:{name}" for name in names] + [f"metal:{name}" for name in metal]
    radii = np.array(sizes + [0.0] * len(metal))
    count = len(called)
    gaps = _walls(wider.states, holes, at, seen[:, :count], radii, called) if count and len(holes.names) else []
    if not rim:
        return gaps, []
    mouth = seen[:, count:]
    over = _over(wider.states, at, holes.wide / 2, holes.names, mouth)
    corners = wider.lifted(ring)
    over += _over(wider.states, corners, np.zeros(corners.shape[1]), ("base",) * corners.shape[1], mouth)
    over += _rim_over(wider.states, mouth, corners)
    return gaps, over


def _walls(
    states: PerturbedStates, holes: HolesInRows, at: Points, old: Points, radii: Array, called: list[str]
) -> list[Gap]:
    apart = (at[:, :, None] - old[:, None, :]).reshape(len(at), -1)
    pm95 = states.pm95(along(apart)).reshape(-1, len(called)).tolist()
    walls = np.abs(at[0][:, None] - old[0]) - holes.wide[:, None] / 2 - radii
    new_at, old_at = at[0].tolist(), old[0].tolist()
    return [
        Gap(new=new, old=name, mm=wall, pm95=pm95[i][k], new_xy=xy(new_at[i]), old_xy=xy(old_at[k]))
        for i, (new, row) in enumerate(zip(holes.names, walls.tolist(), strict=True))
        for k, (name, wall) in enumerate(zip(called, row, strict=True))
    ]


def _over(states: PerturbedStates, at: Points, radii: Array, names: tuple[str, ...], mouth: Points) -> list[Gap]:
    """From places to the opening's edge, less than 0 inside it."""
    if not names:
        return []
    depth, near = nearest.inside(at[0], mouth[0])
    edge = near.at(mouth, following(mouth))
    pm95 = states.pm95(along(at - edge)).tolist()
    places = zip(names, (-depth - radii).tolist(), pm95, xys(at[0]), xys(edge[0]), strict=True)
    return [Gap(new=new, old="opening", mm=gap, pm95=pm, new_xy=one, old_xy=two) for new, gap, pm, one, two in places]


def _rim_over(states: PerturbedStates, mouth: Points, corners: Points) -> list[Gap]:
    """From the opening's points to the base's edge, less than 0 under the base."""
    depth, near = nearest.inside(mouth[0], corners[0])
    edge = near.at(corners, following(corners))
    pm95 = states.pm95(along(mouth - edge)).tolist()
    places = zip((-depth).tolist(), pm95, xys(edge[0]), xys(mouth[0]), strict=True)
    return [Gap(new="base", old="opening", mm=gap, pm95=pm, new_xy=one, old_xy=two) for gap, pm, one, two in places]


def corners_of(separate: Separate, base: Base) -> Points:
    """A base's corners front left, front right, back right, back left, in all rows (rows, 4)."""
    half, long = mm(separate.width) / 2, mm(separate.length)
    return np.stack([base.place(back, left) for back, left in ((0, half), (0, -half), (long, -half), (long, half))], 1)


def as_holes(holes: HolesInRows, diameter: float) -> tuple[Hole, ...]:
    """Holes as the layout holds them, by the names they have after their sort."""
    return tuple(
        Hole(name=name.split(":", 1)[1], at=at, diameter=diameter)
        for name, at in zip(holes.names, xys(holes.at[0]), strict=True)
    )


def base_plan(
    base: Base, names: tuple[str, ...], corners: tuple[XY, ...], pm95s: tuple[XY, ...], screws: tuple[Hole, ...]
) -> BasePlan:
    """A base as the layout holds it; `pm95s` are those of its corners and then of its screw holes."""
    fl, fr, br, bl = corners
    return BasePlan(
        strings=tuple(names[i] for i in base.strings),
        corners=(fl, fr, br, bl),
        corners_pm95=pm95s[:4],
        turn=float(np.angle(base.tailward[0])),
        screws=screws,
        screws_pm95=pm95s[4:],
    )
