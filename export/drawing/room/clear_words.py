"""Words that a line would run through, or that would lie on other words, moved aside to the nearest clear place.

A word moves a little way only, so that it still tells of what it stands beside: one that names a hole stays nearer to
it than to any other. A word that finds no clear place stays, but is left out where the key says the same.
The **ground** of words is the rectangle they fill, turned as they are.
"""

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

import msgspec
import numpy as np
from numpy.typing import NDArray

from export.drawing.flatten import Box, around, shape_points
from export.drawing.marks import XY, Circle, Line, Mark, Path, Shape, Text
from export.drawing.typeface import DESCENT, text_corners

CLEAR = 0.4
"""What is left between a moved word and what stands beside it, mm."""
BESIDE = 0.25
"""Words nearer to a line than this are moved off it, mm: the dots of a dashed line would read as points of theirs."""
CLOSE, NEXT = 0.95, 1.4
"""Words nearer than this before or behind others on their line, mm, would be read as one with them (derived: a space in
letters of 2.1 mm is 0.6 mm), and what is left between them once they are moved.
"""
REACH, STEP, WAYS = 16.0, 0.8, 16
"""How far a word moves at most and how finely places are tried, mm, and in how many directions."""
ROUNDS = 5
"""In so many goes, the nearest first: few words go far."""
NAMES = 4.0
"""Words that stand so near to a hole's rim are its own, mm; words that are no hole's keep so far off."""
ONE_HOLE = 0.5
"""Circles whose middles lie no farther apart are one hole, mm."""
STAY = ("arrow", "tape", "waste", "notch")
"""What words are of (`of`) that stay: beside their arrow, or within what is taped over or cut out."""
IN_KEY = "in the key"
"""What words are of that the key says as well: they are left out where they find no clear place."""
CHORD = 0.2
"""How far off an arc the chords that stand for it may be, mm."""
TAILS = frozenset("gjpqyQ,;()")
"""Letters that reach under the line."""

Pieces = NDArray[np.float64]
"""Straight pieces of lines, (k, 4): x0, y0, x1, y1."""
Corners = tuple[XY, XY, XY, XY]


class Lines(NamedTuple):
    """Straight pieces of lines, and the corners of the upright box round each, (k, 2)."""

    pieces: Pieces
    low: NDArray[np.float64]
    high: NDArray[np.float64]


class Ground(NamedTuple):
    """The ground of words by its corners, and the upright box round all that stands close to it."""

    corners: Corners
    close: Box


class Holes(NamedTuple):
    """The circles of a drawing: their middles (h, 2) and radii (h,), mm, and what each stands for."""

    at: NDArray[np.float64]
    radius: NDArray[np.float64]
    of: tuple[str, ...]


def words_clear(marks: Sequence[Mark], reach: float = REACH) -> tuple[Mark, ...]:
    """The same marks, each note that meets a line or another word moved `reach` mm at most, or left out where it finds
    no clear place and the key says the same; the others as they were.
    """
    lines = _boxed(np.array([piece for mark in marks for piece in _pieces(mark.shape)], dtype=np.float64))
    holes = _holes(marks)
    grounds = {k: _ground(mark.shape) for k, mark in enumerate(marks) if isinstance(mark.shape, Text)}
    moved: list[Mark | None] = list(marks)
    for number in _beside_something(lines, grounds):
        mark, text, ground = marks[number], marks[number].shape, grounds[number].corners
        if not isinstance(text, Text) or mark.purpose != "note" or mark.of in STAY:
            continue
        others = [other for k, other in grounds.items() if k != number]
        if not _on_something(lines, others, text, ground):
            continue
        own = _own(holes, mark.of, text, ground)
        by = _way(lines, others, holes, own, text, ground, reach)
        if by is None and mark.of == IN_KEY:
            moved[number] = None
            del grounds[number]
        elif by is not None:
            text = msgspec.structs.replace(text, at=(text.at[0] + by[0], text.at[1] + by[1]))
            moved[number], grounds[number] = msgspec.structs.replace(mark, shape=text), _ground(text)
    return tuple(mark for mark in moved if mark is not None)


def _ground(text: Text) -> Ground:
    corners = text_corners(text)
    return Ground(corners, around(corners).grown(CLOSE))


def lines_of(marks: Sequence[Mark]) -> Lines:
    """All that words keep off: lines, and other words as lines round and through them."""
    lines = [piece for mark in marks for piece in _pieces(mark.shape)]
    grounds = [text_corners(mark.shape) for mark in marks if isinstance(mark.shape, Text)]
    return _boxed(np.concatenate([np.array(lines, dtype=np.float64).reshape(-1, 4), _outlines(grounds, NEXT - CLEAR)]))


def _boxed(pieces: NDArray[np.float64]) -> Lines:
    pieces = pieces.reshape(-1, 4)
    return Lines(pieces, np.minimum(pieces[:, :2], pieces[:, 2:]), np.maximum(pieces[:, :2], pieces[:, 2:]))


def first_clear(places: Sequence[Text], lines: Lines, clear: float = CLEAR) -> int | None:
    """Which of these, the same words at several places, is the first that stands `clear` mm off all lines."""
    if not places:
        return None
    grounds = [text_corners(text) for text in places]
    near = _near(lines, around([corner for ground in grounds for corner in ground]).grown(clear))
    if not len(near):
        return 0
    moves = np.array([ground[0] for ground in grounds]) - grounds[0][0]
    free = ~_meets(near, places[0], grounds[0], moves, clear)
    return int(free.argmax()) if free.any() else None


def is_clear(text: Text, lines: Lines, clear: float = CLEAR) -> bool:
    """Whether words stand `clear` mm off all lines."""
    ground = text_corners(text)
    return not _meets_here(_near(lines, around(ground).grown(clear)), text, ground, clear)


def _beside_something(lines: Lines, grounds: Mapping[int, Ground]) -> list[int]:
    """The words whose upright box meets a line's or another word's, by their numbers: all that can be on something."""
    corners = np.array([ground.corners for ground in grounds.values()], dtype=np.float64).reshape(-1, 4, 2)
    low, high = corners.min(axis=1), corners.max(axis=1)
    on_lines = _meet(low - BESIDE, high + BESIDE, lines.low, lines.high).any(axis=1)
    on_words = _meet(low - CLOSE, high + CLOSE, low, high).sum(axis=1) > 1  # 1: itself
    return [number for number, on in zip(grounds, (on_lines | on_words).tolist(), strict=True) if on]


def _meet(
    low: NDArray[np.float64], high: NDArray[np.float64], first: NDArray[np.float64], last: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Which boxes, by their corners (k, 2), meet which others (m, 2), (k, m)."""
    return np.asarray(((first <= high[:, None]) & (last >= low[:, None])).all(axis=2))


def _holes(marks: Sequence[Mark]) -> Holes:
    found = [(mark.shape, mark.of) for mark in marks if isinstance(mark.shape, Circle)]
    at = np.array([circle.centre for circle, _ in found], dtype=np.float64).reshape(-1, 2)
    return Holes(at, np.array([circle.radius for circle, _ in found], dtype=np.float64), tuple(of for _, of in found))


def _own(holes: Holes, of: str, text: Text, ground: Corners) -> NDArray[np.bool_]:
    """Which circles are of the hole that words name, (h,): one that stands for the same, or the nearest if near."""
    if not holes.of:
        return np.zeros(0, dtype=bool)
    far = _off_rims(holes, text, ground, np.zeros((1, 2)))[0]
    same = np.array([bool(of) and other == of for other in holes.of])
    if not same.any() and far.min() > NAMES:
        return same
    nearest = int(np.where(same | ~same.any(), far, np.inf).argmin())
    return np.asarray(np.hypot(*(holes.at - holes.at[nearest]).T) <= ONE_HOLE)


def _off_rims(holes: Holes, text: Text, ground: Corners, ways: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far words lie off each hole's rim for each way they may be moved, (k, h), mm."""
    a, b, _, d = (complex(*corner) for corner in ground)
    turn = complex(math.cos(text.angle), -math.sin(text.angle))
    middles = (holes.at[:, 0] + 1j * holes.at[:, 1] - a - (ways[:, 0] + 1j * ways[:, 1])[:, None]) * turn
    beside = np.maximum(np.maximum(-middles.real, middles.real - abs(b - a)), 0.0)
    over = np.maximum(np.maximum(-middles.imag, middles.imag - abs(d - a)), 0.0)
    return np.asarray(np.abs(np.hypot(beside, over) - holes.radius))


def _names_the_same(
    holes: Holes, own: NDArray[np.bool_], text: Text, ground: Corners, ways: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Whether words moved so still stand beside their own hole and nearest to it, or beside none where they name none,
    (k,).
    """
    if not own.size:
        return np.ones(len(ways), dtype=bool)
    far = _off_rims(holes, text, ground, ways)
    if own.any():
        off, at_rest = far[:, own].min(axis=1), _off_rims(holes, text, ground, np.zeros((1, 2)))[0, own].min()
        return np.asarray((off < far[:, ~own].min(axis=1, initial=np.inf)) & (off <= max(NAMES, float(at_rest))))
    return np.asarray((far >= NAMES).all(axis=1))


def _on_something(lines: Lines, others: Sequence[Ground], text: Text, ground: Corners) -> bool:
    """Whether words stand on a line, on `others`, or close before or behind them."""
    here = around(ground)
    if _meets_here(_near(lines, here.grown(BESIDE)), text, ground, BESIDE):
        return True
    touching = [other.corners for other in others if other.close.meets(here)]
    return _meets_here(_outlines(touching, CLOSE), text, ground, 0.0)


def _way(
    lines: Lines,
    others: Sequence[Ground],
    holes: Holes,
    own: NDArray[np.bool_],
    text: Text,
    ground: Corners,
    reach: float,
) -> XY | None:
    """How far words that stand on something are moved; None where no place near is clear."""
    wide = around(ground).grown(reach + CLEAR)
    beside = [other.corners for other in others if other.close.meets(wide.grown(NEXT - CLEAR))]
    near = np.concatenate([_near(lines, wide), _near(_boxed(_outlines(beside, NEXT - CLEAR)), wide)])
    for ways in np.array_split(_ways(text.angle, reach), ROUNDS):
        free = ~_meets(near, text, ground, ways, CLEAR) & _names_the_same(holes, own, text, ground, ways)
        if free.any():
            first: list[float] = ways[free.argmax()].tolist()
            return first[0], first[1]
    return None


def _ways(angle: float, reach: float) -> NDArray[np.float64]:
    """The moves tried, (k, 2), shortest first, and across the words before along them."""
    turns = sorted(range(WAYS), key=lambda k: abs(math.cos(2 * math.pi * k / WAYS)))
    toward = angle + 2 * math.pi / WAYS * np.array(turns)
    far = STEP * np.arange(1, round(reach / STEP) + 1)[:, None]
    return np.stack([far * np.cos(toward), far * np.sin(toward)], axis=-1).reshape(-1, 2)


def _pieces(shape: Shape) -> list[tuple[float, float, float, float]]:
    if isinstance(shape, Text):
        return []
    if isinstance(shape, Line):
        return [(*shape.a, *shape.b)]
    points = shape_points(shape, CHORD)
    ring = [*points, points[0]] if not isinstance(shape, Path) or shape.closed else points
    return [(*a, *b) for a, b in pairwise(ring)]


def _outlines(grounds: Sequence[Corners], beyond: float) -> Pieces:
    """The sides of words' grounds, longer by so much at both ends, and the line through their middle, which other words
    keep off as off lines.
    """
    found = []
    for a, b, c, d in (_longer(ground, beyond) for ground in grounds):
        start, end = ((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)
        found += [(*p, *q) for p, q in ((a, b), (b, c), (c, d), (d, a), (start, end))]
    return np.array(found, dtype=np.float64).reshape(-1, 4)


def _longer(ground: Corners, by: float) -> Corners:
    """Words' ground with so much more before and behind them."""
    a, b, c, d = ground
    long = math.dist(a, b) or 1.0  # no words
    x, y = (b[0] - a[0]) / long * by, (b[1] - a[1]) / long * by
    return (a[0] - x, a[1] - y), (b[0] + x, b[1] + y), (c[0] + x, c[1] + y), (d[0] - x, d[1] - y)


def _near(lines: Lines, box: Box) -> Pieces:
    """The lines whose own boxes meet a box."""
    (x0, y0), (x1, y1) = lines.low.T, lines.high.T
    near: Pieces = lines.pieces[(x0 <= box.x1) & (y0 <= box.y1) & (x1 >= box.x0) & (y1 >= box.y0)]
    return near


def _meets(lines: Pieces, text: Text, ground: Corners, ways: NDArray[np.float64], clear: float) -> NDArray[np.bool_]:
    """Whether a line runs through the words' ground with `clear` round it, for each way they may be moved, (k,).

    Liang and Barsky's clipping ("A new concept and method for line clipping", 1984), in the words' own directions.
    """
    a, b, _, d = (complex(*corner) for corner in ground)
    turn = complex(math.cos(text.angle), -math.sin(text.angle))
    low = 0.0 if TAILS.intersection(text.text) else text.height * DESCENT
    moves = (ways[:, 0] + 1j * ways[:, 1])[:, None] * turn
    starts, ends = ((lines[:, k] + 1j * lines[:, k + 1] - a) * turn for k in (0, 2))
    run, first = ends - starts, starts - moves
    since, until = np.zeros(first.shape), np.ones(first.shape)
    for at, by, least, most in (
        (first.real, run.real, -clear, abs(b - a) + clear),
        (first.imag, run.imag, low - clear, abs(d - a) + clear),
    ):
        by = np.where(by == 0.0, 1e-12, by)
        one, other = (least - at) / by, (most - at) / by
        since, until = np.maximum(since, np.minimum(one, other)), np.minimum(until, np.maximum(one, other))
    return np.asarray((since < until).any(axis=1))


def _meets_here(lines: Pieces, text: Text, ground: Corners, clear: float) -> bool:
    """The same as `_meets` of words where they stand, in plain numbers: few lines are near them, and are gone through
    in the time that arrays take to set up.
    """
    a, b, _, d = (complex(*corner) for corner in ground)
    turn = complex(math.cos(text.angle), -math.sin(text.angle))
    low = 0.0 if TAILS.intersection(text.text) else text.height * DESCENT
    along, across = (-clear, abs(b - a) + clear), (low - clear, abs(d - a) + clear)
    for x0, y0, x1, y1 in lines.tolist():
        start, end = (complex(x0, y0) - a) * turn, (complex(x1, y1) - a) * turn
        run, since, until = end - start, 0.0, 1.0
        for at, by, (least, most) in ((start.real, run.real, along), (start.imag, run.imag, across)):
            one, other = (least - at) / (by or 1e-12), (most - at) / (by or 1e-12)
            since, until = max(since, min(one, other)), min(until, max(one, other))
        if since < until:
            return True
    return False
