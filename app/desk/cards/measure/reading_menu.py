"""The menu of the readings chosen: with what they were read, out of the fit or back, up or down, out of the job."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, QPoint, Qt
from PySide6.QtGui import QActionGroup
from PySide6.QtWidgets import QMenu

from app.desk.cards.measure.reading_commands import ReadingCommands
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.widgets.marked_menu import Menu, add_menu
from geometry import words
from geometry.job.measured.kinds import SHAPES
from geometry.job.measured.measuring_tools import GAUGES, INSTRUMENTS


def fill_tools(menu: QMenu, commands: ReadingCommands) -> None:
    """The instruments that the reading in hand can be read with, the one it was read with ticked."""
    menu.clear()
    taken = commands.chosen
    if taken is None:
        menu.addAction("Choose a reading first").setEnabled(False)
        return
    group = menu.findChild(QActionGroup) or QActionGroup(menu)
    for name in GAUGES if SHAPES[taken.kind].degrees else INSTRUMENTS:
        action = menu.addAction(words.instrument(name), partial(commands.set_fineness, name))
        action.setCheckable(True)
        group.addAction(action)
        action.setChecked(taken.with_ == name)


def fill_reading_menu(menu: QMenu, commands: ReadingCommands, add: Callable[[], None]) -> None:
    """All that can be done to the readings chosen."""
    some = commands.chosen is not None
    many = len(commands.all_chosen)
    of = f" {many} readings" if many > 1 else ""
    tools = add_menu(menu, f"Read{of} with")
    fill_tools(tools, commands)
    strike = commands.strikes
    for text, do in (
        (f"Strike out{of}" if strike else f"Bring{of} back", commands.strike_or_bring_back),
        (f"Move{of} up", partial(commands.move, -1)),
        (f"Move{of} down", partial(commands.move, 1)),
        (f"Remove{of}", commands.remove),
    ):
        menu.addAction(text, do).setEnabled(some)
    menu.addSeparator()
    menu.addAction("Add a reading…", add)
    menu.addAction("Paste readings", commands.paste)


class ReadingMenus(QObject):
    """The menus that the table opens: all that can be done by the other mouse button, the tools in their own cell."""

    def __init__(self, table: ReadingTable, commands: ReadingCommands, add: Callable[[], None]) -> None:
        super().__init__(table)
        self.table, self.commands, self._add = table, commands, add
        table.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        table.customContextMenuRequested.connect(self._all)
        table.tool_pressed.connect(self._tools)

    def _all(self, at: QPoint) -> None:
        menu = Menu(self.table)
        fill_reading_menu(menu, self.commands, self._add)
        self._show(menu, self.table.viewport().mapToGlobal(at))

    def _tools(self, at: QPoint) -> None:
        menu = Menu(self.table)
        fill_tools(menu, self.commands)
        self._show(menu, at)

    def _show(self, menu: QMenu, at: QPoint) -> None:
        menu.exec(at)
        menu.deleteLater()
