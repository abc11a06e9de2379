"""Where a finding leads: to a reading in its table, to a field of a card, or to a place on the plan."""

from collections.abc import Callable

from app.desk.cards.card_stack import CardStack
from app.desk.cards.table_of_cards import card_with, measure_card
from app.desk.plan.drawing_board import DrawingBoard
from app.say.what_changed import in_dialog


class GoTo:
    """Called with what a finding is about: `"reading:r9"`, `"field:bridge.width"`, `"step:strings"`, `"saddle"`;
    `"add:fret12.left"` asks for what is to be read there, `"take:{…}"` for one reading.

    `about` shows the dialog on the job as a whole, where the fields of the board are.
    """

    def __init__(self, cards: CardStack, board: DrawingBoard, about: Callable[[str], None]) -> None:
        self.cards, self.board, self._about = cards, board, about

    def __call__(self, where: str) -> None:
        kind, _, name = where.partition(":")
        match kind:
            case "reading":
                self._reading(name)
            case "add":
                self._reading(measure_card(self.cards).commands.ask_of(name.split("+")))
            case "take":
                self._reading(measure_card(self.cards).commands.take(name))
            case "step":
                self.cards.open(name.capitalize())
                self.cards.get(name.capitalize()).go_to(where)
            case "field":
                self._field(where)
            case "string":
                self._string(where)
            case "metal" if not name:  # of all of it: where the words on each stand
                self.cards.open("Old work")
                self.board.show_place(where)
            case _:
                self.board.show_place(where)

    def _reading(self, name: str) -> None:
        self.cards.open("Measure")
        table = measure_card(self.cards).table
        table.visit(name)
        table.setFocus()

    def _string(self, where: str) -> None:
        """The string's row on its card, and the string in the detail."""
        self.cards.open("Strings")
        self.cards.get("Strings").touched(where)
        self.board.show_place(where)

    def _field(self, where: str) -> None:
        """Open the card that has the field, and go to it there."""
        block = where.removeprefix("field:").partition(".")[0]
        name = card_with(block) or card_with(where.removeprefix("field:"))
        if not name and (block == "board" or in_dialog(where)):
            self._about(where)
        if name and not self.cards.is_open(name):
            self.cards.open(name)
        if name:
            self.cards.get(name).go_to(where)
