"""Paints a Drawing's marks on the screen, or on paper through Qt's printer.

Marks that follow each other in one style become one path in instrument millimetres; paths are kept from one picture to
the next. Pens are cosmetic (their width is in pixels whatever the zoom), with the dashes of ISO 128 in paper mm.
"""

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple, assert_never

import msgspec
from PySide6.QtCore import QMarginsF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPainterPath, QPen, QTransform

from app.desk.widgets.look import FAMILY, Palette, colour
from export.drawing import typeface
from export.drawing.marks import Arc, Circle, Drawing, Line, Mark, Path, Purpose, Shape, Text, Tone
from export.drawing.pens import GROUNDS, PENS, STEEL

SCREEN_PIXELS_PER_MM = 96 / 25.4
"""A paper millimetre on the screen, in device-independent pixels."""
QUARTER = math.tan(math.pi / 8)
"""The bulge of a quarter turn."""


class Style(NamedTuple):
    """What decides the pen and the brush of a mark."""

    purpose: Purpose
    tone: Tone
    filled: bool
    weight: float
    kind: str
    strong: bool


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
        case Line(a, b):
            path.moveTo(*a)
            path.lineTo(*b)
        case Arc(centre, radius, start, sweep):
            box = QRectF(centre[0] - radius, centre[1] - radius, 2 * radius, 2 * radius)
            path.arcMoveTo(box, -math.degrees(start))
            path.arcTo(box, -math.degrees(start), -math.degrees(sweep))
        case Circle(centre, radius):
            path.addEllipse(QPointF(*centre), radius, radius)
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


def tone_colour(tone: Tone, palette: Palette) -> QColor:
    """The second channel of a mark."""
    match tone:
        case "measured":
            return colour(palette.measured)
        case "worked out":
            return colour(palette.worked_out)
        case "before":
            return colour(palette.before)
        case "look":
            return colour(palette.look)
        case "quiet":
            return colour(palette.quiet)
        case _:
            assert_never(tone)


@lru_cache(maxsize=512)
def pen_of(style: Style, palette: Palette, pixels: float, dash: float = 0.6) -> QPen:
    """The pen of a style; `pixels`: the device's for a paper mm; dashes are shortened by `dash` on the screen."""
    if style.filled and style.purpose != "body" and style.kind not in GROUNDS:
        return QPen(Qt.PenStyle.NoPen)  # solid ink
    kind = PENS[style.purpose]
    line = colour(palette.outline) if style.purpose == "body" else tone_colour(style.tone, palette)
    if style.strong and style.kind == "string":
        line = colour(palette.worked_out)  # a string's thickness is its gauge
    width = max(kind.width * style.weight * pixels, 0.6) + (1.2 if style.strong and style.kind != "string" else 0.0)
    pen = QPen(line, width)
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if kind.dashes:
        pen.setDashPattern([long * pixels * dash / width for long in kind.dashes])
    return pen


@lru_cache(maxsize=512)
def brush_of(style: Style, palette: Palette) -> QBrush:
    """The fill of a style: grounds of the instrument in their own colour, everything else solid in its tone."""
    if not style.filled:
        return QBrush(Qt.BrushStyle.NoBrush)
    if style.purpose == "body":
        ground = {"board": palette.board, "hole": palette.paper}.get(style.kind, palette.body)
        return QBrush(colour(ground))
    if style.kind in ("bridge", "base", "saddle", "slot"):
        return QBrush(colour(palette.bridge))
    if style.kind in STEEL:
        steel = colour(palette.steel)
        return QBrush(QColor(steel.red(), steel.green(), steel.blue(), 150))
    if style.kind == "sheet":
        page = colour(palette.card)
        return QBrush(QColor(page.red(), page.green(), page.blue(), 110))
    return QBrush(tone_colour(style.tone, palette))


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


class WordsPlace(NamedTuple):
    """How words stand on the screen: their place, their turn in degrees, and their ground before that turn, seen from
    the place (pixels; the base line is its lower edge).
    """

    at: QPointF
    angle: float
    ground: QRectF

    def box(self, more: QMarginsF) -> QRectF:
        """The upright box round the words with `more` on each side, pixels."""
        ground = self.ground.marginsAdded(more)
        if not self.angle:
            return ground.translated(self.at)
        return QTransform.fromTranslate(self.at.x(), self.at.y()).rotate(self.angle).mapRect(ground)


def place_words(text: Text, transform: QTransform, pixels: float) -> WordsPlace:
    """Words stay upright and readable however the view is turned or mirrored."""
    t = transform
    return _place_words(text, (t.m11(), t.m12(), t.m21(), t.m22(), t.dx(), t.dy()), pixels)


@lru_cache(maxsize=512)
def _place_words(text: Text, onto: tuple[float, float, float, float, float, float], pixels: float) -> WordsPlace:
    m11, m12, m21, m22, dx, dy = onto
    (x, y), cos, sin = text.at, math.cos(text.angle), math.sin(text.angle)
    at = QPointF(m11 * x + m21 * y + dx, m12 * x + m22 * y + dy)
    along = math.atan2(m12 * cos + m22 * sin, m11 * cos + m21 * sin)
    angle = round(math.degrees(along), 6)  # exactly level, letters come from Qt's store
    start_to_end, across = text.anchor[0], text.anchor[1]
    mirrored = m11 * m22 - m12 * m21 > 0
    if not -90.5 < angle <= 89.5:
        angle += 180
        start_to_end = {"s": "e", "e": "s"}.get(start_to_end, "m")
        across = {"b": "t", "t": "b"}.get(across, "m") if not mirrored else across
    elif mirrored:
        across = {"b": "t", "t": "b"}.get(across, "m")
    height = text.height * pixels
    wide = typeface.width(text.text, height, text.bold)
    left = {"s": 0.0, "m": -wide / 2, "e": -wide}[start_to_end]
    base = {"b": 0.0, "m": height / 2, "t": height}[across]
    return WordsPlace(at, angle % 360, QRectF(left, base - height, wide, height))


def paint_text(
    painter: QPainter, text: Text, style: Style, transform: QTransform, palette: Palette, pixels: float
) -> None:
    """Paint words where they stand, a reading's value on its plate."""
    at, angle, ground = place_words(text, transform, pixels)
    if angle:
        painter.save()
        painter.translate(at)
        painter.rotate(angle)
    else:
        ground = ground.translated(at)  # cheaper than turning by nothing
    if style.kind == "reading":
        _paint_plate(painter, ground, palette)
    painter.setFont(text_font(text.height * pixels, text.bold or style.strong))
    painter.setPen(tone_colour(style.tone, palette))
    painter.drawText(ground.bottomLeft(), typeface.shown(text.text))
    if angle:
        painter.restore()


def _paint_plate(painter: QPainter, box: QRectF, palette: Palette) -> None:
    """The plate under a reading's number: it says that the number can be typed."""
    painter.setPen(QPen(colour(palette.ink), 1.4))
    painter.setBrush(colour(palette.card))
    painter.drawRoundedRect(box.adjusted(-9, -6, 9, 6), 4, 4)
    painter.setBrush(Qt.BrushStyle.NoBrush)


@lru_cache(maxsize=128)
def text_font(capitals: float, bold: bool) -> QFont:
    """The typeface whose capitals are `capitals` pixels high."""
    font = QFont(FAMILY)
    font.setPointSizeF(max(typeface.size(capitals, bold), 1.0) * 0.75)
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    return font


def boxes(marks: Iterable[Mark]) -> Iterator[tuple[float, float, float, float]]:
    """The box of each mark that is not words."""
    for mark in marks:
        if not isinstance(mark.shape, Text):
            r = _path((mark.shape,)).boundingRect()
            yield (r.left(), r.top(), r.right(), r.bottom())
