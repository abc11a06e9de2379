"""Prints sheets true to size through Qt: the same Drawing as in the PDF, in black, with the printer's correction."""

from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QMarginsF, QPointF, QSizeF, Qt
from PySide6.QtGui import (
    QFont,
    QFontMetricsF,
    QPageLayout,
    QPageSize,
    QPaintEngine,
    QPainter,
    QPainterPath,
    QPen,
    QTransform,
)
from PySide6.QtPrintSupport import QPrinter

from app.desk.plan.painting.painter import add_shape
from app.desk.widgets.look import FAMILY
from export.drawing import typeface
from export.drawing.marks import Mark, Text
from export.drawing.pens import dashes_of, is_ground, width_of
from export.drawing.strokes import strokes
from export.drawing.transform import readable
from export.paper.lay_sheets import Sheet

OUTLINE = 200.0
"""Letters are taken from the typeface at this size in pixels and scaled down, so that no hinting moves them. Into a PDF
they are written as words, its typeface beside them; for any other device they are painted as outlines, because it may
set words by a typeface of its own.
"""


def print_pages(printer: QPrinter, sheets: Sequence[Sheet]) -> bool:
    """Print all sheets; whether the printer took them."""
    painter = QPainter()
    for at, sheet in enumerate(sheets):
        set_page(printer, sheet)
        if at == 0:
            if not painter.begin(printer):
                return False
        elif not printer.newPage():
            return False
        paint_sheet(painter, sheet, printer.resolution() / 25.4)
    return not painter.isActive() or painter.end()


def set_page(printer: QPrinter, sheet: Sheet) -> None:
    """The sheet's paper, whole page, no margins of Qt's own, no scaling."""
    wide, high = sheet.paper.width, sheet.paper.height
    size = QPageSize(QSizeF(min(wide, high), max(wide, high)), QPageSize.Unit.Millimeter, sheet.paper.name)
    turn = QPageLayout.Orientation.Landscape if wide > high else QPageLayout.Orientation.Portrait
    layout = QPageLayout(size, turn, QMarginsF(0, 0, 0, 0))
    layout.setMode(QPageLayout.Mode.FullPageMode)
    printer.setFullPage(True)
    printer.setPageLayout(layout)


def to_device(sheet: Sheet, pixels: float) -> QTransform:
    """Paper mm from the lower left corner to the device, corrected about the middle of the page."""
    x, y = sheet.paper.width / 2, sheet.paper.height / 2
    (xx, xy), (yx, yy) = sheet.stretch
    made = QTransform.fromScale(pixels, pixels)
    made.translate(x, y)
    made = QTransform(xx, -yx, xy, -yy, 0, 0) * made  # Qt's y runs down
    made.translate(-x, -y)
    return made


class Ink(NamedTuple):
    """How shapes are printed: the line's width and its dashes (mm), whether solid, whether a ground, white with an
    outline, that covers what was painted before.
    """

    width: float
    dashes: tuple[float, ...]
    filled: bool
    ground: bool


def paint_sheet(painter: QPainter, sheet: Sheet, pixels: float) -> None:
    """Paint one sheet, as the PDF is drawn; `pixels` is the device's dots a mm."""
    transform, device = to_device(sheet, pixels), painter.transform()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for ink, shown in _inked(sheet.drawing.marks):
        if isinstance(shown, Text):
            painter.setTransform(device)
            _write(painter, shown, transform, pixels)
            continue
        assert ink is not None
        painter.setTransform(transform * device)
        solid = ink.filled and not ink.ground
        painter.setPen(Qt.PenStyle.NoPen if solid else pen_of(ink, pixels))
        white = Qt.GlobalColor.white if ink.ground else Qt.BrushStyle.NoBrush
        painter.setBrush(Qt.GlobalColor.black if solid else white)
        painter.drawPath(shown)
    painter.setTransform(device)


def _inked(marks: Sequence[Mark]) -> list[tuple[Ink, QPainterPath] | tuple[None, Text]]:
    """The marks in their order: lines in one ink that follow each other as one path, and words."""
    found: list[tuple[Ink, QPainterPath] | tuple[None, Text]] = []
    for mark in marks:
        if isinstance(mark.shape, Text):
            found.append((None, mark.shape))
            continue
        for stroke in strokes(mark):
            ink = Ink(width_of(stroke), dashes_of(stroke), stroke.filled, is_ground(stroke))
            if not found or found[-1][0] != ink or ink.filled:
                found.append((ink, QPainterPath()))
            path = found[-1][1]
            assert isinstance(path, QPainterPath)
            add_shape(path, stroke.shape)
    return found


def pen_of(ink: Ink, pixels: float) -> QPen:
    """The pen of an ink, its width in the device's dots."""
    width = ink.width * pixels
    pen = QPen(Qt.GlobalColor.black, width)
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if ink.dashes:
        pen.setDashPattern([long * pixels / width for long in ink.dashes])
    return pen


def _write(painter: QPainter, text: Text, transform: QTransform, pixels: float) -> None:
    """Words in black."""
    text, font = readable(text), QFont(FAMILY)
    font.setPixelSize(int(OUTLINE))
    font.setWeight(QFont.Weight.DemiBold if text.bold else QFont.Weight.Normal)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    said = typeface.shown(text.text)
    painter.setTransform(_placed(text, QFontMetricsF(font).horizontalAdvance(said), transform, pixels), combine=True)
    if painter.paintEngine().type() == QPaintEngine.Type.Pdf:
        painter.setFont(font)
        painter.setPen(Qt.GlobalColor.black)
        painter.drawText(QPointF(0, 0), said)
        return
    path = QPainterPath()
    path.addText(QPointF(0, 0), font, said)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(Qt.GlobalColor.black)
    painter.drawPath(path)


def _placed(text: Text, wide: float, transform: QTransform, pixels: float) -> QTransform:
    """From words that are `wide` at the size `OUTLINE` to where they stand on the device."""
    size = typeface.width(text.text, text.height, text.bold) / (wide or 1.0) * pixels
    at = transform.map(QPointF(*typeface.baseline(text)))
    placed = QTransform.fromTranslate(at.x(), at.y())
    placed.rotateRadians(-text.angle)
    placed.scale(size, size)
    return placed
