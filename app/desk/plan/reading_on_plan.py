"""The Measure card and the plan, hand in hand: the reading in hand lies on the plan, points are pointed out there, and
what is worth measuring next is said when the hands are idle.
"""

from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, QTimer

from app.desk.cards.measure.measure_card import MeasureCard
from geometry import words

if TYPE_CHECKING:
    from app.desk.frame.desk import Desk


class Measuring(QObject):
    """Owns the Measure card, for the plan shows its reading in hand whatever card is open first."""

    def __init__(self, desk: "Desk") -> None:
        super().__init__(desk)
        self.desk = desk
        self.card = MeasureCard(desk.document, desk.look)
        self.card.in_hand.connect(self.show_in_hand)
        self.card.point_out.connect(self._point_out)
        self.card.show_next.connect(self._show_next)
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(600)
        self._idle.timeout.connect(self._advise)
        desk.document.changed.connect(self._idle.start)

    def show_in_hand(self) -> None:
        """The reading in hand lies on the plan while the Measure card is open, and only then."""
        board = self.desk.board
        chosen = self.card.table.chosen or "" if self.desk.cards.currentWidget() is self.card else ""
        board.show_wish(msgspec.structs.replace(board.wish, reading=chosen, advice=None))

    def _point_out(self, says: tuple[str, ...]) -> None:
        asked = tuple(f"{words.first_large(text)}: point at it." for text in says)
        if self.card.adding is not None:
            self.desk.board.hand.point_out(asked, self.card.adding.pointed)

    def _show_next(self, on: bool) -> None:
        board, advice = self.desk.board, self.card.next_reading() if on else None
        reading = "" if on else self.card.table.chosen or ""
        board.show_wish(msgspec.structs.replace(board.wish, advice=advice, reading=reading))

    def _advise(self) -> None:
        """When the hands are idle: what is worth measuring next."""
        job, layout = self.desk.document.job, self.desk.document.layout
        if layout is None or not self.card.isVisible():
            return
        if not job.readings or any(not r.taken and not r.struck for r in job.readings):
            self.card.say_next("")  # the list itself says what is next
            return
        from app.say import look_again
        from geometry.advice import advise

        found = advise(job, layout)
        if found.advice:
            self.card.say_next(look_again.next_reading(job, found.advice[0]), found.advice[0].reading)
        else:
            wrong = bool(layout.survey.suspects or layout.survey.groups)
            self.card.say_next("" if wrong else found.enough)
