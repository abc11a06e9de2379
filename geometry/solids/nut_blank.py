"""The nut as a solid: where each string's slot lies, how wide it is, and how high its bottom stands.

A string runs straight from its slot's bottom at the nut's front to the saddle. So that it clears fret 1 by the height
wanted, its bottom lies over the frets' plane by **low** = (wanted - t × high) / (1 - t), where `high` is the string
over that plane at the saddle and `t` fret 1's share of the way there; and over the board's face by the frets' height
more.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry.frame import Array
from geometry.job import Job, Nut
from geometry.layout import TWO_SIDED_95, XY, NutBlank, NutSlot
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnStrings
from geometry.saddle.heights.read_heights import action_sd
from geometry.saddle.string_plans import measured_action
from geometry.solids.board_bend import Bend, bulge, bulge_sd
from geometry.strings.string_heights import known_heights, shares_to_bass
from geometry.units import mm

SD_FRET = 0.05
"""One standard deviation of a fret's height over the board's face as it is measured with a caliper, mm (common
practice, no source)."""
SD_BED = 0.1
"""The same of the board's face over the nut's bottom (common practice, no source)."""
PIECES = 32
"""In how many pieces the board's face is drawn along the nut."""


class _Bottoms(NamedTuple):
    """Over the frets' plane each slot's bottom and its standard deviation, (n,) mm."""

    low: Array
    sd: Array


def low_over_frets(wanted: Array, high: Array, share: Array) -> Array:
    """How high a slot's bottom lies over the frets' plane, mm: the string lies `wanted` over fret 1, which stands
    `share` of the way to the saddle, and `high` there (the straight line through two points).
    """
    return np.asarray((wanted - share * high) / (1 - share))


def nut_blank(
    job: Job, nut: Nut, states: PerturbedStates, frame: NeckFrame, strings: OnStrings, bend: Bend
) -> NutBlank:
    """The nut between the board's edges. `bend` is the board's face at the nut."""
    bass = 0 if job.bass == "left" else 1
    start, corners = strings.strung.start, frame.nut
    along = np.abs(start - corners[:, bass, None])
    pm95 = states.pm95(along).tolist()
    wide = np.abs(corners[:, 0] - corners[:, 1])[:, None]
    length = float(wide[0, 0])
    from_left = along[0] if bass == 0 else length - along[0]
    leftward = complex(corners[0, 0] - corners[0, 1])
    over_board = _over_board(job, nut, states, strings)
    face, face_sd = _face(nut, bend, length, from_left)
    listed = job.strings.list if job.strings is not None else ()
    slots = []
    for i, string in enumerate(listed):
        if string.first:
            continue  # it begins farther on
        width = mm(string.diameter) + mm(nut.clearance) if string.diameter is not None else None
        board = None if over_board is None else (float(over_board.low[i]), float(over_board.sd[i]))
        bed = None if board is None or face is None else (board[0] + float(face[i]), math.hypot(board[1], face_sd[i]))
        ends = min(float(from_left[i]), length - float(from_left[i]))
        slots.append(
            NutSlot(
                string=string.name,
                along=(float(along[0, i]), pm95[i]),
                width=width,
                over_board=_wide(board),
                over_bed=_wide(bed),
                deep=None if bed is None or nut.height is None else _wide((mm(nut.height) - bed[0], bed[1])),
                behind=0.0 if job.board.zero_fret else strings.wanted.each[i].nut,
                edge=ends - (width or 0.0) / 2,
            )
        )
    return NutBlank(
        length=(length, float(states.pm95(wide)[0])),
        turn=math.atan2(-leftward.real, leftward.imag),
        thickness=mm(nut.thickness),
        back_angle=math.radians(nut.back_angle),
        slots=tuple(slots),
        face=_face_drawn(nut, bend, length),
        height=None if nut.height is None else mm(nut.height),
        zero_fret=job.board.zero_fret,
    )


def _wide(known: tuple[float, float] | None) -> XY | None:
    """A value and its standard deviation as a value and its ±."""
    return None if known is None else (known[0], TWO_SIDED_95 * known[1])


def _over_board(job: Job, nut: Nut, states: PerturbedStates, strings: OnStrings) -> _Bottoms | None:
    """Each slot's bottom over the board's face; None while the frets' height is not known."""
    if nut.fret_height is None:
        return None
    frets, count = mm(nut.fret_height), strings.strung.start.shape[1]
    if job.board.zero_fret:
        return _Bottoms(np.full(count, frets - mm(nut.below_fret)), np.full(count, SD_FRET))
    found = _over_frets(job, nut, states, strings)
    return _Bottoms(frets + found.low, np.hypot(found.sd, SD_FRET))


def _over_frets(job: Job, nut: Nut, states: PerturbedStates, strings: OnStrings) -> _Bottoms:
    """Over the frets' plane. What is wanted over fret 1 is exact; what is only known of it has its spread."""
    ready = strings.wanted.ready
    assert job.strings is not None
    nominal = ready.places.nominal
    known = known_heights(
        job.strings, job.bass == "left", ready.places.board, measured_action(states), False, action_sd(states)
    )
    wanted, typed = [], []
    for column, over in enumerate(nut.over_fret1):
        wanted.append(float(known.over[0, column]) if over is None else mm(over))
        typed.append(over is not None)
    bass = 0 if job.bass == "left" else 1
    to_bass = shares_to_bass(job.strings)
    at_fret = wanted[1 - bass] * (1 - to_bass) + wanted[bass] * to_bass
    moved = np.array([one.nut for one in strings.wanted.each])
    share = (ready.places.frets[:, 0] + moved) / (nominal + moved)
    high = (ready.setup.height + ready.setup.rise)[:, 0]
    low = low_over_frets(at_fret, high, share)
    free = np.array([0.0 if yes else 1.0 for yes in typed])
    free = free[1 - bass] * (1 - to_bass) + free[bass] * to_bass
    all_of, assumed = (_moved(spread, share, free) for spread in (ready.heights_spread, ready.heights_room))
    # what was read is independent on both sides, what was assumed is wrong on both alike
    own = np.maximum(all_of**2 - assumed**2, 0.0) * ((1 - to_bass) ** 2 + to_bass**2)
    return _Bottoms(low, np.sqrt(assumed**2 + own))


def _moved(spread: Array, share: Array, free: Array) -> Array:
    """How a slot's bottom moves by a spread of the heights (2 causes, b and c, n), (n,) mm: with the saddle, and by
    `free` of it with the string over fret 1 where nothing was typed for that.
    """
    near = spread[0, 0] * (1 - share) + spread[0].sum(axis=0) * share
    by_near = (near * free - share * spread[0].sum(axis=0)) / (1 - share)
    by_far = -share * spread[1].sum(axis=0) / (1 - share)
    return np.asarray(np.hypot(by_near, by_far))


def _beds(nut: Nut) -> tuple[float, float] | None:
    """The board's face over the nut's bottom at its edges; one that is not known is as the other."""
    left, right = (None if bed is None else mm(bed) for bed in nut.beds)
    if left is None and right is None:
        return None
    left, right = (right if left is None else left), (left if right is None else right)
    assert left is not None
    assert right is not None
    return left, right


def _face(nut: Nut, bend: Bend, length: float, from_left: Array) -> tuple[Array | None, Array]:
    """The board's face over the nut's bottom at places from its left end (n,), and its standard deviation, mm."""
    beds, half = _beds(nut), length / 2
    if beds is None:
        return None, np.zeros_like(from_left)
    share, off = from_left / max(length, 1e-6), from_left - half
    return (
        beds[0] * (1 - share) + beds[1] * share + bulge(bend.bend, half, off),
        np.hypot(SD_BED * np.hypot(1 - share, share), bulge_sd(bend, half, off)),
    )


def _face_drawn(nut: Nut, bend: Bend, length: float) -> tuple[XY, ...]:
    places = np.linspace(0.0, length, PIECES + 1)
    face, _ = _face(nut, bend, length, places)
    return () if face is None else tuple(zip(places.tolist(), face.tolist(), strict=True))
