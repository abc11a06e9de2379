"""The Headstock card and the plan: while the card is open the plan shows the headstock, afterwards what it showed."""

from PySide6.QtCore import QObject

from app.desk.cards.card_stack import CardStack
from app.desk.cards.headstock.headstock_card import HeadstockCard
from app.desk.document.document import Document
from app.desk.plan.drawing_board import DrawingBoard
from app.desk.plan.looking.two_places import MARGIN
from app.desk.plan.painting.view import View
from app.desk.plan.painting.view_widget import PutThere
from export.plan.headstock_drawn import place_of_headstock

ROOM = 12.0
"""Round the headstock, mm."""


class HeadstockOnPlan(QObject):
    """Ties the card to the drawing board; `stack` has the cards."""

    def __init__(self, card: HeadstockCard, document: Document, board: DrawingBoard, stack: CardStack) -> None:
        super().__init__(card)
        self.card, self.document, self.board, self.stack = card, document, board, stack
        self.before: tuple[View, PutThere | None] | None = None
        stack.opened.connect(self._opened)
        document.started.connect(self._started)

    def _opened(self) -> None:
        if self.stack.currentWidget() is self.card:
            self.show()
        else:
            self.leave()

    def show(self) -> None:
        """The headstock in the plan, as large as it fits; nothing moves while it has no place."""
        plan, there = self.board.plan, place_of_headstock(self.document.layout)
        if there is None:
            return
        if self.before is None:
            self.before = plan.view, plan.put
        left, low, right, high = there
        box = (left - ROOM, low - ROOM, right + ROOM, high + ROOM)
        plan.set_view(plan.view.fitted(box, plan.area.width(), plan.area.height(), MARGIN), by_hand=True)

    def leave(self) -> None:
        """What the plan showed before."""
        if self.before is None:
            return
        plan, (view, put) = self.board.plan, self.before
        plan.put, self.before = put, None
        if plan.put is not None:
            plan.set_view(view)
        else:
            self.board.where_to_look.go_home(resized=True)

    def _started(self) -> None:
        """Another job: nothing is to be gone back to."""
        self.before = None
