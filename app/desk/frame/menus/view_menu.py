"""The View menu, with cards, colours and text size, and the Plan menu: how the plan is looked at, what lies on it.

They are two, for one of both would be higher than a low screen in large text.
"""

from collections.abc import Callable
from typing import TypeVar, get_args

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import steps
from app.desk.document.preferences import TEXT_SIZES, Preferences
from app.desk.frame.menus.menu_lines import LINE, Command, fill, submenu
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.widgets.look import Theme
from app.desk.widgets.marked_menu import add_menu

Key = QKeySequence.StandardKey
What = TypeVar("What")
OVERLAYS = (
    ("&Points", "points"),
    ("&Error ellipses (95 %)", "ellipses"),
    ("&Labels", "labels"),
    ("&Seam’s line", "seam"),
    ("&Opposite slant", "opposite slant"),
    ("Old &bridge", "old bridge"),
    ("&Kept placements", "placements"),
)


def view_menu(bar: QMenuBar, owner: QWidget, cards: CardStack, preferences: Preferences) -> dict[str, QAction]:
    """Add the menu; its actions by name."""
    menu = add_menu(bar, "&View")
    steps_there = (Command(name, _with(cards.open, name), f"Ctrl+{at}") for at, name in enumerate(steps(), start=1))
    made = fill(menu, [*steps_there, LINE], owner)
    submenu(menu, "&Colours", lambda colours: _fill_colours(colours, preferences))
    submenu(menu, "Te&xt size", lambda sizes: _fill_sizes(sizes, preferences))
    return made


def looks_menu(bar: QMenuBar, owner: QWidget, board: DrawingBoard) -> dict[str, QAction]:
    """Add the Plan menu; its actions by name."""
    menu, pictures = add_menu(bar, "&Plan"), board.pictures
    shown = pictures.options.overlays
    looks = [
        Command("&Whole instrument", board.fit, "Ctrl+0"),
        Command("&Zoom in", lambda: board.zoom(1.25), (Key.ZoomIn, "Ctrl+=")),
        Command("Zoom o&ut", lambda: board.zoom(0.8), Key.ZoomOut),
        Command("&Detail alone", board.turn_alone, "Ctrl+L", ticked=False),
        Command("&Turn by a quarter", board.turn, "Ctrl+T"),
        Command("From &inside (mirrored)", board.flip, "Ctrl+I", ticked=False),
        Command("As &printed, black on white", board.toggle_print, ticked=False),
        LINE,
        *(Command(name, _with(pictures.toggle, key), ticked=key in shown) for name, key in OVERLAYS),
    ]
    return fill(menu, looks, owner)


def _fill_colours(menu: QMenu, preferences: Preferences) -> None:
    menu.clear()
    chosen, names = preferences.settings.theme, {"system": "As the system", "light": "Light", "dark": "Dark"}
    themes: tuple[Theme, ...] = get_args(Theme)
    lines = [Command(names[t], _with(preferences.set_theme, t), ticked=t == chosen) for t in themes]
    fill(menu, lines, menu, one_of=True)


def _fill_sizes(menu: QMenu, preferences: Preferences) -> None:
    menu.clear()
    chosen = preferences.settings.text
    choices = [("As the screen", 0.0), *((f"{size:.0%}".replace("%", " %"), size) for size in TEXT_SIZES)]
    lines = [Command(name, _with(preferences.set_text, size), ticked=size == chosen) for name, size in choices]
    fill(menu, lines, menu, one_of=True)


def _with(do: Callable[[What], None], what: What) -> Callable[[], None]:
    return lambda: do(what)
