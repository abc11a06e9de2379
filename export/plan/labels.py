"""Labels that never overlap: each takes the first free place near what it names, with a leader where it stands off.

The same labels in the same order always come to lie in the same places. A label for which there is no room is left
out. Everything here happens in the screen's paper mm, where words stand upright.
"""

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

import msgspec
import numpy as np
from numpy.typing import NDArray

from export.drawing.clip import clip_line
from export.drawing.flatten import Box
from export.drawing.marks import XY, Line, Mark, Text, Tone, Vertex
from export.drawing.typeface import width
from export.plan.view import PlanView

Points = NDArray[np.complex128]
CELL, ROOM = 1.5, 100.0
"""A cell's side, and the room for words round a drawing that is seen whole, paper mm."""
CHORDS = 8
"""How many chords stand for an arc: a half circle's lie 0.02 of its radius within it at most."""
HEIGHT = 2.0
"""A label's capital height in paper mm."""
_RING = tuple((math.cos(math.radians(a)), math.sin(math.radians(a))) for a in (0, 35, -35, 90, -90, 180, 145, -145))
_REACHES = (1.6, 4.5, 9.0, 15.0)


class Label(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """Words for a place (instrument mm). `prefer`: the screen direction tried first, in degrees.

    `clear`: how far it stands off at least, paper mm. `leader`: whether it may stand farther off with a line to it.
    `short`: what is said where there is no room for all of the words.
    """

    at: XY
    words: str
    of: str
    tone: Tone = "worked out"
    height: float = HEIGHT
    bold: bool = False
    prefer: float = 0.0
    clear: float = 0.0
    leader: bool = True
    short: str = ""


class Taken:
    """The ground that is taken, as the cells of a grid: all cells under lines (runs of vertices, instrument mm) and
    boxes (paper mm).
    """

    def __init__(self, view: PlanView, lines: Sequence[Sequence[Vertex]], boxes: Iterable[Box]) -> None:
        self.view = view
        self.window = view.seen_box(view.window) if view.window else None
        z = _along(_pieces(view, lines), self.window)
        ground = self.window or Box(*np.append(_corners(z) - ROOM, _corners(-z) * -1 + ROOM).tolist())
        self._i, self._j = math.floor(ground.x0 / CELL), math.floor(ground.y0 / CELL)
        wide, high = math.floor(ground.x1 / CELL) + 1 - self._i, math.floor(ground.y1 / CELL) + 1 - self._j
        cells = np.zeros((high, wide), dtype=bool)
        i, j = (np.floor(part / CELL).astype(np.intp) for part in (z.real, z.imag))
        cells[(j - self._j).clip(0, high - 1), (i - self._i).clip(0, wide - 1)] = True
        packed = np.packbits(cells, axis=1, bitorder="little")
        self._rows = [int.from_bytes(row.tobytes(), "little") for row in packed]
        """The cells' rows, each a number whose bits are its cells: words are tried against them a hundred times."""
        for box in boxes:
            self.box(box)

    def box(self, box: Box) -> None:
        """Take a box (paper mm)."""
        rows, cells = self._under(box)
        for j in rows:
            self._rows[j] |= cells

    def is_free(self, box: Box) -> bool:
        """Whether nothing lies in a box (paper mm)."""
        rows, cells = self._under(box)
        return not any(self._rows[j] & cells for j in rows)

    def _under(self, box: Box) -> tuple[range, int]:
        """The rows under a box as far as there are any, and its cells in each."""
        i, j = math.floor(box.x0 / CELL) - self._i, math.floor(box.y0 / CELL) - self._j
        i1, j1 = math.floor(box.x1 / CELL) + 1 - self._i, math.floor(box.y1 / CELL) + 1 - self._j
        cells = (1 << max(i1, 0)) - (1 << max(i, 0))
        return range(max(j, 0), min(max(j1, 0), len(self._rows))), cells


def _corners(z: Points) -> NDArray[np.float64]:
    """The least x and y of places (k,), 0 where there are none."""
    return np.array((z.real.min(), z.imag.min())) if len(z) else np.zeros(2)


def _pieces(view: PlanView, lines: Sequence[Sequence[Vertex]]) -> Points:
    """The straight pieces and chords of lines through vertices, start and stop (2, k), in the screen's paper mm."""
    vertices = np.array([vertex for line in lines for vertex in line], dtype=np.float64).reshape(-1, 3)
    at = vertices[:, 0] + 1j * vertices[:, 1]
    whole = np.ones(max(len(at) - 1, 0), dtype=bool)
    whole[np.cumsum([len(line) for line in lines], dtype=np.intp)[:-1] - 1] = False
    start, way, sweep = at[:-1][whole], np.diff(at)[whole], 4 * np.arctan(vertices[:-1, 2][whole])
    bent = np.abs(sweep) > 1e-9
    turn, share = sweep[bent, None] / 2, np.arange(CHORDS + 1) / CHORDS
    # an arc's share s from its start: the chord's way times sin(s·turn) / sin(turn), turned by (s − 1)·turn
    arcs = start[bent, None] + way[bent, None] * np.sin(share * turn) / np.sin(turn) * np.exp(1j * (share - 1) * turn)
    line, stop = ~bent, start + way
    first, last = (
        np.concatenate((straight[line], chords.ravel()))
        for straight, chords in ((start, arcs[:, :-1]), (stop, arcs[:, 1:]))
    )
    x, y = (complex(*view.seen(axis)) for axis in ((1.0, 0.0), (0.0, 1.0)))
    return np.array([z.real * x + z.imag * y for z in (first, last)])


def _along(pieces: Points, window: Box | None) -> Points:
    """Places along pieces (2, k), no farther apart than a cell, as far as they lie in the window."""
    start, way = pieces[0], pieces[1] - pieces[0]
    low, high = np.zeros(len(way)), np.ones(len(way))
    if window is not None:
        # Y.-D. Liang and B. A. Barsky, ACM Trans. Graphics 3 (1984) 1-22; a piece along an edge has steps of 0
        for step, room in (
            (-way.real, start.real - window.x0),
            (way.real, window.x1 - start.real),
            (-way.imag, start.imag - window.y0),
            (way.imag, window.y1 - start.imag),
        ):
            at = room / np.where(step == 0, 1.0, step)
            low = np.maximum(low, np.where(step < 0, at, np.where((step == 0) & (room < 0), 2.0, 0.0)))
            high = np.minimum(high, np.where(step > 0, at, 1.0))
    inside = low < high
    start, way = (start + low * way)[inside], ((high - low) * way)[inside]
    steps = np.maximum(np.ceil(np.abs(way) / CELL), 1).astype(np.intp)
    first = np.cumsum(steps + 1) - (steps + 1)
    share = (np.arange(int((steps + 1).sum())) - np.repeat(first, steps + 1)) / np.repeat(steps, steps + 1)
    return np.asarray(np.repeat(start, steps + 1) + share * np.repeat(way, steps + 1))


def place(labels: Iterable[Label], taken: Taken) -> list[Mark]:
    """The labels that find room, first come first served."""
    laid = _Laid([], [])
    marks: list[Mark] = []
    for label in labels:
        if not _in_sight(label, taken):
            continue
        for words in filter(None, (label.words, label.short)):
            more = _placed(msgspec.structs.replace(label, words=words), taken, laid)
            marks += more
            if more:
                break
    return marks


class _Laid(NamedTuple):
    """Words and leaders that have their places already, paper mm."""

    words: list[Box]
    leaders: list[tuple[XY, XY]]


def _in_sight(label: Label, taken: Taken) -> bool:
    (x, y), window = taken.view.seen(label.at), taken.window
    return window is None or (window.x0 <= x <= window.x1 and window.y0 <= y <= window.y1)


def _placed(label: Label, taken: Taken, laid: _Laid) -> list[Mark]:
    """A label's marks in the first place with room for it; none where there is none."""
    at, wide = taken.view.seen(label.at), width(label.words, label.height, label.bold)
    for stand, reach in _tries(label):
        box = _box_at(at, stand, reach, wide, label.height)
        leader = _leader(label, at, stand, reach)
        if (
            (taken.window is None or taken.window.holds(box))
            and taken.is_free(box)
            and not any(clip_line(*other, box) for other in laid.leaders)
            and not (leader and any(clip_line(*leader, other) for other in laid.words))
        ):
            taken.box(box)
            laid.words.append(box)
            if leader:
                laid.leaders.append(leader)
            return _marks(taken.view, label, box, leader)
    return []


@lru_cache(maxsize=64)
def _ring(prefer: float) -> tuple[XY, ...]:
    """The directions to try, the preferred one (degrees) first."""
    turn = math.radians(prefer)
    cos, sin = math.cos(turn), math.sin(turn)
    return tuple((x * cos - y * sin, x * sin + y * cos) for x, y in _RING)


def _tries(label: Label) -> Iterable[tuple[XY, float]]:
    ring = _ring(label.prefer)
    return ((stand, reach + label.clear) for reach in _REACHES[: None if label.leader else 1] for stand in ring)


def _box_at(at: XY, stand: XY, reach: float, wide: float, high: float) -> Box:
    """The words' ground when they stand off in a direction: their near side touches the reach."""
    x, y = at[0] + stand[0] * reach, at[1] + stand[1] * reach
    x0 = x - wide * (1 - _share(stand[0]))
    y0 = y - high * (1 - _share(stand[1]))
    return Box(x0, y0 - 0.2 * high, x0 + wide, y0 + 1.1 * high)


def _share(direction: float) -> float:
    """How much of the words lies ahead of where they stand: all, half or none."""
    return 1.0 if direction > 0.4 else 0.0 if direction < -0.4 else 0.5


def _leader(label: Label, at: XY, stand: XY, reach: float) -> tuple[XY, XY] | None:
    """The line from what is named to words that stand off it, paper mm; None where they stand beside it."""
    if reach - label.clear <= _REACHES[0]:
        return None
    near, far = 0.8, reach - 0.7
    return (at[0] + stand[0] * near, at[1] + stand[1] * near), (at[0] + stand[0] * far, at[1] + stand[1] * far)


def _marks(view: PlanView, label: Label, box: Box, leader: tuple[XY, XY] | None) -> list[Mark]:
    text = Text((box.x0, box.y0 + 0.2 * label.height), label.words, label.height, 0.0, "sb", label.bold)
    placed = view.back.shape(msgspec.structs.replace(text, at=(text.at[0] / view.scale, text.at[1] / view.scale)))
    marks = [Mark(shape=placed, purpose="note", of=label.of, tone=label.tone)]
    if leader is not None:
        line = Line(view.unseen(leader[0]), view.unseen(leader[1]))
        marks.append(Mark(shape=line, purpose="dimension", of=label.of, tone="quiet", weight=0.8))
    return marks
