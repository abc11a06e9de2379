"""The menu bar: every command of the desk with its name and the platform's own shortcut."""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from app.desk.widgets.marked_menu import add_menu

Keys = QKeySequence.StandardKey | str | tuple[QKeySequence.StandardKey | str, ...] | None


class Command(NamedTuple):
    """One line of a menu: its name, what it does, its keys. `ticked`: whether its tick is set; None: it has none."""

    name: str
    do: Callable[[], object]
    keys: Keys = None
    ticked: bool | None = None


LINE = None


def fill(
    menu: QMenu, commands: Iterable[Command | QAction | None], owner: QWidget, *, one_of: bool = False
) -> dict[str, QAction]:
    """Put commands into a menu; None draws a line between. `one_of`: one of them is chosen. The actions by name."""
    made: dict[str, QAction] = {}
    group = (menu.findChild(QActionGroup) or QActionGroup(menu)) if one_of else None
    for command in commands:
        match command:
            case None:
                menu.addSeparator()
            case QAction():
                menu.addAction(command)
            case Command(name, do, keys, ticked):
                action = QAction(name, owner)
                if keys is not None:
                    action.setShortcuts(shortcuts(keys))
                if ticked is not None:
                    action.setCheckable(True)
                    action.setChecked(ticked)
                action.triggered.connect(_call(do))
                if group is not None:
                    group.addAction(action)
                menu.addAction(action)
                made[name.replace("&", "")] = action
    return made


def shortcuts(keys: Keys) -> list[QKeySequence]:
    """The key combinations of a command: all that the platform has for a standard one, then those named besides."""
    found: list[QKeySequence] = []
    for each in keys if isinstance(keys, tuple) else (keys,):
        if isinstance(each, QKeySequence.StandardKey):
            found += QKeySequence.keyBindings(each)
        elif each:
            found.append(QKeySequence(each))
    return list(dict.fromkeys(found))


def _call(do: Callable[[], object]) -> Callable[[], None]:
    def call() -> None:
        do()

    return call


def submenu(menu: QMenu | QMenuBar, name: str, about_to_show: Callable[[QMenu], None] | None = None) -> QMenu:
    """A menu inside a menu; `about_to_show` fills it afresh each time it opens."""
    made = add_menu(menu, name)
    if about_to_show is not None:
        made.aboutToShow.connect(lambda: about_to_show(made))
    return made
