"""The menu of the plan, opened with the other mouse button: what can be done with what lies there."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

from app.edit import edits
from geometry import words

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk


def actions(desk: "Desk", of: str) -> QMenu:
    """The menu for a thing on the plan, or for the plan itself."""
    menu = QMenu(desk)
    kind, _, name = of.partition(":")
    job, board = desk.document.job, desk.board
    if kind == "point":
        title = menu.addAction(board.about(of))
        title.setEnabled(False)
        menu.addSeparator()
        for reading in edits.holds(job, name)[:8]:
            _go(menu, desk, f"Go to “{words.reading(reading, job.hand)}”", f"reading:{reading.id}")
        menu.addSeparator()
    if kind == "reading":
        _go(menu, desk, "Go to this reading", of)
        menu.addAction("Strike out or bring back", desk.commands.measure.strike_or_bring_back)
        menu.addSeparator()
    if kind == "string":
        menu.addAction("Show the strings", lambda: desk.open_card("Strings"))
        menu.addSeparator()
    place = board.place_of(name) if kind == "point" else None
    if place is not None:
        menu.addAction("Bring it into the detail", lambda: board.look_at(place))
    menu.addAction("How far from here to there?", board.hand.ask_distance)
    menu.addAction("Add a reading…", desk.commands.add_reading)
    menu.addSeparator()
    menu.addAction("Whole instrument", board.fit)
    menu.addAction("Turn by a quarter", board.turn)
    return menu


def _go(menu: QMenu, desk: "Desk", text: str, where: str) -> QAction:
    return menu.addAction(text, lambda: desk.go_to(where))


def show(desk: "Desk", of: str, at: QPoint) -> None:
    """Open the menu at a place of the screen."""
    menu = actions(desk, of)
    menu.exec(at)
    menu.deleteLater()
