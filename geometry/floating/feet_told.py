"""What is to be said of a floating bridge's feet, of its crown and of its height."""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from geometry import rings, words
from geometry.findings import Finding, Grade
from geometry.floating.sliding import slide_told, told_at
from geometry.job import Floating, Job, Saddle
from geometry.job.sides import SIDES
from geometry.layout import TWO_SIDED_95, XY, BridgePlan, FloatingPlan, PlacedPoint
from geometry.perturbed_states import PerturbedStates
from geometry.saddle.heights.saddle_height import over_top
from geometry.saddle.saddle_line import Strung
from geometry.strings.played import PlayedStrings
from geometry.units import mm, said, said_pm, shows

ENOUGH_EDGE, ENOUGH_HOLE = 4, 3
"""So many points tell the body's edge, and a sound hole's, well enough to compare feet with."""
OVER = 3.0
"""A foot that stands past the top's edge by more than this, mm, is not on it, whatever curve the edge takes between
the points that were measured (common practice, no source)."""
HEIGHT_SD = 0.3
"""One standard deviation of the bridge's height as measured, mm (common practice, no source)."""


def findings(
    job: Job, floating: Floating, bridge: BridgePlan, plan: FloatingPlan, points: dict[str, PlacedPoint]
) -> tuple[Finding, ...]:
    """Feet past the top's edge or over the sound hole, where these were measured; how far the bridge may be moved."""
    return (
        *_window(job, bridge, plan),
        *_past_edge(job, plan, points),
        *_over_hole(plan, points),
        *_marks(job, floating, plan),
    )


def _window(job: Job, bridge: BridgePlan, plan: FloatingPlan) -> Iterator[Finding]:
    """The place to begin with, and the window within which the ear decides."""
    bass = 0 if job.bass == "left" else 1
    wide = {"bass": plan.window[bass], "treble": plan.window[1 - bass]}
    ends = " and ".join(f"±{said_pm(pm, job.unit)} at {side}" for side, pm in wide.items())
    slide = slide_told(job.unit, plan.cents_per_mm.values())
    tells = (
        f" A slide of {slide[0]} is {slide[1]} cents at {told_at(job, plan)}: flatter toward the tail." if slide else ""
    )
    aside = max(pm for _, pm in bridge.corners_pm95)
    alone = job.strings is not None and len(job.strings.list) == 1
    turns = (
        f"; it may be turned by ±{plan.turn_pm95:.1f}°, which is ±{said_pm(plan.feet_pm95, job.unit)} at its outer feet"
    )
    yield Finding(
        grade="good",
        code="floating.window",
        text=f"Where the bridge’s feet belong is known to {ends} along the "
        f"neck and ±{said_pm(aside, job.unit)} across it{turns if plan.turns and not alone else ''}.{tells}",
        values={
            "bass": wide["bass"],
            "treble": wide["treble"],
            "degrees": plan.turn_pm95,
            "feet": plan.feet_pm95,
        },
        where="bridge",
    )


def _round(points: dict[str, PlacedPoint], kind: str) -> list[tuple[float, float]]:
    """The points round something, in the order of their numbers."""
    return [(points[name].x, points[name].y) for name in rings.numbered(points, kind)]


def _past_edge(job: Job, plan: FloatingPlan, points: dict[str, PlacedPoint]) -> Iterator[Finding]:
    ring = _round(points, "body")
    if len(ring) < ENOUGH_EDGE:
        return
    from shapely import Point, Polygon  # it is slow to load, and few jobs ask for it

    body = Polygon(ring)
    if not body.is_valid:
        return
    for foot in plan.feet:
        past = max(body.distance(Point(*corner)) for corner in foot.corners)
        if past <= 0:
            continue
        over = past > OVER
        where = "would stand past the edge of the top" if over else "would stand at the very edge of the top"
        yield Finding(
            grade="stop" if over else "look",
            code="floating.edge",
            text=f"{words.first_large(_called(foot.name))} {where}, by {said(past, job.unit)} as its edge was "
            "measured. Look at the bridge’s length, and at the points of the body’s edge.",
            values={"mm": past},
            where="bridge",
        )


def _over_hole(plan: FloatingPlan, points: dict[str, PlacedPoint]) -> Iterator[Finding]:
    ring = _round(points, "soundhole")
    if len(ring) < ENOUGH_HOLE:
        return
    from shapely import Polygon  # it is slow to load, and few jobs ask for it

    hole = Polygon(ring)
    if not hole.is_valid:
        return
    for foot in plan.feet:
        shared = hole.intersection(Polygon(foot.corners)).area / Polygon(foot.corners).area
        if shared <= 0:
            continue
        yield Finding(
            grade="stop",
            code="floating.hole",
            text=f"{words.first_large(_called(foot.name))} would stand over the sound hole, with "
            f"{max(100 * shared, 1.0):.0f} % of it. Look at the feet’s lengths and at the strings’ shift.",
            values={"part": shared},
            where="bridge",
        )


def _called(name: str) -> str:
    return "the bridge" if name == "whole" else f"the {name} foot"


def _marks(job: Job, floating: Floating, plan: FloatingPlan) -> Iterator[Finding]:
    """How far the old feet's marks lie from where the feet will stand, along the neck."""
    if floating.marks and len(plan.marks) < len(floating.marks):
        waits = len(floating.marks) - len(plan.marks)
        yield Finding(
            grade="look",
            code="floating.marks_wait",
            text=f"{waits} of the old foot marks {'is' if waits == 1 else 'are'} not placed yet: read the points "
            "round it.",
            where="field:floating.marks",
        )
    moves = [_moves(job, plan, ring) for ring in plan.marks]
    if not moves:
        return
    one = len(moves) == 1
    them, tells = ("it", "it tells") if one else ("these", "they tell")
    yield Finding(
        grade="good",
        code="floating.marks",
        text=f"The feet come to stand {words.joined([_from_mark(job, move, one=one) for move in moves])}. What they do "
        f"not cover of {them} stays in sight: {tells} where the bridge stood, not where it belongs.",
        values={f"move.{number}{end and '.'}{end}": by for number, move in enumerate(moves, 1) for end, by in move.by},
        where="bridge",
    )


class _Move(NamedTuple):
    """How far the feet come to stand behind (+) a mark along the neck, mm: once, or at each end by its side's name.
    `side`: where the mark lies, middle where it reaches over the middle line.
    """

    side: str
    by: tuple[tuple[str, float], ...]


def _moves(job: Job, plan: FloatingPlan, ring: Sequence[XY]) -> _Move:
    """By the middle of the mark's width, at each of its ends where a rule shows that they differ."""
    (x, y), (low, high) = rings.middle(ring), (min(y for _, y in ring), max(y for _, y in ring))
    over = low < 0 < high
    side = "middle" if over else job.bass_or_treble("left" if y > 0 else "right")
    once = _Move(side, (("", _x_at(plan, y) - x),))
    halves = {name: [at for at in ring if (at[1] > y) == (name == "left")] for name in SIDES}
    if not over or high - low < math.dist(*plan.crown) / 2 or min(map(len, halves.values())) < 2:
        return once  # at the ends of a short mark, readings differ by more than it is turned
    middles = {name: rings.middle(halves[name]) for name in SIDES}
    ends = {job.bass_or_treble(name): _x_at(plan, y) - x for name, (x, y) in middles.items()}
    if said(ends["bass"], job.unit) == said(ends["treble"], job.unit):
        return once
    return _Move(side, (("bass", ends["bass"]), ("treble", ends["treble"])))


def _from_mark(job: Job, move: _Move, *, one: bool) -> str:
    called = "the old mark" if one else f"the {move.side} mark"
    parts = list[str]()
    for end, by in move.by:
        far = f"{said(abs(by), job.unit)} {'behind' if by > 0 else 'before'}" if shows(by, job.unit) else "on"
        parts.append(f"{far} {'it' if parts else called}{f' at {end}' if end else ''}")
    return words.joined(parts)


def _x_at(plan: FloatingPlan, y: float) -> float:
    """Where the line through the middles of the outer feet's ends lies at y."""
    front_left, _, _, back_left = plan.feet[0].corners
    _, front_right, back_right, _ = plan.feet[-1].corners
    (left, own), (right, its) = rings.middle((front_left, back_left)), rings.middle((front_right, back_right))
    return right + (y - its) / (own - its) * (left - right)


def crown_findings(job: Job, plan: FloatingPlan) -> Iterator[Finding]:
    """A crown that is too thin for what the strings want: how thick would do."""
    if plan.thicker is None:
        return
    given = mm((job.saddle or Saddle()).thickness)
    yield Finding(
        grade="look",
        code="floating.thin",
        text=f"The crown cannot carry every string where it should break: one {said(plan.thicker, job.unit)} thick "
        f"would, {said(plan.thicker - given, job.unit)} more than this one.",
        values={"thickness": plan.thicker, "more": plan.thicker - given},
        where="field:saddle.thickness",
    )


def height_findings(job: Job, states: PerturbedStates, strung: Strung, ready: PlayedStrings) -> Iterator[Finding]:
    """The bridge's height against what the strings ask for, at bass and treble; nothing where either is not known."""
    floating, breaks = job.floating, strung.break_point[0]
    if floating is None:
        return
    ends = (int(breaks.imag.argmax()), int(breaks.imag.argmin()))
    sides = sorted(zip(SIDES, ends, floating.heights, strict=True), key=lambda at: at[0] != job.bass)
    for side, string, given in sides:
        wanted = over_top(states, ready, side, string).taken
        if given is None or wanted is None:
            continue
        own, hand = mm(given), job.bass_or_treble(side)
        off, wide = wanted.mm - own, TWO_SIDED_95 * math.hypot(wanted.sd, HEIGHT_SD)
        fits = abs(off) <= wide
        grade: Grade = "good" if fits else "look"
        too, mend = ("low", "Make it higher, or shim its feet") if off > 0 else ("high", "Take it off at the feet")
        tells = (
            f"is high enough: {said_pm(TWO_SIDED_95 * HEIGHT_SD, job.unit, own)} over the top, and the strings ask for "
            f"{said_pm(TWO_SIDED_95 * wanted.sd, job.unit, wanted.mm)}."
            if fits
            else f"is {said_pm(wide, job.unit, abs(off))} too {too}: {said(own, job.unit)} over the top, and the "
            f"strings ask for {said(wanted.mm, job.unit)}. {mend}."
        )
        yield Finding(
            grade=grade,
            code="floating.height",
            text=f"At {hand} the bridge {tells}",
            values={f"off.{hand}": off, f"pm95.{hand}": wide},
            where=f"field:floating.height.{side}",
        )
