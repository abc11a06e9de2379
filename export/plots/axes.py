"""What all plots share: two axes with few ticks and their unit, marks on them, and the key."""

import math
from collections.abc import Container, Iterable, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

import msgspec

from export.drawing.flatten import Box, polyline
from export.drawing.marks import XY, Anchor, Circle, Drawing, Line, Mark, Text, Tone
from export.drawing.typeface import width
from geometry.units import MM_PER, Unit, in_decimals

LETTERS = 2.2
"""The capitals' height of all words in a plot, mm: 12.5 px type on the screen."""
FOOT = 0.7
"""From the paper's lower edge to the base line of the words below an axis, mm: their commas reach below it."""
DOT = 0.85
"""Half of a mark's width, mm."""
TICK, GAP = 1.0, 1.2
ABOVE = LETTERS / 2 + 2.0
"""From a ground's upper edge to the base line of the words above it, mm: past a tick's words on that edge, and clear of
them by what a comma reaches below the line.
"""
HEAD = ABOVE + LETTERS + 0.5
"""The room above a ground."""
COUNTED: dict[Unit, tuple[float, str]] = {"mm": (1.0, "mm"), "cm": (10.0, "cm"), "in": (MM_PER["in"] / 64, "1/64 in")}
"""What an axis counts in a job of that unit: how many mm, and what it is called."""
Dot = Literal["solid", "filled", "hollow", "cross"]
"""How a place is marked: a solid circle for bass, a hollow square for treble, a cross for the middle; of bars the one
for bass is a filled square.
"""
DOTS: dict[str, Dot] = {"bass": "solid", "treble": "hollow", "middle": "cross"}


class Plot(msgspec.Struct, frozen=True, kw_only=True):
    """`size` in mm; `says` is what it shows, in one or two sentences."""

    drawing: Drawing
    size: XY
    says: str


class Ticks(NamedTuple):
    """Where an axis has its ticks, with their words."""

    at: tuple[float, ...]
    words: tuple[str, ...]


class Axes(NamedTuple):
    """The ground of a plot on the paper, and the values at its edges."""

    ground: Box
    x: XY
    y: XY

    def at(self, x: float, y: float) -> XY:
        """A place on the paper, within the ground or not."""
        (x0, x1), (y0, y1), box = self.x, self.y, self.ground
        return box.x0 + (x - x0) / (x1 - x0) * box.width, box.y0 + (y - y0) / (y1 - y0) * box.height

    def runs(self, values: Iterable[tuple[float, float]]) -> list[list[XY]]:
        """A line through values, in the parts of it that lie between the ground's lower and upper edge."""
        low, high = self.y
        found: list[list[XY]] = [[]]
        for (ax, ay), (bx, by) in pairwise(values):
            start, stop = 0.0, 1.0
            if ay != by:
                edges = sorted(((low - ay) / (by - ay), (high - ay) / (by - ay)))
                start, stop = max(start, edges[0]), min(stop, edges[1])
            if start >= stop or (ay == by and not low <= ay <= high):
                continue
            a, b = (self.at(ax + share * (bx - ax), ay + share * (by - ay)) for share in (start, stop))
            if not found[-1] or found[-1][-1] != a:
                found.append([a])
            found[-1].append(b)
        return [run for run in found if run]


def axes_within(size: XY, left: float, right: float, x: XY, y: XY) -> Axes:
    """Axes with so much room for words at the left and the right, a line of words above and two below, mm."""
    low, high = 2 * (LETTERS + GAP) + TICK + 1.0, size[1] - HEAD
    return Axes(Box(left, low, size[0] - right, high), x, y)


def steps(reach: float, most: int = 4) -> tuple[float, ...]:
    """From 0 in round steps of 1, 2 or 5 to the first that is not below `reach`; no more than `most` steps."""
    if reach <= 0:
        return 0.0, 1.0
    power = 10.0 ** math.floor(math.log10(reach / most))
    step = next(power * round_one for round_one in (1, 2, 5, 10) if power * round_one * most >= reach * (1 - 1e-9))
    return tuple(step * at for at in range(math.ceil(reach / step - 1e-9) + 1))


def round_levels(low: float, high: float, most: int = 4) -> tuple[float, ...]:
    """Round levels from one that is not above `low` to one that is not below `high`, nought among them where it lies
    between; about `most` steps.
    """
    step = steps(max(high - low, 1e-9), most)[1]
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(step * at for at in range(first, last + 1))


def figure(value: float, step: float, *, sign: bool = False) -> str:
    """A tick's words, no finer than the steps."""
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    return in_decimals(value, places, sign=sign)


def frame(axes: Axes, x: Ticks, y: Ticks, names: tuple[str, str], unruled: Container[float] = ()) -> list[Mark]:
    """The axes: a line at each of y's ticks but those `unruled`, strokes at x's, the words; y's name above, x's below
    in the middle.
    """
    box, marks = axes.ground, list[Mark]()
    for at, words in zip(y.at, y.words, strict=True):
        high = axes.at(axes.x[0], at)[1]
        if at not in unruled:
            marks.append(line((box.x0, high), (box.x1, high), weight=1.0 if at == 0 else 0.72))
        marks.append(text((box.x0 - GAP, high), words, "em"))
    for at, words in zip(x.at, x.words, strict=True):
        along = axes.at(at, axes.y[0])[0]
        marks.append(line((along, box.y0), (along, box.y0 - TICK)))
        marks.append(text((along, box.y0 - TICK - GAP), words, "mt"))
    marks.append(text((0.0, box.y1 + ABOVE), names[1], "sb"))
    marks.append(text(((box.x0 + box.x1) / 2, FOOT), names[0], "mb"))
    return marks


def line(a: XY, b: XY, weight: float = 1.0, of: str = "") -> Mark:
    """A thin line of the plot itself."""
    return Mark(shape=Line(a, b), purpose="dimension", tone="quiet", weight=weight, of=of)


def text(at: XY, words: str, anchor: Anchor, *, bold: bool = False, tone: Tone = "quiet", of: str = "") -> Mark:
    """Words of the plot."""
    return Mark(shape=Text(at, words, LETTERS, 0.0, anchor, bold), purpose="note", tone=tone, of=of)


def dot(at: XY, kind: Dot, of: str = "") -> list[Mark]:
    """A place on the plot, its shape telling what it is."""
    (x, y), h = at, DOT
    if kind == "solid":
        return [Mark(shape=Circle(at, h), purpose="mark", filled=True, of=of)]
    if kind in ("filled", "hollow"):
        ring = [(x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h)]
        shape = polyline(ring, closed=True)
        return [Mark(shape=shape, purpose="mark", filled=kind == "filled", weight=0.8, of=of)]
    ends = (((x - h, y - h), (x + h, y + h)), ((x - h, y + h), (x + h, y - h)))
    return [Mark(shape=Line(a, b), purpose="mark", weight=0.8, of=of) for a, b in ends]


def key(right: XY, kinds: Iterable[tuple[Dot, str]]) -> list[Mark]:
    """What the marks' shapes stand for, in one line that ends at `right` on its base line."""
    marks: list[Mark] = []
    x, y = right
    for kind, words in reversed(list(kinds)):
        marks.append(text((x, y), words, "eb"))
        x -= width(words, LETTERS) + 1.0 + DOT
        marks += dot((x, y + LETTERS / 2), kind)
        x -= DOT + 3.0
    return marks


def apart(wanted: Sequence[float], least: float, low: float, high: float) -> list[float]:
    """Places as near as can be to those wanted (by the sum of squares), in the same order from low to high, none nearer
    to the next than `least`. Those that are pushed by each other stand around the middle of what they want (pool
    adjacent violators: R. E. Barlow and others, Statistical inference under order restrictions, 1972).
    """
    order = sorted(range(len(wanted)), key=wanted.__getitem__)
    pools: list[tuple[float, int]] = []  # the mean of those that stand least apart, less what lies below, and how many
    for rank, at in enumerate(order):
        mean, count = wanted[at] - rank * least, 1
        while pools and pools[-1][0] > mean:
            below, more = pools.pop()
            mean, count = (mean * count + below * more) / (count + more), count + more
        pools.append((mean, count))
    most = high - (len(wanted) - 1) * least
    bases = [min(max(mean, low), most) for mean, count in pools for _ in range(count)]
    found = [0.0] * len(wanted)
    for rank, (at, base) in enumerate(zip(order, bases, strict=True)):
        found[at] = base + rank * least
    return found
