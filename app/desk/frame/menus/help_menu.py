"""The Help menu."""

from collections.abc import Callable, Mapping

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenuBar, QWidget

from app.desk.frame.menus.menu_lines import Command, fill
from app.desk.widgets.look import Look
from app.desk.widgets.marked_menu import add_menu
from geometry.job import Held


def help_menu(
    bar: QMenuBar,
    owner: QWidget,
    begin_example: Callable[[], None],
    look: Callable[[], Look],
    held: Callable[[], Held],
    actions: Mapping[str, QAction],
) -> dict[str, QAction]:
    """Add the menu; its actions by name. `held`: how the open job's bridge is held; `actions`: those of all menus,
    whose keys are told.
    """

    def keys() -> None:
        from app.desk.frame.help import show_keys

        show_keys(actions, look(), owner)

    def cautions() -> None:
        from app.desk.frame.help import show_cautions

        show_cautions(look(), owner, held())

    commands = [
        Command("&Worked example", begin_example, QKeySequence.StandardKey.HelpContents),
        Command("&Keys", keys),
        Command("&Before a bridge is moved", cautions),
    ]
    return fill(add_menu(bar, "&Help"), commands, owner)
