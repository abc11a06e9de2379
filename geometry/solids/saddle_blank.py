"""The saddle as a solid, or the crown of a bridge that is held by the strings: how high its ridge must stand under
each string, and its blank.

Under the outer strings it stands as high as `geometry.saddle.heights.saddle_height` tells; between them on the straight
line from one to the other and the **crown** of the board's face there, and beyond them on the same curve carried on.
The bridge's top is straight from one thickness to the other, and the slot's floor lies alike deep under it. A crown has
neither: its heights count from the top.
"""

import math
from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from geometry.frame import Array
from geometry.job import Job, Saddle
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, XY, SaddleBlank, SaddleString
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnStrings
from geometry.saddle.heights.break_angle import SD_DEPTH, SD_THICKNESS, SaddleHeight
from geometry.saddle.heights.saddle_height import OverTop, over_top
from geometry.solids.board_bend import Bend, bulge, bulge_sd
from geometry.units import mm

PIECES = 64
"""In how many straight pieces the upper edge is drawn beside the strings: under 0.001 mm off a usual arc (derived:
s²/8R with s of 1.2 mm)."""


class SolidSaddle(NamedTuple):
    """The blank as the layout holds it, and what is known of the height under each string, in list order."""

    blank: SaddleBlank
    heights: tuple[SaddleHeight, ...]


class _Line(NamedTuple):
    """The straight line between the outer strings' heights at [left, right], the places of these `along` the slot from
    its left end, their standard deviations `own` to each and `shared`, and what the bridge is thick there.
    """

    at: tuple[float, float]
    over_top: tuple[float, float]
    own: tuple[float, float]
    shared: tuple[float, float]
    bridge: tuple[float | None, float | None]

    def share(self, along: Array) -> Array:
        """How far a place lies from the left one (0) to the right one (1)."""
        left, right = self.at
        return np.full_like(along, 0.5) if right - left < 1.0 else (along - left) / (right - left)


def solid_saddle(
    job: Job, states: PerturbedStates, strings: OnStrings, bend: Bend, breaks: Mapping[str, XY]
) -> SolidSaddle | None:
    """The saddle or the crown; None where its height is not known at both sides. `bend` is the board's face there,
    `breaks` how steeply each string breaks over it and its ±, degrees, where that is told by more than pin holes.
    """
    along = _along(strings)
    line = _line(job, states, strings, along)
    if line is None:
        return None
    over, sd = _over_top(line, bend, along)
    depth = _slot_depth(job)
    thick = _bridge_at(line, along)
    behind = _behind(strings)
    heights = tuple(
        SaddleHeight(
            string_over_top=float(over[i]),
            over_top_sd=float(sd[i]),
            bridge=thick[i],
            slot_depth=depth,
            behind=behind[i],
        )
        for i in range(len(along))
    )
    return SolidSaddle(_blank(job, strings, bend, line, along, heights, breaks), heights)


def _slot_depth(job: Job) -> float | None:
    """How deep the slot is; None where it is not told, and for a crown, which has none."""
    if job.held != "glue" or job.saddle is None or job.saddle.slot_depth is None:
        return None
    return mm(job.saddle.slot_depth)


def _along(strings: OnStrings) -> Array:
    """Where each string's peak stands along the slot, from its left end (n,), mm."""
    left = strings.slot.corners()[0]
    peaks = strings.peaks.x + 1j * strings.strung.break_point[0].imag
    return np.asarray(-((peaks - left) * np.conj(complex(strings.slot.leftward[0]))).real)


def _line(job: Job, states: PerturbedStates, strings: OnStrings, along: Array) -> _Line | None:
    ends = (int(along.argmin()), int(along.argmax()))
    both = [over_top(states, strings.wanted.ready, side, end) for side, end in zip(SIDES, ends, strict=True)]
    left, right = (one.taken for one in both)
    if left is None or right is None:
        return None
    shared = [_shared(one, strings, end) for one, end in zip(both, ends, strict=True)]
    own = [math.sqrt(max(height.sd**2 - part**2, 0.0)) for height, part in zip((left, right), shared, strict=True)]
    thick = job.bridge.thicknesses if job.bridge is not None else (None, None)
    return _Line(
        at=(float(along[ends[0]]), float(along[ends[1]])),
        over_top=(left.mm, right.mm),
        own=(own[0], own[1]),
        shared=(shared[0], shared[1]),
        bridge=(None if thick[0] is None else mm(thick[0]), None if thick[1] is None else mm(thick[1])),
    )


def _shared(height: OverTop, strings: OnStrings, string: int) -> float:
    """What of an outer height's standard deviation both sides share: an action that nobody read or typed is taken as
    usual on both.
    """
    if height.wanted is None or height.taken is None:
        return 0.0
    room = strings.wanted.ready.heights_room[:, :, string].sum(axis=1)
    return min(float(np.hypot(*room)), height.taken.sd)


def _over_top(line: _Line, bend: Bend, along: Array) -> tuple[Array, Array]:
    """The ridge's height over the top and its standard deviation at places along the slot, (n,) mm."""
    share, half = line.share(along), (line.at[1] - line.at[0]) / 2
    off = along - sum(line.at) / 2
    over = line.over_top[0] * (1 - share) + line.over_top[1] * share + bulge(bend.bend, half, off)
    own = np.hypot((1 - share) * line.own[0], share * line.own[1])
    together = (1 - share) * line.shared[0] + share * line.shared[1]
    return over, np.sqrt(own**2 + together**2 + bulge_sd(bend, half, off) ** 2)


def _bridge_at(line: _Line, along: Array) -> list[float | None]:
    """The bridge's thickness under each place; where it is known at one side it says nothing of the others."""
    left, right = line.bridge
    share = line.share(along).tolist()
    if left is not None and right is not None:
        return [left * (1 - s) + right * s for s in share]
    return [left if s == 0 else right if s == 1 else None for s in share]


def _behind(strings: OnStrings) -> list[float | None]:
    """How far behind its break point each string enters the bridge by a pin hole; None where it does not."""
    if strings.pins is None:
        return [None] * strings.strung.break_point.shape[1]
    return [float(far) for far in np.abs(strings.pins[0] - strings.strung.break_point[0])]


def _blank(
    job: Job,
    strings: OnStrings,
    bend: Bend,
    line: _Line,
    along: Array,
    heights: tuple[SaddleHeight, ...],
    breaks: Mapping[str, XY],
) -> SaddleBlank:
    depth = _slot_depth(job)
    names = [string.name for string in job.strings.list] if job.strings is not None else []
    length, tension = strings.slot.length, strings.wanted.ready.tension.tolist()
    from_bass = along if job.bass == "left" else length - along
    half = (line.at[1] - line.at[0]) / 2
    middle = np.zeros(1)
    wood = tuple(_wood(thick, depth) for thick in line.bridge)
    return SaddleBlank(
        length=length,
        thickness=mm((job.saddle or Saddle()).thickness),
        strings=tuple(
            _string(names[i], float(from_bass[i]), one, tension[i], breaks.get(names[i]))
            for i, one in enumerate(heights)
        ),
        profile=_profile(line, bend, along, length, depth),
        floor=_floor(line, depth),
        radius=None if bend.bend <= 0 else (bend.radius, TWO_SIDED_95 * bend.sd * bend.radius**2),
        crown=(
            float(bulge(bend.bend, half, middle)[0]),
            TWO_SIDED_95 * float(bulge_sd(bend, half, middle)[0]),
        ),
        wood=(wood[0], wood[1]),
    )


def _wood(thick: float | None, depth: float | None) -> XY | None:
    if thick is None or depth is None:
        return None
    return thick - depth, TWO_SIDED_95 * math.hypot(SD_THICKNESS, SD_DEPTH)


def _string(name: str, along: float, height: SaddleHeight, tension: float, over: XY | None) -> SaddleString:
    out = height.projection
    if over is None and height.degrees is not None:
        over = height.degrees[0], TWO_SIDED_95 * height.degrees[1]
    whole = None if out is None or height.slot_depth is None else out + height.slot_depth
    return SaddleString(
        string=name,
        along=along,
        over_top=(height.string_over_top or 0.0, TWO_SIDED_95 * height.over_top_sd),
        over_bridge=None if out is None else (out, TWO_SIDED_95 * height.projection_sd),
        whole=None if whole is None else (whole, TWO_SIDED_95 * math.hypot(height.projection_sd, SD_DEPTH)),
        degrees=over,
        press=None if over is None or tension != tension else pressed(tension, math.radians(over[0])),
    )


def pressed(tension: float, turn: float) -> float:
    """The force (N) that a string of that `tension` (N) puts on what it is turned over by `turn` (radians), along the
    angle's bisector: 2 T sin(turn/2), friction left out (derived: the sum of two forces of one size).
    """
    return 2 * tension * math.sin(turn / 2)


def _floor(line: _Line, depth: float | None) -> str:
    if None in line.bridge:
        return "top"
    return "bridge" if depth is None else "slot"


def _profile(line: _Line, bend: Bend, along: Array, length: float, depth: float | None) -> tuple[XY, ...]:
    """The upper edge from the left end to the right one, over what `_floor` names."""
    places = np.array(sorted({*np.linspace(0.0, length, PIECES + 1).tolist(), *along.tolist()}))
    places = places[(places >= 0) & (places <= length)]
    over, _ = _over_top(line, bend, places)
    left, right = line.bridge
    if left is not None and right is not None:
        share = line.share(places)
        over = over - (left * (1 - share) + right * share) + (depth or 0.0)
    return tuple(zip(places.tolist(), over.tolist(), strict=True))
