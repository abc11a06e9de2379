"""The Measure card: the readings as taken, how each fits, what to look at again and what to measure next."""

from typing import TYPE_CHECKING

from msgspec import structs
from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QVBoxLayout, QWidget

from app.desk.cards.card import Card
from app.desk.cards.findings_list import FindingsList
from app.desk.cards.measure.fits_key import FitsKey
from app.desk.cards.measure.measure_notes import MeasureNotes
from app.desk.cards.measure.measure_table import ReadingTable
from app.desk.cards.measure.reading_commands import ReadingCommands
from app.desk.cards.measure.reading_panel import ReadingPanel
from app.desk.cards.measure.typed_readings import TypedReadings
from app.desk.document.document import Document
from app.desk.widgets.fields import in_mm
from app.desk.widgets.look import SIDE, Look
from app.desk.widgets.reading_picture import ReadingPicture
from app.say import how_to, plain_words
from app.say.look_again import look_again
from geometry.findings import Finding
from geometry.job import Reading
from geometry.layout import Layout

if TYPE_CHECKING:
    from app.desk.cards.measure.add_reading import AddReading


BRIEF, CRAMPED = 30, 26
"""In a window lower than so many lines the reasons are told when asked; in one lower still, there is no room but for
the readings.
"""


class MeasureCard(Card):
    """Signals: `reading_chosen` with the id of the reading that is chosen; `point_out` with what points are wanted for;
    `show_next` to show the reading that might be next on the plan, or to put it away.
    """

    title = "Measure"
    line = "Type each reading as the rule shows it and press Enter for the next."
    reading_chosen = Signal(str)
    point_out = Signal(object)
    show_next = Signal(bool)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self._brief = self._cramped = False
        self.table = ReadingTable(document, look, self)
        self.typing = TypedReadings(document, self.table.readings)
        self.commands = ReadingCommands(document, self.table)
        self.notes = MeasureNotes(look, self)
        self.wrong, self.say_next = self.notes.wrong, self.notes.say_next
        self.findings = FindingsList(look, self)
        self.key = FitsKey(look, self)
        self.panel = ReadingPanel(self)
        self.picture = ReadingPicture(look, self)
        self.adding: AddReading | None = None
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
        before = self._brief, self._cramped
        self._keep_room()
        if before != (self._brief, self._cramped):
            self._say()

    def _keep_room(self) -> None:
        """Room for four lines under the title, so that the table stays where it is from one reading to the next;
        for one where all is cramped, or a reading is added.
        """
        line = self.under.fontMetrics().lineSpacing()
        lines = self.window().height() / line
        self._brief, self._cramped = lines < BRIEF, lines < CRAMPED
        adding = self.adding is not None and self.adding.isVisibleTo(self)
        self.under.setMinimumHeight((1 if self._cramped or adding else 4) * line)

    def _lay_out(self) -> None:
        inset = QHBoxLayout()
        inset.setContentsMargins(SIDE - 12, 0, 4, 0)
        inset.addWidget(self.table)
        self.column.addLayout(inset, 1)
        self.column.addWidget(self.key)
        found = QHBoxLayout()
        found.setContentsMargins(SIDE - 2, 4, SIDE, 0)
        found.addWidget(self.findings)
        self.column.addLayout(found)
        self.column.addWidget(self.notes)
        self.column.addSpacing(12)
        self.column.addWidget(self.panel)
        self.column.addSpacing(8)

    def _connect(self) -> None:
        self.notes.show_next.connect(self.show_next)
        self.notes.take_next.connect(self._added)
        self.notes.went.connect(self._go_to_suspect)
        self.notes.coarser.connect(self.commands.say_coarser)
        self.notes.struck.connect(self._go_to_suspect)
        self.notes.struck.connect(self.commands.strike_or_bring_back)
        self.table.reading_chosen.connect(self._took)
        self.table.cells.typed.connect(self.typing.put)
        self.table.cells.settled.connect(self.typing.settle)
        self.table.cells.given_up.connect(self.typing.give_up)
        self.typing.told.connect(self.refresh)
        self.commands.refused.connect(self._refused)
        self.table.pasted.connect(self.commands.paste)
        self.table.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.table.customContextMenuRequested.connect(self._menu)
        self.panel.fineness.connect(self.commands.set_fineness)
        self.panel.yes.connect(self.say_yes)
        self.panel.strike.connect(self.commands.strike_or_bring_back)
        self.panel.remove.connect(self.commands.remove)
        self.panel.add.connect(self.add)

    # what is shown

    def refresh(self) -> None:
        self.table.refresh()
        self._say()

    def opened(self) -> None:
        if self.table.chosen is None:
            self.start()
        self.table.setFocus()
        self.reading_chosen.emit(self.table.chosen or "")

    def start(self) -> None:
        """Choose the first reading that is still to be measured, else one to look at again, else the first."""
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
        self.key.show_look(look)
        self.picture.look = look
        if self.adding is not None:
            self.adding.picture.look = look
            self.adding.picture.update()
        self.picture.updateGeometry()
        self._keep_room()
        self.notes.show_look(look)
        self._say()

    def _say(self) -> None:
        job, layout = self.document.job, self.document.layout
        taken = self.commands.chosen
        adding = self.adding is not None and self.adding.isVisibleTo(self)
        how = how_to.take(taken, job.hand) if taken else self.line
        self.under.setText("Its kind, then its points: chosen below, or pointed out on the plan." if adding else how)
        self.panel.setVisible(not adding)
        self.notes.setVisible(not adding)  # their room is needed
        self.notes.make_room(not adding and not self._cramped, brief=self._brief)
        self.picture.setVisible(taken is not None and not adding and not self._cramped)
        if taken is not None:
            self.panel.show_reading(taken, in_mm(taken.value, job.unit))
            self.picture.show_kind(taken.kind, self.under.text(), taken.at)
        self.key.setVisible(not adding and not self._cramped and any(row.fits for row in self.table.readings.rows))
        self.wrong.say(*self.typing.say_wrong(self.table.chosen or ""), "look")
        found = [_short(f, brief=self._brief) for f in _of_readings(layout)]
        if self._cramped:  # how the chosen reading is taken comes before what nobody has done yet
            found = [finding for finding in found if finding.code != "board.unlooked"]
        self.findings.show_found(found)
        suspects = [row.reading.id for row in self.table.readings.rows if row.suspect]
        coarse = layout is not None and layout.survey.verdict == "coarse"
        self.notes.say_look_again(*look_again(job, layout), len(suspects), coarse=coarse)
        told = self.notes.calling or self.findings.isVisibleTo(self)
        for label in (self.heading, self.under):
            label.setVisible(not (self._cramped and told))

    def _go_to_suspect(self) -> None:
        for row in self.table.readings.rows:
            if row.suspect:
                self.table.go_to(row.reading.id)
                self.table.setFocus()
                return

    def _took(self, reading_id: str) -> None:
        self.typing.begin()
        self._say()
        self.reading_chosen.emit(reading_id)

    def _menu(self, at: QPoint) -> None:
        menu = QMenu(self)
        struck = self.commands.chosen is not None and self.commands.chosen.struck
        menu.addAction("Bring back" if struck else "Strike out", self.commands.strike_or_bring_back)
        menu.addAction("Remove", self.commands.remove)
        menu.addAction("Add a reading…", self.add)
        menu.addAction("Paste readings", self.commands.paste)
        menu.exec(self.table.viewport().mapToGlobal(at))
        menu.deleteLater()

    # what else can be done to a reading

    def say_yes(self) -> None:
        """Yes to the question that is chosen, and on to the next reading."""
        if self.commands.chosen is not None:
            row = self.table.currentIndex().row()
            self.typing.settle(self.commands.chosen.id, "yes")
            self.table.go_on(row, 1)
            self.table.setFocus()

    def add(self) -> None:
        """Ask for a new reading's kind and points."""
        if self.adding is None:
            from app.desk.cards.measure.add_reading import AddReading

            self.adding = AddReading(self.document, self.look, self)
            self.adding.made.connect(self._added)
            self.adding.given_up.connect(self._leave_adding)
            self.adding.point_out.connect(self.point_out)
            self.column.insertWidget(self.column.indexOf(self.panel) + 1, self.adding)
        for other in (self.notes, self.panel, self.key):
            other.hide()  # first: the window would grow to hold them all
        self.under.setMinimumHeight(0)
        self.adding.show()
        self.adding.open()
        self._say()

    def _leave_adding(self) -> None:
        if self.adding is not None:
            self.adding.hide()
        self._keep_room()
        self._say()
        self.table.setFocus()

    def _refused(self, head: str, why: str) -> None:
        self.wrong.say(head, plain_words.sentence(why), "look")

    def next_reading(self) -> Reading | None:
        """The reading that might be next."""
        return self.notes.reading

    def _added(self, reading: Reading) -> None:
        name = self.commands.add(reading)
        self._leave_adding()
        self.table.go_to(name)


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
        if f.grade != "good"
        and (f.where.startswith(("reading:", "seam", "point:", "field:board.")) or f.code.startswith("board."))
        and not f.code.startswith(told)
    ]
    return sorted(found, key=lambda f: f.grade != "stop")[:2]


def _short(finding: Finding, *, brief: bool) -> Finding:
    """What the choice of a centre line does stands where it is chosen; here the readings need the room."""
    if finding.code != "board.turns":
        return finding
    first, _, _ = finding.text.partition(", and lies" if brief else ". ")
    return structs.replace(finding, text=f"{first}. Press here to choose the neck centre line.")
