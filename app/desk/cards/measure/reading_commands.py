"""What can be done to the readings chosen besides typing a value: strike out, move, remove, say how finely read.

What is done to several at once is one change, and taken back as one.
"""

from collections.abc import Callable
from functools import reduce

import msgspec
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.document.document import Document
from app.edit import edits, tools_at_hand
from app.edit.measure import new_reading, pasting
from app.edit.measure.reading_groups import moved
from app.edit.old_work import taking_up
from geometry import units, words
from geometry.job import Job, NotAJob, Reading


class ReadingCommands(QObject):
    """Signals: `refused` with a heading and the sentence that says why something cannot be, or with nothing where it
    can; `struck_last` after readings were struck out, where none waits any more.
    """

    refused = Signal(str, str)
    struck_last = Signal()

    def __init__(self, document: Document, table: ReadingTable) -> None:
        super().__init__(table)
        self.document, self.table = document, table

    @property
    def chosen(self) -> Reading | None:
        """The chosen reading."""
        return next((r for r in self.document.job.readings if r.id == self.table.chosen), None)

    @property
    def all_chosen(self) -> list[Reading]:
        """All readings chosen, from top to bottom."""
        found = {reading.id: reading for reading in self.document.job.readings}
        return [found[name] for name in self.table.all_chosen if name in found]

    @property
    def strikes(self) -> bool:
        """Whether the readings chosen would be struck out; where all of them are, they are brought back."""
        return any(not reading.struck for reading in self.all_chosen)

    def strike_or_bring_back(self) -> None:
        if self.strikes:
            self._each("striking out", edits.strike)
            if all(reading.taken or reading.struck for reading in self.document.job.readings):
                self.struck_last.emit()
        else:
            self._each("bringing back", edits.bring_back)

    def remove(self) -> None:
        at = self.table.at
        self._each("removing", edits.remove)
        self.table.go(min(at, len(self.table.readings.rows) - 1))

    def move(self, step: int) -> None:
        """One place up (-1) or down (1) within their group."""
        ids = [reading.id for reading in self.all_chosen]
        if ids:
            job, way = self.document.job, "up" if step < 0 else "down"
            self.document.edit(f"moving {self._said(self.all_chosen)} {way}", moved(job, ids, step))
            self.table.setFocus()

    def _each(self, what: str, change: Callable[[Job, str], Job]) -> None:
        """One change of all the readings chosen."""
        chosen = self.all_chosen
        if chosen:
            made = reduce(change, (reading.id for reading in chosen), self.document.job)
            self.document.edit(f"{what} {self._said(chosen)}", made)
            self.table.setFocus()

    def _said(self, chosen: list[Reading]) -> str:
        """Readings in the name of a change: one by its name, several by their number."""
        one = len(chosen) == 1
        return words.reading_inside(chosen[0], self.document.job.hand) if one else f"{len(chosen)} readings"

    def add(self, reading: Reading) -> str:
        """Put a new reading after the chosen one; its id."""
        job, name = new_reading.add(self.document.job, reading, self.table.chosen)
        self.document.edit(f"adding {words.reading_inside(reading, job.hand)}", job)
        return name

    def take(self, as_in_file: str) -> str:
        """Ask for a reading, given as the job file holds it; its id, or that of the same one that waits already."""
        reading = msgspec.json.decode(as_in_file, type=Reading)
        alike = (r for r in self.document.job.readings if r.of_what == reading.of_what and not (r.taken or r.struck))
        waiting = next(alike, None)
        return self.add(reading) if waiting is None else waiting.id

    def ask_of(self, points: list[str]) -> str:
        """Ask for what is read of points; the first of it by its id."""
        job, first = new_reading.ask_of(self.document.job, points)
        called = words.joined([words.called(name, job.hand) for name in points])
        self.document.edit(f"what is read of {called}", job)
        return first

    def say_coarser(self) -> None:
        """Say of all readings that they were read as coarsely as every ± has them."""
        layout = self.document.layout
        if layout is not None and layout.survey.coarse > 1:
            self.document.edit("a coarser reading of all", edits.coarser(self.document.job, layout.survey.wider))
            self.table.setFocus()

    def set_fineness(self, how: str) -> None:
        """How finely the readings chosen were read; of angles and lengths, those that the one in hand is of."""
        job, taken = self.document.job, self.chosen
        if taken is not None:
            ids = [reading.id for reading in tools_at_hand.read_alike(taken, self.all_chosen)]
            called = words.reading_inside(taken, job.hand) if len(ids) == 1 else f"{len(ids)} readings"
            name = f"how finely {called} {'was' if len(ids) == 1 else 'were'} read"
            wrong = self._tried(name, lambda: reduce(lambda made, one: edits.set_fineness(made, one, how), ids, job))
            self.refused.emit("This cannot be right" if wrong else "", wrong)
            self.table.setFocus()

    @property
    def in_64ths(self) -> list[str]:
        """The ids of readings that were typed in 64ths of an inch, and are said to be read with a rule in mm."""
        return [reading.id for reading in self.document.job.readings if tools_at_hand.reads_64ths(reading)]

    def take_64ths(self) -> None:
        """Say of them that they were read with a rule of 64ths."""
        ids, job = self.in_64ths, self.document.job
        made = reduce(lambda made, one: edits.set_fineness(made, one, tools_at_hand.RULE_64), ids, job)
        self.document.edit("readings taken with a 64ths rule", made)
        self.table.setFocus()

    def paste(self) -> None:
        """Put the clipboard's lines into the table: values down the column, or names and values."""
        job, text = self.document.job, QGuiApplication.clipboard().text()
        wrong = self._tried("pasted readings", lambda: taking_up.take_up(pasting.paste(job, text, self.table.chosen)))
        if wrong:
            self.refused.emit("This cannot be pasted", wrong)

    def _tried(self, name: str, make: Callable[[], Job]) -> str:
        """Change the job; the sentence that says why it cannot be, or nothing."""
        try:
            self.document.edit(name, make())
        except (NotAJob, units.NotALength) as error:
            return str(error)
        return ""
