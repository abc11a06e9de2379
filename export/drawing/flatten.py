"""Pieces, points and boxes of the drawing's shapes: what bulges mean, and how near chords come to an arc."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple, assert_never

from export.drawing.marks import XY, Arc, Circle, Line, Path, Shape, Text, Vertex

Piece = Line | Arc


class Box(NamedTuple):
    """An upright box."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        return self.y1 - self.y0

    def grown(self, by: float) -> "Box":
        """The box with `by` more on every side."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def meets(self, other: "Box") -> bool:
        """Whether the two boxes share any ground."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def holds(self, other: "Box") -> bool:
        """Whether `other` lies wholly inside."""
        return self.x0 <= other.x0 and self.y0 <= other.y0 and self.x1 >= other.x1 and self.y1 >= other.y1


def around(points: Sequence[XY]) -> Box:
    """The box around points."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def union(boxes: Sequence[Box]) -> Box:
    """The box around boxes."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return Box(min(x0), min(y0), max(x1), max(y1))


def arc_between(a: XY, b: XY, bulge: float) -> Arc:
    """The arc from `a` to `b` whose bulge is tan(sweep / 4), positive counter-clockwise."""
    lift = (1 - bulge * bulge) / (4 * bulge)
    dx, dy = b[0] - a[0], b[1] - a[1]
    centre = ((a[0] + b[0]) / 2 - lift * dy, (a[1] + b[1]) / 2 + lift * dx)
    radius = math.hypot(dx, dy) * (1 + bulge * bulge) / (4 * abs(bulge))
    return Arc(centre, radius, math.atan2(a[1] - centre[1], a[0] - centre[0]), 4 * math.atan(bulge))


def pieces(path: Path) -> Iterator[Piece]:
    """The lines and arcs a path is made of, leaving out those of no length."""
    around_ = (*path.vertices, path.vertices[0]) if path.closed else path.vertices
    for (ax, ay, bulge), (bx, by, _) in pairwise(around_):
        if math.hypot(bx - ax, by - ay) > 1e-9:
            yield arc_between((ax, ay), (bx, by), bulge) if abs(bulge) > 1e-9 else Line((ax, ay), (bx, by))


def on_arc(arc: Arc | Circle, angle: float) -> XY:
    """The place on a circle at an angle."""
    return arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle)


def arc_ends(arc: Arc) -> tuple[XY, XY]:
    """Where an arc starts and stops."""
    return on_arc(arc, arc.start), on_arc(arc, arc.start + arc.sweep)


def ends(piece: Piece) -> tuple[XY, XY]:
    """Where a piece starts and stops."""
    return (piece.a, piece.b) if isinstance(piece, Line) else arc_ends(piece)


def length(shape: Line | Arc | Circle | Path) -> float:
    """How long a shape's line is, all round where it is closed."""
    match shape:
        case Line():
            return math.dist(shape.a, shape.b)
        case Arc():
            return shape.radius * abs(shape.sweep)
        case Circle():
            return math.tau * shape.radius
        case Path():
            return sum(length(piece) for piece in pieces(shape))
        case _:
            assert_never(shape)


def arc_points(arc: Arc, off: float) -> list[XY]:
    """Points along an arc, so close that no chord is farther than `off` mm from it."""
    step = math.pi / 4 if off >= arc.radius else 2 * math.acos(1 - off / arc.radius)
    count = max(1, math.ceil(abs(arc.sweep) / step))
    (x, y), radius, start, sweep = arc.centre, arc.radius, arc.start, arc.sweep
    angles = [start + sweep * i / count for i in range(count + 1)]
    return [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles]


def path_points(path: Path, off: float) -> list[XY]:
    """A path's points with its arcs as chords, none farther than `off` mm from them; not closed by repetition."""
    points: list[XY] = [path.vertices[0][:2]]
    for piece in pieces(path):
        points += [piece.b] if isinstance(piece, Line) else arc_points(piece, off)[1:]
    if path.closed and len(points) > 1 and math.dist(points[0], points[-1]) < 1e-9:
        points.pop()
    return points


def shape_points(shape: Shape, off: float = 0.05) -> list[XY]:
    """Points along any shape; of a text the place it stands on."""
    match shape:
        case Line():
            return [shape.a, shape.b]
        case Arc():
            return arc_points(shape, off)
        case Circle():
            return arc_points(Arc(shape.centre, shape.radius, 0.0, 2 * math.pi), off)[:-1]
        case Path():
            return path_points(shape, off)
        case Text():
            return [shape.at]
        case _:
            assert_never(shape)


def vertices_of(shape: Line | Arc | Path) -> tuple[Vertex, ...]:
    """The vertices a shape runs through, the last one its end; an arc in two halves, so that none is a whole turn."""
    match shape:
        case Line():
            return (*shape.a, 0.0), (*shape.b, 0.0)
        case Arc():
            start, sweep = shape.start, shape.sweep
            bulge = math.tan(sweep / 8)
            return (
                (*on_arc(shape, start), bulge),
                (*on_arc(shape, start + sweep / 2), bulge),
                (*on_arc(shape, start + sweep), 0.0),
            )
        case Path():
            return (*shape.vertices, shape.vertices[0]) if shape.closed else shape.vertices
        case _:
            assert_never(shape)


def polyline(points: Sequence[XY], closed: bool = False) -> Path:
    """A path of straight pieces through points."""
    return Path(tuple((x, y, 0.0) for x, y in points), closed)


def _extremes(arc: Arc) -> list[XY]:
    low, high = sorted((arc.start, arc.start + arc.sweep))
    quarter = math.pi / 2
    first = math.ceil(low / quarter - 1e-12)
    return [*arc_ends(arc), *(on_arc(arc, k * quarter) for k in range(first, math.floor(high / quarter + 1e-12) + 1))]


def _outermost(piece: Piece) -> Sequence[XY]:
    """Places that lie as far out as a piece of a path does."""
    return (piece.a, piece.b) if isinstance(piece, Line) else _extremes(piece)


def box(shape: Line | Arc | Circle | Path) -> Box:
    """The exact box around a drawn shape (a text's box needs its typeface: see `typeface.text_box`)."""
    match shape:
        case Line():
            (ax, ay), (bx, by) = shape.a, shape.b
            return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
        case Arc():
            return around(_extremes(shape))
        case Circle():
            (x, y), r = shape.centre, shape.radius
            return Box(x - r, y - r, x + r, y + r)
        case Path():
            return around([at for piece in pieces(shape) for at in _outermost(piece)] or [shape.vertices[0][:2]])
        case _:
            assert_never(shape)
