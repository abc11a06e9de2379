"""How the desk looks: the palette for light and dark, four text sizes, and an 8 px grid.

**Ink** is what is read, **quiet** what is read second. A colour with a meaning (measured, worked out, before, look
again) always has a shape or a line type beside it.
"""

from functools import lru_cache
from pathlib import Path
from typing import Literal

import msgspec
from PySide6.QtGui import QColor, QFont, QFontDatabase

from export.drawing.typeface_name import NAME

FAMILY = NAME
GRID = 8
WIDE, SIDE = 416, 24
"""A card's width and its margin at the sides, in pixels at text scale 1."""
SHARE = 0.46
"""What of the window a card takes at most, however large its text; never less than `WIDE`."""
TITLE, VALUE, TEXT, LABEL = 23.0, 16.0, 14.0, 12.5
Size = float
Theme = Literal["system", "light", "dark"]


class Palette(msgspec.Struct, frozen=True, cache_hash=True):
    """All colours of one theme, as #RRGGBB."""

    dark: bool
    card: str
    paper: str
    ink: str
    quiet: str
    hair: str
    field: str
    row: str
    grid: str
    grid_bold: str
    measured: str
    worked_out: str
    before: str
    look: str
    look_ground: str
    body: str
    board: str
    bridge: str
    steel: str
    steel_line: str
    outline: str


LIGHT = Palette(
    dark=False,
    card="#FFFFFF",
    paper="#FBFAF5",
    ink="#1F2A33",
    quiet="#5A656E",
    hair="#E4E2DC",
    field="#78838B",
    row="#EDF1F3",
    grid="#F3F1E9",
    grid_bold="#E6E3D9",
    measured="#1F2A33",
    worked_out="#0B6B66",
    before="#7A5F3A",
    look="#B23A1E",
    look_ground="#FBEFE8",
    body="#F3E9D6",
    board="#DCD2C2",
    bridge="#FEFCFA",
    steel="#C9D2D8",
    steel_line="#65737D",
    outline="#69747C",
)
DARK = Palette(
    dark=True,
    card="#252A2E",
    paper="#1B1F22",
    ink="#E9EBEC",
    quiet="#A7B1B8",
    hair="#383F44",
    field="#7E8991",
    row="#323A40",
    grid="#20252A",
    grid_bold="#2C3338",
    measured="#E9EBEC",
    worked_out="#6FD0C8",
    before="#CDB58C",
    look="#FF9E80",
    look_ground="#3A2B25",
    body="#2C2921",
    board="#3A3A37",
    bridge="#252A2C",
    steel="#46525A",
    steel_line="#92A3AE",
    outline="#7E8B93",
)

PRINT = Palette(**{name: "#000000" for name in Palette.__struct_fields__} | {"dark": False})  # type: ignore[arg-type]  # every colour is text
"""Black on white, for the printer."""

_GROUNDS = ("card", "paper", "row", "look_ground", "body", "board", "bridge", "steel", "grid", "grid_bold")
PAPER = msgspec.structs.replace(PRINT, **dict.fromkeys(_GROUNDS, "#FFFFFF"))
"""How paper would show it, on the screen: black lines, white grounds."""


class Look(msgspec.Struct, frozen=True, cache_hash=True):
    """A palette and the factor all text sizes are multiplied by."""

    palette: Palette
    text_scale: float = 1.0

    def px(self, size: Size) -> float:
        """A text size in device-independent pixels."""
        return size * self.text_scale

    def card_width(self, window: int) -> int:
        """A card's width in a window so many pixels wide."""
        return round(min(WIDE * self.text_scale, max(WIDE, SHARE * window)))

    def font(self, size: Size = TEXT, *, bold: bool = False) -> QFont:
        return _font(round(self.px(size) * 2) / 2, bold)


@lru_cache(maxsize=64)
def _font(pixels: float, bold: bool) -> QFont:
    font = QFont(FAMILY)
    font.setPointSizeF(pixels * 0.75)  # 96 logical dots per inch: a point is 4/3 of a pixel, and halves survive
    font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
    font.setHintingPreference(QFont.HintingPreference.PreferVerticalHinting)
    return font


def load_typeface() -> None:
    """Load the typeface from its package, never from the system, so that every machine shows the same."""
    import font_source_sans_pro

    folder = Path(font_source_sans_pro.__file__).parent / "files"
    for name in ("Regular", "Semibold"):
        QFontDatabase.addApplicationFont(str(folder / f"SourceSansPro-{name}.ttf"))


@lru_cache(maxsize=256)
def colour(hex_name: str, alpha: float = 1.0) -> QColor:
    """A palette entry as a QColor."""
    found = QColor(hex_name)
    found.setAlphaF(alpha)
    return found
