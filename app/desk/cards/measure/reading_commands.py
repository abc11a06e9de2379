"""What can be done to the chosen reading besides typing its value: strike out, remove, say how finely it was read."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from app.desk.cards.measure.measure_table import ReadingTable
from app.desk.document.document import Document
from app.edit import edits, new_reading, pasting
from geometry import units, words
from geometry.job import Job, NotAJob, Reading


class ReadingCommands(QObject):
    """Signals: `refused` with a heading and the sentence that says why something cannot be, or with nothing where it
    can.
    """

    refused = Signal(str, str)

    def __init__(self, document: Document, table: ReadingTable) -> None:
        super().__init__(table)
        self.document, self.table = document, table

    @property
    def chosen(self) -> Reading | None:
        """The chosen reading."""
        return next((r for r in self.document.job.readings if r.id == self.table.chosen), None)

    def strike_or_bring_back(self) -> None:
        job, taken = self.document.job, self.chosen
        if taken is not None:
            what = "bringing back" if taken.struck else "striking out"
            change: Callable[..., Any] = edits.bring_back if taken.struck else edits.strike
            self.document.edit(f"{what} {words.reading_inside(taken, job.hand)}", change(job, taken.id))
            self.table.setFocus()

    def remove(self) -> None:
        job, taken = self.document.job, self.chosen
        if taken is not None:
            row = self.table.currentIndex().row()
            self.document.edit(f"removing {words.reading_inside(taken, job.hand)}", edits.remove(job, taken.id))
            self.table.go(min(row, len(self.table.readings.rows) - 1))

    def add(self, reading: Reading) -> str:
        """Put a new reading after the chosen one; its id."""
        job, name = new_reading.add(self.document.job, reading, self.table.chosen)
        self.document.edit(f"adding {words.reading_inside(reading, job.hand)}", job)
        return name

    def say_coarser(self) -> None:
        """Say of all readings that they were read as coarsely as they agree."""
        layout = self.document.layout
        if layout is not None and layout.survey.coarse > 1:
            self.document.edit("a coarser reading of all", edits.coarser(self.document.job, layout.survey.coarse))
            self.table.setFocus()

    def set_fineness(self, how: str) -> None:
        job, taken = self.document.job, self.chosen
        if taken is not None:
            name = f"how finely {words.reading_inside(taken, job.hand)} was read"
            wrong = self._tried(name, lambda: edits.set_fineness(job, taken.id, how))
            self.refused.emit("This cannot be right" if wrong else "", wrong)

    def paste(self) -> None:
        """Put the clipboard's lines into the table: values down the column, or names and values."""
        job, text = self.document.job, QGuiApplication.clipboard().text()
        wrong = self._tried("pasted readings", lambda: pasting.paste(job, text, self.table.chosen))
        if wrong:
            self.refused.emit("This cannot be pasted", wrong)

    def _tried(self, name: str, make: Callable[[], Job]) -> str:
        """Change the job; the sentence that says why it cannot be, or nothing."""
        try:
            self.document.edit(name, make())
        except (NotAJob, units.NotALength) as error:
            return str(error)
        return ""
