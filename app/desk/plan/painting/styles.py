"""How a mark looks on the screen: its pen and its brush, by what it stands for.

Pens are cosmetic (their width is in pixels whatever the zoom), with the dashes of ISO 128 in paper mm.
"""

from functools import lru_cache
from typing import NamedTuple, assert_never

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QPen

from app.desk.widgets.look import Palette, colour
from export.drawing.marks import Purpose, Tone
from export.drawing.pens import GROUNDS, PENS, STEEL

SHORTER = 0.6
"""Dashes on the screen, of their length on paper."""


class Style(NamedTuple):
    """What decides the pen and the brush of a mark."""

    purpose: Purpose
    tone: Tone
    filled: bool
    weight: float
    kind: str
    strong: bool


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
def pen_of(style: Style, palette: Palette, pixels: float) -> QPen:
    """The pen of a style; `pixels`: the device's for a paper mm; dashes are shorter than on paper."""
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
        pen.setDashPattern([long * pixels * SHORTER / width for long in kind.dashes])
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
