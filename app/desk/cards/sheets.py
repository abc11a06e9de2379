"""The Sheets card: paper, templates, machine files, the printer's correction; the pages lie over the plan as taped."""

from collections.abc import Callable
from typing import Any

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from app import settings
from app.desk.bench import Bench
from app.desk.cards.card import Card, scrolled
from app.desk.cards.card import words as label
from app.desk.cards.form import Form, Get, Put
from app.desk.choice import Choice, Tick
from app.desk.document import Document
from app.desk.fields import Field
from app.desk.look import Look
from geometry import units
from geometry.job import Job, NotAJob

SQUARE = 180.0
"""mm: the side of the check sheet's square."""
PAPERS = ("A4", "A3", "A2", "A1", "Letter", "Legal", "Tabloid", "ANSI C", "ANSI D")


class SheetsCard(Card):
    """Signals: `asked_export`, `asked_print`, `asked_check_sheet` with a printer's name; `preview` on or off."""

    title = "Sheets"
    line = "Full size, at 100 %. Every sheet carries scales in mm and inches: lay a rule on them, both ways, first."
    asked_export = Signal()
    asked_print = Signal()
    asked_check_sheet = Signal(str)
    preview = Signal(bool)

    def __init__(self, document: Document, look: Look, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.bench = bench
        self.inside, column = scrolled(self, self.column)
        self.form = Form(document, column, self.inside)
        self.pages = label("", "text", self.inside)
        self._doors(column)
        self._paper()
        self._templates(column)
        self._machine()
        self._printer(column)
        column.addStretch(1)
        self.refresh()

    def _doors(self, column: QVBoxLayout) -> None:
        row = QHBoxLayout()
        for text, role, signal, says in (
            ("Export files…", "main", self.asked_export, "PDF, DXF and SVG of the chosen templates"),
            ("Print…", "", self.asked_print, "The chosen templates, at 100 %"),
        ):
            button = QPushButton(text, self.inside)
            button.setProperty("role", role)
            button.setAccessibleName(text)
            button.setAccessibleDescription(says)
            button.clicked.connect(signal)
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        column.addWidget(self.pages)
        says = "The pages lie over the instrument as they will be taped"
        self.show_pages = Tick("Show the sheets on the plan", says, self.inside)
        self.show_pages.setChecked(True)
        self.show_pages.clicked.connect(self.preview)
        column.addWidget(self.show_pages)

    def _paper(self) -> None:
        form = self.form
        form.section("Paper")
        form.choice("Size", [(name, name) for name in PAPERS], *_field("paper"))
        turns = [("either", "as it fits"), ("portrait", "portrait"), ("landscape", "landscape")]
        form.choice("Turn", turns, *_field("turn"))
        form.length("Margin", *_field("margin"), says="What the printer leaves blank round the page, 5 mm or more.")

    def _templates(self, column: QVBoxLayout) -> None:
        from export.templates import TEMPLATES

        self.form.section("Templates")
        for name, template in TEMPLATES.items():
            self.form.tick(template.title, _has(name), _put_has(name), says=template.says)

    def _machine(self) -> None:
        form = self.form
        form.section("For a CNC or a laser", "DXF and SVG only; the paper always shows the edge itself.")
        form.length("Kerf", *_field("kerf"), says="0: lines are the edges themselves.")
        form.length("Cutter", *_field("cutter"), optional=True)
        datums = [
            ("board end", "board's end"),
            ("saddle centre", "saddle's middle"),
            ("lower left", "lower left corner"),
        ]
        form.choice("Datum", datums, *_field("datum"))
        form.choice("Words as", [("text", "text"), ("outlines", "outlines")], *_field("text"))

    def _printer(self, column: QVBoxLayout) -> None:
        self.form.section(
            "The printer's own error",
            f"Print the check sheet, lay a rule on its {SQUARE:g} mm square and type what it says. It is kept for "
            "this printer, not in the job.",
        )
        self.printer = Choice("Printer", "Whose correction this is", self.inside)
        self.printer.setEditable(True)
        line = self.printer.lineEdit() or QLineEdit()
        line.setAccessibleName("Printer")
        line.setPlaceholderText("Name of the printer")
        for name in self.bench.kept.printers:
            self.printer.addItem(name)
        column.addWidget(self.printer)
        self.across = Field("Across, it measures", self._putter("x"), parent=self.inside)
        self.along = Field("Along, it measures", self._putter("y"), parent=self.inside)
        column.addWidget(self.across)
        column.addWidget(self.along)
        self.carried = label("", "label", self.inside)
        column.addWidget(self.carried)
        button = QPushButton("Print the check sheet…", self.inside)
        button.setAccessibleName("Print the check sheet")
        button.setAccessibleDescription("Without any correction, so that the rule shows the printer's own error")
        button.clicked.connect(lambda: self.asked_check_sheet.emit(self.printer.currentText()))
        column.addWidget(button)
        self.printer.currentTextChanged.connect(self._show_printer)
        self._show_printer()

    def _putter(self, axis: str) -> Callable[[str], None]:
        def put(text: str) -> None:
            name = self.printer.currentText().strip()
            if not name:
                raise NotAJob("Name the printer first")
            measured = units.parse(text, self.document.job.unit)
            try:
                factor = settings.factor(SQUARE, measured)
                old = self.bench.kept.correction(name)
                x, y = (factor, old.y) if axis == "x" else (old.x, factor)
                if (x, y) != (old.x, old.y):
                    self.bench.keep(self.bench.kept.with_printer(name, x, y))
            except settings.SettingsError as error:
                raise NotAJob(str(error)) from None
            self._say_carried()

        return put

    def _show_printer(self) -> None:
        found = self.bench.kept.correction(self.printer.currentText().strip())
        for field, factor in ((self.across, found.x), (self.along, found.y)):
            field.show_text(units.show_number(round(SQUARE / factor, 2)))
        self._say_carried()

    def _say_carried(self) -> None:
        found = self.bench.kept.correction(self.printer.currentText().strip())
        if found.x == found.y == 1:
            self.carried.setText("No correction.")
        else:
            self.carried.setText(f"Sheets are stretched by {found.x:.4f} across and {found.y:.4f} along.")

    def refresh(self) -> None:
        self.form.refresh()

    def say_pages(self, sentence: str) -> None:
        """How many sheets it comes to, or why it can't be."""
        self.pages.setText(sentence)


def say_count(count: int, paper: str) -> str:
    return f"{count} sheet{'s' if count != 1 else ''} of {paper}." if count else "Nothing to print yet."


def _field(name: str) -> tuple[Get, Put]:
    def put(job: Job, value: Any) -> Job:
        return msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **{name: value}))

    return (lambda job: getattr(job.sheets, name)), put


def _has(name: str) -> Get:
    return lambda job: name in job.sheets.templates


def _put_has(name: str) -> Put:
    def put(job: Job, on: bool) -> Job:
        kept = tuple(t for t in job.sheets.templates if t != name)
        sheets = msgspec.structs.replace(job.sheets, templates=(*kept, name) if on else kept)
        return msgspec.structs.replace(job, sheets=sheets)

    return put
