"""The line on the plan in which a reading's number is typed where it stands."""

from collections.abc import Mapping

from PySide6.QtCore import QObject, QPoint, QRect, Qt, Signal
from PySide6.QtWidgets import QLabel

from app.desk.document.document import Document
from app.desk.document.put_reading import put_reading
from app.desk.plan.painting.plan_widget import Plan
from app.desk.widgets.inputs.fields import TypedLine, understood
from app.desk.widgets.look import Look
from app.edit.typing_visit import Refused, Visit
from app.say import plain_words
from geometry import words
from geometry.job.measured.kinds import SHAPES


class ValueLine(QObject):
    """Signals: `typing_begins` before a number is typed, `settled` with the reading's id and what was typed, `gave_up`
    with the id when it is to be as before.
    """

    typing_begins = Signal()
    settled = Signal(str, str)
    gave_up = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QObject) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.refused: Mapping[str, Refused] = {}
        """The readings' entries that cannot be, wherever they were typed; they stay to be mended."""
        self.line: TypedLine | None = None
        self.note: QLabel | None = None
        self.reading, self.wrong = "", ""
        self.visit = Visit(self._put, document.give_up)
        document.started.connect(self.close)

    def type_here(self, plan: Plan, reading_id: str) -> None:
        """Open a line on the plan over a reading's number."""
        job = self.document.job
        reading = next((r for r in job.readings if r.id == reading_id), None)
        box = plan.words_of(f"reading:{reading_id}")
        if reading is None or box is None or reading.struck:
            return
        self.close()
        self.typing_begins.emit()
        line = TypedLine(
            f"{words.reading(reading, job.hand)}, as read",
            "Enter puts it in, Escape takes back, Up and Down step",
            plan,
        )
        line.setProperty("role", "value")
        line.setAlignment(Qt.AlignmentFlag.AlignCenter)
        kept = self.refused.get(reading_id)
        line.setText(kept.text if kept else words.value_and_side(reading, job.unit, job.hand))
        line.setGeometry(self._room_for_line(plan, box.center().toPoint()))
        line.selectAll()
        self.line, self.reading, self.note = line, reading_id, QLabel(plan, textFormat=Qt.TextFormat.PlainText)
        self.visit.begin()
        self._say(plain_words.sentence(kept.why) if kept else "")
        line.typed.connect(self._typed)
        line.entered.connect(self._entered)
        line.given_up.connect(self._give_up)
        line.settled.connect(self._settled)
        line.show()
        line.setFocus()

    def _room_for_line(self, plan: Plan, centre: QPoint) -> QRect:
        """Where the number stands, but all of it on the plan."""
        scale, whole = self.look.text_scale, plan.rect().adjusted(4, 4, -4, -4)
        room = QRect(0, 0, round(116 * scale), round(34 * scale))
        room.moveCenter(centre)
        room.moveLeft(max(whole.left(), min(room.left(), whole.right() - room.width())))
        room.moveTop(max(whole.top(), min(room.top(), whole.bottom() - room.height())))
        return room

    def _put(self, text: str, word: str) -> None:
        put_reading(self.document, self.reading, text, word)

    def _typed(self, text: str) -> None:
        why = self.visit.put(text)
        self._say(plain_words.sentence(why) if self.wrong else "")  # not wrong before it is settled

    def _settled(self) -> None:
        """Enter, or the line was left: a wrong entry stays to be mended, here or on the Measure card."""
        line = self.line
        if line is None:
            return
        if line.isModified():
            text = line.text()
            self._say(plain_words.sentence(self.visit.settle(text)))
            self.settled.emit(self.reading, text)
        if not line.hasFocus():
            self.close()

    def _entered(self) -> None:
        if not self.wrong:
            self.close()

    def _give_up(self) -> None:
        self.visit.give_up()
        self.gave_up.emit(self.reading)
        self.close()

    def _say(self, why: str) -> None:
        """Under the line: why the entry cannot be, or what was understood."""
        line, note, self.wrong = self.line, self.note, why
        if line is None or note is None:
            return
        reading = next((r for r in self.document.job.readings if r.id == self.reading), None)
        angle = reading is not None and SHAPES[reading.kind].degrees
        hint = "" if why or angle else understood(self.document.job.unit)(line.text())
        line.say(why, hint)
        note.setVisible(bool(why or hint))
        plan = line.parentWidget()
        if plan is not None and (why or hint):
            self._lay_note(note, line.geometry(), plan.rect(), why or hint)

    def _lay_note(self, note: QLabel, beside: QRect, room: QRect, text: str) -> None:
        """Close under the line, or over it where there is no room."""
        look = self.look
        note.setProperty("role", "wrong" if self.wrong else "hint")
        note.setStyleSheet(f"background: {look.palette.card}; border-radius: 4px; padding: 3px 6px;")
        note.setWordWrap(bool(self.wrong))
        note.setText(text)
        wide = round(300 * look.text_scale) if self.wrong else note.sizeHint().width()
        note.resize(wide, note.heightForWidth(wide) if self.wrong else note.sizeHint().height())
        below = beside.bottom() + 4
        y = below if below + note.height() < room.bottom() else beside.top() - 4 - note.height()
        x = max(4, min(beside.center().x() - note.width() // 2, room.right() - note.width() - 4))
        note.move(x, y)
        note.raise_()

    def close(self) -> None:
        """Put the line away."""
        line, self.line = self.line, None
        note, self.note = self.note, None
        if note is not None:
            note.hide()
            note.deleteLater()
        if line is not None:
            plan = line.parentWidget()
            line.hide()
            line.deleteLater()
            if plan is not None:
                plan.setFocus()
