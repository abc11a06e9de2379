"""Laying a drawing down: a **transform** turns, mirrors and shifts instrument mm onto a sheet, never stretching."""

import math
from functools import lru_cache
from typing import assert_never

import msgspec

from export.drawing.flatten import Box
from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Shape, Text

_SWAPPED = str.maketrans("bt", "tb")
_TURNED = str.maketrans("btse", "tbes")


class Transform(msgspec.Struct, frozen=True, kw_only=True):
    """`mirror` first takes y to -y; then `turn` (radians, counter-clockwise); then `shift`."""

    shift: XY = (0.0, 0.0)
    turn: float = 0.0
    mirror: bool = False

    def xy(self, point: XY) -> XY:
        """Where a point comes to lie."""
        x, y = point[0], -point[1] if self.mirror else point[1]
        if not self.turn:
            return x + self.shift[0], y + self.shift[1]
        cos, sin = _exact(self.turn)
        return x * cos - y * sin + self.shift[0], x * sin + y * cos + self.shift[1]

    def back(self, point: XY) -> XY:
        """The point that comes to lie at `point`."""
        dx, dy = point[0] - self.shift[0], point[1] - self.shift[1]
        cos, sin = _exact(self.turn)
        x, y = dx * cos + dy * sin, dy * cos - dx * sin
        return x, -y if self.mirror else y

    def angle(self, angle: float) -> float:
        """What a direction becomes."""
        return (-angle if self.mirror else angle) + self.turn

    def shape(self, shape: Shape) -> Shape:
        """A shape laid down; words stay the right way round and readable."""
        flip = -1.0 if self.mirror else 1.0
        match shape:
            case Line():
                return Line(self.xy(shape.a), self.xy(shape.b))
            case Arc():
                return Arc(self.xy(shape.centre), shape.radius, self.angle(shape.start), flip * shape.sweep)
            case Circle():
                return Circle(self.xy(shape.centre), shape.radius)
            case Path():
                return Path(tuple((*self.xy((x, y)), flip * bulge) for x, y, bulge in shape.vertices), shape.closed)
            case Text():
                if not self.turn and not self.mirror:
                    return readable(msgspec.structs.replace(shape, at=self.xy(shape.at)))
                return readable(
                    msgspec.structs.replace(
                        shape,
                        at=self.xy(shape.at),
                        angle=self.angle(shape.angle),
                        anchor=shape.anchor.translate(_SWAPPED) if self.mirror else shape.anchor,
                    )
                )
            case _:
                assert_never(shape)

    def box(self, box: Box) -> Box:
        """The upright box that an upright one comes to lie in, for turns by right angles."""
        (ax, ay), (bx, by) = self.xy(box[:2]), self.xy(box[2:])
        return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))

    def marks(self, marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
        """Marks laid down."""
        return tuple(msgspec.structs.replace(mark, shape=self.shape(mark.shape)) for mark in marks)


def readable(text: Text) -> Text:
    """The same words on the same ground, read from below or from the right, never upside down.

    What stands within 10 degrees of upright is read from the right, lean as it may, so that both edges' words agree.
    """
    angle = math.remainder(text.angle, 2 * math.pi)
    if -math.radians(80) < angle <= math.radians(100):
        return text if angle == text.angle else msgspec.structs.replace(text, angle=angle)
    turned = math.remainder(angle + math.pi, 2 * math.pi)
    return msgspec.structs.replace(text, angle=turned, anchor=text.anchor.translate(_TURNED))


@lru_cache(maxsize=64)
def _exact(turn: float) -> tuple[float, float]:
    """Cosine and sine, exact at quarter turns so that upright stays upright."""
    quarter = turn / (math.pi / 2)
    if abs(quarter - round(quarter)) < 1e-12:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
    return math.cos(turn), math.sin(turn)
