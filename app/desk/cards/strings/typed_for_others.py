"""What is said under the list of strings of compensation that was typed for other strings, and the way out of it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.desk.cards.card import words as label
from app.desk.document.document import Document
from app.desk.widgets.inputs.buttons import plain_button
from app.edit.strings import string_entries, typed_for
from geometry.job.stringing import WORKED_OUT


class TypedForOthers(QWidget):
    """A sentence and a button, seen only where what is typed was typed for other strings than are on now."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.document, self.typed = document, typed_for.TypedFor()
        self.said = label("", "text", self)
        says = "Takes out what is typed: the compensation of every string is worked out"
        self.anew_button = plain_button("Work all out anew", says, self)
        self.anew_button.clicked.connect(self._work_out_anew)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.said)
        column.addWidget(self.anew_button, 0, Qt.AlignmentFlag.AlignLeft)
        document.started.connect(self._forget)

    def _work_out_anew(self) -> None:
        made = string_entries.put(self.document.job, compensation=WORKED_OUT)
        self.document.edit("working all compensation out anew", made)

    def refresh(self) -> None:
        self.typed = typed_for.followed(self.typed, self.document.job)
        said = typed_for.told(self.typed, self.document.job)
        self.said.setText(said)
        self.setVisible(bool(said))
        self.anew_button.setVisible(not self.typed.went)

    def _forget(self) -> None:
        """Another job is about to come."""
        self.typed = typed_for.TypedFor()
