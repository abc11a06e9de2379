"""The Edit menu: undo, and what is done to readings."""

from collections.abc import Callable
from functools import partial

from PySide6.QtGui import QAction, QKeySequence, QUndoStack
from PySide6.QtWidgets import QMenuBar, QWidget

from app.desk.cards.card_stack import CardStack
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.cards.measure.reading_menu import fill_tools
from app.desk.frame.menus.menu_lines import LINE, Command, fill, shortcuts, submenu
from app.desk.widgets.marked_menu import add_menu

Key = QKeySequence.StandardKey


def edit_menu(
    bar: QMenuBar,
    owner: QWidget,
    stack: QUndoStack,
    cards: CardStack,
    add_reading: Callable[[], None],
    ask_distance: Callable[[], None],
) -> dict[str, QAction]:
    """Add the menu; its actions by name."""
    menu, readings = add_menu(bar, "&Edit"), cards.get_as("Measure", MeasureCard).commands
    undo, redo = stack.createUndoAction(owner, "Undo"), stack.createRedoAction(owner, "Redo")
    undo.setShortcuts(shortcuts(Key.Undo))
    redo.setShortcuts(shortcuts((Key.Redo, "Ctrl+Y")))
    commands = [
        undo,
        redo,
        LINE,
        Command("&Add a reading…", add_reading, "Ctrl+R"),
        Command("&Strike out or bring back", _where_seen(cards, readings.strike_or_bring_back), "Ctrl+K"),
        Command("Move &up", _where_seen(cards, partial(readings.move, -1)), "Ctrl+Shift+Up"),
        Command("Move &down", _where_seen(cards, partial(readings.move, 1)), "Ctrl+Shift+Down"),
        Command("&Remove the readings chosen", _where_seen(cards, readings.remove), "Ctrl+Shift+Backspace"),
        Command("&Paste readings", _where_seen(cards, readings.paste)),
        LINE,
        Command("Keep this p&lacement", _keep_placement(cards), "Ctrl+Shift+K"),
        Command("&How far from here to there?", ask_distance, "Ctrl+D"),
    ]
    made = {"Undo": undo, "Redo": redo, **fill(menu, commands, owner)}
    submenu(menu, "Read &with", lambda tools: fill_tools(tools, readings))
    return made


def _keep_placement(cards: CardStack) -> Callable[[], None]:
    """The placement is kept on the Bridge card, where it is then laid beside the present one."""

    def act() -> None:
        from app.desk.cards.bridge.bridge_card import BridgeCard

        cards.open("Bridge")
        cards.get_as("Bridge", BridgeCard).placements.keep_and_reveal()

    return act


def _where_seen(cards: CardStack, do: Callable[[], None]) -> Callable[[], None]:
    """What is done to readings is done while they can be seen; from another card the table is only shown first."""

    def act() -> None:
        if cards.is_open("Measure"):
            do()
        else:
            cards.open("Measure")

    return act
