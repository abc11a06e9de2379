"""The link to the readings that are to be looked at again: one after the other, in the order in which they are named,
and from the first again after the last.
"""

from PySide6.QtCore import QObject

from app.desk.cards.measure.measure_notes import MeasureNotes
from app.desk.cards.measure.measure_table import ReadingTable
from app.desk.document.document import Document


class ReadingAgain(QObject):
    """Keeps which of them the link took in hand, or were typed again, and still do not go with the others."""

    def __init__(self, document: Document, table: ReadingTable, notes: MeasureNotes) -> None:
        super().__init__(table)
        self.table, self.notes = table, notes
        self._done: set[str] = set()
        document.started.connect(self._done.clear)
        notes.went.connect(self.go)
        notes.struck.connect(self.go)
        table.cells.settled.connect(lambda reading_id, _text: self._done.add(reading_id))

    def say(self) -> None:
        """What the link is called now."""
        order = self.table.readings.again
        first = len(order) < 2 or self._following() == order[0]
        self.notes.go_button.setText("Go to it" if len(order) < 2 else "Go to the first" if first else "Go to the next")
        if not order:
            self._done.clear()

    def go(self) -> None:
        """Take the next of them in hand."""
        if suspect := self._following():
            self._done.add(suspect)
            self.table.go_to(suspect)
            self.table.setFocus()

    def _following(self) -> str:
        order, in_hand = self.table.readings.again, self.table.chosen
        others = [name for name in order if name != in_hand] or list(order)
        return next((name for name in others if name not in self._done), others[0] if others else "")
