"""The part of the Sheets card for the printer's own error: which printer, and what a rule reads on its check sheet."""

from collections.abc import Callable

import msgspec
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.preferences import Preferences
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.inputs.choice import Choice
from app.desk.widgets.inputs.fields import Field, Put
from app.edit.check_sheet_entries import typed, unit_of
from app.file.settings import Settings, SettingsError
from export.correction import CheckSheet
from geometry import units
from geometry.job import NotAJob
from geometry.units import Unit

ANOTHER = "Another, by name…"
READ = {
    "across": "Across, it reads",
    "up": "Up, it reads",
    "rising": "To the upper right, it reads",
    "falling": "To the lower right, it reads",
}
"""What is read on a check sheet, and what its field is called."""


class PrinterPart(QWidget):
    """The printer chosen here is the one that sheets and files are made for. Signals: `asked_check_sheet`, its name."""

    asked_check_sheet = Signal(str)

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.preferences = preferences
        self._unit: Unit = "mm"
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(12)
        self.printer = Choice("Printer", "Sheets and files are made for this one", self)
        self.printer.setEditable(True)
        line = self.printer.lineEdit() or QLineEdit()
        line.setAccessibleName("Printer")
        line.setAccessibleDescription("Chosen, or typed: each printer has a correction of its own")
        line.setPlaceholderText("Name of the printer")
        self.printer.addItems([*_names(preferences.settings), ANOTHER])
        self.printer.setEditText(preferences.settings.printer)
        self.fields = {
            key: Field(name, self._putter(key), understood=self._sayer(key), parent=self) for key, name in READ.items()
        }
        self.carried = label("", "label", self)
        says = "Without any correction, so that the rule shows the printer’s own error"
        button = make_button("Print the check sheet…", says, self)
        button.clicked.connect(lambda: self.asked_check_sheet.emit(self.name))
        for widget in (self.printer, *self.fields.values(), self.carried):
            column.addWidget(widget)
        column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        self.printer.currentTextChanged.connect(self._choose)
        self._show_printer()

    def show_unit(self, unit: Unit) -> None:
        """Show what was read in the unit of the job that is open."""
        if unit != self._unit:
            self._unit = unit
            self._show_printer()

    @property
    def name(self) -> str:
        """The chosen printer; empty where none is."""
        return self.printer.currentText().strip()

    def _choose(self, text: str) -> None:
        if text == ANOTHER:
            self.printer.setEditText("")
            self.printer.setFocus()
            return
        self.preferences.keep(self.preferences.settings.with_chosen(self.name))
        self._show_printer()

    def _putter(self, key: str) -> Put:
        def put(text: str, _word: str) -> None:
            if not self.name:
                raise NotAJob("Name the printer first")
            measured = typed(key, text) if text.strip() else None
            self.preferences.freshen()
            kept = self.preferences.settings
            old = kept.printers.get(self.name, CheckSheet())
            try:
                read = msgspec.structs.replace(old, **{key: measured})
                if read != old:
                    self.preferences.keep(kept.with_printer(self.name, read))
            except SettingsError as error:
                raise NotAJob(str(error)) from None
            self._show_printer()

        return put

    def _sayer(self, key: str) -> Callable[[str], str]:
        def say(text: str) -> str:
            """Which unit a bare number is taken in, where it might be another."""
            if not text.strip()[-1:].isdigit():
                return ""
            try:
                unit = unit_of(key, text)
            except units.NotALength:
                return ""
            return "" if unit == self._unit == "mm" else f"= {text.strip()} {unit}"

        return say

    def _show_printer(self) -> None:
        read = self.preferences.settings.printers.get(self.name, CheckSheet())
        for key, field in self.fields.items():
            value = getattr(read, key)
            field.show_text("" if value is None else shown(value, self._unit))
        self.carried.setText(says_correction(self.name, self.preferences.settings))


def shown(read: float, unit: Unit) -> str:
    """What was read (mm), in a job's unit and with its name: in inches as a rule of 64ths shows it, where it does."""
    if unit == "in":
        return f"{units.show_size(read, unit)} in"
    return f"{units.show_number(round(read / units.MM_PER[unit], 3))} {unit}"


def says_correction(name: str, kept: Settings) -> str:
    """What sheets and files carry for a printer."""
    if not name:
        return "No printer is chosen: sheets and files carry no correction. Lay a rule on their scales."
    said = kept.correction(name).says()
    if name not in kept.printers:
        return (
            f"No correction is known for “{name}”: its sheets come out as it prints them. Lay a rule on their scales."
        )
    return (
        f"Sheets and PDFs for “{name}” carry: {said}. A DXF or SVG is never stretched."
        if said
        else f"“{name}” prints true: its sheets need no correction."
    )


def _names(kept: Settings) -> list[str]:
    """The system's printers and those that are kept by name, each once."""
    from PySide6.QtPrintSupport import QPrinterInfo

    return list(dict.fromkeys((*QPrinterInfo.availablePrinterNames(), *kept.printers)))
