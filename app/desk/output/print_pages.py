"""Prints sheets true to size through Qt: the same Drawing as in the PDF, in black, with the printer's correction."""

from collections.abc import Sequence

from PySide6.QtCore import QMarginsF, QPointF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPageLayout, QPageSize, QPainter, QPainterPath, QTransform
from PySide6.QtPrintSupport import QPrinter

from app.desk.plan.painting.painter import prepare
from app.desk.plan.painting.styles import pen_of
from app.desk.widgets.look import FAMILY, PRINT
from export.drawing import typeface
from export.drawing.marks import Text
from export.drawing.transform import readable
from export.paper.lay_sheets import Sheet

OUTLINE = 200.0
"""Letters are taken from the typeface at this size in pixels and scaled down, so that no hinting moves them."""


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


def paint_sheet(painter: QPainter, sheet: Sheet, pixels: float) -> None:
    """Paint one sheet; `pixels` is the device's dots a mm."""
    transform = to_device(sheet, pixels)
    prepared = prepare(sheet.drawing)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.save()
    painter.setTransform(transform, True)
    for style, path in prepared.groups:
        painter.setPen(Qt.PenStyle.NoPen if style.filled else pen_of(style, PRINT, pixels, dash=1.0))
        painter.setBrush(Qt.GlobalColor.black if style.filled else Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
    painter.restore()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(Qt.GlobalColor.black)
    for text, _style in prepared.texts:
        painter.drawPath(letters(text, transform, pixels))


def letters(text: Text, transform: QTransform, pixels: float) -> QPainterPath:
    """Words as outlines on the device."""
    text = readable(text)
    x, y = typeface.baseline(text)
    font = QFont(FAMILY)
    font.setPixelSize(int(OUTLINE))
    font.setWeight(QFont.Weight.DemiBold if text.bold else QFont.Weight.Normal)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    path = QPainterPath()
    path.addText(QPointF(0, 0), font, typeface.shown(text.text))
    wide = QFontMetricsF(font).horizontalAdvance(typeface.shown(text.text)) or 1.0
    size = typeface.width(text.text, text.height, text.bold) / wide * pixels
    at = transform.map(QPointF(x, y))
    made = QTransform.fromTranslate(at.x(), at.y())
    made.rotateRadians(-text.angle)
    made.scale(size, size)
    return made.map(path)
