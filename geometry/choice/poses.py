"""**Poses**: many places of one bridge at once, each moved from where the strings want it.

A pose goes `along` the neck and `across` it, in mm, and has a `turn` in radians about the slot's middle; its slot
`goes` along with it or stays where the strings want it. The strings end on the bridge, and go across with it: what
that does to them is worked out in full for the middle and both ends of the range, and between these by the parabola
through the three, which is exact to less than a thousandth of a mm.
"""

from typing import TypeVar

import msgspec
import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray

from geometry.bridge.seated_bridge import SeatedBridge
from geometry.frame import Array, Points, crossing
from geometry.frets import fret_lines
from geometry.job import Bridge, Job, Strings
from geometry.job import seating as job_seating
from geometry.job.sides import Side
from geometry.layout import Where
from geometry.neck.string_paths import in_pairs
from geometry.placed.margins import find_gaps
from geometry.placed.place_everything import OnStrings, PlacedInstrument, place_everything
from geometry.survey.result import Surveyed
from geometry.units import mm

Values = TypeVar("Values", Array, Points)
Truths = NDArray[np.bool_]
Choices = NDArray[np.intp]


class Knots(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """What goes across with the bridge, at the range's right end, its middle and its left end: the front's middle, the
    direction tailward, the slot's middle and the direction along it (3,); the strings' starts and break points
    (3, strings); the saddle line's points at the outer strings (3, 2), left first; the margins (3, places × 2), mm.
    """

    front: Points
    tailward: Points
    slot: Points
    leftward: Points
    start: Points
    break_point: Points
    line: Points
    margins: Array


class Base(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """The bridge where the strings want it, and how it goes across by up to `reach` mm. `nominal`: the outer strings'
    nominal places from the nut (2,), mm. `where` tells the places of the margins.
    """

    job: Job
    bridge: Bridge
    strings: Strings
    placed: PlacedInstrument
    seated: SeatedBridge
    knots: Knots
    reach: float
    nominal: Array
    where: tuple[tuple[Where, Side], ...]

    @property
    def slot_is_cut(self) -> bool:
        """Whether the slot comes with the bridge, and so goes wherever it goes."""
        return self.bridge.slot_front is not None


class Poses(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """So many poses: (n,) each."""

    along: Array
    across: Array
    turn: Array
    goes: Truths

    def __len__(self) -> int:
        return len(self.along)

    def taken(self, which: Choices | Truths) -> "Poses":
        """Some of them."""
        return Poses(along=self.along[which], across=self.across[which], turn=self.turn[which], goes=self.goes[which])


class MovedBridges(msgspec.Struct, frozen=True, kw_only=True, eq=False):
    """Bridges in their poses: the middle of the front edge and the direction tailward (n,), the slot's middle and the
    direction along it (n,), pin holes (n, strings), None for a bridge without; the saddle line wanted there and the
    one that the slot gives, at the outer strings (n, 2), by their x; margins (n, places × 2).
    """

    front: Points
    tailward: Points
    slot: Points
    leftward: Points
    pins: Points | None
    wanted: Array
    given: Array
    margins: Array

    def own(self, points: Points) -> Points:
        """Points (n, k) seen in each bridge's own frame."""
        return (points - self.front[:, None]) * self.tailward.conj()[:, None]

    def placed(self, own: Points) -> Points:
        """Places of the bridge's own frame (k,) on each bridge, (n, k)."""
        return self.front[:, None] + self.tailward[:, None] * own


def no_choice(job: Job) -> str:
    """Why no places are looked for, in a sentence; empty where they are."""
    saddle, bridge = job.saddle, job.bridge
    if saddle is not None and saddle.made not in ("one", "steps"):
        return "Places are not looked for while the saddle is of several pieces: set it to one piece first."
    if bridge is not None and bridge.tie is not None:
        return "Places are not looked for on a bridge with a tie block, which follows its slot: move it by numbers."
    return ""


def find_base(job: Job, surveyed: Surveyed) -> Base | None:
    """The bridge where the strings want it, whatever was moved on purpose; None while saddle or bridge are missing."""
    if job.bridge is None or job.strings is None or no_choice(job):
        return None
    bridge, reach = replace(job.bridge, moved=None), mm(job.choice.across)
    still = replace(job, bridge=bridge)
    asides = [still] if not reach else [_aside(still, bridge, way * reach) for way in (-1, 0, 1)]
    found = [place_everything(aside, surveyed) for aside in asides]
    stand = [placed.saddle for placed in found if placed.saddle is not None and placed.saddle.seated is not None]
    middle = found[len(found) // 2]
    if len(stand) < len(found) or middle.neck is None or middle.neck.spaced is None or middle.saddle is None:
        return None
    seated = middle.saddle.seated
    if seated is None:
        return None
    margins, where = _margins(asides, found)
    return Base(
        job=still,
        bridge=bridge,
        strings=job.strings,
        placed=middle,
        seated=seated,
        knots=_knots(stand * (3 // len(stand)), margins),
        reach=reach,
        nominal=middle.neck.spaced.nominal[0],
        where=where,
    )


def _aside(job: Job, bridge: Bridge, across: float) -> Job:
    return replace(job, bridge=replace(bridge, moved=job_seating.Moved(across=across)))


def _margins(jobs: list[Job], found: list[PlacedInstrument]) -> tuple[Array, tuple[tuple[Where, Side], ...]]:
    """The outer strings' margins at the nut, fret 12 and the board's end (3, k), and where they are."""
    rows: list[Array] = []
    where: tuple[tuple[Where, Side], ...] = ()
    for job, placed in zip(jobs, found, strict=True):
        if placed.neck is None or placed.neck.spaced is None or placed.saddle is None:
            raise AssertionError("a saddle stands on a neck and its frets")
        twelfth = fret_lines.twelfth(job, placed.neck.paths, placed.neck.spaced)
        gaps = find_gaps(placed.neck.frame, placed.saddle.strung, twelfth)
        rows.append(gaps.wide[0])
        where = gaps.where
    return np.array(rows * (3 // len(rows))), where


def _knots(stand: list[OnStrings], margins: Array) -> Knots:
    seated = [on.seated for on in stand if on.seated is not None]
    lines = [on.line.x(on.line.outer)[0] + 1j * on.line.outer for on in stand]
    return Knots(
        front=np.array([bridge.front[0] for bridge in seated]),
        tailward=np.array([bridge.tailward[0] for bridge in seated]),
        slot=np.array([bridge.slot.middle[0] for bridge in seated]),
        leftward=np.array([bridge.slot.leftward[0] for bridge in seated]),
        start=np.array([on.strung.start[0] for on in stand]),
        break_point=np.array([on.strung.break_point[0] for on in stand]),
        line=np.array(lines),
        margins=margins,
    )


def move_all(base: Base, poses: Poses) -> MovedBridges:
    """The bridge in all poses, as `geometry.bridge.seat_bridge.seat` moves one."""
    knots, goes = base.knots, poses.goes
    share = poses.across / base.reach if base.reach else np.zeros(len(poses))
    slot, leftward = _between(knots.slot, share), _between(knots.leftward, share)
    spin = np.exp(1j * poses.turn)
    front = slot + poses.along + (_between(knots.front, share) - slot) * spin
    tailward = _between(knots.tailward, share) * spin
    slot, leftward = np.where(goes, slot + poses.along, slot), np.where(goes, leftward * spin, leftward)
    line = _between(knots.line, share)
    thick, peak = base.seated.slot.thickness, base.seated.slot.peak
    on = slot - 1j * leftward * (peak * thick)
    given = on.real[:, None] + (leftward.real / leftward.imag)[:, None] * (line.imag - on.imag[:, None])
    return MovedBridges(
        front=front,
        tailward=tailward,
        slot=slot,
        leftward=leftward,
        pins=_pins(base, share, slot, leftward, tailward),
        wanted=line.real,
        given=given,
        margins=_between(knots.margins, share),
    )


def slot_corners(base: Base, bridges: MovedBridges) -> Points:
    """The slots' corners in order round, (n, 4)."""
    half, thick = base.seated.slot.length / 2, base.seated.slot.thickness
    square = -1j * bridges.leftward
    corners = np.array([1j * half, -1j * half, thick - 1j * half, thick + 1j * half])
    return np.asarray(bridges.slot[:, None] + square[:, None] * corners)


def _between(knots: Values, share: Array) -> Values:
    """The parabola through three knots (3, ...) at shares (n,) from -1 to 1, (n, ...)."""
    right, middle, left = knots
    s = share.reshape(-1, *(1 for _ in middle.shape))
    found: Values = middle + s * (left - right) / 2 + s * s * ((left + right) / 2 - middle)
    return found


def _pins(base: Base, share: Array, slot: Points, leftward: Points, tailward: Points) -> Points | None:
    """Pin holes on the strings' paths, (n, strings), as `geometry.bridge.seat_bridge.pin_places` has them."""
    pins = base.bridge.pins
    if pins is None:
        return None
    start, stop = _between(base.knots.start, share), _between(base.knots.break_point, share)
    along = stop - start
    behind = mm(pins.behind_slot) + mm(pins.second_row) * np.array([False, *in_pairs(base.strings)])
    square = -1j * leftward
    on, way = slot + square * base.seated.slot.thickness, leftward
    if pins.row == "bridge":
        on = crossing(start[:, 0], along[:, 0], on, leftward)
        way, square = 1j * tailward, tailward
    return crossing(start, along, on[:, None] + square[:, None] * behind, way[:, None])
