"""The tailpiece of a job: where its middle must be, how the strings run over the saddle to it, and the strap pin."""

import math
from collections.abc import Sequence

import msgspec
import numpy as np
from msgspec.structs import replace

from geometry.bridge.seat_bridge import across as across_neck
from geometry.findings import Finding
from geometry.frame import Array, Points, xy
from geometry.job import Job, Spread, Tail
from geometry.layout import TWO_SIDED_95, Hole, Laid, Layout, TailPlan, TailString
from geometry.neck.find_neck import NeckFrame
from geometry.neck.string_paths import PAIR_AT_SADDLE, side_by_side
from geometry.perturbed_states import PerturbedStates
from geometry.placed.place_everything import OnNeck, OnStrings
from geometry.saddle.saddle_line import Strung
from geometry.tail import pin_told, statics, strap_pin, tail_told
from geometry.units import mm

UNDER_SD, BEHIND_SD = 0.5, 0.3
"""How well a hand reads how far the strings end under a straightedge over the saddle, and how far behind it they end
where that is typed, one standard deviation, mm (common practice, no source)."""
NOTCH_SD = 0.2
"""How well a hand places a string in its notch, one standard deviation, mm, at nut and saddle alike (common practice,
no source)."""

READ_BY = (("tail.left", "tail.right"), ("tail.middle",))
"""The points whose middle is the tail's, those that are used first."""


class Runs(msgspec.Struct, frozen=True, eq=False):
    """The strings on their way from the nut over the saddle to the tail, in all rows: `start`, `saddle` their y there
    and `carried` their y at the tail if they ran straight on, `along` and `behind` the ways between (rows, n), mm.
    `offsets` (rows, n) are their places from the tail's middle, `pull` (n,) N or None, `drop` (rows, n) radians.
    """

    start: Array
    saddle: Array
    carried: Array
    along: Array
    behind: Array
    offsets: Array
    pull: Array | None
    drop: Array

    @property
    def middle(self) -> Array:
        """Where the middle of the outer strings carried on lies, (rows,)."""
        return _middle(self.carried)

    @property
    def true(self) -> Array:
        """Where the tail's middle must be, (rows,)."""
        if self.pull is None:
            return self.middle
        return statics.balanced(
            self.pull, self.start, self.saddle, self.offsets, self.behind, self.along, self.drop, self.middle
        )

    def own_sd(self, mass_sd: Sequence[float]) -> float:
        """The standard deviation of the tail's true middle by what no reading holds, mm: each string's place in its
        notches at nut and saddle, and its mass, `mass_sd` as a part of it.
        """
        squares = 0.0
        for string in range(self.start.shape[1]):
            for name in ("start", "saddle"):
                squares += _follows(*(self._cut(name, string, by) for by in (NOTCH_SD, -NOTCH_SD))) ** 2
            if self.pull is not None:
                sd = mass_sd[string]
                squares += _follows(self._pulled(string, 1 + sd), self._pulled(string, 1 - sd)) ** 2
        return math.sqrt(squares)

    def _cut(self, name: str, string: int, by: float) -> "Runs":
        """The strings with one of them so far to the left at the nut (`start`) or at the saddle."""
        places = getattr(self, name).copy()
        places[:, string] += by
        start, saddle = (places, self.saddle) if name == "start" else (self.start, places)
        carried = saddle + (saddle - start) / self.along * self.behind
        return replace(self, start=start, saddle=saddle, carried=carried)

    def _pulled(self, string: int, times: float) -> "Runs":
        """The strings with one of them pulling so many times as hard."""
        assert self.pull is not None
        pull = self.pull.copy()
        pull[string] *= times
        return replace(self, pull=pull)

    def turned(self, middle: Array) -> tuple[Array, Array]:
        """The strings' angles before and behind the saddle with the tail's middle there (rows,), radians."""
        at = middle[:, None] + self.offsets
        return statics.sideways(self.start, self.saddle, at, self.behind, self.along)


def _follows(more: Runs, less: Runs) -> float:
    """How far the true middle follows one standard deviation, mm: half of what both ways come to."""
    return float(more.true[0] - less.true[0]) / 2


def with_tail(job: Job, states: PerturbedStates, on: OnNeck, strings: OnStrings, laid: Laid) -> Laid:
    """The layout with the tail and what is to be said of it."""
    tail = job.tail
    if tail is None:
        return laid
    if job.bridge is not None and job.bridge.pins is not None:
        return laid.says(tail_told.PINNED)
    saddle = strings.line.x(strings.line.outer).mean(axis=1)
    by = next((names for names in READ_BY if states.has(*names)), ())
    read = on.frame.see(states, *by).mean(axis=1) if by else None
    if read is None and tail.behind is None:
        return laid.says(tail_told.nowhere(job))
    far = read.real if read is not None else saddle + mm(tail.behind or 0.0)
    least = float(far[0] - strings.strung.break_point[0].real.max())
    if least <= 0:
        return laid.says(tail_told.before(job, -least, by[0] if by else None))
    runs = _runs(job, tail, strings.strung, far, [string.tension_n for string in laid.layout.strings])
    own = TWO_SIDED_95 * runs.own_sd([made.mass_sd if made is not None else 0.0 for made in strings.wanted.ready.makes])
    plan = _plan(job, tail, states, on.frame, runs, far, read, own)
    pinned, told = _pin(job, tail, states, on.frame, plan)
    if read is not None and tail.behind is not None:
        told = (tail_told.told_twice(mm(tail.behind), job, float(far[0] - saddle[0]), by), *told)
    if before := _before_bridge(laid.layout, plan):
        told = (tail_told.under_bridge(before), *told)
    return laid.with_places(tail=pinned).tells(tail_told.findings, job, plan).says(*told)


def _before_bridge(layout: Layout, plan: TailPlan) -> list[int]:
    """Which of the tail's screw holes, by their numbers, begin no farther back than bridge or bases end there."""
    stands = layout.bridge or layout.separate
    if stands is None:
        return []
    edges = [stands.corners[at + 2 : at + 4] for at in range(0, len(stands.corners), 4)]

    def back(y: float) -> float:
        """Where the hindmost back edge is beside the neck centre line, carried on past its corners level."""
        return max(float(np.interp(y, [right[1], left[1]], [right[0], left[0]])) for right, left in edges)

    return [number for number, hole in enumerate(plan.screws, 1) if hole.at[0] - hole.diameter / 2 <= back(hole.at[1])]


def _pin(
    job: Job, tail: Tail, states: PerturbedStates, frame: NeckFrame, plan: TailPlan
) -> tuple[TailPlan, tuple[Finding, ...]]:
    """The tail with its strap pin, where one is to be set and the body's end tells where; what is to be said of it."""
    if not tail.pin:
        return plan, ()
    crossing = strap_pin.last_crossing(states, frame)
    if crossing is None or not crossing.is_end(plan.middle[0]):
        return plan, (pin_told.missing(job, crossing, plan.middle[0]),)
    found = strap_pin.find(states, frame, crossing)
    pin = Hole(name="strap pin", at=xy(complex(found.at[0])), diameter=mm(tail.pin_hole))
    plan = replace(plan, pin=pin, pin_pm95=float(states.pm95(found.from_point[:, None])[0]))
    return plan, (pin_told.stands(job, plan, pin),)


def _runs(job: Job, tail: Tail, strung: Strung, far: Array, pulls: list[float | None]) -> Runs:
    assert job.strings is not None
    start, broken = strung.start, strung.break_point
    along, behind = broken.real - start.real, far[:, None] - broken.real
    carried = broken.imag + (broken.imag - start.imag) / along * behind
    offsets = carried - _middle(carried)[:, None]
    if tail.spread is not None:
        way = 1 if job.bass == "left" else -1
        offsets = np.zeros_like(carried) + way * side_by_side(job.strings, Spread(spread=tail.spread), PAIR_AT_SADDLE)
    known = [pull for pull in pulls if pull is not None]
    return Runs(
        start=start.imag,
        saddle=broken.imag,
        carried=carried,
        along=along,
        behind=behind,
        offsets=offsets,
        pull=np.array(known) if len(known) == len(pulls) else None,
        drop=statics.drops(mm(tail.under), behind) if tail.under is not None else np.zeros_like(behind),
    )


def _plan(
    job: Job,
    tail: Tail,
    states: PerturbedStates,
    frame: NeckFrame,
    runs: Runs,
    far: Array,
    read: Points | None,
    own: float,
) -> TailPlan:
    """The tail as the layout holds it; `own` is the ± of its true middle by what no reading holds, mm."""
    assert job.strings is not None
    true = runs.true
    middle = far + 1j * true
    stands = read.imag if read is not None else true
    before, after = runs.turned(stands)
    way = sum(angles[0].mean() for angles in runs.turned(true)) / 2
    sideways, drop = np.degrees(after - before)[0].tolist(), np.degrees(runs.drop)[0].tolist()
    wide = _breaks_pm95(tail, states, runs, typed=read is None)
    at = far[0] + 1j * (stands[0] + runs.offsets[0])
    off = None if read is None else (read.imag - true)
    off_pm95 = 0.0 if off is None else math.hypot(own, float(states.pm95(off[:, None])[0]))
    push, slope = _push(runs, stands)
    return TailPlan(
        middle=xy(complex(middle[0])),
        across_pm95=math.hypot(own, float(states.pm95(across_neck(frame, middle[:, None]))[0])),
        by="pulls" if runs.pull is not None else "middle",
        strings=tuple(
            TailString(
                name=string.name,
                at=xy(complex(place)),
                sideways=turn,
                breaks=fall if tail.under is not None else None,
                breaks_pm95=pm if tail.under is not None else 0.0,
            )
            for string, place, turn, fall, pm in zip(job.strings.list, at, sideways, drop, wide, strict=True)
        ),
        straight_on=tail.spread is None,
        measured=None if read is None else xy(complex(read[0])),
        off=None if off is None else float(off[0]),
        off_pm95=off_pm95,
        push=push,
        push_pm95=0.0 if push is None or not off_pm95 else abs(slope) * off_pm95,
        down=None if runs.pull is None or tail.under is None else statics.down(runs.pull, runs.drop[0]),
        screws=_screws(tail, complex(middle[0]), float(way)),
    )


def _breaks_pm95(tail: Tail, states: PerturbedStates, runs: Runs, *, typed: bool) -> list[float]:
    """How well each string's break over the saddle is known, degrees: of atan(under / behind) by both."""
    under, behind = mm(tail.under or 0.0), runs.behind[0]
    sd = np.hypot(states.pm95(runs.behind) / TWO_SIDED_95, BEHIND_SD if typed else 0.0)
    slope = np.hypot(behind * UNDER_SD, under * sd) / (under * under + behind * behind)
    return [float(wide) for wide in np.degrees(TWO_SIDED_95 * slope)]


def _push(runs: Runs, middle: Array) -> tuple[float | None, float]:
    """What the strings push the bridge with where the tail's middle is, N, and how it follows that, N/mm."""
    if runs.pull is None:
        return None, 0.0
    here, there = (float(statics.push(runs.pull, *runs.turned(at), runs.drop)[0]) for at in (middle, middle + 1.0))
    return here, there - here


def _screws(tail: Tail, middle: complex, way: float) -> tuple[Hole, ...]:
    """The tailpiece's screw holes with its middle where it must be, along the strings' mean way there (radians)."""
    turn = complex(math.cos(way), math.sin(way))
    return tuple(
        Hole(name=f"screw {number}", at=xy(middle + complex(mm(x), mm(y)) * turn), diameter=mm(tail.screw))
        for number, (x, y) in enumerate(tail.screws, 1)
    )


def _middle(places: Array) -> Array:
    """Midway between the outermost of places (rows, n), (rows,)."""
    return np.asarray((places.max(axis=1) + places.min(axis=1)) / 2)
