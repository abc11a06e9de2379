"""The places that are each best at something, few enough to be looked at side by side.

Each **aim** is what a place is best at, among the poses that it allows. A grid over the range comes first; around the
best pose of each aim the search goes on with half the step, and again. The same job gives the same places.
"""

import math
from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from geometry.bridge.bridge_outline import outline
from geometry.choice.merits_of_poses import ROOM, Worth, goes_round, read_pins, weigh
from geometry.choice.poses import Base, Choices, Poses, Truths, find_base, move_all, slot_corners
from geometry.choice.poses_tried import all_over, joined, on_old_holes, with_and_without_slot
from geometry.frame import Array, xy, xys
from geometry.job import Choosing, Job, Moved
from geometry.layout import XY, Layout, OldPlan, Ray, Record, Vertex
from geometry.median import distinct
from geometry.survey.result import Surveyed
from geometry.units import mm

GRID = (13, 9, 9)
"""Places along, across and in turn that the search begins with."""
ROUNDS = 5
"""How often the step is halved around the best pose of each aim."""
TURNS = 100.0
"""mm: a radian of turn counts as so far moved, about what it moves a wing."""
NEVER = 1e9
AS_GOOD = 0.02
"""Costs of an aim (cents, mm, mm², degrees, holes) that differ by less are one as good as the other."""
TRUE, AGAIN, CLEAREST = "true to the strings", "uses the most old holes", "keeps clearest of brace, plate and metal"


class ChosenPlace(Record, frozen=True):
    """A place and its numbers. `best_at` are the aims it is best at; `cents` at [bass, treble], + where the string is
    too long and plays flat; `uneven`, `scar` (mm²), `again` (old pin holes used again), `room` (mm), None where nothing
    of it is known, `askew` (degrees) and `offset` (mm) to the seam as in `geometry.choice.merits_of_poses`.
    `outline` is the bridge's there, closed, and `slot` its slot's corners.
    """

    best_at: tuple[str, ...]
    moved: Moved
    cents: tuple[float, float]
    uneven: float
    scar: float | None
    again: int | None
    room: float | None
    askew: float
    offset: float
    cost: float
    outline: tuple[Vertex, ...]
    slot: tuple[XY, ...]


class Aim(NamedTuple):
    """What a place is best at: its name, what is to be small, and which poses are allowed."""

    name: str
    cost: Callable[[Worth], Array]
    allowed: Callable[[Worth], Truths]


class Best(NamedTuple):
    """The best pose found for an aim, and what speaks for it."""

    aim: Aim
    pose: Poses
    worth: Worth


class _Search(NamedTuple):
    base: Base
    old: OldPlan
    seen: Ray
    choosing: Choosing
    cancelled: Callable[[], bool]

    def weigh(self, poses: Poses) -> Worth:
        return weigh(self.base, self.old, self.seen, poses)


def choose(
    job: Job, surveyed: Surveyed, layout: Layout, cancelled: Callable[[], bool] = lambda: False
) -> tuple[ChosenPlace, ...]:
    """The places over the job's range that are each best at something, true to the strings first; none while there is
    no bridge, or when `cancelled`, which is asked between the steps of the search, says so.
    """
    base = find_base(job, surveyed)
    if base is None or layout.neck is None:
        return ()
    seen = layout.neck.seam or Ray(at=(0.0, 0.0), direction=(1.0, 0.0))
    search = _Search(base, layout.old, seen, job.choice, cancelled)
    poses = joined((all_over(base, job.choice, GRID), on_old_holes(base, job.choice, layout.old.pins)))
    worth = search.weigh(poses)
    found: list[Best] = []
    for aim in aims(job.choice, layout.old, seam=layout.neck.seam is not None):
        if cancelled():
            return ()
        best = _refined(search, aim, poses, worth)
        if best is not None and _gains(aim, best[1], found):
            found.append(Best(aim, *best))
    return _told(job, search, found)


def _gains(aim: Aim, worth: Worth, found: list[Best]) -> bool:
    """Whether the best at it is worth a name: a hole that is used at all, room gained over the first place."""
    if aim.name == AGAIN:
        return bool(worth.again[0])
    if aim.name == CLEAREST and found:
        return float(worth.room[0]) > float(found[0].worth.room[0]) + AS_GOOD or float(worth.room[0]) >= ROOM
    return True


def aims(choosing: Choosing, old: OldPlan, *, seam: bool) -> tuple[Aim, ...]:
    """All that a place of this job can be best at; without a `seam` that was read it is the neck centre line."""
    few, within, holes = choosing.cents, mm(choosing.within), len(read_pins(old))

    def in_tune(worth: Worth) -> Truths:
        return (worth.worst_cents <= few + 1e-9) & worth.wood

    found = [
        Aim(TRUE, lambda w: w.worst_cents, lambda w: w.wood),
        Aim("best by your weights", lambda w: w.cost(choosing.weights, holes), lambda w: w.wood),
    ]
    if goes_round(old.outline):
        found.append(Aim("hides the most scar", lambda w: w.scar, in_tune))
    if holes:
        found.append(Aim(AGAIN, lambda w: -w.again, in_tune))
    if old.braces or old.metal or old.plate:
        found.append(Aim(CLEAREST, lambda w: -w.room, in_tune))
    square = f"squarest to the {'seam' if seam else 'neck'}"
    near = Aim(square, lambda w: np.degrees(np.abs(w.askew)), lambda w: (w.away <= within + 1e-9) & w.wood)
    return (*found, near, Aim("evenest margins", lambda w: w.uneven, in_tune))


def _ranked(search: _Search, aim: Aim, poses: Poses, worth: Worth) -> Choices:
    """The poses from the best one for the aim on. Of those that are one as good the one that costs least under the
    weights, then the one that moves least, its slot if it can be not at all; what is only true moves no more than that.
    """
    cost = np.where(aim.allowed(worth), aim.cost(worth), NEVER)
    second = worth.cost(search.choosing.weights, len(read_pins(search.old)))
    far = worth.away + TURNS * np.abs(poses.turn) + 0.1 * poses.goes
    keys = (second.round(6), far.round(9)) if aim.name == TRUE else (far.round(9), second.round(6))
    return np.lexsort((*keys, cost.round(6)))


def _refined(search: _Search, aim: Aim, poses: Poses, worth: Worth) -> tuple[Poses, Worth] | None:
    """The aim's best pose, from the grid and then with half the step each time; None where none is allowed."""
    best = _ranked(search, aim, poses, worth)[:1]
    if not len(best) or not aim.allowed(worth)[best][0]:
        return None
    pose, its = poses.taken(best), worth.taken(best)
    choosing = search.choosing
    ranges = np.array((mm(choosing.along), mm(choosing.across), math.radians(choosing.turn)))
    steps = np.array([2 * most / (count - 1) for most, count in zip(ranges, GRID, strict=True)])
    for _ in range(ROUNDS):
        if search.cancelled():
            return None
        steps = steps / 2
        near = _around(search.base, pose, steps, ranges)
        nears = search.weigh(near)
        best = _ranked(search, aim, near, nears)[:1]
        pose, its = near.taken(best), nears.taken(best)
    return pose, its


def _around(base: Base, pose: Poses, steps: Array, ranges: Array) -> Poses:
    """The pose and its neighbours a step away, within the range."""
    middle = np.array((pose.along[0], pose.across[0], pose.turn[0]))
    axes = [
        distinct(np.clip(at + step * np.array((-1.0, 0.0, 1.0)), -most, most))
        for at, step, most in zip(middle, steps, ranges, strict=True)
    ]
    along, across, turn = (axis.ravel() for axis in np.meshgrid(*axes, indexing="ij"))
    return with_and_without_slot(base, along, across, turn)


def _told(job: Job, search: _Search, found: list[Best]) -> tuple[ChosenPlace, ...]:
    """The places as records; one that serves two aims as well is best at both."""
    kept: list[Best] = []
    places: list[ChosenPlace] = []
    for best in found:
        same = next((at for at, other in enumerate(kept) if _serves(best.aim, other.worth, best.worth)), None)
        if same is None:
            kept.append(best)
            places.append(_place(job, search, best))
        else:
            places[same] = replace(places[same], best_at=(*places[same].best_at, best.aim.name))
    return tuple(places)


def _serves(aim: Aim, kept: Worth, best: Worth) -> bool:
    """Whether a place that is kept already is allowed for an aim, and as good at it as the best."""
    return bool(aim.allowed(kept)[0]) and float(aim.cost(kept)[0]) <= float(aim.cost(best)[0]) + AS_GOOD


def _place(job: Job, search: _Search, best: Best) -> ChosenPlace:
    aim, pose, worth = best
    left, right = worth.cents[0].tolist()
    old, bridge = search.old, move_all(search.base, pose)
    at, ahead = complex(bridge.front[0]), complex(bridge.tailward[0])
    known = bool(old.braces or old.metal or old.plate)
    return ChosenPlace(
        best_at=(aim.name,),
        moved=Moved(
            along=round(float(pose.along[0]), 3),
            across=round(float(pose.across[0]), 3),
            turn=round(math.degrees(float(pose.turn[0])), 4),
            slot="goes along" if bool(pose.goes[0]) else "stays",
        ),
        cents=(left, right) if job.bass == "left" else (right, left),
        uneven=float(worth.uneven[0]),
        scar=float(worth.scar[0]) if goes_round(old.outline) else None,
        again=int(worth.again[0]) if read_pins(old) else None,
        room=float(worth.room[0]) if known else None,
        askew=math.degrees(float(worth.askew[0])),
        offset=float(worth.offset[0]),
        cost=float(worth.cost(job.choice.weights, len(read_pins(old)))[0]),
        outline=tuple((*xy(at + ahead * complex(x, y)), bulge) for x, y, bulge in outline(search.base.bridge)),
        slot=xys(slot_corners(search.base, bridge)[0]),
    )


__all__ = ["ROOM", "ChosenPlace", "choose"]
