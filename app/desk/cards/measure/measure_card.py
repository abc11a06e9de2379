"""The Measure card: the readings as taken, how each fits, what to look at again and what to measure next."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.desk.cards.card import BRIEF, Card
from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsOnCard
from app.desk.cards.measure.found_in_readings import found_in_readings
from app.desk.cards.measure.measure_notes import MeasureNotes
from app.desk.cards.measure.reading_again import ReadingAgain
from app.desk.cards.measure.reading_commands import ReadingCommands
from app.desk.cards.measure.reading_menu import ReadingMenus
from app.desk.cards.measure.reading_panel import LINES, ReadingPanel
from app.desk.cards.measure.table.fits_key import FitsKey
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.cards.measure.typed_readings import TypedReadings
from app.desk.cards.measure.what_to_do import what_to_do
from app.desk.document.document import Document
from app.desk.widgets.inputs.fields import in_mm
from app.desk.widgets.look import SIDE, Look
from app.edit.measure.reading_groups import counted
from app.say import plain_words
from app.say.figures.progress import UNLOOKED
from app.say.in_brief import in_brief
from app.say.look_again import look_again
from geometry import words
from geometry.job import Reading

if TYPE_CHECKING:
    from app.desk.cards.measure.add_reading import AddReading


TIGHT, CRAMPED, BARE = 32, 26, 9.5
"""In a window lower than `BRIEF` lines the reasons are told when asked; in one lower than `TIGHT`, readings come before
the picture and the key to the marks; in one lower than `CRAMPED`, there is no room but for them. A card lower than
`BARE` lines, as beside the worked example, does without the panel: the menus have what can be done.
"""


class MeasureCard(Card):
    """Signals: `reading_chosen` with its id; `point_out` with what points are wanted for; `show_next` to show what
    might be read next on the plan, or to put it away; `went_on` to the next card, by its name, when all are taken.
    """

    title = "Measure"
    line = "Type each reading as the rule shows it and press Enter for the next."
    reading_chosen = Signal(str)
    point_out = Signal(object)
    show_next = Signal(bool)
    went_on = Signal(str)

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self._brief = self._tight = self._cramped = self._bare = self._crowded = self._offered = False
        self.table = ReadingTable(document, look, self)
        self.typing = TypedReadings(document, self.table.readings)
        self.commands = ReadingCommands(document, self.table)
        self.notes = MeasureNotes(look, self)
        self.again = ReadingAgain(document, self.table, self.notes)
        self.wrong = self.notes.wrong
        self.found = FindingsOnCard(look, self)
        self.findings = self.found.list
        self.key = FitsKey(look, self)
        self.panel = ReadingPanel(self.under, look, self)
        self.picture = self.panel.picture
        self.adding: AddReading | None = None
        self._lay_out_top()
        self._lay_out()
        self._connect()
        self.refresh()

    def _lay_out_top(self) -> None:
        """The title, and at the right how many readings are taken."""
        self.column.setContentsMargins(0, 12, 0, 0)
        self.column.removeWidget(self.heading)
        self.heading.setContentsMargins(0, 0, 0, 0)
        self.counted = label("", "label", self, wrap=False)
        self.column.insertLayout(0, _beside_each_other(self.heading, self.counted))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where large text leaves few lines, the readings come before the picture and the advice."""
        super().resizeEvent(event)
        before = self._brief, self._tight, self._cramped, self._bare
        self._keep_room()
        if before != (self._brief, self._tight, self._cramped, self._bare):
            self._say()

    def _keep_room(self) -> None:
        """Room for the lines on how a reading is taken, so that the table stays where it is from one to the next."""
        self._brief, self._tight, self._cramped = (self.lines < few for few in (BRIEF, TIGHT, CRAMPED))
        self._bare = self.height() < BARE * self.under.fontMetrics().lineSpacing()
        self.panel.keep_room(1 if self._cramped else 2 if self._tight else LINES)
        self.picture.make_small(self._brief)
        self.key.make_low(self._brief)
        self.column.setContentsMargins(0, 2 if self._cramped else 6 if self._brief else 12, 0, 0)
        if self.adding is not None:
            self.adding.make_room(cramped=self._cramped)
        self.counted.setVisible(not self._brief)

    def _lay_out(self) -> None:
        inset = QHBoxLayout()
        inset.setContentsMargins(SIDE - 12, 0, 4, 0)
        inset.addWidget(self.table)
        self.column.addLayout(inset, 1)
        for part in (self.key, self.found, self.notes):
            self.column.addWidget(part)
        self.column.addSpacing(6)
        self.column.addWidget(self.panel)
        self.column.addSpacing(4)

    def _connect(self) -> None:
        self.document.started.connect(self._forget)
        self.notes.show_next.connect(self.show_next)
        self.notes.take_next.connect(self._added)
        self.again.wants_second.connect(self._added)
        self.notes.coarser.connect(self.commands.say_coarser)
        self.notes.struck.connect(self.commands.strike_or_bring_back)
        self.table.reading_chosen.connect(self._took)
        self.table.cells.typed.connect(self.typing.put)
        self.table.cells.settled.connect(self.typing.settle)
        self.table.cells.given_up.connect(self.typing.give_up)
        self.typing.told.connect(self.refresh)
        self.commands.refused.connect(self._refused)
        self.commands.struck_last.connect(lambda: self._full(once_more=False))
        self.table.pasted.connect(self.commands.paste)
        self.table.full.connect(self._full)
        self.table.selectionModel().selectionChanged.connect(lambda: self._say_chosen())
        self.notes.went_on.connect(self.went_on)
        self.notes.took_64ths.connect(self.commands.take_64ths)
        ReadingMenus(self.table, self.commands, self.add)
        self.panel.fineness.connect(self.commands.set_fineness)
        self.panel.yes.connect(self.say_yes)
        self.panel.strike.connect(self.commands.strike_or_bring_back)
        self.panel.remove.connect(self.commands.remove)
        self.panel.add.connect(self.add)

    def _forget(self) -> None:
        """Nothing of one job stays in the next."""
        self._offered = False
        self.notes.forget()

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
        waiting = [row.reading.id for row in rows if row.waits]
        self.table.go_to(next(iter((*waiting, *self.table.readings.again, *(row.reading.id for row in rows))), ""))
        self.table.setFocus()

    def touched(self, of: str) -> None:
        """A reading or a point on the plan: the reading, or the first at that point that is to be looked at again."""
        kind, _, name = of.partition(":")
        if kind == "reading":
            self.table.visit(name)
        elif kind == "point" and self.adding is None:
            self.table.go_to(self.table.readings.suspect_at(name))

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        for part in (self.table, self.findings, self.key, self.panel):
            part.show_look(look)
        if self.adding is not None:
            self.adding.picture.show_look(look)
        self._keep_room()
        self.notes.show_look(look)
        self._say()

    def _say(self) -> None:
        job, layout = self.document.job, self.document.layout
        rows = self.table.readings.rows
        adding = self.adding is not None and self.adding.isVisibleTo(self)
        taken, of = counted(job.readings)
        self.counted.setText(f"{taken or 'none'} of {of} taken" if rows else "")
        self.panel.setVisible(not (adding or self._bare))
        self.table.horizontalHeader().setVisible(not (adding and self._cramped))  # no heads without a line
        self.notes.setVisible(not adding)  # their room is needed
        self.notes.make_room(not adding and not self._cramped, brief=self._brief)
        self.key.setVisible(not adding and not self._tight and any(row.fits for row in rows))
        wrong, again = self.typing.say_wrong(self.table.chosen or ""), look_again(job, layout)
        found = [] if adding else [in_brief(one, job, cut=self._brief) for one in found_in_readings(layout)]
        if self._cramped and (taken < of or wrong[0]):  # the reading in hand comes before what nobody has done yet
            found = [finding for finding in found if finding.code not in UNLOOKED]
        told = self._tight and taken == of and any(finding.code in UNLOOKED for finding in found)
        self._crowded = told or (self._cramped and bool(wrong[0] or again.head or found))
        if self._crowded:
            self._say_chosen()  # what goes makes room first, or the window would grow
        if again.head:
            self.found.show_found(found)
        self.wrong.say(*wrong, "look")
        self.notes.say_look_again(again)
        self.again.say()
        self._offered = self._offered and taken == of and not (wrong[0] or again.head)
        self.notes.offer_next_card(self._offered)
        self.found.show_found(found)
        self.notes.say_64ths(0 if self._cramped else len(self.commands.in_64ths))
        self._say_chosen()

    def _say_chosen(self) -> None:
        """What the panel says: of the reading in hand, or of the group whose line is chosen."""
        job, taken = self.document.job, self.commands.chosen
        how = what_to_do(job, self.commands, self.table, self.line)
        many = len(self.commands.all_chosen)
        self.under.setText(how)
        self.under.setVisible(not self._crowded)
        self.picture.setVisible(taken is not None and many < 2 and not (self._tight or self._crowded))
        if taken is None:
            self.panel.show_group(self.table.group)
        elif many < 2:
            name = ", ".join(part for part in words.reading_parts(taken, job.hand) if part)
            self.panel.show_reading(taken, name, in_mm(taken.value, job.unit))
            self.picture.show_reading(taken, job.hand, how)
        else:
            self.panel.show_reading(taken, f"{many} readings chosen")

    def _took(self, reading_id: str) -> None:
        self.typing.begin()
        self._say()
        self.reading_chosen.emit(reading_id)

    def _full(self, once_more: bool) -> None:
        """Nothing waits and all that was to be read again was: the next card is offered, and comes where Enter is
        pressed once more. The keys stay in the table: the space in 17 5/64 would press a button.
        """
        self.table.setFocus()
        if self.table.readings.again:
            return
        if once_more:
            self.notes.go_on()
        else:
            self._offered = True
            self._say()

    # what else can be done to a reading

    def say_yes(self) -> None:
        """Yes to the question that is chosen, and on to the next reading."""
        if self.commands.chosen is not None:
            at = self.table.at
            self.typing.settle(self.commands.chosen.id, "yes")
            self.table.setFocus()
            self.table.go_on(at, 1)

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
        self.adding.make_room(cramped=self._cramped)
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

    def say_next(self, text: str, reading: Reading | None = None, named: str = "") -> None:
        """Show what is worth measuring next, or why nothing is."""
        self.notes.say_next(text, reading, named)
        self._say()

    def _added(self, reading: Reading) -> None:
        name = self.commands.add(reading)
        self._leave_adding()
        self.table.go_to(name)


def _beside_each_other(heading: QWidget, counted: QWidget) -> QHBoxLayout:
    """A card's title, and at the right, on its line, how many readings are taken."""
    top = QHBoxLayout()
    top.setContentsMargins(SIDE, 0, SIDE, 0)
    top.addWidget(heading, 1)
    top.addWidget(counted, 0, Qt.AlignmentFlag.AlignBottom)
    return top
