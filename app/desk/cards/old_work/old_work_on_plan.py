"""The Old work card and the plan: places are pointed at there, and what a line is about is shown there."""

from PySide6.QtCore import QObject

from app.desk.cards.card_stack import CardStack
from app.desk.cards.old_work.old_work_card import OldWorkCard
from app.desk.plan.drawing_board import DrawingBoard
from geometry.old_work.move_told import Line


class OldWorkOnPlan(QObject):
    """Ties the card to the drawing board; `stack` has the cards."""

    def __init__(self, card: OldWorkCard, board: DrawingBoard, stack: CardStack) -> None:
        super().__init__(card)
        self.card, self.board, self.stack = card, board, stack
        card.pointing.connect(board.pointer.place)
        card.went_to_place.connect(self._show)

    def _show(self, line: Line) -> None:
        self.board.show_place(line.where)
        if line.at is not None:
            self.board.look_at(line.at)
