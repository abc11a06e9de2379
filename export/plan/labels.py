"""Labels that never overlap: each takes the first free place near what it names, with a leader where it stands off.

The same labels in the same order always come to lie in the same places. A label for which there is no room is left
out. Everything here happens in the screen's paper mm, where words stand upright.
"""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import msgspec

from export.drawing.clip import clip_line
from export.drawing.flatten import Box
from export.drawing.marks import XY, Line, Mark, Text
from export.drawing.typeface import width
from export.plan.view import PlanView

CELL = 1.5
HEIGHT = 2.0
"""A label's capital height in paper mm."""
_RING = tuple((math.cos(math.radians(a)), math.sin(math.radians(a))) for a in (0, 35, -35, 90, -90, 180, 145, -145))
_REACHES = (1.6, 4.5, 9.0, 15.0)


class Label(msgspec.Struct, frozen=True, kw_only=True):
    """Words for a place (instrument mm). `prefer`: the screen direction tried first, in degrees.

    `clear`: how far it stands off at least, paper mm. `leader`: whether it may stand farther off with a line to it.
    """

    at: XY
    words: str
    of: str
    tone: str = "worked out"
    height: float = HEIGHT
    bold: bool = False
    prefer: float = 0.0
    clear: float = 0.0
    leader: bool = True


class Taken:
    """The ground that is taken, as cells."""

    def __init__(self, view: PlanView) -> None:
        self.view = view
        self.window = _window(view)
        self._cells: set[tuple[int, int]] = set()

    def box(self, box: Box) -> None:
        """Take a box (paper mm)."""
        for i in range(math.floor(box.x0 / CELL), math.floor(box.x1 / CELL) + 1):
            for j in range(math.floor(box.y0 / CELL), math.floor(box.y1 / CELL) + 1):
                self._cells.add((i, j))

    def line(self, points: Sequence[XY]) -> None:
        """Take the ground under a line through points (instrument mm)."""
        seen = [self.view.seen(at) for at in points]
        add, floor = self._cells.add, math.floor
        for a, b in pairwise(seen):
            part = clip_line(a, b, self.window) if self.window else (a, b)
            if part is None:
                continue
            (ax, ay), (bx, by) = part
            steps = max(1, math.ceil(math.hypot(bx - ax, by - ay) / CELL))
            dx, dy = (bx - ax) / steps, (by - ay) / steps
            for k in range(steps + 1):
                add((floor((ax + dx * k) / CELL), floor((ay + dy * k) / CELL)))

    def is_free(self, box: Box) -> bool:
        """Whether nothing lies in a box (paper mm)."""
        return not any(
            (i, j) in self._cells
            for j in range(math.floor(box.y0 / CELL), math.floor(box.y1 / CELL) + 1)
            for i in range(math.floor(box.x0 / CELL), math.floor(box.x1 / CELL) + 1)
        )


def place(labels: Iterable[Label], taken: Taken) -> list[Mark]:
    """The labels that find room, first come first served."""
    view = taken.view
    window = taken.window
    marks: list[Mark] = []
    for label in labels:
        at = view.seen(label.at)
        if window is not None and not (window.x0 <= at[0] <= window.x1 and window.y0 <= at[1] <= window.y1):
            continue
        wide = width(label.words, label.height, label.bold)
        for stand, reach in _tries(label):
            box = _box_at(at, stand, reach, wide, label.height)
            if (window is None or window.holds(box)) and taken.is_free(box):
                taken.box(box)
                marks += _marks(view, label, at, stand, reach, box)
                break
    return marks


def _tries(label: Label) -> Iterable[tuple[XY, float]]:
    turn = math.radians(label.prefer)
    cos, sin = math.cos(turn), math.sin(turn)
    ring = [(x * cos - y * sin, x * sin + y * cos) for x, y in _RING]
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


def _marks(view: PlanView, label: Label, at: XY, stand: XY, reach: float, box: Box) -> list[Mark]:
    text = Text((box.x0, box.y0 + 0.2 * label.height), label.words, label.height, 0.0, "sb", label.bold)
    placed = view.back.shape(msgspec.structs.replace(text, at=(text.at[0] / view.scale, text.at[1] / view.scale)))
    marks = [Mark(shape=placed, purpose="note", of=label.of, tone=label.tone)]  # type: ignore[arg-type]  # tones are written by hand above
    if reach - label.clear > _REACHES[0]:
        near = (at[0] + stand[0] * 0.8, at[1] + stand[1] * 0.8)
        far = (at[0] + stand[0] * (reach - 0.7), at[1] + stand[1] * (reach - 0.7))
        leader = Line(view.unseen(near), view.unseen(far))
        marks.append(Mark(shape=leader, purpose="dimension", of=label.of, tone="quiet", weight=0.8))
    return marks


def _window(view: PlanView) -> Box | None:
    if view.window is None:
        return None
    (ax, ay), (bx, by) = view.seen(view.window[:2]), view.seen(view.window[2:])
    return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
