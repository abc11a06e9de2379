"""The Measure card: the readings as taken, how each fits, what to look at again and what to measure next."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QGuiApplication, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QVBoxLayout, QWidget

from app import asking, edits, how_to, pasting, words
from app.desk.cards.card import Card, Note
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.in_hand import InHand, plain_button
from app.desk.cards.measure_table import ReadingTable
from app.desk.document import Document
from app.desk.fields import understood
from app.desk.look import SIDE, Look
from app.desk.reading_picture import ReadingPicture
from app.verdict_words import look_again, small
from export.spoken import sentence
from geometry import units
from geometry.findings import Finding
from geometry.job import Job, NotAJob, Reading
from geometry.layout import Layout

if TYPE_CHECKING:
    from app.desk.cards.add_reading import AddReading


CRAMPED = 17
"""A card lower than so many lines has no room but for the readings."""


class MeasureCard(Card):
    """Signals: `in_hand` with the id of the reading taken in hand; `point_out` with what points are wanted for;
    `show_next` to show the reading that might be next on the plan, or to put it away.
    """

    title = "Measure"
    line = "Type each reading as the rule shows it and press Enter for the next."
    in_hand = Signal(str)
    point_out = Signal(object)
    show_next = Signal(bool)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self._session = 0
        self._cramped = False
        self.table = ReadingTable(document, look, self)
        self.wrong, self.look_again, self.next = (Note(look, self) for _ in range(3))
        self.findings = FindingsList(look, self)
        self.panel = InHand(self)
        self.picture = ReadingPicture(look, self)
        self.adding: AddReading | None = None
        self._next: Reading | None = None
        self.go_button = plain_button("Go to it", "Takes the reading in hand", self.look_again)
        self.out_button = plain_button("Strike it out", "Takes the reading out of the fit", self.look_again)
        self.show_button = plain_button("Show it", "Draws the reading on the plan as it would be taken", self.next)
        self.show_button.setCheckable(True)
        self.take_button = plain_button("Take it", "Adds the reading to the table and takes it in hand", self.next)
        self._lay_out_top()
        self._lay_out()
        self._connect()
        self.refresh()

    def _lay_out_top(self) -> None:
        """Title and line at the left, the picture of how it is held at the right."""
        for label in (self.heading, self.under):
            self.column.removeWidget(label)
            label.setContentsMargins(0, 0, 0, 0)
        self.under.setAlignment(Qt.AlignmentFlag.AlignTop)
        said = QVBoxLayout()
        said.setSpacing(2)
        said.addWidget(self.heading)
        said.addWidget(self.under)
        said.addStretch(1)
        top = QHBoxLayout()
        top.setContentsMargins(SIDE, 0, SIDE, 0)
        top.setSpacing(16)
        top.addLayout(said, 1)
        top.addWidget(self.picture, 0, Qt.AlignmentFlag.AlignTop)
        self.column.insertLayout(0, top)
        self._keep_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where large text leaves few lines, the readings come before the picture and the advice."""
        super().resizeEvent(event)
        cramped = self.height() < CRAMPED * self.under.fontMetrics().lineSpacing()
        if cramped != self._cramped:
            self._cramped = cramped
            self._keep_room()
            self._say()

    def _keep_room(self) -> None:
        """Room for four lines under the title, so that the table stays where it is from one reading to the next;
        for one where all is cramped.
        """
        lines = 1 if self._cramped else 4
        self.under.setMinimumHeight(lines * self.under.fontMetrics().lineSpacing())

    def _lay_out(self) -> None:
        inset = QHBoxLayout()
        inset.setContentsMargins(SIDE - 12, 0, 4, 0)
        inset.addWidget(self.table)
        self.column.addLayout(inset, 1)
        found = QHBoxLayout()
        found.setContentsMargins(SIDE - 2, 4, SIDE, 0)
        found.addWidget(self.findings)
        self.column.addLayout(found)
        for note in (self.wrong, self.look_again, self.next):
            self.column.addWidget(note)
            note.setContentsMargins(0, 12, 0, 0)
            note.hide()
        for note, buttons in (
            (self.look_again, (self.go_button, self.out_button)),
            (self.next, (self.show_button, self.take_button)),
        ):
            row = QHBoxLayout()
            row.setSpacing(4)
            for button in buttons:
                row.addWidget(button)
            row.addStretch(1)
            note.column.addLayout(row)
        self.column.addSpacing(12)
        self.column.addWidget(self.panel)
        self.column.addSpacing(8)

    def _connect(self) -> None:
        self.show_button.toggled.connect(self.show_next)
        self.take_button.clicked.connect(self._take_next)
        self.go_button.clicked.connect(self._go_to_suspect)
        self.out_button.clicked.connect(self._strike_suspect)
        self.table.in_hand.connect(self._took)
        self.table.painter_.typed.connect(self._typed)
        self.table.painter_.settled.connect(self._settled)
        self.table.painter_.given_up.connect(self._give_up)
        self.table.pasted.connect(self.paste)
        self.table.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.table.customContextMenuRequested.connect(self._menu)
        self.panel.fineness.connect(self._set_fineness)
        self.panel.strike.connect(self.strike_or_bring_back)
        self.panel.remove.connect(self.remove)
        self.panel.add.connect(self.add)

    # what is shown

    @property
    def chosen(self) -> Reading | None:
        """The reading in hand."""
        return next((r for r in self.document.job.readings if r.id == self.table.chosen), None)

    def refresh(self) -> None:
        self.table.refresh()
        self._say()

    def opened(self) -> None:
        if self.table.chosen is None:
            self.start()
        self.table.setFocus()
        self.in_hand.emit(self.table.chosen or "")

    def start(self) -> None:
        """Take the first reading in hand that is still to be measured, else one to look at again, else the first."""
        rows = self.table.readings.rows
        waiting = [row.reading.id for row in rows if not row.reading.taken and not row.reading.struck]
        suspects = [row.reading.id for row in rows if row.suspect]
        for reading_id in (*waiting, *suspects, *(row.reading.id for row in rows)):
            self.table.go_to(reading_id)
            break
        self.table.setFocus()

    def touched(self, of: str) -> None:
        """A reading or a point on the plan: the reading, or the first at that point that is to be looked at again."""
        kind, _, name = of.partition(":")
        if kind == "reading":
            self.table.go_to(name)
        elif kind == "point" and self.adding is None:
            rows = self.table.readings.rows
            self.table.go_to(next((r.reading.id for r in rows if r.suspect and name in r.reading.of), ""))

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        self.table.show_look(look)
        self.findings.show_look(look)
        self.picture.look = look
        if self.adding is not None:
            self.adding.picture.look = look
            self.adding.picture.update()
        self.picture.updateGeometry()
        self._keep_room()
        for note in (self.wrong, self.look_again, self.next):
            note.show_look(look)
        self._say()

    def say_next(self, text: str, reading: Reading | None = None) -> None:
        """Show what is worth measuring next, or why nothing is."""
        self._next = reading
        self.next.say("Measure next" if text else "", text)
        self.show_button.setVisible(reading is not None)
        self.show_button.setChecked(False)
        self.take_button.setVisible(reading is not None)
        self._show_next()

    def _show_next(self) -> None:
        adding = self.adding is not None and self.adding.isVisibleTo(self)
        self.next.setVisible(not adding and not self._cramped and bool(self.next.head.text()))

    def _say(self) -> None:
        job, layout = self.document.job, self.document.layout
        taken = self.chosen
        adding = self.adding is not None and self.adding.isVisibleTo(self)
        how = how_to.take(taken, job.hand) if taken else self.line
        self.under.setText("Its kind, then its points: chosen below, or pointed out on the plan." if adding else how)
        self.panel.setVisible(not adding)
        self._show_next()
        self.picture.setVisible(taken is not None and not adding and not self._cramped)
        if taken is not None:
            self.panel.show_reading(taken, understood(job.unit)(words.value(taken, job.unit)))
            self.picture.show_kind(taken.kind, self.under.text(), taken.at)
        refused = self.table.readings.wrong
        at = taken.id if taken is not None and taken.id in refused else next(iter(refused), "")
        head = (
            "This entry cannot be right" if taken is not None and at == taken.id else "An entry is still to be mended"
        )
        said = sentence(job, words.sentence(refused[at][1])) if at else ""
        self.wrong.say(head if at else "", said, "look")
        self.findings.show_found(_of_readings(layout))
        self.look_again.say(*look_again(job, layout), "look")
        suspects = [row.reading.id for row in self.table.readings.rows if row.suspect]
        self.go_button.setVisible(bool(suspects))
        self.go_button.setText("Go to it" if len(suspects) < 2 else "Go to the first")
        self.out_button.setVisible(len(suspects) == 1)
        noted = self.wrong.isVisibleTo(self) or self.look_again.isVisibleTo(self)
        self.under.setVisible(not (self._cramped and noted))

    def _go_to_suspect(self) -> None:
        for row in self.table.readings.rows:
            if row.suspect:
                self.table.go_to(row.reading.id)
                self.table.setFocus()
                return

    def _strike_suspect(self) -> None:
        self._go_to_suspect()
        self.strike_or_bring_back()

    def _took(self, reading_id: str) -> None:
        self.begin_visit()
        self._say()
        self.in_hand.emit(reading_id)

    def _menu(self, at: QPoint) -> None:
        menu = QMenu(self)
        struck = self.chosen is not None and self.chosen.struck
        menu.addAction("Bring back" if struck else "Strike out", self.strike_or_bring_back)
        menu.addAction("Remove", self.remove)
        menu.addAction("Add a reading…", self.add)
        menu.addAction("Paste readings", self.paste)
        menu.exec(self.table.viewport().mapToGlobal(at))
        menu.deleteLater()

    # typing: every key is put into force if it can be; all keys of one stay in a cell are one undo step

    def put(self, reading_id: str, text: str) -> str:
        """Put a typed value into force; the sentence that says why not, or nothing."""
        job = self.document.job
        reading = edits.find(job, reading_id)
        name = f"{small(words.reading(reading, job.hand))} {text.strip()}".strip()
        return self._try(name, lambda: edits.set_value(job, reading_id, text), self._word(reading_id))

    def put_on_plan(self, reading_id: str, text: str) -> None:
        """A value typed on the plan."""
        self._keep_wrong(reading_id, text, self.put(reading_id, text))

    def begin_visit(self) -> None:
        """What is typed from now on is a change of its own, and taken back by itself."""
        self._session += 1

    def take_back(self, reading_id: str) -> None:
        """Escape while a value was typed: as it was before."""
        self.table.readings.wrong.pop(reading_id, None)
        self.document.give_up(self._word(reading_id))
        self.refresh()

    def _word(self, reading_id: str) -> str:
        return f"value {reading_id} {self._session}"

    def _try(self, name: str, make: Callable[[], Job], merge: str = "") -> str:
        try:
            job = make()
        except (NotAJob, units.NotALength) as error:
            return str(error)
        self.document.edit(name, job, merge)
        return ""

    def _typed(self, row: int, text: str) -> None:
        reading_id = self.table.readings.rows[row].reading.id
        if not self.put(reading_id, text):
            self.table.readings.wrong.pop(reading_id, None)
            self._say()

    def _settled(self, row: int, text: str) -> None:
        reading_id = self.table.readings.rows[row].reading.id
        self._keep_wrong(reading_id, text, self.put(reading_id, text))
        self.begin_visit()

    def _keep_wrong(self, reading_id: str, text: str, wrong: str) -> None:
        if wrong:
            self.document.give_up(self._word(reading_id))  # what stood there before, not half of what was typed
            self.table.readings.wrong[reading_id] = (text, wrong)
        else:
            self.table.readings.wrong.pop(reading_id, None)
        self.refresh()

    def _give_up(self, row: int) -> None:
        self.take_back(self.table.readings.rows[row].reading.id)

    # what else can be done to a reading

    def strike_or_bring_back(self) -> None:
        job, taken = self.document.job, self.chosen
        if taken is not None:
            what = "bringing back" if taken.struck else "striking out"
            change: Callable[..., Any] = edits.bring_back if taken.struck else edits.strike
            self.document.edit(f"{what} {small(words.reading(taken, job.hand))}", change(job, taken.id))
            self.table.setFocus()

    def remove(self) -> None:
        job, taken = self.document.job, self.chosen
        if taken is not None:
            row = self.table.currentIndex().row()
            self.document.edit(f"removing {small(words.reading(taken, job.hand))}", edits.remove(job, taken.id))
            self.table.go(min(row, len(self.table.readings.rows) - 1))

    def add(self) -> None:
        """Ask for a new reading's kind and points."""
        if self.adding is None:
            self.adding = self._made_adding()
        self.adding.show()
        self.adding.open()
        self._say()

    def _made_adding(self) -> "AddReading":
        from app.desk.cards.add_reading import AddReading

        adding = AddReading(self.document, self.look, self)
        adding.made.connect(self._added)
        adding.given_up.connect(self._leave_adding)
        adding.point_out.connect(self.point_out)
        self.column.insertWidget(self.column.indexOf(self.panel) + 1, adding)
        return adding

    def _leave_adding(self) -> None:
        if self.adding is not None:
            self.adding.hide()
        self._say()
        self.table.setFocus()

    def _take_next(self) -> None:
        if self._next is not None:
            self._added(self._next)

    def next_reading(self) -> Reading | None:
        """The reading that might be next."""
        return self._next

    def _added(self, reading: Reading) -> None:
        job, name = asking.add(self.document.job, reading, self.table.chosen)
        self.document.edit(f"adding {small(words.reading(reading, job.hand))}", job)
        self._leave_adding()
        self.table.go_to(name)

    def _set_fineness(self, how: str) -> None:
        job, taken = self.document.job, self.chosen
        if taken is not None:
            name = f"how finely {small(words.reading(taken, job.hand))} was read"
            wrong = self._try(name, lambda: edits.set_fineness(job, taken.id, how))
            self.wrong.say("This cannot be right" if wrong else "", words.sentence(wrong), "look")

    def paste(self) -> None:
        """Put the clipboard's lines into the table: values down the column, or names and values."""
        job, text = self.document.job, QGuiApplication.clipboard().text()
        wrong = self._try("pasted readings", lambda: pasting.paste(job, text, self.table.chosen))
        if wrong:
            self.wrong.say("This cannot be pasted", words.sentence(wrong), "look")


def _of_readings(layout: Layout | None) -> list[Finding]:
    """What was found in the readings themselves besides the survey's own verdict: at most two, the worst first.

    While readings contradict each other, what follows from them would only lead astray.
    """
    if layout is None or layout.neck is None or layout.survey.suspects or layout.survey.groups:
        return []
    told = ("survey.", "point.loose")
    found = [
        f
        for f in layout.findings
        if f.grade != "good" and f.where.startswith(("reading:", "seam", "point:")) and not f.code.startswith(told)
    ]
    return sorted(found, key=lambda f: f.grade != "stop")[:2]
