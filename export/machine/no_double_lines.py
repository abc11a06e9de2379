"""No line twice: where marks run along each other only the one that matters most keeps the stretch they share.

A cutter that follows the same line twice burns or tears it. What matters most comes first in `RANK`.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator

import msgspec

from export.drawing.flatten import Piece, pieces
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Purpose, Text
from export.drawing.straight import direction

RANK: tuple[Purpose, ...] = (
    "cut",
    "route",
    "drill",
    "mark",
    "metal",
    "hidden",
    "centre",
    "lay",
    "before",
    "kept",
    "body",
    "measured",
    "dimension",
    "note",
    "register",
)
NEAR = 0.02
"""Lines closer than this lie on each other, mm."""
SHORT = 0.02
"""What is left of a line is dropped when shorter than this, mm."""
Stretch = tuple[float, float]


class _Lines:
    """The stretches already drawn, by the line they lie on."""

    def __init__(self) -> None:
        self._drawn: dict[int, list[tuple[XY, XY]]] = defaultdict(list)

    def left_of(self, a: XY, b: XY) -> list[Stretch]:
        """The stretches of a→b (in mm from a) that nothing covers yet; they are then drawn."""
        angle = math.atan2(b[1] - a[1], b[0] - a[0]) % math.pi
        length = math.dist(a, b)
        u = direction(a, b)
        bucket = round(angle / 0.002)
        free: list[Stretch] = [(0.0, length)]
        for near in (bucket - 1, bucket, bucket + 1):
            for p, q in self._drawn[near % 1571]:
                free = _without(free, a, u, p, q)
        self._drawn[bucket % 1571].append((a, b))
        return free


def _without(free: list[Stretch], a: XY, u: XY, p: XY, q: XY) -> list[Stretch]:
    """Stretches of the line from `a` along `u` less what p-q covers, if p-q lies along it."""
    (ax, ay), (ux, uy) = a, u
    for x, y in (p, q):
        if abs(ux * (y - ay) - uy * (x - ax)) > NEAR:
            return free
    low, high = sorted(ux * (x - ax) + uy * (y - ay) for x, y in (p, q))
    rest = []
    for start, stop in free:
        if high <= start + SHORT or low >= stop - SHORT:
            rest.append((start, stop))
            continue
        rest += [part for part in ((start, low), (high, stop)) if part[1] - part[0] > SHORT]
    return rest


def without_doubled_lines(marks: Iterable[Mark]) -> tuple[Mark, ...]:
    """The marks without doubled lines, arcs and circles, in their order."""
    listed = list(enumerate(marks))
    lines, rounds = _Lines(), set[tuple[int, ...]]()
    kept: dict[int, list[Mark]] = {}
    for order, mark in sorted(listed, key=lambda item: (RANK.index(item[1].purpose), item[0])):
        kept[order] = list(_left(mark, lines, rounds))
    return tuple(mark for order, _ in listed for mark in kept[order])


def _left(mark: Mark, lines: _Lines, rounds: set[tuple[int, ...]]) -> Iterator[Mark]:
    shape = mark.shape
    if isinstance(shape, Text):
        yield mark
    elif isinstance(shape, Circle | Arc):
        if _is_new(shape, rounds):
            yield mark
    elif isinstance(shape, Line):
        for part in _parts(shape, lines):
            yield mark if part is shape else msgspec.structs.replace(mark, shape=part)
    else:
        yield from _left_of_path(mark, shape, lines, rounds)


def _left_of_path(mark: Mark, path: Path, lines: _Lines, rounds: set[tuple[int, ...]]) -> Iterator[Mark]:
    left: list[Piece] = []
    whole = True
    for piece in pieces(path):
        if isinstance(piece, Arc):
            parts: list[Piece] = [piece] if _is_new(piece, rounds) else []
        else:
            parts = list(_parts(piece, lines))
        whole = whole and len(parts) == 1 and parts[0] is piece
        left += parts
    if whole:
        yield mark
    else:
        for piece in left:
            yield msgspec.structs.replace(mark, shape=piece, filled=False)


def _parts(line: Line, lines: _Lines) -> Iterator[Line]:
    length = math.dist(line.a, line.b)
    if length <= 1e-9:
        return
    for start, stop in lines.left_of(line.a, line.b):
        if start == 0.0 and stop == length:
            yield line
        else:
            (ax, ay), (ux, uy) = line.a, direction(line.a, line.b)
            yield Line((ax + start * ux, ay + start * uy), (ax + stop * ux, ay + stop * uy))


def _is_new(shape: Circle | Arc, rounds: set[tuple[int, ...]]) -> bool:
    ends = () if isinstance(shape, Circle) else sorted((shape.start, shape.start + shape.sweep))
    values = (*shape.centre, shape.radius, *(math.remainder(end, math.tau) * shape.radius for end in ends))
    key = tuple(round(value / NEAR) for value in values)
    if key in rounds:
        return False
    rounds.add(key)
    return True
