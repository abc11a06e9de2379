"""A tie block on a seated bridge: where the strings go into it, its holes, and the wood round them.

The block lies square to the bridge; its holes run along the strings, level, through it from front to back.
"""

import math
from itertools import combinations

import numpy as np

from geometry.bridge.bridge_outline import back_at
from geometry.bridge.seat_bridge import across
from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Array, Points, crossing, xy
from geometry.job import Bridge, Job, TieBlock
from geometry.layout import TieHole, TiePlan
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.saddle_line import Strung
from geometry.units import mm

PAST_HOLES = 8.0
"""How far a block whose length is not given reaches past its outer holes, mm (common practice, no source)."""


def face_x(seated: SeatedBridge, tie: TieBlock) -> Array:
    """How far the block's front face lies behind the bridge's front edge, in all rows (rows,), mm."""
    slot = seated.slot
    back = slot.middle + slot.tailward * slot.thickness
    return np.asarray(((back - seated.front) * seated.tailward.conj()).real + mm(tie.behind_slot))


def tie_places(seated: SeatedBridge, strung: Strung, tie: TieBlock, deep: float = 0.0) -> Points:
    """Where the strings' paths cross the block's front face, or a plane `deep` behind it, (rows, n)."""
    on = seated.front + seated.tailward * (face_x(seated, tie) + deep)
    return crossing(strung.start, strung.along, on[:, None], seated.leftward[:, None])


def describe(
    states: PerturbedStates, job: Job, frame: NeckFrame, bridge: Bridge, seated: SeatedBridge, strung: Strung
) -> TiePlan | None:
    """The block as the layout holds it, without its break angles; None for a bridge without."""
    tie = bridge.tie
    if tie is None:
        return None
    fronts, backs = tie_places(seated, strung, tie), tie_places(seated, strung, tie, mm(tie.depth))
    holes = _holes(job, tie, seated, fronts[0], backs[0])
    face, back = float(face_x(seated, tie)[0]), float(face_x(seated, tie)[0]) + mm(tie.depth)
    sides = [seated.own(complex(*at)).imag for hole in holes for at in (hole.front, hole.back)]
    middle, half = (max(sides) + min(sides)) / 2, (max(sides) - min(sides)) / 2 + PAST_HOLES
    half = half if tie.length is None else mm(tie.length) / 2
    left, right = middle + half, middle - half
    along = states.pm95(fronts.real).max()
    aside = states.pm95(across(frame, fronts)).max()
    corners = (seated.place(x, y)[0] for x, y in ((face, left), (face, right), (back, right), (back, left)))
    fl, fr, br, bl = (xy(complex(corner)) for corner in corners)
    return TiePlan(
        corners=(fl, fr, br, bl),
        front_x=face,
        back_x=back,
        left=left,
        right=right,
        height=mm(tie.height),
        holes=holes,
        wood=_wood(bridge, tie, seated, holes, (face, back), (left, right)),
        pm95=(float(along), float(aside)),
    )


def _holes(job: Job, tie: TieBlock, seated: SeatedBridge, fronts: Points, backs: Points) -> tuple[TieHole, ...]:
    """All holes, a string's own first and its second behind it."""
    aside = complex(seated.leftward[0]) * mm(tie.spacing) * (1 if job.bass == "left" else -1)
    found = []
    for string, front, back in zip(job.strings.list if job.strings else (), fronts, backs, strict=True):
        places = [(0j, tie.over_bottom, True)]
        if tie.holes == 2:
            places.append((aside, tie.over_bottom - mm(tie.below), False))
        found += [
            TieHole(
                string=string.name,
                front=xy(complex(front) + off),
                back=xy(complex(back) + off),
                up=up,
                across=seated.own(complex(back) + off).imag,
                diameter=mm(tie.diameter),
                leaves=leaves,
            )
            for off, up, leaves in places
        ]
    return tuple(found)


def _wood(
    bridge: Bridge,
    tie: TieBlock,
    seated: SeatedBridge,
    holes: tuple[TieHole, ...],
    faces: tuple[float, float],
    ends: tuple[float, float],
) -> dict[str, float]:
    """The least wood round the holes and the block, mm; holes are nearest at one face or the other."""
    radius, (left, right) = mm(tie.diameter) / 2, ends
    at_faces = [
        [(seated.own(complex(*at)).imag, hole.up) for hole, at in zip(holes, places, strict=True)]
        for places in ([hole.front for hole in holes], [hole.back for hole in holes])
    ]
    ups, sides = [hole.up for hole in holes], [y for face in at_faces for y, _ in face]
    behind_slot = [seated.own(corner) for slot in seated.slots for corner in slot.corners()[2:]]
    found = {
        "top": mm(tie.height) - max(ups) - radius,
        "bottom": min(ups) - radius,
        "ends": min(left - max(sides), min(sides) - right) - radius,
        "slot": faces[0] - max(at.real for at in behind_slot),
        "behind": min(back_at(bridge, y) - faces[1] for y in (left, right, (left + right) / 2)),
    }
    for (one, a), (other, b) in (pair for face in at_faces for pair in combinations(zip(holes, face, strict=True), 2)):
        which = "holes" if one.string == other.string else "neighbours"
        found[which] = min(abs(complex(*a) - complex(*b)) - 2 * radius, found.get(which, math.inf))
    return found
