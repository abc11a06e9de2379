"""Invented instruments in space, whose saddle and nut are known in every height; and what a hand reads of them.

The geometry is the campaign's own and shares no code with the program's: points are vectors (x to the tail, y to the
left, z over the frets' plane), strings straight lines, the board's face a cylinder or a cone. All sizes are invented
(common practice, no source).
"""

import math
from typing import Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from geometry.job import Action, Arch, Board, Bridge, Job, Nut, Pins, Point, Reading, Saddle, Spread, String, Strings
from geometry.job.job import Hand

Vector = NDArray[np.float64]
Way = Literal["strings on", "bridge off"]
"""The saddle's height is found over the top today, or by a straightedge and the action that was measured before."""
SIDES = ("left", "right")
COUNT = 6
CALIPER = math.hypot(0.10, 0.05)
"""What a caliper of tenths is out by, one standard deviation, mm: its reading and its zero, as the guide has them."""


class Solid(msgspec.Struct, frozen=True, kw_only=True):
    """One true instrument. Pairs are [left, right]; `low` and `high` are the outer strings over the frets' plane at the
    nut and at the saddle, `gap` that plane over the top there, `radius` of the board's face at the nut and at its end.
    """

    hand: Hand
    scale: float
    nut: float
    end: float
    long: float
    spread: tuple[float, float]
    low: tuple[float, float]
    high: tuple[float, float]
    gap: tuple[float, float]
    radius: tuple[float, float]
    thick: tuple[float, float]
    depth: float
    fret: float
    bed: tuple[float, float]
    wanted: tuple[float, float] | None

    def shares(self) -> Vector:
        """How far each string, from treble to bass, lies from the left (0) to the right (1)."""
        from_treble = np.linspace(0.0, 1.0, COUNT)
        return from_treble if self.hand == "right" else 1.0 - from_treble

    def over(self, side: int, x: float) -> float:
        """An outer string over the frets' plane at `x` from the nut: a straight line in space."""
        nut, saddle = np.array([0.0, 0.0, self.low[side]]), np.array([self.scale, 0.0, self.high[side]])
        return float((nut + (saddle - nut) * (x / self.scale))[2])

    def fret_at(self, number: int) -> float:
        return self.scale * (1 - 2 ** (-number / 12))

    def ridge(self) -> Vector:
        """The saddle's ridge over the top under each string: on a circle through the outer strings' undersides, whose
        radius is the board's carried on to the saddle.
        """
        left, right = (np.array([y, self.gap[i] + self.high[i]]) for i, y in enumerate(self._outer()))
        radius = self.radius[0] + (self.radius[1] - self.radius[0]) * self.scale / self.long
        half = self.spread[1] / 2
        found = []
        for share in self.shares():
            on_chord = left + share * (right - left)
            found.append(on_chord[1] + math.sqrt(radius**2 - on_chord[0] ** 2) - math.sqrt(radius**2 - half**2))
        return np.array(found)

    def _outer(self) -> tuple[float, float]:
        return self.spread[1] / 2, -self.spread[1] / 2

    def whole(self) -> Vector:
        """The same over the slot's floor: the bridge's top straight from side to side, the floor alike deep."""
        share = self.shares()
        return self.ridge() - (self.thick[0] * (1 - share) + self.thick[1] * share) + self.depth

    def bottoms(self) -> tuple[Vector, Vector]:
        """Each slot's bottom over the board's face under it, and over the nut's bottom."""
        share, first = self.shares(), self.fret_at(1)
        low = np.array(self.low)
        if self.wanted is not None:
            through, saddle = np.array(self.wanted), np.array(self.high)
            low = saddle + (through - saddle) * (self.scale / (self.scale - first))
        over_board = self.fret + low[0] * (1 - share) + low[1] * share
        y = self.spread[0] * (0.5 - share)
        half = self.nut / 2
        across = (half - y) / self.nut
        face = np.sqrt(self.radius[0] ** 2 - y**2) - math.sqrt(self.radius[0] ** 2 - half**2)
        return over_board, over_board + self.bed[0] * (1 - across) + self.bed[1] * across + face


def invent(random: np.random.Generator) -> Solid:
    """An instrument whose top tilts, whose bridge is thicker at one side, whose board is round, flat or compound."""
    scale, near = random.uniform(600, 660), random.uniform(180, 500)
    far = near if random.random() < 0.5 else near * random.uniform(1.1, 1.6)
    low = random.uniform(0.05, 0.5, 2)
    wanted = None if random.random() < 0.5 else tuple(np.round(random.uniform(0.3, 0.6, 2), 2).tolist())
    return Solid(
        hand="right" if random.random() < 0.5 else "left",
        scale=scale,
        nut=random.uniform(42, 52),
        end=random.uniform(54, 62),
        long=random.uniform(420, 470),
        spread=(random.uniform(34, 40), random.uniform(50, 60)),
        low=(low[0], low[1]),
        high=_pair(random, 3.0, 5.5),
        gap=_pair(random, 8.0, 10.5),
        radius=(near, far),
        thick=_pair(random, 8.5, 9.8),
        depth=random.uniform(5, 7),
        fret=random.uniform(0.8, 1.3),
        bed=_pair(random, 4.5, 6.5),
        wanted=wanted,
    )


def _pair(random: np.random.Generator, least: float, most: float) -> tuple[float, float]:
    one, other = random.uniform(least, most, 2)
    return float(one), float(other)


def read(random: np.random.Generator, true: Solid, way: Way) -> Job:
    """What a hand reads of it, each reading with the error that is stated of it, and the job made of these."""
    points = {
        "nut.left": (0.0, true.nut / 2),
        "nut.right": (0.0, -true.nut / 2),
        "end.left": (true.long, true.end / 2),
        "end.right": (true.long, -true.end / 2),
    }
    return Job(
        hand=true.hand,
        board=_board(random, true),
        points={name: Point(near=(round(x), round(y))) for name, (x, y) in points.items()},
        readings=(*_plane(random, true, points), *_heights(random, true, way)),
        strings=_strings(random, true, way),
        nut=Nut(
            height=12.0,
            bed=(true.bed[0] + random.normal(0, 0.1), true.bed[1] + random.normal(0, 0.1)),
            fret_height=true.fret + random.normal(0, 0.05),
            over_fret1=true.wanted or (None, None),
        ),
        saddle=Saddle(slot_depth=true.depth + random.normal(0, 0.2)),
        bridge=Bridge(
            thickness=(true.thick[0] + random.normal(0, 0.1), true.thick[1] + random.normal(0, 0.1)), pins=Pins()
        ),
    )


def _board(random: np.random.Generator, true: Solid) -> Board:
    """The radius typed by gauges, or read over a chord, at one place or at both."""
    places = true.radius if true.radius[0] != true.radius[1] else true.radius[:1]
    if random.random() < 0.5:
        typed = [radius * (1 + random.normal(0, 0.03)) for radius in places]
        return Board(radius=typed[0] if len(typed) == 1 else (typed[0], typed[1]))
    chord = 40.0
    rises = [radius - math.sqrt(radius**2 - (chord + random.normal(0, 0.3)) ** 2 / 4) for radius in places]
    read_as = [rise + random.uniform(-0.05, 0.05) for rise in rises]
    return Board(arch=tuple(Arch(chord=chord, rise=rise, within=0.05) for rise in read_as))


def _plane(random: np.random.Generator, true: Solid, points: dict[str, tuple[float, float]]) -> list[Reading]:
    """The board's sides and diagonals, and six frets on either side."""
    names, found = list(points), []
    for i, a in enumerate(names):
        for b in names[i + 1 :]:
            long = math.dist(points[a], points[b]) + random.normal(0, 0.25)
            found.append(Reading(id=f"{a}-{b}", kind="distance", of=(a, b), value=long, sigma=0.25))
    for side in SIDES:
        for fret in (1, 3, 5, 7, 9, 12):
            at = true.fret_at(fret) + random.normal(0, 0.2)
            found.append(Reading(id=f"{side}{fret}", kind="fret", fret=fret, on=side, value=at, sigma=0.2))  # type: ignore[arg-type]  # left or right
    return found


def _heights(random: np.random.Generator, true: Solid, way: Way) -> list[Reading]:
    """Over the top at the saddle, and while the strings are on over frets 1 and 12."""
    wanted: list[tuple[str, str, float]] = []
    for i, side in enumerate(SIDES):
        if way == "strings on":
            wanted += [(place, side, high) for place, high in _action(true, i)]
            wanted.append(("bridge", side, true.gap[i] + true.high[i]))
        else:
            wanted.append(("saddle", side, true.gap[i]))
    return [
        Reading(
            id=f"{place} {side}",
            kind="height",
            at=place,  # type: ignore[arg-type]  # one of the places
            on=side,  # type: ignore[arg-type]  # left or right
            value=max(high + random.normal(0, CALIPER), 0.0),
            with_="caliper 0.1",
        )
        for place, side, high in wanted
    ]


def _action(true: Solid, side: int) -> list[tuple[str, float]]:
    return [("fret 1", true.over(side, true.fret_at(1))), ("fret 12", true.over(side, true.scale / 2))]


def _strings(random: np.random.Generator, true: Solid, way: Way) -> Strings:
    """Strings of unknown make at equal centres; with the bridge off the action that was measured before it came off."""
    action = None
    if way == "bridge off":
        (left_1, left_12), (right_1, right_12) = (
            [high + random.normal(0, 0.1) for _, high in _action(true, side)] for side in (0, 1)
        )
        action = Action(fret1=(max(left_1, 0.0), max(right_1, 0.0)), fret12=(left_12, right_12))
    return Strings(
        list=tuple(String(name=str(i + 1)) for i in range(COUNT)),
        nut=Spread(spread=true.spread[0]),
        saddle=Spread(spread=true.spread[1]),
        compensation=(0.0,) * COUNT,
        action=action,
    )
