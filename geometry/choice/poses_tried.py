"""Which places are tried: all over the room there is, with the old slot and without, on old holes."""

import math
from collections.abc import Sequence

import numpy as np

from geometry.choice.poses import Base, Poses, move_all
from geometry.frame import Array
from geometry.job import Choosing
from geometry.layout import Hole
from geometry.units import mm


def all_over(base: Base, choosing: Choosing, counts: tuple[int, int, int]) -> Poses:
    """A grid of poses over the range: so many along, across and in turn, each once with its slot and, where the slot is
    still to be cut, once without. A range of nought has one place. With odd counts the middle is among them.
    """
    ranges = (mm(choosing.along), mm(choosing.across), math.radians(choosing.turn))
    axes = [
        np.linspace(-most, most, count) if most > 0 else np.zeros(1) for most, count in zip(ranges, counts, strict=True)
    ]
    along, across, turn = (axis.ravel() for axis in np.meshgrid(*axes, indexing="ij"))
    return with_and_without_slot(base, along, across, turn)


def with_and_without_slot(base: Base, along: Array, across: Array, turn: Array) -> Poses:
    """Poses whose slot goes along, and the same ones whose slot stays where that can be."""
    if base.slot_is_cut:
        return Poses(along=along, across=across, turn=turn, goes=np.ones(len(along), dtype=bool))
    goes = np.arange(2 * len(along)) < len(along)
    return Poses(along=np.tile(along, 2), across=np.tile(across, 2), turn=np.tile(turn, 2), goes=goes)


def joined(some: Sequence[Poses]) -> Poses:
    """Several lots of poses as one."""
    return Poses(
        along=np.concatenate([poses.along for poses in some]),
        across=np.concatenate([poses.across for poses in some]),
        turn=np.concatenate([poses.turn for poses in some]),
        goes=np.concatenate([poses.goes for poses in some]),
    )


def on_old_holes(base: Base, choosing: Choosing, old: Sequence[Hole]) -> Poses:
    """Poses within the range that lay a new pin hole on an old one that was read, unturned and turned as the old row
    is: a grid may well step over them.
    """
    none = Poses(along=np.zeros(0), across=np.zeros(0), turn=np.zeros(0), goes=np.zeros(0, dtype=bool))
    holes = np.array([complex(*hole.at) for hole in old if not hole.assumed])
    if base.bridge.pins is None or not len(holes):
        return none
    turns = [0.0]
    still = move_all(base, at_one(0.0)).pins
    assert still is not None
    if len(holes) > 1 and still.shape[1] > 1:
        rows = [points[int(points.imag.argmax())] - points[int(points.imag.argmin())] for points in (holes, still[0])]
        turns.append(float(np.angle(rows[0] / rows[1])))
    most_along, most_across, most_turn = mm(choosing.along), mm(choosing.across), math.radians(choosing.turn)
    found = []
    for turn in turns:
        new = move_all(base, at_one(turn)).pins
        assert new is not None
        by = (holes[:, None] - new[0]).ravel()
        inside = (np.abs(by.real) <= most_along) & (np.abs(by.imag) <= most_across) & (abs(turn) <= most_turn)
        kept = by[inside]
        found.append(with_and_without_slot(base, kept.real, kept.imag, np.full(len(kept), turn)))
    return joined((none, *found))


def at_one(turn: float) -> Poses:
    """One pose that is only turned, with its slot."""
    return Poses(along=np.zeros(1), across=np.zeros(1), turn=np.array([turn]), goes=np.ones(1, dtype=bool))
