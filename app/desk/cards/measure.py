"""The Measure card: the readings as taken, how each fits, what to look at again and what to measure next."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app import edits, how_to, words
from app.desk.cards.card import SIDE, Card, Note
from app.desk.cards.measure_table import ReadingTable
from app.desk.document import Document
from app.desk.look import Look
from app.desk.signs import Sign
from geometry import units
from geometry.job import NotAJob


class MeasureCard(Card):
    """Signals: `in_hand` with the id of the reading taken in hand, or nothing."""

    title = "Measure"
    line = "Type each reading as the rule shows it and press Enter for the next."
    in_hand = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self._session = 0
        self.table = ReadingTable(document, look, self)
        inset = QHBoxLayout()
        inset.setContentsMargins(SIDE - 12, 0, 4, 0)
        inset.addWidget(self.table)
        self.column.addLayout(inset, 1)
        self.wrong = Note(look, self)
        self.look_again = Note(look, self)
        self.next = Note(look, self)
        for note in (self.wrong, self.look_again, self.next):
            self.column.addSpacing(12)
            self.column.addWidget(note)
            note.hide()
        self.column.addSpacing(16)
        self.under.setMinimumHeight(round(2.6 * look.px(14)))
        self.under.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.setContentsMargins(0, 0, 0, 0)
        self.table.in_hand.connect(self._took)
        self.table.painter_.typed.connect(self._typed)
        self.table.painter_.settled.connect(self._settled)
        self.table.painter_.given_up.connect(self._give_up)
        self.refresh()

    def sign(self) -> Sign:
        job, layout = self.document.job, self.document.layout
        if not job.readings:
            return Sign.EMPTY
        if layout is not None and (layout.survey.suspects or layout.survey.groups):
            return Sign.LOOK
        waiting = any(not r.taken and not r.struck for r in job.readings)
        done = layout is not None and layout.frame == "neck" and layout.survey.verdict == "clean" and not waiting
        return Sign.DONE if done else Sign.UNDER_WAY

    def refresh(self) -> None:
        self.table.refresh()
        self._say()

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.table.show_look(look)
        for note in (self.wrong, self.look_again, self.next):
            note.look = look
        self._say()

    def say_next(self, text: str) -> None:
        """Show what is worth measuring next."""
        self.next.say("Measure next" if text else "", text)

    def _say(self) -> None:
        job, layout = self.document.job, self.document.layout
        chosen = self.table.chosen
        taken = next((r for r in job.readings if r.id == chosen), None)
        self.under.setText(how_to.take(taken, job.hand) if taken else self.line)
        wrong = self.table.readings.wrong.get(chosen or "")
        self.wrong.say("This entry cannot be right" if wrong else "", f"{wrong[1]}." if wrong else "", "look")
        self.wrong.setVisible(bool(wrong))
        names = layout.survey.suspects or tuple(n for g in layout.survey.groups for n in g) if layout else ()
        said = [words.reading(r, job.hand) for r in job.readings if r.id in names]
        head = f"Look again: {said[0][:1].lower()}{said[0][1:]}" if len(said) == 1 else "Look again"
        self.look_again.say(head if said else "", layout.survey.why if layout else "", "look")

    def _took(self, reading_id: str) -> None:
        self._session += 1
        self._say()
        self.in_hand.emit(reading_id)

    # typing: every key is put into force if it can be; all keys of one stay in a cell are one undo step

    def _put(self, row: int, text: str) -> str:
        job, reading = self.document.job, self.table.readings.rows[row].reading
        try:
            changed = edits.set_value(job, reading.id, text)
        except (NotAJob, units.NotALength) as error:
            return str(error)
        name = words.reading(reading, job.hand)
        said = f"{name[:1].lower()}{name[1:]} {text.strip()}".strip()
        self.document.edit(said, changed, f"value {reading.id} {self._session}")
        return ""

    def _typed(self, row: int, text: str) -> None:
        reading_id = self.table.readings.rows[row].reading.id
        if not self._put(row, text):
            self.table.readings.wrong.pop(reading_id, None)
            self._say()

    def _settled(self, row: int, text: str) -> None:
        reading_id = self.table.readings.rows[row].reading.id
        wrong = self._put(row, text)
        if wrong:
            self.table.readings.wrong[reading_id] = (text, wrong)
        else:
            self.table.readings.wrong.pop(reading_id, None)
        self.table.refresh()
        self._say()

    def _give_up(self, row: int) -> None:
        reading_id = self.table.readings.rows[row].reading.id
        self.table.readings.wrong.pop(reading_id, None)
        merge = f"value {reading_id} {self._session}"
        self.document.give_up(merge)
        self.table.refresh()
        self._say()
