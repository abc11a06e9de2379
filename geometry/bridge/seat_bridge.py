"""The bridge: seated from the slot, square to the neck, or on the old footprint; its pin holes; the wood that is left.

A **cut** slot comes with the bridge (`slot_front`); otherwise the slot is cut where the saddle line asks for it.
"""

import cmath
import math
from collections.abc import Callable

import msgspec
import numpy as np

from geometry.bridge.bridge_outline import corners, outline
from geometry.bridge.footprint_front import front_of
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.bridge.wood_left import wood_left
from geometry.frame import Array, Points, crossing, xy, xys
from geometry.job import Bridge, Job, Strings
from geometry.layout import XY, BridgePlan, Hole
from geometry.neck.find_neck import NeckFrame
from geometry.neck.laid_sheet import lay_sheet
from geometry.neck.string_paths import in_pairs
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.in_pieces.pieces import Piece
from geometry.saddle.saddle_line import Slot, Strung
from geometry.units import mm

FRONT_SHARE = 0.38
"""Bridge front to the slot's front as a share of the width, where no slot is cut (common practice, no source)."""


def seat(states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, wanted: Slot) -> SeatedBridge:
    """Seat the bridge the way the job says, in all rows. On an old footprint that is not read it is seated square.
    What is moved on purpose is moved from there.
    """
    seated, moved = _seat(states, job, frame, bridge, wanted), bridge.moved
    if moved is None:
        return seated
    cut = bridge.slot_front is not None
    if bridge.seat == "old footprint":
        # strings that go across take a bridge along that is seated from them, and a slot still to be cut; not this one
        seated = move(seated, 1j * mm(moved.across), 0.0, slot_goes=cut)
    return move(seated, mm(moved.along), math.radians(moved.turn), slot_goes=cut or moved.slot == "goes along")


def move(seated: SeatedBridge, by: complex, turn: float, *, slot_goes: bool) -> SeatedBridge:
    """A seated bridge moved `by` so much and turned (radians) about its slot's middle, with its slot or without."""
    spin, pivot = cmath.exp(1j * turn), seated.slot.middle
    slot = msgspec.structs.replace(seated.slot, middle=pivot + by, leftward=seated.slot.leftward * spin)
    return SeatedBridge(
        front=pivot + by + (seated.front - pivot) * spin,
        tailward=seated.tailward * spin,
        slot=slot if slot_goes else seated.slot,
    )


def _seat(states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, wanted: Slot) -> SeatedBridge:
    lengthwise, own = _cut_slot(bridge, wanted.length)
    front = _old_front(states, job, frame) if bridge.seat == "old footprint" else None
    if front is None:
        tailward = wanted.tailward / own if bridge.seat == "with slot" else np.ones_like(wanted.middle)
        middle = wanted.middle - tailward * lengthwise
    else:
        middle, tailward = front
    if bridge.slot_front is None:
        return SeatedBridge(front=middle, tailward=tailward, slot=wanted)
    slot = msgspec.structs.replace(wanted, middle=middle + tailward * lengthwise, leftward=1j * tailward * own)
    return SeatedBridge(front=middle, tailward=tailward, slot=slot)


def _cut_slot(bridge: Bridge, length: float) -> tuple[float, complex]:
    """Front edge to the slot's middle, and the slot's own turn in the bridge, as a unit number."""
    if bridge.slot_front is None:
        given = bridge.front_to_slot
        return (FRONT_SHARE * mm(bridge.width) if given is None else mm(given)), 1.0
    left, right = mm(bridge.slot_front.left), mm(bridge.slot_front.right)
    lean = complex(length, right - left)
    return (left + right) / 2, lean / abs(lean)


def _old_front(states: PerturbedStates, job: Job, frame: NeckFrame) -> tuple[Points, Points] | None:
    """The middle of the old footprint's front edge (its side nearest the nut), and the direction square to it."""
    names = job.old.outline if job.old is not None else ()
    if len(names) < 3 or not states.has(*names):
        return None
    front = front_of(frame.see(states, *names))
    return front.middle, -1j * front.leftward


def pin_places(
    seated: SeatedBridge, strung: Strung, bridge: Bridge, strings: Strings, pieces: tuple[Piece, ...]
) -> Points | None:
    """Pin hole centres on the strings' paths, in list order in all rows, (rows, n), each behind its own piece's slot;
    None for a bridge without.
    """
    if bridge.pins is None:
        return None
    along, pins = strung.along, bridge.pins
    behind = mm(pins.behind_slot) + mm(pins.second_row) * np.array([False, *in_pairs(strings)])
    if pins.row == "slot":
        on, way, square = (_for_each(pieces, of) for of in (_back, lambda slot: slot.leftward, lambda s: s.tailward))
    else:
        first = pieces[0].slot
        at = crossing(strung.start[:, 0], along[:, 0], _back(first), first.leftward)
        on, way, square = (one[:, None] for one in (at, seated.leftward, seated.tailward))
    return crossing(strung.start, along, on + square * behind, way)


def _back(slot: Slot) -> Points:
    """The middle of a slot's back edge, (rows,)."""
    return slot.middle + slot.tailward * slot.thickness


def _for_each(pieces: tuple[Piece, ...], of: Callable[[Slot], Points]) -> Points:
    """What each string's own slot has, (rows, n); of one slot (rows, 1)."""
    found = [of(piece.slot)[:, None] for piece in pieces]
    if len(pieces) == 1:
        return found[0]
    return np.concatenate(
        [np.repeat(one, piece.run[1] - piece.run[0], axis=1) for one, piece in zip(found, pieces, strict=True)], axis=1
    )


def describe(
    states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, seated: SeatedBridge, pins: Points | None
) -> BridgePlan:
    """The bridge as the layout holds it."""
    at, ahead = complex(seated.front[0]), complex(seated.tailward[0])
    placed = np.array([seated.place(*corner) for corner in corners(bridge)]).T
    fl, fr, br, bl = xys(placed[0])
    pms = pm95s(states, frame, placed if pins is None else np.concatenate((placed, pins), axis=1))
    holes: tuple[Hole, ...] = ()
    if pins is not None and bridge.pins is not None and job.strings is not None:
        size = mm(bridge.pins.diameter)
        holes = tuple(
            Hole(name=string.name, at=pin, diameter=size)
            for string, pin in zip(job.strings.list, xys(pins[0]), strict=True)
        )
    names = [hole.name for hole in holes]
    left, at_holes = wood_left(bridge, seated, pins, names)
    return BridgePlan(
        outline=tuple((*xy(at + ahead * complex(x, y)), bulge) for x, y, bulge in outline(bridge)),
        corners=(fl, fr, br, bl),
        pins=holes,
        turn=cmath.phase(ahead),
        front_pm95=(pms[0][0], pms[1][0]),
        wood=left,
        wood_at=at_holes,
        corners_pm95=pms[:4],
        pins_pm95=pms[4:],
        across_checked=states.checked(across(frame, placed)),
    )


def pm95s(states: PerturbedStates, frame: NeckFrame, points: Points) -> tuple[XY, ...]:
    """The ± of points (rows, k) as a template puts them there: along the neck, from the board's end that it is laid to,
    and across it from the middle between the edge lines carried on, whichever line is called the neck centre line.
    """
    along = lay_sheet(frame).beyond(points)
    found = states.pm95(np.concatenate((along, across(frame, points)), axis=1)).tolist()
    return tuple(zip(found[: len(found) // 2], found[len(found) // 2 :], strict=True))


def across(frame: NeckFrame, points: Points) -> Array:
    """How far points (rows, k) lie across the neck from the middle between the edge lines, mm."""
    slopes = frame.edge_way.imag / frame.edge_way.real
    slope, at_nut = slopes.sum(axis=1) / 2, (frame.edge.imag - slopes * frame.edge.real).sum(axis=1) / 2
    return np.asarray(points.imag - at_nut[:, None] - slope[:, None] * points.real)
