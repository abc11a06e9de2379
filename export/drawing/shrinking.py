"""A drawing made smaller or larger for a picture: shapes shrink, letters keep their height on the paper."""

from typing import assert_never

import msgspec

from export.drawing.marks import XY, Arc, Circle, Line, Mark, Path, Shape, Text


def shrunk(marks: tuple[Mark, ...], scale: float, shift: XY) -> list[Mark]:
    """Marks at `scale` paper mm per mm, then shifted by paper mm."""

    def at(point: XY) -> XY:
        return point[0] * scale + shift[0], point[1] * scale + shift[1]

    def small(shape: Shape) -> Shape:
        match shape:
            case Line():
                return Line(at(shape.a), at(shape.b))
            case Arc():
                return Arc(at(shape.centre), shape.radius * scale, shape.start, shape.sweep)
            case Circle():
                return Circle(at(shape.centre), shape.radius * scale)
            case Path():
                return Path(tuple((*at((x, y)), bulge) for x, y, bulge in shape.vertices), shape.closed)
            case Text():
                return msgspec.structs.replace(shape, at=at(shape.at))
            case _:
                assert_never(shape)

    return [msgspec.structs.replace(mark, shape=small(mark.shape)) for mark in marks]
