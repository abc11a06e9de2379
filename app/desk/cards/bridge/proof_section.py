"""The proof on the Bridge card, folded until it is asked for: before the glue, and as built. Each distance has its
band, a field for what the rule reads, and at once whether that is good; under them what they say together, and string
by string what is left for filing.
"""

import datetime
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.cards.findings_list import FindingsList
from app.desk.document.document import Document
from app.desk.document.working_out import LastSurvey
from app.desk.widgets.fold import Fold
from app.desk.widgets.inputs.fields import Field, typed_length, understood
from app.desk.widgets.look import Look
from app.desk.widgets.tab_order import tab_down_again
from app.edit.bridge import proof_entries
from geometry import proof, words
from geometry.job import Job, Reading
from geometry.job.measured.proof import Stage

TITLES: dict[Stage, tuple[str, str]] = {
    "clamped": (
        "Before the glue",
        "Lay the sheet, mark through it and clamp the bridge dry. Read these from the board to the marks or to the "
        "bridge on them, and type what the rule reads.",
    ),
    "built": (
        "As built",
        "The same when the glue has set and the slot is cut: they say what is left for filing the saddle.",
    ),
}
"""What each stage is called, and what to do."""
OF_BASES: dict[Stage, tuple[str, str]] = {
    "clamped": (
        "Before the holes",
        "Lay the sheet and prick the base’s corners through it. Read these from the board to the marks, and type what "
        "the rule reads. Drill when they are good.",
    ),
}
"""The same of a base that is screwed down."""


class RowOf(NamedTuple):
    """A distance's two ends, the field under them that begins with what it should read, and what is said of it."""

    ends: QLabel
    field: Field
    good: QLabel


class ProofSection(Fold):
    """One stage of the proof."""

    def __init__(self, document: Document, look: Look, stage: Stage, parent: QWidget) -> None:
        of_base = document.job.separate is not None and stage in OF_BASES
        title, says = OF_BASES[stage] if of_base else TITLES[stage]
        super().__init__(title, look, parent, lambda: self._fill(title, says))
        self.document, self.stage = document, stage
        self.rows: dict[str, RowOf] = {}
        self.holder: QWidget | None = None
        self.readings: dict[str, Reading] = {}
        self._surveys = LastSurvey()
        self._chosen: tuple[Job, tuple[Reading, ...]] | None = None
        self.head.toggled.connect(self.refresh)

    def _fill(self, title: str, says: str) -> None:
        """What to do, and room for what the distances say; they themselves come with `refresh`."""
        self.column.addWidget(label(says, "label", self.inside))
        self.whole = FindingsList(self.head.look, self.inside)
        self.whole.setAccessibleName(f"What the distances say, {title.lower()}")
        self.column.addWidget(self.whole)
        self.table = QVBoxLayout()
        self.column.addLayout(self.table)
        self.strings = label("", "text", self.inside)
        self.column.addWidget(self.strings)

    def go_to(self) -> None:
        """Unfolded, ready for the first distance to be typed."""
        self.set_open(True)
        first = next(iter(self.rows.values()), None)
        if first is not None:
            first.field.line.setFocus(Qt.FocusReason.TabFocusReason)

    def refresh(self) -> None:
        """Take over the document; folded it works nothing out."""
        job = self.document.job
        there = job.bridge is not None or job.separate is not None
        self.setVisible(there)
        if not self.is_open or not there:
            return
        found = proof.prove(job, self.stage, self._surveys.of(job), self._wished(job))
        self.inside.setVisible(found is not None)
        if found is None:
            return
        self.readings = {row.reading.id: row.reading for row in found.rows}
        self.wanted = {row.reading.id: row.wanted for row in found.rows}
        anew = tuple(self.readings) != tuple(self.rows)
        if anew:
            self._make(tuple(self.readings))
        for row in found.rows:
            shown = self.rows[row.reading.id]
            ends, band = " to ".join(proof.ends_called(row.reading, job.hand)), proof.band_words(job, row)
            shown.ends.setText(words.first_large(ends))
            shown.field.show_name(band, f"{words.first_large(ends)}: {band}")
            shown.field.show_text(proof_entries.shown(job, row.reading))
            shown.good.setText(proof.row_words(job, row))
            shown.good.setVisible(bool(shown.good.text()))
            role = "wrong" if row.good == "not good" else "hint"
            if shown.good.property("role") != role:
                shown.good.setProperty("role", role)
                shown.good.style().polish(shown.good)
        self.whole.show_found([proof.as_finding(job, found)])
        lines = [f"String {string.name}: {proof.string_words(job, string, self.stage)}." for string in found.strings]
        self.strings.setText("\n".join(([f"Read on {found.when}."] if found.when else []) + lines))
        self.strings.setVisible(bool(self.strings.text()))
        if anew:
            tab_down_again(self.inside)

    def _wished(self, job: Job) -> tuple[Reading, ...]:
        """The distances worth reading, chosen anew only when something else than the proof has changed."""
        plain = proof_entries.without(job)
        if self._chosen is None or self._chosen[0] != plain:
            self._chosen = plain, proof.wished(plain)
        return self._chosen[1]

    def _make(self, ids: tuple[str, ...]) -> None:
        """A field for each distance, made anew when there are others."""
        if self.holder is not None:
            self.holder.hide()
            self.holder.deleteLater()
        self.holder = QWidget(self.inside)
        column = QVBoxLayout(self.holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(12)
        self.table.addWidget(self.holder)
        self.rows = {name: self._row(name, column, self.holder) for name in ids}

    def _row(self, name: str, column: QVBoxLayout, parent: QWidget) -> RowOf:
        document = self.document

        def put(text: str, word: str) -> None:
            job, reading = document.job, self.readings[name]
            value = typed_length(text, job.unit) if text.strip() else None
            today = datetime.date.today().isoformat()
            ends = " to ".join(proof.ends_called(reading, job.hand))
            document.edit(
                f"{ends} {text.strip()}".strip(),
                proof_entries.put(job, self.stage, reading, value, today, self.wanted[name]),
                word,
            )

        def say(text: str) -> str:
            return understood(document.job.unit)(text)

        describe = "What the rule reads, in any unit; empty: not read"
        field = Field("", put, document.give_up, describe=describe, understood=say, parent=parent)
        field.line.setProperty("in_form", True)
        document.started.connect(field.forget)
        ends, good = label("", "text", parent), label("", "hint", parent)
        good.setAlignment(Qt.AlignmentFlag.AlignRight)
        stack = QVBoxLayout()
        stack.setSpacing(2)
        for widget in (ends, field, good):
            stack.addWidget(widget)
        column.addLayout(stack)
        return RowOf(ends, field, good)

    def show_look(self, look: Look) -> None:
        super().show_look(look)
        if self.is_filled:
            self.whole.show_look(look)
