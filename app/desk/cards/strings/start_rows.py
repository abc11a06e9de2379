"""Where the chosen string begins: at the nut as most do, or at a fret; and whether it is ever fretted."""

from collections.abc import Callable
from typing import Any

from app.desk.cards.card import words as label
from app.desk.cards.form import Form, Get, Put
from app.edit.strings import string_entries, string_starts
from geometry.job import Job
from geometry.placed import small_nuts


class StartRows:
    """Two ticks, and the rows that the first one opens. `row` tells the chosen string's place in the list, -1 where
    none is chosen.
    """

    def __init__(self, form: Form, row: Callable[[], int]) -> None:
        self.row = row
        form.tick("Starts at a fret", *self._of(string_starts.starts, string_starts.tick_start, False))
        self.rows = form.shown_while(self._starts, self._rows)
        says = "Only its open note counts, and the bridge is not placed for it."
        form.tick("A drone, never fretted", *self._of(_drone, _put_drone, False), says=says)

    def _starts(self, job: Job) -> bool:
        return (at := self.row()) >= 0 and string_starts.starts(job, at)

    def _rows(self, form: Form) -> None:
        form.number("It starts at fret", *self._of(_fret, _put_fret, 0), whole=True)
        form.choice(
            "It lies there",
            string_starts.ACROSS,
            *self._of(string_starts.across, string_starts.put_across, "others"),
            wide=True,
        )
        self.beside = form.length(
            "How far, along the fret", *self._of(string_starts.beside, string_starts.put_beside, None)
        )
        self.height = label("", "label", form.parent)
        form.column.addWidget(self.height)

    def refresh(self, job: Job) -> None:
        """What is told of a string that begins at a fret."""
        if self._starts(job):
            self.height.setText(small_nuts.height_told(string_entries.block(job), self.row()))
            self.beside.setVisible(string_starts.across(job, self.row()) != "others")

    def _of(self, get: Callable[[Job, int], Any], put: Callable[[Job, int, Any], Job], none: Any) -> tuple[Get, Put]:
        """What reads and puts something of the chosen string."""

        def read(job: Job) -> Any:
            return get(job, self.row()) if self.row() >= 0 else none

        def put_it(job: Job, value: Any) -> Job:
            return put(job, self.row(), value) if self.row() >= 0 else job

        return read, put_it


def _fret(job: Job, at: int) -> int:
    return string_entries.block(job).list[at].first


def _put_fret(job: Job, at: int, value: int) -> Job:
    return string_entries.put_string(job, at, starts_at=value)


def _drone(job: Job, at: int) -> bool:
    return not string_entries.block(job).list[at].fretted


def _put_drone(job: Job, at: int, on: bool) -> Job:
    return string_starts.make_drone(job, at, on)
