"""The part of the Sheets card for the printer's own error: its name, and what a rule says of its check sheet."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.preferences import Preferences
from app.desk.widgets.buttons import make_button
from app.desk.widgets.choice import Choice
from app.desk.widgets.fields import Field, Put
from app.file import settings
from geometry import units
from geometry.job import NotAJob

SQUARE = 180.0
"""mm: the side of the check sheet's square."""


class PrinterPart(QWidget):
    """Signals: `asked_check_sheet` with a printer's name."""

    asked_check_sheet = Signal(str)

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.preferences = preferences
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(12)
        self.printer = Choice("Printer", "Whose correction this is", self)
        self.printer.setEditable(True)
        line = self.printer.lineEdit() or QLineEdit()
        line.setAccessibleName("Printer")
        line.setAccessibleDescription("Its name, chosen or typed: each printer has a correction of its own")
        line.setPlaceholderText("Name of the printer")
        for name in preferences.settings.printers:
            self.printer.addItem(name)
        self.across = Field("Across, it measures", self._putter("x"), parent=self)
        self.along = Field("Along, it measures", self._putter("y"), parent=self)
        self.carried = label("", "label", self)
        says = "Without any correction, so that the rule shows the printer's own error"
        button = make_button("Print the check sheet…", says, self)
        button.clicked.connect(lambda: self.asked_check_sheet.emit(self.printer.currentText()))
        for widget in (self.printer, self.across, self.along, self.carried, button):
            column.addWidget(widget)
        self.printer.currentTextChanged.connect(self._show_printer)
        self._show_printer()

    def _putter(self, axis: str) -> Put:
        def put(text: str, _word: str) -> None:
            name = self.printer.currentText().strip()
            if not name:
                raise NotAJob("Name the printer first")
            measured = units.parse(text, "mm")  # the square is one of millimetres, whatever the job's unit
            try:
                factor = settings.factor(SQUARE, measured)
                self.preferences.freshen()
                old = self.preferences.settings.correction(name)
                x, y = (factor, old.y) if axis == "x" else (old.x, factor)
                if (x, y) != (old.x, old.y):
                    self.preferences.keep(self.preferences.settings.with_printer(name, x, y))
            except settings.SettingsError as error:
                raise NotAJob(str(error)) from None
            self._show_printer()

        return put

    def _show_printer(self) -> None:
        found = self.preferences.settings.correction(self.printer.currentText().strip())
        for field, factor in ((self.across, found.x), (self.along, found.y)):
            field.show_text(f"{units.show_number(round(SQUARE / factor, 2))} mm")
        self._say_carried()

    def _say_carried(self) -> None:
        found = self.preferences.settings.correction(self.printer.currentText().strip())
        if found.x == found.y == 1:
            self.carried.setText("No correction.")
        else:
            self.carried.setText(f"Sheets are stretched by {found.x:.4f} across and {found.y:.4f} along.")
