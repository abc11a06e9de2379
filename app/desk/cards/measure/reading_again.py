"""The link to the readings that are to be looked at again: one after the other, in the order in which they are named,
and from the first again after the last.
"""

from PySide6.QtCore import QObject, Signal

from app.desk.cards.measure.measure_notes import MeasureNotes
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.document.document import Document
from app.edit.measure import new_reading
from app.edit.measure.where_enter_leads import Looked, next_accused
from geometry.job import Reading
from geometry.job.measured.kinds import SHAPES


class ReadingAgain(QObject):
    """Signals: `wants_second` with the reading that is to be taken a second time, beside the first."""

    wants_second = Signal(object)

    def __init__(self, document: Document, table: ReadingTable, notes: MeasureNotes) -> None:
        super().__init__(table)
        self.document, self.table, self.notes = document, table, notes
        notes.went.connect(self.go)
        notes.struck.connect(self.go)
        notes.second_button.clicked.connect(self._take_second)

    def say(self) -> None:
        """What the link is called now."""
        order = self.notes.again.readings
        first = len(order) < 2 or self._following() == order[0]
        self.notes.go_button.setText("Go to it" if len(order) < 2 else "Go to the first" if first else "Go to the next")
        second = self._may_be_second()
        self.notes.second_button.setVisible(second is not None)
        if second is not None:
            twice = sum(row.reading.of_what == second.of_what for row in self.table.readings.rows) > 1
            self.notes.second_button.setText("Add one more reading" if twice else "Add a second reading")
        if not (order or self.table.typing):
            self.table.readings.looked = Looked()

    def go(self) -> None:
        """Take the next of them in hand."""
        if suspect := self._following():
            visited = (self.table.chosen or "") if self.table.stay.visited else ""
            self.table.readings.looked = self._looked.led_to(suspect, visited)
            self.table.visit(suspect)
            self.table.setFocus()

    def _following(self) -> str:
        """The first while nobody has looked at it, then those behind the one in hand; after all, the first again."""
        order, in_hand = self.notes.again.readings, self.table.chosen or ""
        done = self._looked.done | self._looked.shown
        if order and order[0] not in {in_hand, *done}:
            return order[0]
        visited = self.table.stay.visited
        return next_accused(order, in_hand, {in_hand, *done}, visited=visited) or next(iter(order), "")

    @property
    def _looked(self) -> Looked:
        return self.table.readings.looked.while_accused(self.notes.again.readings)

    def _take_second(self) -> None:
        """The one in hand, or the first of them, once more behind it."""
        if reading := self._may_be_second():
            self.table.go_to(reading.id)
            self.wants_second.emit(new_reading.second(reading))

    def _may_be_second(self) -> Reading | None:
        """The reading that may be taken a second time; None unless one of several is wrong, each by itself, and all are
        taken.
        """
        layout, rows = self.document.layout, self.table.readings.rows
        waits = any(row.waits for row in rows)
        if layout is None or not layout.survey.groups or layout.survey.layings or waits:
            return None
        order = [name for group in layout.survey.groups for name in group]
        first = self.table.chosen if self.table.chosen in order else order[0]
        reading = next((row.reading for row in rows if row.reading.id == first), None)
        return reading if reading is not None and SHAPES[reading.kind].values else None
