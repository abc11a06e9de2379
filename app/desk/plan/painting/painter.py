"""Paints a Drawing's marks on the screen, or on paper through Qt's printer.

Marks that follow each other in one style become one path in instrument millimetres; paths are kept from one picture to
the next.
"""

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple, assert_never

import msgspec
from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPainterPath, QTransform

from app.desk.plan.painting.painted_words import paint_text
from app.desk.plan.painting.styles import Style, brush_of, pen_of
from app.desk.widgets.look import Palette
from export.drawing.marks import Arc, Circle, Drawing, Line, Mark, Path, Purpose, Shape, Text, Tone

SCREEN_PIXELS_PER_MM = 96 / 25.4
"""A paper millimetre on the screen, in device-independent pixels."""
QUARTER = math.tan(math.pi / 8)
"""The bulge of a quarter turn."""


class Group(NamedTuple):
    """Shapes of one style, one after the other in the drawing."""

    style: Style
    path: QPainterPath


class Prepared(msgspec.Struct, frozen=True):
    """A drawing made ready to paint; `words` are those that stand for something, with what it is."""

    groups: tuple[Group, ...]
    texts: tuple[tuple[Text, Style], ...]
    words: tuple[tuple[Text, str], ...]


def prepare(drawing: Drawing, strong: frozenset[str] = frozenset()) -> Prepared:
    """Make a drawing ready; marks whose `of` is in `strong` are painted heavier."""
    runs: list[tuple[Style, list[Shape]]] = []
    texts: list[tuple[Text, Style]] = []
    words: list[tuple[Text, str]] = []
    last: Style | None = None
    for mark in drawing.marks:
        shape, of = mark.shape, mark.of
        style = _style_of(mark.purpose, mark.tone, mark.filled, mark.weight, of, bool(of) and of in strong)
        if isinstance(shape, Text):
            texts.append((shape, style))
            if of:
                words.append((shape, of))
        elif style == last:
            runs[-1][1].append(shape)
        else:
            runs.append((style, [shape]))
            last = style
    groups = tuple(Group(style, _path(tuple(shapes))) for style, shapes in runs)
    return Prepared(groups, tuple(texts), tuple(words))


@lru_cache(maxsize=1024)
def _style_of(purpose: Purpose, tone: Tone, filled: bool, weight: float, of: str, strong: bool) -> Style:
    return Style(purpose, tone, filled, weight, of.partition(":")[0], strong)


@lru_cache(maxsize=1024)
def _path(shapes: tuple[Shape, ...]) -> QPainterPath:
    path = QPainterPath()
    for shape in shapes:
        add_shape(path, shape)
    return path


def add_shape(path: QPainterPath, shape: Shape) -> None:
    """Add one shape to a path; angles of Qt run clockwise on paper whose y points down, ours is flipped by the view."""
    match shape:
        case Line():
            path.moveTo(*shape.a)
            path.lineTo(*shape.b)
        case Arc():
            (x, y), radius, start = shape.centre, shape.radius, -math.degrees(shape.start)
            box = QRectF(x - radius, y - radius, 2 * radius, 2 * radius)
            path.arcMoveTo(box, start)
            path.arcTo(box, start, -math.degrees(shape.sweep))
        case Circle():
            (x, y), radius = shape.centre, shape.radius
            path.addEllipse(x - radius, y - radius, 2 * radius, 2 * radius)
        case Path():
            _add_polyline(path, shape)
        case Text():
            raise TypeError("words are not part of a path")
        case _:
            assert_never(shape)


def _add_polyline(path: QPainterPath, whole: Path) -> None:
    vertices = whole.vertices
    if not vertices:
        return
    path.moveTo(vertices[0][0], vertices[0][1])
    if not any(bulge for _, _, bulge in vertices):
        for x, y, _ in vertices[1:]:
            path.lineTo(x, y)
    else:
        for (ax, ay, bulge), (bx, by, _) in pairwise((*vertices, vertices[0]) if whole.closed else vertices):
            _add_piece(path, ax, ay, bx, by, bulge)
    if whole.closed:
        path.closeSubpath()


def _add_piece(path: QPainterPath, ax: float, ay: float, bx: float, by: float, bulge: float) -> None:
    """A piece from (ax, ay), where the path stands, to (bx, by): a line, or an arc as Bézier curves, each of a quarter
    turn at most.

    With the chord d and the bulge t = tan(θ/4) the curve's handles are (1 + t²)/3 · d, turned by ∓θ/2 from the chord:
    4/3 · tan(θ/4) of the radius, within 0.0003 of it up to a quarter turn (derived).
    """
    if abs(bulge) < 1e-9:
        path.lineTo(bx, by)
    elif abs(bulge) <= QUARTER:
        dx, dy = (bx - ax) / 3, (by - ay) / 3
        along, aside = 1 - bulge * bulge, 2 * bulge
        path.cubicTo(
            ax + along * dx + aside * dy,
            ay + along * dy - aside * dx,
            bx - along * dx + aside * dy,
            by - along * dy - aside * dx,
            bx,
            by,
        )
    else:
        half = math.tan(math.atan(bulge) / 2)
        mx, my = (ax + bx + bulge * (by - ay)) / 2, (ay + by - bulge * (bx - ax)) / 2
        _add_piece(path, ax, ay, mx, my, half)
        _add_piece(path, mx, my, bx, by, half)


def paint(
    painter: QPainter,
    prepared: Prepared,
    transform: QTransform,
    palette: Palette,
    pixels: float = SCREEN_PIXELS_PER_MM,
) -> None:
    """Paint a prepared drawing; `transform` takes instrument mm to pixels."""
    painter.save()
    painter.setTransform(transform, True)
    for style, path in prepared.groups:
        painter.setPen(pen_of(style, palette, pixels))
        painter.setBrush(brush_of(style, palette))
        painter.drawPath(path)
    painter.restore()
    for text, style in prepared.texts:
        paint_text(painter, text, style, transform, palette, pixels)


def boxes(marks: Iterable[Mark]) -> Iterator[tuple[float, float, float, float]]:
    """The box of each mark that is not words."""
    for mark in marks:
        if not isinstance(mark.shape, Text):
            r = _path((mark.shape,)).boundingRect()
            yield (r.left(), r.top(), r.right(), r.bottom())
