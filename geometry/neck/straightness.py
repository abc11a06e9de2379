"""Whether the board's edges are straight: each looked at at fret 12 and wherever else it was read, against its own ±.

An edge's **bend** is how far its fret 12 lies off the straight line from the nut to the board's end, and the angle by
which the part beyond fret 12 turns against the part before it. Where both edges turn alike, the **board turns**.
"""

import math
from typing import NamedTuple

import numpy as np

from geometry import words
from geometry.findings import Finding
from geometry.frame import Array, Points, cross, unit
from geometry.job import Job
from geometry.job.sides import SIDES, Side
from geometry.layout import TWO_SIDED_95
from geometry.neck.find_neck import SHORTEST, NeckFrame
from geometry.perturbed_states import PerturbedStates
from geometry.survey.rows.row import BELIEVABLE
from geometry.units import said_angle, said_pm, show_number

SURE = BELIEVABLE
"""From how many of its own standard deviations on a bend is one: of 1,000 straight edges one is called bent, as of
1,000 good readings one is not believed.
"""
ALIKE = 0.5
"""Edges that differ turn alike all the same where the weaker turns by at least this share of their mean (derived: where
one edge is straight and the other bends, that share is none)."""


class Size(NamedTuple):
    """A worked-out number and its standard deviation."""

    value: float
    sd: float

    @property
    def sure(self) -> bool:
        """Whether it is not nothing."""
        return abs(self.value) > SURE * self.sd

    @property
    def pm95(self) -> float:
        """The half of its 95 % interval."""
        return TWO_SIDED_95 * self.sd


class Bend(NamedTuple):
    """How an edge bends at a point: `off` the line from nut to board end (mm, + to the left), and by how much the part
    beyond the point turns to the left (degrees); `turn` is None for a point too near the line's ends to tell.
    """

    side: Side
    point: str
    off: Size
    turn: Size | None = None


class Straightness(NamedTuple):
    """What was seen of the edges: how each bends at fret 12, the most doubtful other point on each, the edges that
    nobody looked at; and the mean turn and offset where both edges turn alike.
    """

    bends: tuple[Bend, ...] = ()
    hollows: tuple[Bend, ...] = ()
    unlooked: tuple[Side, ...] = ()
    turn: Size | None = None
    off: Size | None = None


class _Edge(NamedTuple):
    """Points on one edge in all rows: the nut's corner and the far end of the line (rows,), and others by name."""

    side: Side
    nut: Points
    far: Points
    others: dict[str, Points]
    twelfth: Points | None


def look_along(states: PerturbedStates, frame: NeckFrame) -> Straightness:
    """Both edges, in all perturbed states."""
    edges = [_edge(side, at) for side, at in zip(SIDES, frame.on_edges, strict=True)]
    unlooked = tuple(edge.side for edge in edges if edge.twelfth is None and not edge.others)
    bends, turn, off = _bends(states, [edge for edge in edges if edge.twelfth is not None])
    bent = {bend.side for bend in bends if bend.off.sure} | (set(SIDES) if turn is not None else set())
    hollows = [_hollow(states, edge, bent=edge.side in bent) for edge in edges if edge.others]
    return Straightness(bends, tuple(hollows), unlooked, turn, off)


def _edge(side: Side, at: dict[str, Points]) -> _Edge:
    nut, end, twelfth = next(iter(at)), f"end.{side}", f"fret12.{side}"
    far = end if end in at else max(at, key=lambda name: _apart(at[nut], at[name]))
    others = {name: points for name, points in at.items() if name not in (nut, far)}
    told = None
    if far == end and twelfth in others and min(_apart(at[twelfth], at[name]) for name in (nut, end)) >= SHORTEST:
        told = others.pop(twelfth)
    return _Edge(side, at[nut], at[far], others, told)


def _apart(a: Points, b: Points) -> float:
    """How far two points lie from each other in the first row, mm."""
    return abs(complex(a[0]) - complex(b[0]))


def _bends(states: PerturbedStates, edges: list[_Edge]) -> tuple[tuple[Bend, ...], Size | None, Size | None]:
    """How each edge bends at fret 12, and the mean turn and offset where both turn alike."""
    if not edges:
        return (), None, None
    nut, far = np.array([edge.nut for edge in edges]), np.array([edge.far for edge in edges])
    twelfth = np.array([edge.twelfth for edge in edges if edge.twelfth is not None])
    before = twelfth - nut
    offs, turns = cross(unit(far - nut), before), np.angle((far - twelfth) * before.conj()) * (180 / math.pi)
    asked = [*offs, *turns]
    if len(edges) == 2:
        asked += [(turns[0] + turns[1]) / 2, turns[0] - turns[1], (offs[0] + offs[1]) / 2]
    sizes = _sizes(states, asked)
    count = len(edges)
    bends = tuple(Bend(edge.side, f"fret12.{edge.side}", sizes[i], sizes[count + i]) for i, edge in enumerate(edges))
    if count < 2:
        return bends, None, None
    left, right, mean, differ, off = sizes[2:]
    weaker = min(abs(left.value), abs(right.value))
    alike = left.value * right.value > 0 and (not differ.sure or weaker >= ALIKE * abs(mean.value))
    return (bends, mean, off) if alike and mean.sure else (bends, None, None)


def _hollow(states: PerturbedStates, edge: _Edge, *, bent: bool) -> Bend:
    """The other point on an edge that departs most, for its ±: from the straight line, or from the bent one."""
    offs = []
    for at in edge.others.values():
        start, stop = edge.nut, edge.far
        if bent and edge.twelfth is not None:
            before = _apart(at, edge.nut) < _apart(edge.twelfth, edge.nut)
            start, stop = (edge.nut, edge.twelfth) if before else (edge.twelfth, edge.far)
        offs.append(cross(unit(stop - start), at - start))
    sizes = dict(zip(edge.others, _sizes(states, offs), strict=True))
    worst = max(sizes, key=lambda name: abs(sizes[name].value) / max(sizes[name].sd, 1e-9))
    return Bend(edge.side, worst, sizes[worst])


def _sizes(states: PerturbedStates, values: list[Array]) -> list[Size]:
    rows = np.array(values).T
    return [Size(*pair) for pair in zip(rows[0].tolist(), states.sd(rows).tolist(), strict=True)]


def findings(job: Job, seen: Straightness) -> tuple[Finding, ...]:
    """Edges that bend, single points off them, edges that nobody looked at; else that they are straight. A board that
    turns is spoken of elsewhere, with the choice that it leaves.
    """
    found = [_unlooked(job, seen.unlooked)] if seen.unlooked else []
    if seen.turn is None:
        found += [_bent(job, bend, bend.turn) for bend in seen.bends if bend.off.sure and bend.turn is not None]
    found += [_hollowed(job, hollow) for hollow in seen.hollows if hollow.off.sure]
    if len(seen.bends) == 2 and not found and seen.turn is None:
        found.append(_straight(job, seen.bends))
    return tuple(found)


def _unlooked(job: Job, sides: tuple[Side, ...]) -> Finding:
    says = "Nobody has checked whether the edges are straight"
    if len(sides) == 1:
        own, other = (job.bass_or_treble(side) for side in (sides[0], words.other_side(sides[0])))
        says = f"Only the {other} edge was looked along; nobody has checked whether the {own} edge is straight"
    wanted = [f"fret12.{side}" for side in sides]
    asked = [r.id for r in job.readings if r.asked and not r.struck and r.of and r.of[0] in wanted]
    then = "answer what the list asks of fret 12." if asked else "lay a straightedge along, and look at fret 12."
    return Finding(
        grade="look",
        code="board.unlooked",
        text=f"{says}: {then}",
        briefly=f"{says}.",
        where=f"reading:{asked[0]}" if asked else f"add:{'+'.join(wanted)}",
    )


def _bent(job: Job, bend: Bend, turn: Size) -> Finding:
    hand, way = job.bass_or_treble(bend.side), "inside" if (bend.off.value > 0) == (bend.side == "right") else "outside"
    return Finding(
        grade="look",
        code="edge.bends",
        text=f"The {hand} edge bends at fret 12, by {degrees(turn)}: there it lies {length(job, bend.off)} "
        f"{way} the straight line from nut to board end. Look along it again, and check that all three "
        f"points were read on the same edge.{_grows_wider(job, hand)}",
        values={
            "off": bend.off.value,
            "off_pm95": bend.off.pm95,
            "degrees": turn.value,
            "degrees_pm95": turn.pm95,
        },
        where=f"point:{bend.point}",
    )


def _grows_wider(job: Job, hand: str) -> str:
    """What else an edge that bends may be, where a string starts at a fret beside it."""
    strings = job.strings.list if job.strings is not None else ()
    beside = strings[-1:] if hand == "bass" else strings[:1]
    return "".join(
        f" A board that grows wider where {words.string(string.name)} starts has no straight edge there: let the neck "
        "centre line follow two threads."
        for string in beside
        if string.starts_at
    )


def _hollowed(job: Job, hollow: Bend) -> Finding:
    called = words.called(hollow.point, job.hand)
    return Finding(
        grade="look",
        code="edge.hollow",
        text=f"The edge is not straight: {called} lies {length(job, hollow.off)} off the line from nut to board end. "
        "It may be a hollow or a planed stretch; check that it was read on the edge.",
        values={"off": hollow.off.value, "off_pm95": hollow.off.pm95},
        where=f"point:{hollow.point}",
    )


def _straight(job: Job, bends: tuple[Bend, ...]) -> Finding:
    """What stands on answers alone is said: two wrong ones go together, and no other reading would tell."""
    off = max(bends, key=lambda bend: bend.off.sd).off
    turn = max((bend.turn for bend in bends if bend.turn is not None), key=lambda size: size.sd)
    answers = {r.of[0] for r in job.readings if r.kind == "inline" and r.taken}
    trusted = all(bend.point in answers for bend in bends)
    text = f"The edges are straight at fret 12, within ±{said_pm(off.pm95, job.unit)} or ±{_up(turn.pm95)}°."
    if trusted:
        text += " This rests on the answers “in line”: if both are wrong, no other reading shows it."
    return Finding(
        grade="good",
        code="board.straight",
        text=text,
        values={"off_pm95": off.pm95, "degrees_pm95": turn.pm95, "answered": float(trusted)},
        where="point:fret12.left",
    )


def length(job: Job, size: Size) -> str:
    """A small length with its ±, without its sign."""
    return said_pm(size.pm95, job.unit, abs(size.value))


def degrees(size: Size) -> str:
    """An angle with its ±, without its sign."""
    return degrees_said(size.value, size.pm95)


def degrees_said(value: float, pm95: float) -> str:
    """The same of the two numbers, in degrees."""
    return said_angle(abs(value), pm95)


def _up(angle: float) -> str:
    """Tenths of a degree, rounded up: never better than it is."""
    return show_number(math.ceil(angle * 10 - 1e-9) / 10)
