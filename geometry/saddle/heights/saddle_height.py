"""The saddle's height at both ends, and what follows from it for the bridge.

Two ways lead to the string's height over the top at the saddle. With the strings on it is read as it is **today**. With
the bridge off it is **wanted**: a straightedge on the frets is read over the top at the saddle's place, and the string
will lie over the straightedge by what the action at frets 1 and 12 makes there.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from geometry import words
from geometry.findings import Finding
from geometry.frame import Points
from geometry.job import Job
from geometry.job.bridges.how_held import how_held
from geometry.job.sides import SIDES, Side
from geometry.layout import TWO_SIDED_95
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.heights.break_angle import (
    SD_DEPTH,
    SD_THICKNESS,
    SaddleHeight,
    saddle_height_findings,
    said_degrees,
)
from geometry.saddle.heights.read_heights import Height, action_waits_for, read_height
from geometry.saddle.saddle_line import Strung
from geometry.strings.played import PlayedStrings
from geometry.units import Unit, mm, said, said_pm


class OverTop(NamedTuple):
    """The string over the top at the saddle on one side, by the two ways; None where it cannot be told. `read` says
    that the action was read on this side, so that both ways must agree.
    """

    today: Height | None
    wanted: Height | None
    read: bool

    @property
    def waits_for(self) -> tuple[str, ...]:
        """The ids of the accused readings that either way hangs on."""
        both = (height.waits_for for height in (self.today, self.wanted) if height is not None)
        return tuple(dict.fromkeys(name for names in both for name in names))

    @property
    def taken(self) -> Height | None:
        """What the saddle will have to reach: what is wanted, today's where nothing else is told; where the action was
        read the two are one thing, and their weighted mean.
        """
        if self.today is None or self.wanted is None:
            return self.wanted or self.today
        if not self.read:
            return self.wanted
        weights = [1 / max(one.sd, 1e-6) ** 2 for one in (self.today, self.wanted)]
        mean = (self.today.mm * weights[0] + self.wanted.mm * weights[1]) / sum(weights)
        return Height(mean, 1 / math.sqrt(sum(weights)), self.waits_for)


def over_top(states: PerturbedStates, ready: PlayedStrings, side: Side, string: int) -> OverTop:
    """The outer string (its place in the list) over the top on one side."""
    gap, wanted = read_height(states, "saddle", side), None
    if gap is not None:
        moves = ready.heights_spread[:, :, string].sum(axis=1).tolist()
        over_frets = float(ready.setup.height[string, 0] + ready.setup.rise[string, 0])
        waits_for = (*gap.waits_for, *action_waits_for(states))
        wanted = Height(gap.mm + over_frets, math.hypot(gap.sd, *moves), waits_for)
    read = read_height(states, "fret 12", side) is not None
    return OverTop(today=read_height(states, "bridge", side), wanted=wanted, read=read)


def findings(
    job: Job, states: PerturbedStates, strung: Strung, pins: Points | None, ready: PlayedStrings
) -> tuple[Finding, ...]:
    """How high the saddle stands on both sides; a saddle too low or too high, strings that break too little or too
    much, wood under the slot; and the two ways against each other.
    """
    breaks = strung.break_point[0]
    ends = (int(breaks.imag.argmax()), int(breaks.imag.argmin()))
    depth = mm(job.saddle.slot_depth) if job.saddle is not None and job.saddle.slot_depth is not None else None
    ways: dict[str, OverTop] = {}
    heights: dict[str, SaddleHeight] = {}
    for index, (side, string) in sorted(enumerate(zip(SIDES, ends, strict=True)), key=lambda at: at[1][0] != job.bass):
        name = job.bass_or_treble(side)
        ways[name] = both = over_top(states, ready, side, string)
        thickness = job.bridge.thicknesses[index] if job.bridge is not None else None
        taken = both.taken
        heights[name] = SaddleHeight(
            string_over_top=taken.mm if taken is not None else None,
            over_top_sd=taken.sd if taken is not None else 0.0,
            bridge=mm(thickness) if thickness is not None else None,
            slot_depth=depth,
            behind=float(abs(pins[0, string] - breaks[string])) if pins is not None else None,
        )
    compared = (found for name, both in ways.items() for found in _compared(both, name, job.unit))
    waits_for = tuple(dict.fromkeys(one for both in ways.values() for one in both.waits_for))
    bridged = _bridged(heights, job.unit) if job.bridge is not None else ()
    return (*_told(job, heights, waits_for), *bridged, *compared)


def _bridged(heights: dict[str, SaddleHeight], unit: Unit) -> tuple[Finding, ...]:
    """What is wrong at each side; what is so at both alike is said once, of both."""
    bass, treble = ({f.code: f.text for f in saddle_height_findings(one, "", unit)} for one in heights.values())
    alike = {code for code, text in bass.items() if treble.get(code) == text}
    once = saddle_height_findings(heights["bass"], "both", unit)
    apart = (found for side, one in heights.items() for found in saddle_height_findings(one, side, unit))
    return (*(f for f in once if f.code in alike), *(f for f in apart if f.code not in alike))


def _compared(both: OverTop, side: str, unit: Unit) -> tuple[Finding, ...]:
    """Today's height against the one that follows from the straightedge and the action."""
    today, wanted = both.today, both.wanted
    if today is None or wanted is None:
        return ()
    off, wide = wanted.mm - today.mm, TWO_SIDED_95 * math.hypot(today.sd, wanted.sd)
    values = {"today": today.mm, "wanted": wanted.mm, "pm95": wide}
    made, seen = said(wanted.mm, unit), said(today.mm, unit)
    ways = f"the straightedge and the action give {made}, and the reading at the bridge {seen}"
    if both.read:
        if abs(off) <= wide:
            return ()
        text = (
            f"Two ways to find the string’s height over the top disagree on the {side} side: {ways}. They lie "
            f"{said(abs(off), unit)} apart, and no more than {said_pm(wide, unit)} would be fine. Read the "
            "heights at the saddle, the bridge and the frets again."
        )
        return (Finding(grade="look", code="saddle.two_ways", text=text, values=values, where="saddle"),)
    way = "higher" if off > 0 else "lower"
    text = (
        f"On the {side} side {ways}: with the action that is wanted the string will lie "
        f"{said_pm(wide, unit, abs(off))} {way} at the saddle than it was."
    )
    return (Finding(grade="good", code="saddle.two_ways", text=text, values=values, where="saddle"),)


def _told(job: Job, heights: dict[str, SaddleHeight], waits_for: Sequence[str]) -> tuple[Finding, ...]:
    """How high the saddle stands, how steeply the strings break and what wood is left, at bass and treble, each ±;
    and which readings are accused that this hangs on.
    """
    unit, lines = job.unit, list[str]()
    values: dict[str, float] = {}
    for side, height in heights.items():
        if height.string_over_top is None:
            continue
        wide = TWO_SIDED_95 * height.over_top_sd
        parts = [f"{said_pm(wide, unit, height.string_over_top)} over the top"]
        values |= {f"over_top.{side}": height.string_over_top, f"over_top_pm95.{side}": wide}
        if height.projection is not None:
            out = TWO_SIDED_95 * height.projection_sd
            parts.append(f"{said_pm(out, unit, height.projection)} over the bridge")
            values |= {f"projection.{side}": height.projection, f"projection_pm95.{side}": out}
        if height.degrees is not None:
            degrees, sd = height.degrees
            parts.append(f"its string breaks over it by {said_degrees(degrees, TWO_SIDED_95 * sd)}")
            values |= {f"degrees.{side}": degrees, f"degrees_pm95.{side}": TWO_SIDED_95 * sd}
        if height.wood is not None:
            left = TWO_SIDED_95 * math.hypot(SD_THICKNESS, SD_DEPTH)
            parts.append(f"{said_pm(left, unit, height.wood)} of wood under the slot")
            values |= {f"wood.{side}": height.wood, f"wood_pm95.{side}": left}
        lines.append(f"{side}: {', '.join(parts)}")
    if not lines:
        return ()
    text = f"The {how_held(job).ridge}’s height. {'. '.join(line[:1].upper() + line[1:] for line in lines)}."
    if waits_for:
        named = words.readings_called(job, waits_for)
        text += f" Not settled until {words.several(named, 4)} {'are' if len(named) > 1 else 'is'} read again."
    where = f"reading:{waits_for[0]}" if waits_for else "saddle"
    return (
        Finding(grade="look" if waits_for else "good", code="saddle.height", text=text, values=values, where=where),
    )
