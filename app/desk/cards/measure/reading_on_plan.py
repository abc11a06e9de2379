"""The Measure card and the plan: the chosen reading lies on the plan, points are pointed out there, and what is worth
measuring next is said a moment after the last change.
"""

import msgspec
from PySide6.QtCore import QObject, QTimer

from app.desk.cards.card_stack import CardStack
from app.desk.cards.measure.measure_card import MeasureCard
from app.desk.document.document import Document
from app.desk.plan.drawing_board import DrawingBoard
from geometry import words
from geometry.job import Reading


class ReadingOnPlan(QObject):
    """Ties a Measure card to the drawing board. `stack`: the cards, the open one in front."""

    def __init__(self, card: MeasureCard, document: Document, board: DrawingBoard, stack: CardStack) -> None:
        super().__init__(card)
        self.card, self.document, self.board, self.stack = card, document, board, stack
        card.reading_chosen.connect(self.show_chosen)
        card.point_out.connect(self._point_out)
        card.show_next.connect(self._show_next)
        stack.opened.connect(self.show_chosen)
        board.value_line.refused = card.table.readings.refused
        board.value_line.typing_begins.connect(card.typing.begin)
        board.value_line.settled.connect(card.typing.settle)
        board.value_line.gave_up.connect(card.typing.give_up)
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(600)
        self._idle.timeout.connect(self._advise)
        document.changed.connect(self._idle.start)
        document.started.connect(lambda: card.say_next(""))  # what was next of another job is not of this one
        stack.opened.connect(self._idle.start)  # while the card is not seen nothing is worked out for it

    def show_chosen(self) -> None:
        """The chosen reading lies on the plan while the Measure card is open, and only then."""
        chosen = self.card.table.chosen or "" if self.stack.currentWidget() is self.card else ""
        self._show(reading=chosen, advice=None)

    def _point_out(self, says: tuple[str, ...]) -> None:
        asked = tuple(f"{words.first_large(text)}: point at it." for text in says)
        if self.card.adding is not None:
            self.board.pointer.point_out(asked, self.card.adding.pointed)

    def _show_next(self, on: bool) -> None:
        advice = self.card.notes.reading if on else None
        self._show(reading="" if on else self.card.table.chosen or "", advice=advice)

    def _show(self, *, reading: str, advice: Reading | None) -> None:
        pictures = self.board.pictures
        pictures.show_options(msgspec.structs.replace(pictures.options, advice=advice, reading=reading))

    def _advise(self) -> None:
        """Say what is worth measuring next."""
        job, layout = self.document.job, self.document.layout
        if layout is None or not self.card.isVisible():
            return
        if not job.readings or any(not r.taken and not r.struck for r in job.readings):
            self.card.say_next("")  # the list itself says what is next
            return
        from app.say import look_again
        from geometry.advice import advise

        found = advise(job, layout)
        if found.advice:
            self.card.say_next(look_again.next_reading(job, found.advice[0], layout), found.advice[0].reading)
        else:
            said, _ = look_again.look_again(job, layout)  # it is not said twice
            self.card.say_next("" if said else found.enough)
