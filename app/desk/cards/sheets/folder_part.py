"""The part of the Sheets card that says into which folder the files go: one of the job's own, or another."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import make_button
from app.desk.widgets.inputs.whole_letters import WholeLetters
from app.file.export_job import folder_for


class FolderPart(QWidget):
    """A line with the folder, which is made when it is missing, and a button that shows the folders there are."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.document = document
        self._suggested = ""
        name = label("Into the folder", "text", self)
        self.line = WholeLetters(self, Qt.TextElideMode.ElideLeft)
        self.line.setAccessibleName("Into the folder")
        self.line.setAccessibleDescription("Where the files go; the folder is made when it is missing")
        name.setBuddy(self.line)
        button = make_button("Choose…", "Shows the folders there are", self, name="Choose the folder")
        button.clicked.connect(self._choose)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.line, 1)
        row.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(name)
        column.addLayout(row)
        document.started.connect(self.line.clear)
        document.named.connect(self.suggest)
        self.suggest()

    @property
    def folder(self) -> Path:
        """The folder as typed, seen from beside the job's file; the job's own where nothing is typed."""
        typed = self.line.text().strip()
        own = folder_for(self.document.path, self.document.name)
        return own.parent / Path(typed).expanduser() if typed else own

    def suggest(self) -> None:
        """Put the job's own folder in, unless another was typed."""
        if self.line.text() in ("", self._suggested):
            self._suggested = str(folder_for(self.document.path, self.document.name))
            self.line.setText(self._suggested)
            self.line.setCursorPosition(len(self._suggested))

    def _choose(self) -> None:
        from app.desk.widgets.qts_dialogs import chosen

        there = next(folder for folder in (self.folder, *self.folder.parents) if folder.is_dir())
        dialog = QFileDialog(self, "Into which folder?", str(there))
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        name = chosen(dialog)
        if name:
            self.line.setText(name)
