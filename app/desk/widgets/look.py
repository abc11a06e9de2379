"""How the desk looks: the palette for light and dark, four text sizes, an 8 px grid, and the style sheet made of them.

**Ink** is what is read, **quiet** what is read second. A colour with a meaning (measured, worked out, before, look
again) always has a shape or a line type beside it.
"""

from functools import lru_cache
from pathlib import Path
from typing import Literal

import msgspec
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QLayout

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


def apply_look(look: Look) -> None:
    """Put a look on the whole application; one that it has already costs nothing."""
    app, sheet = QApplication.instance(), style_sheet(look)
    if isinstance(app, QApplication):
        app.setPalette(qt_palette(look.palette))
        if app.styleSheet() == sheet:
            return
        app.setFont(_text(look))  # in the style sheet each widget would be given it one by one
        app.setStyleSheet("")  # one that takes another's place costs Qt three times what taking off and putting on does
        app.setStyleSheet(sheet)
        for window in app.topLevelWidgets():
            for layout in window.findChildren(QLayout):
                layout.invalidate()  # one within another is not told by itself of a new least height


def _text(look: Look) -> QFont:
    """The type of all that the style sheet gives no other."""
    font = QFont(FAMILY)
    font.setPointSizeF(round(look.px(TEXT) * 0.75, 2))
    return font


def text_rule(look: Look) -> str:
    """The same as a rule, for a window whose text has a size of its own."""
    return f'* {{ font-family: "{FAMILY}"; font-size: {_text(look).pointSizeF():.2f}pt; }}'


def qt_palette(p: Palette) -> QPalette:
    """The palette as Qt's own roles, for what the style sheet does not reach."""
    role, made = QPalette.ColorRole, QPalette()
    for where, name in (
        (role.Window, p.card),
        (role.Base, p.card),
        (role.AlternateBase, p.row),
        (role.Button, p.card),
        (role.WindowText, p.ink),
        (role.Text, p.ink),
        (role.ButtonText, p.ink),
        (role.ToolTipBase, p.ink),
        (role.ToolTipText, p.card),
        (role.PlaceholderText, p.quiet),
        (role.Highlight, p.worked_out),
        (role.HighlightedText, p.card),
        (role.Link, p.worked_out),
        (role.Mid, p.field),
        (role.Light, p.row),
        (role.Dark, p.field),
    ):
        made.setColor(where, QColor(name))
    for where in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, where, QColor(p.field))
    return made


def style_sheet(look: Look) -> str:
    """The one style sheet of the application."""
    p = look.palette
    sizes = {"title": look.px(TITLE), "value": look.px(VALUE), "text": look.px(TEXT), "label": look.px(LABEL)}
    wide, line = round(140 * look.text_scale), round(22 * look.text_scale)
    tick = round(16 * look.text_scale)
    pt = {name: f"{size * 0.75:.2f}pt" for name, size in sizes.items()}
    return f"""
QMainWindow, QDialog, QMessageBox, QWidget#card, QWidget#band {{ background: {p.card}; }}
QLabel[role="title"] {{ font-size: {pt["title"]}; font-weight: 600; }}
QLabel[role="heading"] {{ font-size: {pt["value"]}; font-weight: 600; }}
QLabel[role="label"], QLabel[role="hint"] {{ font-size: {pt["label"]}; color: {p.quiet}; }}
QLabel[role="strong"] {{ font-weight: 600; }}
QLabel[role="strong label"] {{ font-size: {pt["label"]}; font-weight: 600; }}
QLabel[role="quiet"] {{ color: {p.quiet}; }}
QLabel[role="wrong"] {{ font-size: {pt["label"]}; color: {p.look}; }}
QLabel[role="value"] {{ font-size: {pt["value"]}; font-weight: 600; }}
QLineEdit, QComboBox, QPlainTextEdit {{
  background: {p.card}; border: 1px solid {p.field}; border-radius: 4px; padding: 4px 8px; min-height: {line}px;
  selection-background-color: {p.worked_out}; selection-color: {p.card}; }}
QLineEdit, QPlainTextEdit {{ placeholder-text-color: {p.quiet}; }}
QLineEdit[role="cell"], QLineEdit[role="cell"]:focus {{ font-size: {pt["value"]}; font-weight: 600; min-height: 0;
  padding: 0 7px; }}
QLineEdit[role="value"] {{ font-size: {pt["value"]}; font-weight: 600; }}
QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus {{
  border: 2px solid {p.worked_out}; padding: 3px 7px; }}
QComboBox[small="true"] {{ padding-right: 3px; }}
QComboBox[small="true"], QComboBox[small="true"] QLineEdit {{ font-size: {pt["label"]}; }}
QLineEdit[wrong="true"] {{ border: 2px solid {p.look}; padding: 3px 7px; }}
QLineEdit:disabled, QComboBox:disabled {{ color: {p.quiet}; border-color: {p.hair}; }}
QComboBox::drop-down {{ border: none; width: {round(8 + 12 * look.text_scale)}px; }}
QComboBox {{ combobox-popup: 0; }}
QComboBox QAbstractItemView {{ background: {p.card}; border: 1px solid {p.field}; outline: none;
  selection-background-color: {p.row}; selection-color: {p.ink}; padding: 4px; }}
QComboBox QAbstractItemView::item {{ min-height: {line + 6}px; padding: 0 4px; color: {p.ink}; }}
QComboBox QAbstractItemView::item:selected {{ background: {p.row}; color: {p.ink}; }}
QPushButton {{ background: {p.card}; border: 1px solid {p.field}; border-radius: 4px; padding: 5px 16px;
  min-height: {line}px; }}
QPushButton:hover {{ background: {p.row}; }}
QPushButton:focus {{ border: 2px solid {p.worked_out}; padding: 4px 15px; }}
QPushButton:disabled {{ color: {p.quiet}; border-color: {p.hair}; }}
QPushButton[role="main"] {{ background: {p.ink}; color: {p.card}; border-color: {p.ink}; font-weight: 600; }}
QPushButton[role="main"]:focus {{ border: 2px solid {p.worked_out}; padding: 4px 15px; }}
QPushButton[role="main"]:disabled {{ background: {p.hair}; border-color: {p.hair}; color: {p.quiet}; }}
QPushButton[role="plain"] {{ border: 2px solid transparent; padding: 3px 4px; color: {p.worked_out};
  text-align: left; }}
QPushButton[role="plain"]:disabled {{ color: {p.quiet}; }}
QPushButton[role="plain"]:hover, QPushButton[role="plain"]:checked, QPushButton[role="name"]:hover {{
  background: {p.row}; }}
QPushButton[role="plain"]:focus, QPushButton[role="name"]:focus {{ border: 2px solid {p.worked_out}; }}
QPushButton[role="name"] {{ border: 2px solid transparent; padding: 0 4px; min-height: 0; text-align: left;
  font-size: {pt["value"]}; font-weight: 600; }}
QComboBox[in_form="true"] {{ min-width: {wide}px; max-width: {wide}px; }}
QLineEdit[in_form="true"] {{ min-width: {wide}px; max-width: {wide}px; }}
QCheckBox, QRadioButton {{ spacing: {round(8 * look.text_scale)}px; padding: 3px 6px 3px 0; border-radius: 4px;
  border: 2px solid transparent; }}
QCheckBox::indicator, QRadioButton::indicator {{ width: {tick}px; height: {tick}px; background: {p.card};
  border: 1px solid {p.field}; border-radius: 4px; }}
QCheckBox::indicator:checked {{ background: {p.worked_out}; border-color: {p.worked_out}; }}
QRadioButton {{ padding-left: 4px; }}
QRadioButton::indicator, QRadioButton::indicator:checked {{ width: {tick + 2}px; height: {tick + 2}px; border: none;
  background: transparent; }}
QCheckBox:focus, QRadioButton:focus {{ border: 2px solid {p.worked_out}; }}
Ringed QCheckBox, Ringed QCheckBox:focus {{ border: none; padding: 5px 6px 5px 0; }}
Ringed QPushButton[role="plain"], Ringed QPushButton[role="plain"]:focus {{ border: none; padding: 5px 8px 5px 0;
  background: transparent; outline: none; }}
Ringed QPushButton[role="plain"]:hover {{ background: transparent; text-decoration: underline; }}
QTableView {{ background: transparent; border: none; outline: none; selection-background-color: transparent; }}
QHeaderView {{ background: {p.card}; border: none; }}
QHeaderView::section {{ background: {p.card}; border: none; color: {p.quiet};
  font-size: {pt["label"]}; padding: 0 8px 4px 8px; border-bottom: 1px solid {p.hair}; }}
StringTable QHeaderView::section {{ padding: 0 5px 4px 5px; }}
ReadingTable QHeaderView::section:first {{ padding: 0 8px 4px 12px; }}
ReadingTable QHeaderView::section:middle {{ padding: 0 8px 4px 4px; }}
QScrollArea, QScrollArea > QWidget > QWidget#inside {{ background: {p.card}; border: none; }}
QScrollArea[role="read"] {{ border: 2px solid transparent; }}
QScrollArea[role="read"]:focus {{ border: 2px solid {p.worked_out}; }}
QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
QScrollBar::handle {{ background: {p.field}; border-radius: 5px; min-height: 32px; min-width: 32px; }}
QScrollBar::handle:hover {{ background: {p.quiet}; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QMenuBar {{ background: {p.card}; border: none; padding: 2px 16px; }}
QMenuBar::item {{ background: transparent; padding: 4px 8px; border-radius: 4px; color: {p.quiet}; }}
QMenuBar::item:selected, QMenuBar::item:pressed {{ background: {p.row}; color: {p.ink}; }}
QMenu {{ background: {p.card}; border: 1px solid {p.hair}; padding: 8px 0; }}
QMenu::item {{ padding: 6px 32px 6px {tick + 20}px; }}
QMenu::indicator, QMenu::right-arrow {{ width: {tick}px; height: {tick}px; left: 10px; border: 0 solid transparent; }}
QMenu::item:selected {{ background: {p.row}; }}
QMenu::item:disabled {{ color: {p.quiet}; }}
QMenu::separator {{ height: 1px; background: {p.hair}; margin: 8px 0; }}
QSlider {{ border: 2px solid transparent; border-radius: 4px; min-height: {tick + 8}px; }}
QSlider:focus {{ border-color: {p.worked_out}; }}
QSlider::groove:horizontal {{ height: 4px; background: {p.field}; border-radius: 2px; }}
QSlider::handle:horizontal {{ width: {tick}px; height: {tick}px; margin: -{tick // 2}px 0; background: {p.card};
  border: 2px solid {p.worked_out}; border-radius: {tick // 2 + 2}px; }}
QSlider::handle:horizontal:disabled {{ border-color: {p.field}; }}
QProgressBar {{ border: none; background: {p.hair}; border-radius: 3px; height: 6px; }}
QProgressBar::chunk {{ background: {p.worked_out}; border-radius: 3px; }}
QToolTip {{ background: {p.ink}; color: {p.card}; border: none; padding: 6px; }}
QFrame[role="hair"] {{ background: {p.hair}; border: none; }}
"""
