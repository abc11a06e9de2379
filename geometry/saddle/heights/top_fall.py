"""How the top falls away from the fingerboard's plane, where it was measured: the board over the top at its end, and
the string over the top at the bridge, or with the strings off the straightedge on the frets over the top at the
saddle's place. A rule that lies on the top beyond the board reads more by it.
"""

import math
from collections.abc import Iterator

import msgspec

from geometry.findings import Finding, look
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES, Side
from geometry.neck.find_neck import NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.saddle_line import SaddleLine
from geometry.strings.played import PlayedStrings
from geometry.units import said

FRET = 1.0
"""Fret tops over the board, mm (common practice, no source)."""
FALL_SD = 0.4
"""One standard deviation of a measured fall, mm: two rule readings, the action and the frets' height together (common
practice, no source)."""
TILT = math.radians(1.5)
"""By how much the top may fall away from the board's plane where no heights are known (common practice, no source)."""
LEVEL = 0.05
"""Degrees; what is less reads as none."""
STEEP = math.radians(4)
"""A top that leans more than this against the board's plane is looked at (common practice, no source)."""
MISREAD = math.radians(10)
"""No top leans like this: one of the heights is a slip (common practice, no source)."""
UNEVEN = 2.0
"""mm. Hardly any top falls by so much more at one side than at the other: three and a half times what the readings of
both leave (`FALL_SD`; common practice, no source)."""
SHORTEST = 20.0
"""The room between board's end and saddle, mm, under which two heights tell no slope (common practice, no
source)."""


class Fall(msgspec.Struct, frozen=True, kw_only=True):
    """How far the top falls at [left, right] from the board's end to the saddle, `drop` (mm), and its `slope` with the
    standard deviation `sd`; `known` says that it was measured. Where it was not it is 0, and a top may lean either way
    by up to `TILT` (rectangular).
    """

    drop: tuple[float, float] = (0.0, 0.0)
    slope: tuple[float, float] = (0.0, 0.0)
    sd: float = 0.0
    known: bool = False

    def along_top(self, length: float, side: int | None = None) -> tuple[float, float]:
        """What a rule on the top reads for a length in the board's plane, and its standard deviation, mm.

        `side` 0 left, 1 right, None for a rule laid crosswise.
        """
        slope = sum(self.slope) / 2 if side is None else self.slope[side]
        stretch = math.hypot(1, slope)
        if self.known:
            return length * stretch, length * abs(slope) / stretch * self.sd
        return length, length * (1 / math.cos(TILT) - 1) / math.sqrt(3)


def find_fall(states: PerturbedStates, ready: PlayedStrings, bass: Side, frame: NeckFrame, line: SaddleLine) -> Fall:
    """The top's fall between the board's end and the saddle, where both heights were measured; the string's over the
    top tells it where the action was measured too.

    A height read on one side only stands for the other too.
    """
    at_end, frets = _heights(states, "board end"), _frets_over_top(states, ready, bass)
    if at_end is None or frets is None or frame.ends is None:
        return Fall()
    rooms = [x - end for x, end in zip(line.x(line.outer)[0].tolist(), frame.ends[0].real.tolist(), strict=True)]
    if min(rooms) < SHORTEST:
        return Fall()
    left, right = (over_top - FRET - board for over_top, board in zip(frets, at_end, strict=True))
    slope = left / rooms[0], right / rooms[1]
    return Fall(drop=(left, right), slope=slope, sd=FALL_SD / min(rooms), known=True)


def _frets_over_top(states: PerturbedStates, ready: PlayedStrings, bass: Side) -> tuple[float, float] | None:
    """The frets' plane over the top at the saddle's place at [left, right], mm: as the straightedge shows it, or the
    string over the top less the string over the frets.
    """
    straightedge, at_bridge = _heights(states, "saddle"), _heights(states, "bridge")
    if straightedge is not None or at_bridge is None or ready.heights_assumed:
        return straightedge
    over_frets = (ready.setup.height + ready.setup.rise)[:, 0].tolist()
    left, right = (over_frets[-1], over_frets[0]) if bass == "left" else (over_frets[0], over_frets[-1])
    return at_bridge[0] - left, at_bridge[1] - right


def _heights(states: PerturbedStates, place: str) -> tuple[float, float] | None:
    """A height as read at [left, right], mm."""
    left, right = (states.unknown(f"height.{place}.{side}") for side in SIDES)
    left, right = (left, right) if left is not None else (right, right)
    if left is None:
        return None
    return float(left[0]), float((left if right is None else right)[0])


def findings(job: Job, fall: Fall) -> tuple[Finding, ...]:
    """How the top lies to the board's plane, where it was measured."""
    if not fall.known:
        return ()
    drop, slope = max(zip(fall.drop, fall.slope, strict=True), key=lambda side: abs(side[1]))
    degrees, much = math.degrees(math.atan(slope)), said(abs(drop), job.unit)
    way = f"{'falls away from' if slope >= 0 else 'rises toward'} the board’s plane by {abs(degrees):.1f}°: {much}"
    way = f"lies as the board’s plane does, to {much}" if abs(degrees) < LEVEL else way
    steep, wrong = abs(math.atan(slope)) > STEEP, abs(math.atan(slope)) > MISREAD
    more = (
        "No top slopes that steeply: read the heights at the board’s end and at the bridge again, units and "
        "decimal points too."
        if wrong
        else "Look at the heights read at the board’s end and at the bridge, to the belly and to the neck angle."
        if steep
        else "The check distances from the board’s end allow for it: they are what a rule lying on the top reads."
    )
    return (
        *_uneven(job, fall, wrong),
        Finding(
            grade="stop" if wrong else "look" if steep else "good",
            code="top.fall",
            text=f"By the heights the top {way} between the board’s end and the {how_held(job).ridge}. {more}",
            values={"degrees": degrees, "mm": drop},
            where="bridge",
        ),
    )


def _uneven(job: Job, fall: Fall, wrong: bool) -> Iterator[Finding]:
    """The heights of one side against those of the other: nothing else checks them, and a saddle's and a nut's heights
    hang on them.
    """
    left, right = fall.drop
    if wrong or abs(left - right) <= UNEVEN:
        return
    each = " and ".join(
        f"{'falls' if drop >= 0 else 'rises'} {said(abs(drop), job.unit)} at the {job.bass_or_treble(side)}"
        for drop, side in zip(fall.drop, SIDES, strict=True)
    )
    yield look(
        "top.uneven",
        f"By the heights the top {each} between the board’s end and the {how_held(job).ridge}, and hardly any does: "
        "one of them is a slip, or the sides of two are exchanged. Read again on both sides: the string over frets 1 "
        "and 12 and over the top, and the board over the top. How high saddle and nut are to be hangs on them.",
        "step:measure",
        mm=left - right,
    )
