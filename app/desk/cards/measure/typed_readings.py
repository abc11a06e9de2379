"""Values of readings as they are typed, in the table or on the plan, and those that cannot be."""

from PySide6.QtCore import QObject, Signal

from app.desk.cards.measure.table.readings_model import Readings
from app.desk.document.document import Document
from app.desk.document.put_reading import put_reading
from app.edit import list_answers
from app.edit.typing_visit import Refused, Visit
from app.say import plain_words


class TypedReadings(QObject):
    """Signals: `told` when an entry was refused, mended or taken back, and there is something else to say."""

    told = Signal()

    def __init__(self, document: Document, readings: Readings) -> None:
        super().__init__(readings)
        self.document, self.readings = document, readings
        self._id = ""
        self._visit = Visit(lambda text, word: put_reading(document, self._id, text, word), document.give_up)

    def begin(self) -> None:
        """What is typed from now on is a change of its own."""
        self._visit.begin()

    def put(self, reading_id: str, text: str) -> str:
        """A key was typed: the sentence that says why the value cannot be, or nothing."""
        self._go_to(reading_id)
        why = self._visit.put(self._whole(reading_id, text))
        if not why and reading_id in self.readings.refused:
            del self.readings.refused[reading_id]
            self.told.emit()
        return why

    def settle(self, reading_id: str, text: str) -> None:
        """A value is meant; where it cannot be, it stays to be mended."""
        self._go_to(reading_id)
        text = self._whole(reading_id, text)
        why = self._visit.settle(text)
        self.readings.refused.pop(reading_id, None)
        if why:
            self.readings.refused[reading_id] = Refused(text, why, self.readings.in_force(reading_id) or "")
        self.told.emit()

    def give_up(self, reading_id: str) -> None:
        """Escape: as it was before."""
        self.readings.refused.pop(reading_id, None)
        self._visit.give_up()
        self.told.emit()

    def say_wrong(self, chosen: str) -> tuple[str, str]:
        """A heading and a sentence on the chosen entry if it cannot be, else on another one; or nothing."""
        refused = self.readings.refused
        if not refused:
            return "", ""
        head = "This entry cannot be right" if chosen in refused else "An entry is still to be mended"
        why = refused[chosen].why if chosen in refused else next(iter(refused.values())).why
        return head, plain_words.sentence(why)

    def _whole(self, reading_id: str, text: str) -> str:
        """What was typed; a side by itself belongs to the length that stands there, refused for want of it or not."""
        job, refused = self.document.job, self.readings.refused.get(reading_id)
        reading = next((one for one in job.readings if one.id == reading_id), None)
        if reading is None or reading.kind not in ("off", "inline"):
            return text
        before = refused.text if refused is not None else self.readings.in_force(reading_id) or ""
        return list_answers.with_its_length(text, before, job.hand)

    def _go_to(self, reading_id: str) -> None:
        if reading_id != self._id:
            self._id = reading_id
            self._visit.begin()
