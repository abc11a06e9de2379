"""The menu of the plan, opened with the other mouse button: what can be done with what lies there."""

from collections.abc import Callable

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QWidget

from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import measure_card
from app.desk.document.document import Document
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.widgets.marked_menu import Menu
from app.edit import edits
from geometry import words


class PlanMenu:
    """`window`: over which the menu is shown."""

    def __init__(
        self,
        document: Document,
        board: DrawingBoard,
        cards: CardStack,
        go_to: Callable[[str], None],
        add_reading: Callable[[], None],
        window: QWidget,
    ) -> None:
        self.document, self.board, self.cards, self.window = document, board, cards, window
        self._go_to, self._add_reading = go_to, add_reading

    def made_for(self, of: str) -> Menu:
        """The menu for a thing on the plan, or for the plan itself."""
        menu, board = Menu(self.window), self.board
        kind, _, name = of.partition(":")
        if kind == "point":
            self._for_point(menu, name)
        if kind == "reading":
            self._go(menu, "Go to this reading", of)
            readings = measure_card(self.cards).commands
            menu.addAction("Strike out or bring back", readings.strike_or_bring_back)
            menu.addSeparator()
        if kind == "string":
            menu.addAction("Show the strings", lambda: self.cards.open("Strings"))
            menu.addSeparator()
        place = board.answers.place_of(name) if kind == "point" else None
        if place is not None:
            menu.addAction("Bring it into the detail", lambda: board.look_at(place))
        menu.addAction("How far from here to there?", board.pointer.ask_distance)
        menu.addAction("Add a reading…", self._add_reading)
        menu.addSeparator()
        menu.addAction("Whole instrument", board.fit)
        menu.addAction("Turn by a quarter", board.turn)
        return menu

    def _for_point(self, menu: Menu, name: str) -> None:
        """What the point is, and the readings that hold it."""
        job = self.document.job
        menu.addAction(self.board.answers.about(name)).setEnabled(False)
        menu.addSeparator()
        for reading in edits.holds(job, name)[:8]:
            self._go(menu, f"Go to “{words.reading(reading, job.hand)}”", f"reading:{reading.id}")
        menu.addSeparator()

    def _go(self, menu: Menu, text: str, where: str) -> None:
        menu.addAction(text, lambda: self._go_to(where))

    def show(self, of: str, at: QPoint) -> None:
        """Open the menu at a place of the screen."""
        menu = self.made_for(of)
        menu.exec(at)
        menu.deleteLater()
