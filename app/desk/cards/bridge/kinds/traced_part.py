"""Below the choice of an outline: one that is read from a file, and turned where it lies the wrong way."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.document.open_and_save import question
from app.desk.widgets.inputs.buttons import make_button
from app.edit.bridge import traced_outline
from app.file import outline_file
from export.errors import ExportError
from export.machine.outline_in import UnitUnknown
from geometry.job import NotAJob
from geometry.units import Unit

FILTER = "Outlines (*.dxf *.svg *.DXF *.SVG);;All files (*)"
UNITS: tuple[tuple[Unit, str], ...] = (("mm", "mm"), ("cm", "cm"), ("in", "inches"))


class Questions:
    """Which file, and in what unit it is, with the platform's own dialogs; tests answer in the person's place."""

    def __init__(self, window: QWidget) -> None:
        self.window = window

    def file(self, beside: Path | None) -> Path | None:
        from app.desk.widgets.qts_dialogs import chosen

        start = str(beside.parent) if beside else ""
        dialog = QFileDialog(self.window, "Read an outline", start, FILTER)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        name = chosen(dialog)
        return Path(name) if name else None

    def unit(self, why: str) -> Unit | None:
        box = question(self.window, f"{why}.", "It is drawn in:")
        buttons = {box.addButton(says, QMessageBox.ButtonRole.AcceptRole): unit for unit, says in UNITS}
        box.addButton(QMessageBox.StandardButton.Cancel)
        box.exec()
        box.deleteLater()
        return next((unit for button, unit in buttons.items() if button is box.clickedButton()), None)


class TracedPart(QWidget):
    """The two buttons, and a line on what came of it."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.questions = document, Questions(self)
        says = "The bridge’s outline out of a DXF or SVG file"
        self.read = make_button("Read an outline from a file…", says, self)
        self.turn = make_button("Turn it front to back", "What is taken for its front becomes its back", self)
        self.outcome = label("", "text", self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        for button in (self.read, self.turn):
            column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.outcome)
        self.read.clicked.connect(self._read)
        self.turn.clicked.connect(self._turn)
        document.started.connect(lambda: self._say(""))
        self._say("")
        self.refresh()

    def refresh(self) -> None:
        self.turn.setVisible(traced_outline.is_traced(self.document.job))

    def _read(self) -> None:
        path = self.questions.file(self.document.path)
        if path is not None:
            self._take(path, None)

    def _take(self, path: Path, unit: Unit | None) -> None:
        try:
            found = outline_file.read(path, unit)
            job = traced_outline.take_up(self.document.job, found)
        except UnitUnknown as unknown:
            answer = self.questions.unit(str(unknown).partition(";")[0])
            if answer is not None:
                self._take(path, answer)
        except (ExportError, NotAJob) as error:
            self._say(f"{error}.")
        else:
            self.document.edit("the outline from a file", job)
            self._say(traced_outline.size_said(found))

    def _turn(self) -> None:
        self.document.edit("turning the outline", traced_outline.turned_about(self.document.job))

    def _say(self, text: str) -> None:
        self.outcome.setText(text)
        self.outcome.setVisible(bool(text))
