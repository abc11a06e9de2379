"""The Edit menu: undo, and what is done to readings."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence, QUndoStack
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import measure_card
from app.desk.frame.menus.menu_lines import LINE, Command, fill, shortcuts, submenu
from app.desk.widgets.marked_menu import add_menu

if TYPE_CHECKING:
    from app.desk.cards.measure.reading_commands import ReadingCommands

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
    menu, seen = add_menu(bar, "&Edit"), partial(_where_seen, cards)
    undo, redo = stack.createUndoAction(owner, "Undo"), stack.createRedoAction(owner, "Redo")
    undo.setShortcuts(shortcuts(Key.Undo))
    redo.setShortcuts(shortcuts((Key.Redo, "Ctrl+Y")))
    commands = [
        undo,
        redo,
        LINE,
        Command("&Add a reading…", add_reading, "Ctrl+R"),
        Command("&Strike out or bring back", seen(lambda readings: readings.strike_or_bring_back()), "Ctrl+K"),
        Command("Move &up", seen(lambda readings: readings.move(-1)), "Ctrl+Shift+Up"),
        Command("Move &down", seen(lambda readings: readings.move(1)), "Ctrl+Shift+Down"),
        Command("&Remove the readings chosen", seen(lambda readings: readings.remove()), "Ctrl+Shift+Backspace"),
        Command("&Paste readings", seen(lambda readings: readings.paste())),
        LINE,
        Command("Keep this p&lacement", _keep_placement(cards), "Ctrl+Shift+K"),
        Command("&How far from here to there?", ask_distance, "Ctrl+D"),
    ]
    made = {"Undo": undo, "Redo": redo, **fill(menu, commands, owner)}
    submenu(menu, "Read &with", _fill_tools(cards))
    return made


def _keep_placement(cards: CardStack) -> Callable[[], None]:
    """The placement is kept on the Bridge card, where it is then laid beside the present one."""

    def act() -> None:
        from app.desk.cards.bridge.bridge_card import BridgeCard

        cards.open("Bridge")
        cards.get_as("Bridge", BridgeCard).placements.keep_and_reveal()

    return act


def _fill_tools(cards: CardStack) -> Callable[[QMenu], None]:
    """The card is made by the time that the menu is opened."""

    def fill_in(menu: QMenu) -> None:
        from app.desk.cards.measure.reading_menu import fill_tools

        fill_tools(menu, measure_card(cards).commands)

    return fill_in


def _where_seen(cards: CardStack, do: "Callable[[ReadingCommands], None]") -> Callable[[], None]:
    """What is done to readings is done while they can be seen; from another card the table is only shown first."""

    def act() -> None:
        if cards.is_open("Measure"):
            do(measure_card(cards).commands)
        else:
            cards.open("Measure")

    return act
