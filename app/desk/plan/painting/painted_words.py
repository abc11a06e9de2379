"""Words on a picture: where they stand, upright however it is turned, and how they are painted."""

import math
from functools import lru_cache
from typing import NamedTuple

from PySide6.QtCore import QMarginsF, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen, QTransform

from app.desk.plan.painting.styles import Style, tone_colour
from app.desk.widgets.look import FAMILY, Palette, colour
from export.drawing import typeface
from export.drawing.marks import Text


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
